import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { measuredModel } from '../../../src/core/gain/measured.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Drive, MemoryKit, Part } from '../../../src/core/part.ts'
import { freePlaces } from '../../../src/core/sheet/free.ts'
import { limitsSheetOf, type SheetInputs } from '../../../src/core/sheet/limitsSheet.ts'
import { machine, NOW, parts, runs, settings, shop, titles } from '../../web/cannedShop.ts'

const own = runs.filter((run) => run.machineTag === machine.tag)
const inputs: SheetInputs = {
  ...{ ownRuns: own, titles, settings, parts, policy: shop.policy, warranties: [] },
  machine: { ...machine, at: NOW },
  model: measuredModel(runs, shop.policy),
}

describe('free places', () => {
  const board: Part = {
    kind: 'board',
    id: 'B',
    name: 'B',
    memorySlots: 4,
    sataPorts: 6,
    m2Sockets: [
      { name: 'M2_1', key: 'M', lengthsMm: [80], pcieGen: 3, lanes: 4, sata: true, sataPortsOff: ['SATA_5'] },
      { name: 'WIFI', key: 'E', lengthsMm: [30], sata: false },
    ],
  }
  const drive = (form: Drive['form']): Drive => ({
    ...{ kind: 'drive', id: `D-${form}`, name: 'D', form },
    interface: form === 'M.2' ? 'PCIe' : 'SATA',
  })
  const kit: MemoryKit = { kind: 'memory', id: 'K', name: 'K', modules: 2, moduleGB: 8 }
  const placesOf = (...fitted: Part[]) => {
    const build = buildOf([
      board,
      { kind: 'case', id: 'C', name: 'C', bays25: 1, bays35: 2 },
      { kind: 'supply', id: 'S', name: 'S', plugs: { pin6: 0, pin8: 2, pin16: 0 }, sataPlugs: 4 },
      ...fitted,
    ])
    return Object.fromEntries(
      freePlaces(build, limitsOf(build, [])).map(({ what, total, used, atMost }) => [
        what,
        `${used}/${total}${atMost ? ' at most' : ''}`,
      ]),
    )
  }

  // By hand; that a small drive takes a large bay with a bracket and a wireless socket takes no drive is common practice.
  test.each<[string, Part[], Record<string, string>]>([
    [
      'bare',
      [kit],
      { 'memory slots': '2/4', 'M.2 sockets': '0/1', 'SATA ports': '0/6', 'card plugs': '0/2' },
    ],
    ['two kits', [kit, { ...kit, id: 'K2' }], { 'memory slots': '4/4' }],
    ['modules not counted', [{ kind: 'memory', id: 'K', name: 'K' }], { 'memory slots': '0/undefined' }],
    [
      'a flat drive may turn a port off',
      [kit, drive('M.2')],
      { 'M.2 sockets': '1/1', 'SATA ports': '0/6 at most', 'drive plugs': '0/4' },
    ],
    [
      'two small drives, one small bay',
      [kit, drive('2.5-inch'), drive('2.5-inch')],
      { '2.5-inch bays': '1/1', '3.5-inch bays': '1/2', 'SATA ports': '2/6', 'drive plugs': '2/4' },
    ],
    [
      'a card with one plug',
      [kit, { kind: 'card', id: 'G', name: 'G', plugs: { pin6: 0, pin8: 1, pin16: 0 } }],
      { 'card plugs': '1/2' },
    ],
  ])('%s', (_, fitted, expected) => expect(placesOf(...fitted)).toMatchObject(expected))
})

