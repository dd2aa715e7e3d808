import {
  type MeasuredPromise,
  proposedFactor,
  quantile,
  reliabilityOf,
} from '../../src/core/gain/reliability/reliability.ts'
import { promisesOfShop } from '../core/gain/reliability/drawnPromises.ts'
import { againstTruth, asOneTitle, BIASES, type BiasName, biased, promisesIn } from '../simulator/promises.ts'
import { SIZES } from '../simulator/seeds.ts'
import { simulateShop } from '../simulator/shop.ts'

/*
 * Is an honest shop told that it is honest, and a biased one that it is not? Every shop's promises of one fit are held against
 * runs made as the shop makes them, and against the truth; the verdicts are told with the count of independent promises that
 * the program uses, and with the one by jobs alone.
 */

const WAYS = {
  'runs, jobs and titles': { truth: false, oneTitle: false },
  'runs, jobs alone': { truth: false, oneTitle: true },
  'truth, jobs and titles': { truth: true, oneTitle: false },
  'truth, jobs alone': { truth: true, oneTitle: true },
} as const
type Way = keyof typeof WAYS

/** Verdicts over all shops; `proposed`: the factors, where one is. */
type Tally = { few: number; narrow: number; wide: number; slower: number; faster: number; proposed: number[] }

const NAMES = Object.keys(BIASES) as BiasName[]
const cells = (first: string, rest: readonly (string | number)[]) =>
  `${first.padEnd(42)}${rest.map((cell) => String(cell).padStart(12)).join('')}`

/** One line a shop as it is, then the counts of verdicts over all shops. */
export function* promisesLines(seeds: readonly number[], jobs: number): Generator<string> {
  const tallies = new Map<string, Tally>()
  yield cells('honest, against runs', [
    'promises',
    'counts as',
    'kept 50',
    '80',
    '90 %',
    'middle %',
    'verdict',
    'lean',
  ])
  for (const seed of seeds) {
    const tracked = promisesIn(simulateShop(seed, { ...SIZES.small, asks: 15 * jobs }), jobs)
    const truth = againstTruth(tracked, seed)
    const { promises, counts, levels, middle, verdict, lean } = reliabilityOf(tracked)
    const kept = levels.map(({ share }) => (100 * share).toFixed(0))
    const rest = [(100 * Math.expm1(middle)).toFixed(1), verdict, lean ?? '-']
    yield cells(`shop ${seed}`, [promises, counts.toFixed(0), ...kept, ...rest])
    for (const bias of NAMES)
      for (const way of Object.keys(WAYS) as Way[]) {
        const all = biased(WAYS[way].truth ? truth : tracked, BIASES[bias])
        const key = `${bias}: ${way}`
        tallies.set(key, counted(tallies.get(key), WAYS[way].oneTitle ? asOneTitle(all) : all))
      }
  }
  yield ''
  yield cells(`of ${seeds.length} shops`, [
    'too few',
    'too narrow',
    'too wide',
    'slower',
    'faster',
    'factors proposed',
  ])
  for (const [key, { few, narrow, wide, slower, faster, proposed }] of tallies)
    yield `${cells(key, [few, narrow, wide, slower, faster, proposed.length])}  ${proposed.join(' ')}`
}

function counted(before: Tally | undefined, all: readonly MeasuredPromise[]): Tally {
  const t = before ?? { few: 0, narrow: 0, wide: 0, slower: 0, faster: 0, proposed: [] }
  const { verdict, lean } = reliabilityOf(all)
  const factor = proposedFactor(all, 1)?.factor
  const one = (is: boolean) => (is ? 1 : 0)
  return {
    few: t.few + one(verdict === 'too few'),
    narrow: t.narrow + one(verdict === 'too narrow'),
    wide: t.wide + one(verdict === 'too wide'),
    slower: t.slower + one(lean === 'slower'),
    faster: t.faster + one(lean === 'faster'),
    proposed: factor === undefined ? t.proposed : [...t.proposed, factor],
  }
}

const DRAWN_SHOPS = 400

/** How often another width is proposed to drawn shops, which miss by chance alone, and the middle one of those factors. */
export function* drawnLines(): Generator<string> {
  const jobCounts = [25, 40, 60, 120]
  yield cells(
    `of ${DRAWN_SHOPS} drawn shops`,
    jobCounts.map((jobs) => `${jobs} jobs`),
  )
  for (const titleShare of [0, 0.3])
    for (const width of [1, 0.7, 0.5, 1.6]) {
      const told = jobCounts.map((jobs) => {
        const factors = Array.from({ length: DRAWN_SHOPS }, (_, i) =>
          proposedFactor(promisesOfShop(7000 + i, jobs, { width, titleShare }), 1),
        ).flatMap((proposal) => (proposal === undefined ? [] : [proposal.factor]))
        const share = `${((100 * factors.length) / DRAWN_SHOPS).toFixed(0)} %`
        return factors.length < 20 ? share : `${share}, ${quantile(factors, 0.5).toFixed(2)}`
      })
      yield cells(`${width} as wide, ${titleShare} of the variance the title's`, told)
    }
}
