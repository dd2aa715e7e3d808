import fc from 'fast-check'
import { expect, test } from 'vitest'
import { bitCount } from '../../../../src/core/bits.ts'
import type { RuleId, WorkId } from '../../../../src/core/fit/finding.ts'
import type { Judged } from '../../../../src/core/fit/judgeChange.ts'
import { fittedKey } from '../../../../src/core/gain/run.ts'
import { seenGains, usefulGain } from '../../../../src/core/gain/useful.ts'
import { type Base, basesOf, changeOf, isSingle } from '../../../../src/core/ranking/bases.ts'
import { draftOf, isFittingAlone, isReplacingInDisguise } from '../../../../src/core/ranking/companions.ts'
import { deskOf, type RankInput } from '../../../../src/core/ranking/rank.ts'
import { bundlesOf } from '../../../../src/core/ranking/search/bundles.ts'
import type { Offer } from '../../../../src/core/ranking/shelf.ts'
import { MOVING_WORKS, worksBeside, worksToday } from '../../../../src/core/ranking/works.ts'
import { someRealShop } from './realSmall.ts'

/** Rules that see the case and neither cooler nor supply. */
const OF_CASE: readonly RuleId[] = [
  ...(['graphics.length', 'graphics.thickness', 'graphics.height', 'case.board', 'case.fans'] as const),
  ...(['case.frontPanel', 'office.mounting', 'storage.bays'] as const),
]

/** Nobody can tell, and nothing is sure to be wrong: then one looks, and buys nothing in its place. */
const isUnclear = ({ findings }: Judged, rules?: readonly RuleId[]): boolean => {
  const told = findings.filter(({ rule }) => rules === undefined || rules.includes(rule))
  const isWrong = told.some(
    ({ verdict, needs }) => verdict === 'does not fit' || needs.some((need) => 'part' in need),
  )
  return !isWrong && told.some(({ verdict }) => verdict === "can't tell")
}

type Plain = { readonly netMinor: number; readonly value: number; readonly set: string }

/** Every combination of the shelf, one by one, judged by the rules' findings and priced line by line. */
function everyChange(input: RankInput): Plain[] {
  const desk = deskOf(input)
  const { offers, search, prices, gains, fittedToday, fittedAfter } = desk
  const ofKind = (kind: string): (Offer | undefined)[] => [
    undefined,
    ...offers.filter(({ part }) => part.kind === kind),
  ]
  const kits: (Base | undefined)[] = [
    undefined,
    ...basesOf(
      offers.filter(({ part }) => part.kind === 'memory'),
      input.machine.build,
    ).filter(isSingle),
  ]
  const workSets = MOVING_WORKS.filter((work) => prices.work.has(work)).reduce<WorkId[][]>(
    (sets, work) => sets.concat(sets.map((set) => set.concat(work))),
    [[]],
  )
  const today = worksToday(desk.judgedToday).toDo
  const all: Plain[] = []
  for (const processor of ofKind('processor'))
    for (const board of ofKind('board'))
      for (const memory of kits)
        for (const works of workSets) {
          const inside = [processor, board].filter((o) => o !== undefined).concat(memory?.offers ?? [])
          const base: Base = {
            ...{ offers: inside, removeIds: memory?.removeIds ?? [], chosen: [] },
            work: memory?.work ?? [],
          }
          const alone = input.judge(input.machine, changeOf(base, []))
          const beside = worksBeside(changeOf(base, []), input.machine.build, alone, today)
          if (!works.every((work) => beside.includes(work))) continue
          for (const card of ofKind('card'))
            for (const box of ofKind('case'))
              for (const cooler of ofKind('cooler'))
                for (const supply of ofKind('supply')) {
                  const companions = [supply, box, cooler].filter((o) => o !== undefined)
                  const whole: Base = {
                    ...base,
                    offers: card === undefined ? inside : [...inside, card],
                    ...{ chosen: works, work: [...base.work, ...works] },
                  }
                  const judged = input.judge(input.machine, changeOf(whole, companions))
                  if (!isFittingAlone(judged)) continue
                  const without = (left: Offer | undefined) =>
                    input.judge(
                      input.machine,
                      changeOf(
                        whole,
                        companions.filter((one) => one !== left),
                      ),
                    )
                  if ([supply, cooler].some((one) => one !== undefined && isUnclear(without(one)))) continue
                  if (
                    box !== undefined &&
                    isUnclear(input.judge(input.machine, changeOf(whole, [])), OF_CASE)
                  )
                    continue
                  const draft = draftOf(whole, companions, judged, search)
                  if (isReplacingInDisguise(draft)) continue
                  const told = gains(fittedToday, fittedAfter(draft))
                  const useful = usefulGain(told, input.question)
                  if (useful === undefined) continue
                  all.push({
                    netMinor: draft.price.netMinor,
                    value: Math.log1p(useful.pct / 100),
                    set: seenGains(told, input.question)
                      .map(({ wanted }) => wanted.titleId)
                      .join(' '),
                  })
                }
        }
  return all
}

const stepsOf = (all: readonly Plain[]): Plain[] => {
  const best = new Map<string, number>()
  return [...all]
    .sort((a, b) => a.netMinor - b.netMinor || b.value - a.value)
    .filter(({ set, value }) => {
      if (!(value > (best.get(set) ?? 0) + 1e-12)) return false
      best.set(set, value)
      return true
    })
    .map(({ netMinor, value, set }) => ({ netMinor, value, set }))
}

test('under the real rules the search finds what trying every combination finds', () => {
  const seen = { steps: 0, ofMore: 0, paying: 0 }
  fc.assert(
    fc.property(someRealShop, (input) => {
      const wanted = stepsOf(everyChange(input))
      const desk = deskOf(input)
      const { steps, shown } = bundlesOf(desk, input)
      const round = ({ netMinor, value }: { netMinor: number; value: number }) => [
        netMinor,
        Math.round(value * 1e9),
      ]
      expect(steps.map(round).sort()).toEqual(wanted.map(round).sort())
      for (const { draft, value } of shown) {
        const step = steps.find((s) => s.netMinor === draft.price.netMinor && s.value === value)
        expect(step, draft.id).toBeDefined()
        const end = desk.fittedAfter(draft)
        expect(end && fittedKey(end)).toBeDefined()
      }
      seen.steps += steps.length
      seen.ofMore += steps.filter(({ kinds }) => bitCount(kinds) >= 2).length
      seen.paying += steps.filter(({ netMinor }) => netMinor < 0).length
    }),
    { numRuns: 8 },
  )
  // It says nothing where these never came.
  for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(0)
}, 60_000)
