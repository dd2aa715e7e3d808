import { expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Claim } from '../../../src/core/limits/limit.ts'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { board, card, cpu, kit, machine } from '../fit/casebook/parts.ts'
import { input, item, knowing, question } from './smallShop.ts'

// One invented machine on a B560 board with a 10th generation i5 (Intel product pages: DDR4-2666, memory overclocking
// yes), under the real rules. Frame times: 10 ms, a tenth more in one channel, a tenth less from 3200 MT/s on.
const parts = machine(board('B560'), cpu('10th (Comet Lake)', 'i5'), kit('DDR4', 2, 8, 3200))

function ranked(claims: readonly Claim[], over: Partial<RankInput> = {}) {
  const base = input({})
  return rank({
    ...base,
    machine: { tag: 'M-0001', build: buildOf(parts), claims },
    work: [
      { work: 'memory profile on', minutes: 5, priceMinor: 0 },
      { work: 'move modules', minutes: 5, priceMinor: 500 },
      { work: 'display into card', minutes: 2, priceMinor: 0 },
      { work: 'opening', minutes: 10, priceMinor: 1500 },
    ],
    judge: (m, change) => judgeChange(m, change, base.policy),
    model: knowing(
      (_, f) => 10 * (f.memory.channels === 1 ? 1.1 : 1) * (f.memory.rateMts >= 3200 ? 0.9 : 1),
      0.001,
    ),
    ...over,
  })
}
const said = (claims: readonly Claim[], id: string) =>
  ranked(claims).checkFirst.find((c) => c.option.id === id)

test('what nobody looked at says what it would be worth if it is not done, and is not ranked', () => {
  // 11 ms in one channel against 10 ms in two: +10 %; 10 ms against 9 ms: +11.11 %.
  expect(said([], 'move modules')?.option.useful?.pct).toBeCloseTo(10, 6)
  expect(said([], 'memory profile on')?.option.useful?.pct).toBeCloseTo(100 / 9, 6)
  expect(said([], 'move modules')?.limits).toEqual(['modulesInBothChannels'])
  expect(ranked([]).ranked).toEqual([])
  expect(ranked([]).bestPerMoneyId).toBeUndefined()
})

test('the list to check leads with what would be worth most', () => {
  const order = ranked([]).checkFirst.map((c) => c.option.id)
  expect(order.slice(0, 2)).toEqual(['memory profile on', 'move modules'])
  expect(order.slice(2).toSorted()).toEqual(['cleaning', 'display into card', 'driver clean-up', 'reinstall'])
})

test('once somebody looked, it is ranked or gone', () => {
  const no: Claim = { key: 'modulesInBothChannels', value: 'no', source: 'measured' }
  const yes: Claim = { key: 'modulesInBothChannels', value: 'yes', source: 'measured' }
  expect(ranked([no]).ranked.map((o) => [o.id, o.price.netMinor])).toEqual([['move modules', 2000]])
  expect(said([no], 'move modules')).toBeUndefined()
  expect(ranked([yes]).ranked).toEqual([])
  expect(said([yes], 'move modules')).toBeUndefined()
})

test('two works together, each paid once, with one opening', () => {
  const { ranked: options } = ranked([
    { key: 'modulesInBothChannels', value: 'no', source: 'measured' },
    { key: 'memoryProfileOn', value: 'no', source: 'measured' },
  ])
  const both = options.find((o) => o.change.work.length === 2)
  expect(both?.id).toBe('memory profile on+move modules')
  expect(both?.price.lines.map((l) => [l.ref, l.amountMinor])).toEqual([
    ['opening', 1500],
    ['memory profile on', 0],
    ['move modules', 500],
  ])
  // 11 ms to 9 ms
  expect(both?.useful?.pct).toBeCloseTo(100 * (11 / 9 - 1), 6)
})

test('with the display in the board nothing can be compared: plugging it over is listed first', () => {
  const shelf = [item('CARD new', 100)]
  const { ranked: options, withoutNumber } = ranked(
    [{ key: 'displayPluggedInto', value: 'board', source: 'measured' }],
    { shelf, parts: [card('new')] },
  )
  expect(options).toEqual([])
  expect(withoutNumber.map((o) => o.id)).toEqual(['display into card', 'S-CARD new'])
  const [gain] = withoutNumber[0]?.gains ?? []
  expect(gain).toMatchObject({ grade: 'no number', because: 'not told by runs', wanted: [] })
})

test('a work that the shop has not priced is listed and has no place by money', () => {
  const claims: Claim[] = [{ key: 'memoryProfileOn', value: 'no', source: 'measured' }]
  const { ranked: options, withoutNumber, bestPerMoneyId } = ranked(claims, { work: [] })
  expect([options, bestPerMoneyId]).toEqual([[], undefined])
  expect(withoutNumber.map((o) => [o.id, o.price.unpriced])).toEqual([
    ['memory profile on', ['memory profile on']],
  ])
  expect(withoutNumber[0]?.useful?.pct).toBeCloseTo(100 / 9, 6)
})

test('cleaning has no number, and names the run of the machine as it is', () => {
  const { withoutNumber } = ranked([{ key: 'coolingClean', value: 'no', source: 'measured' }])
  const cleaning = withoutNumber.find((o) => o.id === 'cleaning')
  const [gain] = cleaning?.gains ?? []
  expect(gain).toMatchObject({
    grade: 'no number',
    because: 'not told by runs',
    before: { averageFps: 100 },
    wanted: [{ titleId: question().wanted[0]?.titleId, fitted: { memory: { rateMts: 2666, channels: 2 } } }],
  })
})
