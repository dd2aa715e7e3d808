import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import {
  isTooLoud,
  type SoundReading,
  soundAfter,
  soundOf,
  tooLoudAbove,
} from '../../../src/core/ranking/quiet.ts'
import { rank } from '../../../src/core/ranking/rank.ts'
import {
  byCard,
  card,
  cooler,
  ids,
  input,
  item,
  kit,
  knowing,
  machine,
  question,
  TODAY,
} from './smallShop.ts'

// What a level is of: a whole machine, from one metre, where a bystander sits (ISO 7779 and ECMA-74 put one there; from memory).
// Nothing is worked out from levels but order, so there is no figure of theirs to hold against.

const HEARD_TODAY = ['CPU-0', 'CARD-0', 'SUPPLY-0', 'CASE-0', 'COOLER-0']
const reading = (
  runId: string,
  dba: number,
  partIds: readonly string[],
  machineTag?: string,
): SoundReading => ({
  ...{ runId, dba, partIds, at: `2026-03-0${runId.slice(-1)}T12:00:00.000Z` },
  ...(machineTag !== undefined && { machineTag }),
})
const ownRun = (runId: string, dba: number) => reading(runId, dba, HEARD_TODAY, 'M-0001')
const other = (runId: string, dba: number, cardId: string) => reading(runId, dba, ['CPU-9', cardId], 'M-0009')

const PARTS = [card('CARD-1'), card('CARD-2'), cooler('COOLER-1', 95), kit('KIT-1')]
const sounds = (readings: readonly SoundReading[], quietDba?: number) => {
  const sound = soundOf(machine(), ['quiet'], readings, PARTS, { quietDba })
  if (sound === undefined) throw new Error('no sound')
  return sound
}

describe('what readings say', () => {
  test('without the wish nothing is looked at', () => {
    expect(
      soundOf(machine(), ['keep the case'], [ownRun('R-1', 30)], PARTS, { quietDba: 35 }),
    ).toBeUndefined()
  })
  test('the machine’s own level is the last one with the very parts of today', () => {
    const before = reading(
      'R-3',
      50,
      [...HEARD_TODAY.filter((id) => id !== 'COOLER-0'), 'COOLER-OLD'],
      'M-0001',
    )
    const elsewhere = reading('R-4', 51, HEARD_TODAY, 'M-0009')
    const { own } = sounds([ownRun('R-2', 41), before, ownRun('R-1', 39), elsewhere])
    expect(own).toEqual({ runId: 'R-2', at: '2026-03-02T12:00:00.000Z', dba: 41 })
    expect(sounds([before]).own).toBeUndefined()
  })
  test('a part has the lowest and the highest of the machines with it; one that was never measured is not there', () => {
    expect(sounds([other('R-1', 44, 'CARD-1'), other('R-2', 38, 'CARD-1')]).parts).toEqual([
      { partId: 'CARD-1', lowestDba: 38, highestDba: 44, runIds: ['R-1', 'R-2'] },
    ])
  })
})

describe('too loud', () => {
  test('never without a measurement, whatever the limit', () => {
    expect(isTooLoud(card('CARD-2'), sounds([other('R-1', 60, 'CARD-1'), ownRun('R-2', 20)], 10))).toBe(false)
  })
  test('never without anything to hold it against', () => {
    expect(tooLoudAbove(sounds([other('R-1', 60, 'CARD-1')]))).toBeUndefined()
    expect(isTooLoud(card('CARD-1'), sounds([other('R-1', 60, 'CARD-1')]))).toBe(false)
  })
  test.each([
    ['above the shop’s figure', 41, 40, undefined, true],
    ['at the shop’s figure', 40, 40, undefined, false],
    ['louder than what they have', 41, undefined, 40, true],
    ['as loud as what they have', 40, undefined, 40, false],
    ['above the figure, quieter than what they have', 44, 40, 45, false],
    ['louder than what they have, within the figure', 39, 40, 35, false],
    ['above both', 46, 40, 45, true],
  ])('%s: %d dB(A), figure %s, own %s', (_, dba, quietDba, own, isOut) => {
    const readings = [other('R-1', dba, 'CARD-1'), ...(own === undefined ? [] : [ownRun('R-2', own)])]
    expect(isTooLoud(card('CARD-1'), sounds(readings, quietDba))).toBe(isOut)
  })
  test('one quiet machine with it is enough to keep it', () => {
    const readings = [other('R-1', 60, 'CARD-1'), other('R-2', 38, 'CARD-1')]
    expect(isTooLoud(card('CARD-1'), sounds(readings, 40))).toBe(false)
  })
  test('memory is never too loud, although it was in a loud machine', () => {
    expect(isTooLoud(kit('KIT-1'), sounds([reading('R-1', 60, ['KIT-1'])], 30))).toBe(false)
  })
})

