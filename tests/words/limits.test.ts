import { describe, expect, test } from 'vitest'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../../src/core/limits/catalogue.ts'
import { LIMIT_SOURCES, type Resolved, SUPPORTS } from '../../src/core/limits/limit.ts'
import { LIMIT_WORDS, SOURCE_WORDS, SUPPORT_WORDS } from '../../src/words/en/limits.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { sayLimit } from '../../src/words/limits.ts'
import { claim } from '../core/limits/machines.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'America/Chicago', policy: { currency: 'USD' } })
const wordCount = (sentence: string) => sentence.trim().split(/\s+/).length

describe('every limit has words', () => {
  test.each(LIMIT_KEYS)('%s', (key) => {
    const { label, meaning, findOut } = LIMIT_WORDS[key]
    expect(label).toMatch(/^[A-Z][^.]+$/)
    for (const sentence of [meaning, findOut]) {
      // Our own guide: one plain sentence, none over 22 words, no shouting.
      expect(sentence).toMatch(/^[A-Z].*[^.!?]\.$/)
      expect(sentence).not.toMatch(/[.!?] [A-Z]/)
      expect(wordCount(sentence)).toBeLessThanOrEqual(22)
    }
  })

  test('no two limits share a heading', () => {
    expect(new Set(LIMIT_KEYS.map((key) => LIMIT_WORDS[key].label)).size).toBe(LIMIT_KEYS.length)
  })

  test('every source and every kind of support has words of its own', () => {
    expect(new Set(LIMIT_SOURCES.map((s) => SOURCE_WORDS[s].by)).size).toBe(LIMIT_SOURCES.length)
    expect(new Set(SUPPORTS.map((s) => SUPPORT_WORDS[s])).size).toBe(SUPPORTS.length)
  })
})

describe('a lower bound', () => {
  const atLeast = claim('cardRoomMm', 310, 'measured', { bound: 'at least', note: 'the card in it today' })

  test('is said with what proves it, alone and beside a doubt', () => {
    expect(sayLimit('cardRoomMm', { known: false, atLeast, claims: [] }, figures)).toMatchObject({
      ...{ value: 'not known', by: 'at least 310\u00a0mm (the card in it today)' },
    })
    const doubted = sayLimit(
      'cardRoomMm',
      { known: false, doubt: 'two figures', atLeast, claims: [] },
      figures,
    )
    expect(doubted.by).toBe('in doubt: two figures; at least 310\u00a0mm (the card in it today)')
  })
})

describe('a limit that is known', () => {
  const known = <K extends Parameters<typeof claim>[0]>(
    by: ReturnType<typeof claim<K>>,
    conflicts: never[] = [],
  ) => ({ known: true, value: by.value, by, conflicts }) as Resolved

  test('says value with unit, who says so, when, and the note', () => {
    const by = claim('cardRoomMm', 286, 'measured', {
      at: '2025-12-12T12:00:00Z',
      note: 'tape, front fan in',
    })
    expect(sayLimit('cardRoomMm', known(by), figures)).toEqual({
      label: 'Room for a card',
      value: '286\u00a0mm',
      by: 'measured Dec\u00a012,\u00a02025 (tape, front fan in)',
    })
  })

  test.each([
    ['memoryMaxGB', 64, '64\u00a0GB'],
    ['controllerRateMts', 2666, '2666\u00a0MT/s'],
    ['supply12VW', 504, '504\u00a0W'],
    ['memorySlots', 4, '4'],
    ['slotPcieGen', 4, '4'],
    ['firmware', '2.00', '2.00'],
    ['supplyPlugs', { pin6: 0, pin8: 2, pin16: 0 }, '2\u00a0×\u00a08-pin'],
    ['generationSupport', 'not supported', 'no'],
  ] as const)('%s %j reads %s', (key, value, text) => {
    expect(sayLimit(key, known(claim(key, value, 'part')), figures).value).toBe(text)
  })

  test('its unit is the one of the catalogue', () => {
    for (const key of LIMIT_KEYS) {
      const { unit } = LIMIT_CATALOGUE[key]
      if (
        [
          'socket',
          'chipset',
          'family',
          'firmware',
          'firmwareNeeded',
          'memoryType',
          'generationSupport',
        ].includes(key)
      )
        continue
      if (key === 'supplyPlugs') continue
      const { value } = sayLimit(
        key,
        { known: true, value: 8, by: { key, value: 8, source: 'part' }, conflicts: [] } as Resolved,
        figures,
      )
      expect(value).toBe(unit === '' ? '8' : `8\u00a0${unit}`)
    }
  })

  test('a pin says who decided', () => {
    const by = claim('slotPcieGen', 4, 'entered', { pinned: true })
    expect(sayLimit('slotPcieGen', known(by), figures).by).toBe(
      'typed, without evidence, decided by the builder',
    )
  })

  test('a conflict names both sides and what we count on', () => {
    const by = claim('memoryMaxGB', 128, 'part')
    const resolved = { known: true, value: 128, by, conflicts: [claim('memoryMaxGB', 64, 'read')] } as const
    expect(sayLimit('memoryMaxGB', resolved, figures).conflict).toBe(
      "Two sources disagree: the data sheet says 128\u00a0GB, the machine's own table says 64\u00a0GB. We count on 128\u00a0GB.",
    )
  })

  test('three sides are not called two', () => {
    const by = claim('memoryMaxGB', 128, 'part')
    const conflicts = [claim('memoryMaxGB', 64, 'read'), claim('memoryMaxGB', 32, 'entered')]
    const said = sayLimit('memoryMaxGB', { known: true, value: 128, by, conflicts }, figures)
    expect(said.conflict).toMatch(/^Sources disagree: .*128.*64.*32.*We count on 128/)
    expect(said.findOut).toBeUndefined()
  })
})

describe('a limit that is not known', () => {
  test.each(LIMIT_KEYS)('%s says so, with how to find it out', (key) => {
    const said = sayLimit(key, { known: false, claims: [] }, figures)
    expect(said).toEqual({
      label: LIMIT_WORDS[key].label,
      value: 'not known',
      by: 'nobody has said',
      findOut: LIMIT_WORDS[key].findOut,
    })
  })

  test('a doubt and a hint are told as what they are', () => {
    const doubtful = {
      known: false,
      doubt: 'count them',
      claims: [claim('memorySlots', 4, 'platform')],
    } as const
    expect(sayLimit('memorySlots', doubtful, figures).by).toBe('in doubt: count them')
    const hint = { known: false, claims: [claim('memorySlots', 4, 'read')] } as const
    expect(sayLimit('memorySlots', hint, figures).by).toBe(
      "the machine's own table says 4, which is only a hint",
    )
  })
})