describe('the sheet of a machine', () => {
  const sheet = limitsSheetOf(inputs)

  test('load on 12 V: processor 88 + card 120 + rest 50 of 0.8 x 420 W, added by hand', () => {
    expect(sheet.supply).toEqual({
      ...{ known: true, loadW: 258, usableW: 336, rated12VW: 420 },
      ...{ processorW: 88, cardW: 120, restW: 50 },
    })
  })

  test('how it ran: this machine, title by title', () => {
    expect(sheet.measured.map((m) => [m.titleName, m.averageFps, m.runs])).toEqual([
      ['Hollow Season', 39.6, 1],
      ['Lantern Coast', 47.2, 1],
      ['The Quarrymen', 88.4, 1],
    ])
  })

  test('what it can take next stands by its worth: geometric means of the measured ratios', () => {
    const named = sheet.next.map(({ kind, best }) => [kind, best.map(({ partId }) => partId)])
    // Card: cube root of 68.5/47.2 x 90.1/88.4 x 59.4/39.6; stick: of 51.1/47.2 x 96.3/88.4 x 42.8/39.6.
    expect(named).toEqual([
      ['card', ['CRD-FLINT8']],
      ['memory', ['MEM-8']],
      ['processor', []],
      ['drive', []],
    ])
    const pct = 100 * (Math.cbrt((68.5 / 47.2) * (90.1 / 88.4) * (59.4 / 39.6)) - 1)
    expect(sheet.next[0]?.best[0]?.useful?.pct).toBeCloseTo(pct, 6)
    // The long card is over the case's 310 mm; the one without a data sheet cannot be told.
    expect(sheet.next[0]?.tried).toMatchObject({ 'does not fit': 1, "can't tell": 1 })
  })

  test('a second stick of the fitted model is one more; its worth is the measured one', () => {
    const stick = sheet.next.find(({ kind }) => kind === 'memory')?.best[0]
    const pct = 100 * (Math.cbrt((51.1 / 47.2) * (96.3 / 88.4) * (42.8 / 39.6)) - 1)
    expect(stick?.useful?.pct).toBeCloseTo(pct, 6)
    expect(stick?.verdict).toBe('fits')
  })

  test('never: what is known and bounds for good; unknown: what somebody has to look up', () => {
    expect(sheet.never.map(({ key }) => key)).toEqual(
      expect.arrayContaining(['socket', 'memoryType', 'memoryMaxGB', 'cardRoomMm']),
    )
    expect(sheet.never.map(({ key }) => key)).not.toContain('coolerRoomMm')
    expect(sheet.unknown).toContain('coolerRoomMm')
    for (const { key } of sheet.never) expect(sheet.unknown).not.toContain(key)
  })

  test('nothing that the shop noted, and nothing of the shop but what a machine shows', () => {
    const noted = limitsSheetOf({
      ...inputs,
      machine: {
        ...inputs.machine,
        claims: [
          ...machine.claims,
          { key: 'coolerRoomMm', value: 155, source: 'measured', note: 'told by his brother' },
          { key: 'coolerRoomMm', value: 160, source: 'entered', note: 'the brother again' },
        ],
      },
    })
    expect(noted.limits.coolerRoomMm).toMatchObject({ known: true, value: 155 })
    expect(JSON.stringify(noted)).not.toMatch(/brother|priceMinor|customer/)
  })

  test('warranties that run, and none that has ended', () => {
    const of = (until: string) => ({
      ...({
        machineTag: machine.tag,
        partId: 'CRD-PEBBLE4',
        givenBy: 'shop',
        from: '2025-01-01T00:00:00.000Z',
      } as const),
      until,
    })
    const { warranties } = limitsSheetOf({
      ...inputs,
      warranties: [of('2026-06-12T14:59:59.999Z'), of('2027-01-01T00:00:00.000Z')],
    })
    expect(warranties).toEqual([
      { partName: 'Pebble 4G', givenBy: 'shop', until: '2027-01-01T00:00:00.000Z', endsWith: undefined },
    ])
  })

  test('a machine of which nothing is known has a sheet all the same', () => {
    const bare = limitsSheetOf({
      ...inputs,
      machine: { tag: 'T-1', build: buildOf([]), claims: [], at: NOW },
      ownRuns: [],
    })
    expect(bare.supply.known).toBe(false)
    expect([bare.inside, bare.measured, bare.never]).toEqual([[], [], []])
    expect(bare.unknown).toContain('socket')
  })

  test('plain data: it is the same after a round trip as text', () => {
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(JSON.parse(JSON.stringify(limitsSheetOf(inputs))))
  })
})