describe('after a change', () => {
  test('what was measured and what nobody can tell are apart; of memory alone nothing is said', () => {
    const sound = sounds([other('R-1', 38, 'CARD-1')])
    expect(soundAfter({ add: [kit('KIT-1')] }, sound)).toBeUndefined()
    expect(soundAfter({ add: [card('CARD-1'), cooler('COOLER-1', 95), kit('KIT-1')] }, sound)).toEqual({
      measured: [{ partId: 'CARD-1', lowestDba: 38, highestDba: 38, runIds: ['R-1'] }],
      untoldIds: ['COOLER-1'],
    })
  })
  test('a processor is never quiet by a run with it: what is heard is its cooler', () => {
    const [cpu] = TODAY
    if (cpu === undefined) throw new Error('no processor')
    const sound = sounds([reading('R-1', 30, ['CPU-0'])])
    expect(soundAfter({ add: [cpu] }, sound)).toEqual({ measured: [], untoldIds: ['CPU-0'] })
  })
})

describe('in the ranking', () => {
  const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10, 'CARD-2': 12 }))
  const over = {
    parts: [card('CARD-1'), card('CARD-2')],
    shelf: [item('CARD-1', 10_000), item('CARD-2', 11_000)],
    model,
  }
  const asked = { ...over, question: question({ wishes: ['quiet'] }) }
  test('what was measured too loud is left out by the wish; what was not measured stays', () => {
    const sound = sounds([other('R-1', 50, 'CARD-1')], 40)
    const ranking = rank(input({ ...asked, sound }))
    expect(ids(ranking.ranked)).toEqual(['S-CARD-2'])
    expect(ranking.ruledOut).toMatchObject([
      { partId: 'CARD-1', wish: 'quiet', verdict: 'fits', findings: [] },
    ])
  })
  test('with nothing measured the wish changes nothing', () => {
    expect(rank(input({ ...asked, sound: sounds([]) }))).toEqual(rank(input(over)))
  })
  test('quieter: the more is allowed, the more is ranked (0 to 80 dB(A))', () => {
    const readings = [other('R-1', 50, 'CARD-1'), other('R-2', 35, 'CARD-2')]
    const counts = [0, 34.9, 35, 49.9, 50, 80].map(
      (quietDba) => rank(input({ ...asked, sound: sounds(readings, quietDba) })).ranked.length,
    )
    expect(counts).toEqual([0, 0, 1, 1, 2, 2])
  })
})

test('a build without a case is compared as it is', () => {
  const bare = { tag: 'M-0001', build: buildOf(TODAY.filter(({ kind }) => kind !== 'case')) }
  const own = reading(
    'R-1',
    33,
    HEARD_TODAY.filter((id) => id !== 'CASE-0'),
    'M-0001',
  )
  expect(soundOf(bare, ['quiet'], [own], PARTS, {})?.own?.dba).toBe(33)
  expect(soundOf(bare, ['quiet'], [ownRun('R-1', 33)], PARTS, {})?.own).toBeUndefined()
})
