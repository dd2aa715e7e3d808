import fc from 'fast-check'
import { expect, test } from 'vitest'
import { judge } from '../../../src/core/fit/rule.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import type { Drive, FanPlace, M2Socket } from '../../../src/core/part.ts'
import { rankOfVerdict, worstVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import { change, limits, situation, tower } from './bench.ts'
import { ask, cabled, flat, otherBoard, socket, withSockets } from './storageBench.ts'

const some = <T>(...values: T[]) => fc.constantFrom(...values)
const sockets = fc
  .array(
    fc.record({
      ...{
        key: some('M' as const, 'M' as const, 'B' as const, 'E' as const),
        lengthsMm: some([80], [60, 80], [60]),
      },
      ...{ pcieGen: some(3, 4), lanes: some(2, 4), sata: fc.boolean() },
      ...{
        sataPortsOff: some([], [], ['1'], ['1', '2']),
        sharesSlot: some(undefined, undefined, true as const),
      },
    }),
    { maxLength: 4 },
  )
  .map((rows) => rows.map((row, i): M2Socket => socket(`M2_${i}`, row)))
const drive = fc.oneof(
  fc
    .record({
      ...{ id: some('A', 'B', 'C', 'D'), m2Key: some('M' as const, 'B+M' as const), lengthMm: some(60, 80) },
      ...{ interface: some('PCIe' as const, 'SATA' as const), pcieGen: some(3, 4), pcieLanes: some(2, 4) },
    })
    .map(({ id, ...figures }): Drive => flat(`${id}-${JSON.stringify(figures)}`, figures)),
  fc
    .tuple(some('E', 'F'), some('2.5-inch' as const, '3.5-inch' as const))
    .map(([id, form]) => cabled(id + form, form)),
)
const drives = fc.array(drive, { maxLength: 4 })
const ports = fc.nat({ max: 4 })

const storageRules = RULES.filter((rule) => rule.id.startsWith('storage.'))
const verdictOf = (list: readonly M2Socket[], kept: readonly Drive[], sataPorts: number) => {
  const s = situation(change([otherBoard(list)]), withSockets([], ...kept))
  const of = limits({ slotLanesShared: 8, sataPorts })
  return worstVerdict(storageRules.flatMap((rule) => judge(rule, s, of)?.verdict ?? []))
}

test('law: a socket more on a new board never makes it worse for the drives that move over, and sometimes better', () => {
  let better = 0
  fc.assert(
    fc.property(sockets, sockets, drives, ports, (list, more, kept, sataPorts) => {
      const [less, all] = [verdictOf(list, kept, sataPorts), verdictOf([...list, ...more], kept, sataPorts)]
      expect(rankOfVerdict(all)).toBeLessThanOrEqual(rankOfVerdict(less))
      if (all !== less) better += 1
    }),
    { numRuns: runs(700) },
  )
  expect(better).toBeGreaterThan(50)
})

test('law: a socket more never takes the place from a new drive', () => {
  fc.assert(
    fc.property(sockets, sockets, drives, drive, (list, more, kept, added) => {
      const next = { ...added, id: 'NEW' }
      const before = ask('storage.m2', withSockets(list, ...kept), [next])?.verdict
      if (before === 'fits')
        expect(ask('storage.m2', withSockets([...list, ...more], ...kept), [next])?.verdict).toBe('fits')
    }),
    { numRuns: runs(300) },
  )
})

test('law: in which order drives were fitted or are added changes no word of any finding', () => {
  let said = 0
  fc.assert(
    fc.property(
      sockets,
      drives,
      fc.array(drive, { minLength: 1, maxLength: 3 }),
      ports,
      (list, kept, added, sataPorts) => {
        const all = (had: readonly Drive[], add: readonly Drive[]) => {
          const s = situation(change(add), withSockets(list, ...had))
          const of = limits({ slotLanesShared: 8, sataPorts })
          return storageRules.map((rule) => {
            const { partId: _, missing, ...f } = judge(rule, s, of) ?? { missing: [] }
            return { ...f, missing: missing.map((m) => JSON.stringify(m)).sort() }
          })
        }
        const one = all(kept, added)
        expect(all([...kept].reverse(), [...added].reverse())).toEqual(one)
        said += one.length
      },
    ),
    { numRuns: runs(200) },
  )
  expect(said).toBeGreaterThan(700)
})

/** Every way to seat the drives, by plain counting: the reference for the search that leaves branches out. */
function mostSeated(list: readonly M2Socket[], flats: readonly Drive[]): number {
  const [first, ...rest] = flats
  if (first === undefined) return 0
  const takes = (s: M2Socket) =>
    (first.m2Key === 'B+M' ? s.key !== 'E' : s.key === first.m2Key) &&
    s.lengthsMm.includes(first.lengthMm ?? 0) &&
    (first.interface === 'SATA' ? s.sata : s.lanes !== undefined)
  const seated = list.filter(takes).map(
    (s) =>
      1 +
      mostSeated(
        list.filter((o) => o !== s),
        rest,
      ),
  )
  return Math.max(mostSeated(list, rest), ...seated)
}

test('law: all drives have sockets exactly where some seating of all of them exists', () => {
  const seen = new Set<string>()
  fc.assert(
    fc.property(sockets, drives, (list, kept) => {
      const flats = kept.filter(({ form }) => form === 'M.2')
      const f = ask('storage.m2', withSockets([], ...kept), [otherBoard(list)])
      const all = mostSeated(list, flats) === flats.length ? 'fits' : 'does not fit'
      const want = flats.length === 0 ? 'silent' : all
      expect(f?.verdict ?? 'silent').toBe(want)
      seen.add(want)
    }),
    { numRuns: runs(300) },
  )
  expect(seen.size).toBe(3)
})

const places = fc.array(
  fc.record({
    place: some('front' as const, 'top' as const, 'rear' as const),
    sizeMm: some(120, 140),
    count: some(1, 2, 3),
  }),
  { maxLength: 5 },
)
const fan = some(120, 140).map((sizeMm) => ({
  kind: 'fan' as const,
  id: `FAN-${sizeMm}`,
  name: 'Some fan',
  sizeMm,
}))

test('law: a place more, or a row more of one, never takes the place from a fan; the order of rows never matters', () => {
  let better = 0
  fc.assert(
    fc.property(places, places, fc.array(fan, { minLength: 1, maxLength: 5 }), (list, more, fans) => {
      const verdict = (fanPlaces: readonly FanPlace[]) =>
        ask('case.fans', withSockets([], ...fans), [{ ...tower, id: 'CASE-NEW', fanPlaces }])?.verdict
      const [less, all] = [verdict(list), verdict([...list, ...more])]
      if (less === 'fits') expect(all).toBe('fits')
      if (less !== all) better += 1
      expect(verdict([...list].reverse())).toBe(less)
    }),
    { numRuns: runs(300) },
  )
  expect(better).toBeGreaterThan(50)
})

test('a board with as many sockets as there may ever be is judged at once', () => {
  const list = Array.from({ length: 12 }, (_, i) => socket(`M2_${i}`, { sataPortsOff: [`${i}`], lanes: 2 }))
  const flats = Array.from({ length: 8 }, (_, i) => flat(`D${i}`))
  const start = performance.now()
  expect(ask('storage.m2', withSockets([], ...flats, cabled('S')), [otherBoard(list)])?.verdict).toBe('fits')
  // Trying every seating would take longer than anybody waits (12!/4! ways); a busy computer is given its time.
  expect(performance.now() - start).toBeLessThan(30_000)
})
