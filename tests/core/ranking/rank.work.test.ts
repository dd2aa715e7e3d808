import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Claim } from '../../../src/core/limits/limit.ts'
import type { MemoryKit, Part } from '../../../src/core/part.ts'
import { type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { runs } from '../../runs.ts'
import { freeze } from '../freeze.ts'
import { enumerate, type Labour, order, type PlainTime } from './enumerate.ts'
import { rateMts, withRules } from './realShop.ts'
import { knowing } from './smallShop.ts'
import { END_SD, type SomeShop, someShop } from './someShop.ts'

// Work ranks beside parts and equals what trying everything says. When there is something to do is written down here a
// second time, from the trade: a profile sets the rate of the label where the chipset is open (Z490, and its page lists
// 3200), a new kit starts without one, modules are seated right by whoever fits them.

type States = {
  readonly profile: 'yes' | 'no' | undefined
  readonly reading: number | undefined
  readonly seats: 'yes' | 'no' | undefined
  readonly clean: 'yes' | 'no' | undefined
}
const states: fc.Arbitrary<States> = fc.record({
  profile: fc.constantFrom('yes', 'no', 'no', undefined),
  reading: fc.constantFrom(undefined, undefined, 2400),
  seats: fc.constantFrom('yes', 'no', 'no', undefined),
  clean: fc.constantFrom('yes', 'no', undefined),
})
const prices = fc.record({
  profile: fc.constantFrom(0, 0, 500, undefined),
  seats: fc.constantFrom(0, 700, undefined),
  clean: fc.constantFrom(900, undefined),
})

const claimsOf = ({ profile, reading, seats, clean }: States): Claim[] => [
  { key: 'firmware', value: '1.20', source: 'entered' },
  ...(profile === undefined ? [] : [{ key: 'memoryProfileOn', value: profile, source: 'measured' } as const]),
  ...(reading === undefined ? [] : [{ key: 'memoryRunsMts', value: reading, source: 'read' } as const]),
  ...(seats === undefined
    ? []
    : [{ key: 'modulesInBothChannels', value: seats, source: 'measured' } as const]),
  ...(clean === undefined ? [] : [{ key: 'coolingClean', value: clean, source: 'measured' } as const]),
]

const PAGE_MTS = 3200
const lowest = (kits: readonly MemoryKit[]) => Math.min(PAGE_MTS, ...kits.map((k) => k.rateMts ?? 0))
const count = (kits: readonly MemoryKit[]) => kits.reduce((n, k) => n + (k.modules ?? 0), 0)
const sum = (...lists: readonly (readonly MemoryKit[])[]) => lists.flat()

function labourOf(input: RankInput, { profile, reading, seats, clean }: States): Labour {
  const { memory: today, processor } = input.machine.build
  const cpuToday = processor?.id ?? ''
  /** Rate without doing anything, with the claims that still hold. */
  const rate = (cpu: string, kits: readonly MemoryKit[], isNew: boolean): number => {
    if (reading !== undefined && !isNew && cpu === cpuToday) return reading
    if (profile === 'yes' && !isNew) return lowest(kits)
    return Math.min(lowest(kits), rateMts(cpu))
  }
  const isOff = (cpu: string, kits: readonly MemoryKit[], isNew: boolean) =>
    !(profile === 'yes' && !isNew) && lowest(kits) > rate(cpu, kits, isNew)
  const switchable = isOff(cpuToday, today, false) && (profile === 'no' || reading !== undefined)
  const movable = seats === 'no' && count(today) >= 2
  const hasClass = (part: Part) => part.kind !== 'processor' || part.cores !== undefined
  return {
    alone: [
      ...(switchable ? ['memory profile on'] : []),
      ...(movable ? ['move modules'] : []),
      ...(clean === 'no' ? ['cleaning'] : []),
    ],
    moves: ['memory profile on', 'move modules'],
    handsIn: ['remove old modules', 'move modules', 'cleaning', 'move front fan', 'fit bracket'],
    beside: (part, replace) => {
      const isNew = part.kind === 'memory'
      const kits = part.kind === 'memory' ? sum(replace ? [] : today, [part]) : today
      const cpu = part.kind === 'processor' ? part.id : cpuToday
      // Without a generation nobody knows the rate of the controller, so there is nothing to compare.
      const off = hasClass(part) && isOff(cpu, kits, isNew)
      const knows = isNew || profile === 'no' || switchable
      return [...(off && knows ? ['memory profile on'] : []), ...(movable && !isNew ? ['move modules'] : [])]
    },
    memory: (cpu, kits, isNew, works) => ({
      rate: works.includes('memory profile on') ? lowest(kits) : rate(cpu, kits, isNew),
      channels: seats === 'no' && !isNew && !works.includes('move modules') ? 1 : Math.min(2, count(kits)),
    }),
  }
}

/** The shop of the other tests, with states and prices of work, and frame times that the memory moves (3200 for 2666: 8 %). */
function working(
  shop: SomeShop,
  now: States,
  price: { [W in 'profile' | 'seats' | 'clean']: number | undefined },
) {
  const time: PlainTime = (title, cpu, card, gb, rate = 0, channels = 0) => {
    const ms = shop.time(title, cpu, card, gb)
    return ms === undefined ? undefined : ms * (1 + 2000 / rate) * (channels === 1 ? 1.1 : 1)
  }
  const ruled = withRules(shop.input)
  const priced = (work: string, priceMinor: number | undefined) =>
    priceMinor === undefined ? [] : [{ work, minutes: 5, priceMinor }]
  const input = freeze({
    ...ruled,
    machine: { ...ruled.machine, claims: claimsOf(now) },
    work: [
      ...ruled.work,
      ...priced('memory profile on', price.profile),
      ...priced('move modules', price.seats),
      ...priced('cleaning', price.clean),
    ],
    model: knowing(
      (t, f) => time(t, f.processorId, f.cardId, f.memory.totalGB, f.memory.rateMts, f.memory.channels),
      END_SD,
    ),
  })
  return { input, time }
}

test('work beside parts: rank says what trying everything says', () => {
  const seen = { alone: 0, both: 0, beside: 0, free: 0, wins: 0, unranked: 0, check: 0 }
  fc.assert(
    fc.property(someShop, states, prices, (shop, now, price) => {
      const { input, time } = working(shop, now, price)
      const labour = labourOf(input, now)
      const ranking = rank(input)
      const all = enumerate(input, time, END_SD, rateMts, labour)
      const plain = order(all, input, ranking.titlesAtTargetToday)

      expect(ranking.ranked.map((o) => [o.id, o.price.netMinor])).toEqual(
        plain.ranked.map((p) => [p.id, p.net]),
      )
      ranking.ranked.forEach((option, i) => {
        expect(option.useful?.pct).toBeCloseTo(plain.ranked[i]?.pct ?? Number.NaN, 8)
      })
      expect(ranking.bestPerMoneyId).toBe(plain.bestPerMoneyId)
      expect(ranking.bestInBudgetId).toBe(plain.bestInBudgetId)
      expect(ranking.cheapestToTargetId).toBe(plain.cheapestToTargetId)
      expect(ranking.frontierIds).toEqual(plain.frontierIds)

      // A work to do that is not ranked stands in the list of what has no number or no price, by itself.
      const loose = all.fitting.filter((p) => p.gainPartIds.length === 0 && p.chosen.length === 1)
      const listed = ranking.withoutNumber.filter((o) => o.change.add.length === 0)
      expect(listed.map((o) => o.id).toSorted()).toEqual(
        loose
          .filter((p) => p.pct === undefined || !p.isPriced)
          .map((p) => p.id)
          .toSorted(),
      )
      // Unknown is never claimed.
      expect(ranking.checkFirst.some((c) => c.option.id === 'cleaning')).toBe(now.clean === undefined)
      const ranked = new Set(ranking.ranked.flatMap((o) => o.change.work))
      for (const { option } of ranking.checkFirst)
        expect(option.change.work.filter((w) => ranked.has(w) && labour.alone.includes(w))).toEqual([])

      const own = ranking.ranked.filter((o) => o.change.work.some((w) => labour.moves.includes(w)))
      seen.alone += own.filter((o) => o.change.add.length === 0 && o.change.work.length === 1).length
      seen.both += own.filter((o) => o.change.add.length === 0 && o.change.work.length === 2).length
      seen.beside += own.filter((o) => o.change.add.length > 0).length
      seen.free += own.filter((o) => o.price.costsNothing).length
      seen.wins += own.some((o) => o.id === ranking.bestPerMoneyId && o.change.add.length === 0) ? 1 : 0
      seen.unranked += listed.length
      seen.check += ranking.checkFirst.length
    }),
    { numRuns: runs(120) },
  )
  for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(8)
})
