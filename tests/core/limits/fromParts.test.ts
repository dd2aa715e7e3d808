import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { LIMIT_CATALOGUE } from '../../../src/core/limits/catalogue.ts'
import type { LimitKey } from '../../../src/core/limits/limit.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import { filledFromName, statedOnly } from '../../../src/core/naming/fromName.ts'
import { partFromWords } from '../../../src/core/naming/partFromWords.ts'
import type { Part, PartKind } from '../../../src/core/part.ts'

/** Names are made up; whom to believe is ours (limits/catalogue). */
const typed = (kind: PartKind, name: string) => partFromWords(kind, `${kind}-1`, name).part
const TYPED = [
  typed('board', 'B660M D4, 4 slots'),
  typed('supply', '550W 2x8pin'),
  typed('case', 'microATX, card room 300 mm, cooler room 155 mm'),
]

test('a figure that was read from a typed name is no data sheet, and says where it is from', () => {
  const limits = limitsOf(buildOf(TYPED), [])
  const by = (key: LimitKey) => {
    const limit = limits[key]
    return limit.known ? [limit.value, limit.by.source, limit.by.note] : []
  }
  const note = 'read from its name'
  expect(by('chipset')).toEqual(['B660', 'entered', note])
  expect(by('memoryType')).toEqual(['DDR4', 'entered', note])
  expect(by('memorySlots')).toEqual([4, 'entered', note])
  expect(by('supplyRatedW')).toEqual([550, 'entered', note])
  expect(by('supplyPlugs')).toEqual([{ pin6: 0, pin8: 2, pin16: 0 }, 'entered', note])
  expect(by('cardRoomMm')).toEqual([300, 'entered', note])
  expect(by('coolerRoomMm')).toEqual([155, 'entered', note])
})

test('a share that hangs on slots read from a name is as weak as they are', () => {
  const board = { ...typed('board', 'B660M, 4 slots'), memoryMaxGB: 128 } as Part
  expect(limitsOf(buildOf([board]), []).memoryPerSlotMaxGB).toMatchObject({
    value: 32,
    by: { source: 'entered', note: 'read from its name; 128 GB over 4 slots' },
  })
})

test('a tape, a data sheet and a newer word of the builder beat a name; tables do not', () => {
  const keys = ['chipset', 'memoryType', 'memorySlots', 'supplyRatedW', 'supplyPlugs', 'cardRoomMm'] as const
  for (const key of [...keys, 'coolerRoomMm', 'memoryPerSlotMaxGB'] as const) {
    const { belief } = LIMIT_CATALOGUE[key]
    const at = belief.indexOf('entered')
    expect(belief.indexOf('measured'), key).toBeLessThan(at)
    expect(belief.indexOf('part'), key).toBeLessThan(at)
    expect(belief.indexOf('platform'), key).toBeGreaterThan(at)
  }
  const claims = [{ key: 'supplyRatedW', value: 500, source: 'entered' }] as const
  const { supplyRatedW } = limitsOf(buildOf(TYPED), claims)
  expect(supplyRatedW).toMatchObject({ value: 500, conflicts: [{ value: 550 }] })
})

describe('figures that a name fills in', () => {
  test('a data sheet drops the mark of what it gives', () => {
    const known = filledFromName({ ...statedOnly(typed('supply', '550W 2x8pin')), ratedW: 550 } as Part)
    expect(known).toMatchObject({ ratedW: 550, plugs: { pin8: 2 }, readFromName: ['plugs'] })
    expect(limitsOf(buildOf([known]), []).supplyRatedW).toMatchObject({ by: { source: 'part' } })
  })

  test.each<[string, Part, object]>([
    [
      'open figures are filled',
      { kind: 'processor', id: 'P', name: 'i7-10700F', cores: 8 },
      {
        cores: 8,
        socket: 'LGA1200',
        generation: '10th (Comet Lake)',
        processorClass: 'i7',
        integratedGraphics: false,
        readFromName: ['socket', 'generation', 'processorClass', 'integratedGraphics'],
      },
    ],
    [
      'another way to write the same is no contradiction',
      { kind: 'processor', id: 'P', name: 'i7-10700F', processorClass: 'Core i7', generation: 'Comet Lake' },
      {
        processorClass: 'Core i7',
        generation: 'Comet Lake',
        socket: 'LGA1200',
        integratedGraphics: false,
        readFromName: ['socket', 'integratedGraphics'],
      },
    ],
    [
      'a contradicted piece gives nothing, the others do',
      { kind: 'memory', id: 'P', name: '2x8GB DDR4-3200', moduleGB: 16 },
      { moduleGB: 16, memoryType: 'DDR4', rateMts: 3200, readFromName: ['memoryType', 'rateMts'] },
    ],
    ['a stated figure wins', { kind: 'supply', id: 'P', name: '550W', ratedW: 500 }, { ratedW: 500 }],
    [
      'no plugs is a figure too',
      { kind: 'card', id: 'P', name: 'a 4 GB card', memoryGB: 4 },
      { memoryGB: 4 },
    ],
  ])('%s', (_, part, figures) => {
    const { id: __, kind: ___, name: ____, ...filled } = filledFromName(part)
    expect(filled).toEqual(figures)
    expect(filledFromName(filledFromName(part))).toEqual(filledFromName(part))
  })
})
