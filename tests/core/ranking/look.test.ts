import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Base, basesOf, isSingle } from '../../../src/core/ranking/bases.ts'
import { type Completed, complete, type Draft } from '../../../src/core/ranking/companions.ts'
import { type Looker, lookerOf } from '../../../src/core/ranking/look.ts'
import { deskOf, type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { movesAndFitOf } from '../../../src/core/ranking/search/moves.ts'
import { runs } from '../../runs.ts'
import { withRules } from './realShop.ts'
import { someRealShop } from './search/realSmall.ts'
import { item, supply } from './smallShop.ts'
import { someShop } from './someShop.ts'

/*
 * Companions are found by a look at the compiled rules, which is quick; what counts is what the rules' own findings say. So both ways
 * must end in the same drafts, on small machines and shelves by chance with the real rules.
 */

/** Shelves where a larger supply is asked for and there, fitted ones that nobody can read, boards, cases and coolers that change. */
const withSupply: fc.Arbitrary<RankInput> = someShop.map(({ input }) =>
  withRules({
    ...input,
    parts: [...input.parts, supply('SUPPLY-9', 800)],
    shelf: [...input.shelf, item('SUPPLY-9', 2000)],
  }),
)
const unreadSupply = withSupply.map((input): RankInput => {
  const { supply: fitted, ...build } = input.machine.build
  if (fitted === undefined) return input
  const unread = { ...fitted, ratedW: undefined, rail12VW: undefined }
  return { ...input, machine: { ...input.machine, build: { ...build, supply: unread } } }
})
const someInput: fc.Arbitrary<RankInput> = fc.oneof(someRealShop, withSupply, unreadSupply)

/** All of a draft that anything later reads. Modules that come out unasked are an option of their own and count as none here. */
const told = (draft: Draft | undefined, isInside = false): unknown =>
  draft === undefined || isCrowded(draft)
    ? undefined
    : {
        id: draft.id,
        change: draft.change,
        net: draft.price.netMinor,
        verdict: draft.judged.verdict,
        findings: draft.judged.findings,
        after: draft.outcome.after,
        limits: { ...draft.judged.limitsAfter },
        surely: isInside ? undefined : told(draft.surely, true),
      }
const isCrowded = ({ base, judged }: Draft): boolean =>
  base.removeIds.length === 0 && judged.findings.some(({ needs }) => needs.some(isTakingOut))
const isTakingOut = (need: object): boolean => 'work' in need && need.work === 'remove old modules'
const both = ({ fitting, unclear }: Completed) => ({ fitting: told(fitting), unclear: told(unclear) })

function compare(input: RankInput, looker: (look: Looker) => Looker, seen: (one: Completed) => void): void {
  const desk = deskOf(input)
  const look = looker(lookerOf(movesAndFitOf(desk, input)))
  for (const base of basesOf(desk.offers, input.machine.build)) {
    const plain = complete(base, desk.search)
    seen(plain)
    expect(both(complete(base, { ...desk.search, look }))).toEqual(both(plain))
  }
}

test('a look at the compiled rules and the findings end in the same companions', () => {
  const seen = { fitting: 0, withCompanions: 0, unclear: 0, surely: 0, none: 0, pairs: 0 }
  fc.assert(
    fc.property(someInput, (input) => {
      compare(
        input,
        (look) => look,
        ({ fitting, unclear }) => {
          if (fitting !== undefined) seen.fitting++
          if ((fitting?.companions.length ?? 0) > 0) seen.withCompanions++
          if (fitting !== undefined && !isSingle(fitting.base)) seen.pairs++
          if (unclear !== undefined) seen.unclear++
          if (unclear?.surely !== undefined) seen.surely++
          if (fitting === undefined && unclear === undefined) seen.none++
        },
      )
    }),
    { numRuns: runs(60) },
  )
  for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(3)
})

test.each<[string, (look: Looker) => Looker]>([
  ['what is unclear counts as fitting', (look) => changed(look, { from: 'unclear', to: 'fitting' })],
  ['what fits counts as unclear', (look) => changed(look, { from: 'fitting', to: 'unclear' })],
  ['nothing is asked for', (look) => (base, set) => withNone(look(base, set))],
])('a fault put in is found: %s', (_, fault) => {
  const drawn = fc.sample(someInput, { numRuns: runs(60), seed: 5 })
  expect(() => {
    for (const input of drawn) compare(input, fault, () => {})
  }).toThrow()
})

const withNone = (of: ReturnType<Looker>) => of && { ...of, demanded: [] }
const changed =
  (look: Looker, { from, to }: { from: 'unclear' | 'fitting'; to: 'unclear' | 'fitting' }): Looker =>
  (base: Base, set) => {
    const of = look(base, set)
    return of && of.state === from ? { ...of, state: to } : of
  }

test('idle pairs are left out before anything is looked for beside them: the ranking is that of the findings', () => {
  // `rank` without compiled rules judges each pair by the findings; both must rank the same singles and pairs.
  let pairs = 0
  fc.assert(
    fc.property(someRealShop, (input) => {
      const plain = rank({ ...input, bundles: false })
      const wide = rank({ ...input, bundles: true })
      const ofWide = new Set(wide.ranked.map(({ id }) => id))
      const missing = plain.ranked.filter(({ id }) => !ofWide.has(id)).map(({ id }) => id)
      expect(missing).toEqual([])
      pairs += plain.ranked.filter((o) => o.change.add.length - o.companionPartIds.length > 1).length
    }),
    { numRuns: runs(40) },
  )
  expect(pairs).toBeGreaterThan(3)
})
