import { addRun, type Fit, modelOf } from '../../src/core/gain/model/index.ts'
import { cellAskKey } from '../../src/core/gain/nextRun/joint.ts'
import { nextRuns, type PossibleRun } from '../../src/core/gain/nextRun/nextRuns.ts'
import type { OpenQuestion } from '../../src/core/gain/nextRun/question.ts'
import { fittedKey, type Run } from '../../src/core/gain/run.ts'
import { fitOf } from '../bench/gainPredictor.ts'
import { type Answered, regretOf } from './accuracy.ts'
import type { Ask } from './asks.ts'
import { SHOP_DAYS } from './calendar.ts'
import { measure } from './measure.ts'
import { type Random, randomFor } from './random.ts'
import type { Size } from './seeds.ts'
import type { Shop } from './shop.ts'

/*
 * Does it pay to make the run that is suggested? Some questions wait; a few runs are made one after another, each
 * chosen in one of these ways from the same possible ones; then every question is decided by the ranking, and what the
 * decisions lose against the truth is counted.
 */

/** How the next run is chosen. */
export const WAYS = ['suggested', 'random', 'most frequent'] as const
export type Way = (typeof WAYS)[number]

/** The regret of all questions together, before any run and after each. */
export type Course = { readonly way: Way; readonly regrets: readonly number[] }

/** A question with its options' asks, each with what is so. */
type Waiting = { readonly question: OpenQuestion; readonly asks: readonly Known[] }
type Known = { readonly ask: Ask; readonly trueBeforeFps: number; readonly trueLogGain: number }

const MAJOR = 100
const ONLY_HERE = { captureS: 20 }

/** The first questions of a shop that have something to gain. */
export function waitingIn(shop: Shop, count: number, from = 0): Waiting[] {
  const byQuestion = new Map<string, Ask[]>()
  for (const ask of shop.asks) byQuestion.set(ask.question, [...(byQuestion.get(ask.question) ?? []), ask])
  return [...byQuestion.values()].slice(from, from + count).flatMap((asks): Waiting[] => {
    const [first] = asks
    if (first === undefined) return []
    const { question: id, machineTag, before, titleId, settingId } = first
    const options = asks.map(({ id: option, after, priceUsd }) => ({
      ...{ id: option, after, netMinor: MAJOR * priceUsd },
    }))
    const titles = [{ titleId, settingId, weight: 1 }]
    const trueOf = (fitted: Ask['before']) => shop.truth(fitted, titleId, settingId).averageFps
    const known = asks.map((ask) => {
      const trueBeforeFps = trueOf(ask.before)
      return { ask, trueBeforeFps, trueLogGain: Math.log(trueOf(ask.after) / trueBeforeFps) }
    })
    // Where nothing is worth having there is nothing to lose.
    if (known.every(({ trueLogGain }) => trueLogGain < Math.log(1.03))) return []
    return [
      { asks: known, question: { ...{ id, machineTag, before, titles, options }, refreshHz: undefined } },
    ]
  })
}

/**
 * Every end of every question in its title and setting, and in 1080p high: the machines come to the bench, and the shelf
 * has the parts.
 */
export function possibleFor(waiting: readonly Waiting[]): PossibleRun[] {
  const runs = waiting.flatMap(({ question: { before, titles, options } }) =>
    titles.flatMap(({ titleId, settingId }) =>
      [...new Set([settingId, '1080-high'])].flatMap((setting) =>
        [before, ...options.map(({ after }) => after)].map((fitted) => ({
          ...{ titleId, settingId: setting, fitted },
          partIds: [] as string[],
        })),
      ),
    ),
  )
  return [...new Map(runs.map((run) => [cellAskKey(run), run])).values()]
}

/** What a run of it comes out as today, on a machine with these parts of its own silicon. */
function made(shop: Shop, size: Size, possible: PossibleRun, n: number): Run {
  const random = randomFor(shop.seed, 'next run', cellAskKey(possible), String(n))
  const { titleId, settingId, fitted } = possible
  const traits = {
    processorSpeed: random.logNormal(0.01),
    cardSpeed: random.logNormal(0.015),
    memoryTimings: random.logNormal(0.05),
    coolerShare: 1.1 * random.logNormal(0.18),
    caseRiseK: 8 * random.logNormal(0.35),
  }
  const { spoilt: _, ...run } = measure(
    shop.world,
    { ...size, ...ONLY_HERE },
    { traits, fitted, titleId, settingId, day: SHOP_DAYS - 1 },
    random,
    false,
  )
  return { id: `N-${String(n).padStart(3, '0')}`, at: shop.at, ...run }
}

/** Mean regret of the questions, as the accuracy table counts it; one that the model cannot answer loses all. */
function regretNow(shop: Shop, fit: Fit, waiting: readonly Waiting[]): number {
  const model = modelOf(fit)
  const regrets = waiting.map(({ asks }): number => {
    const answered = asks.map(({ ask, ...known }): Answered => {
      const gain = model.predict(ask)
      const none = [0, 0] as const
      return {
        ...{ ask, shop: shop.seed, evidence: 'before measured', measuredLogGain: 0, ...known },
        said: [
          gain.grade === 'no number'
            ? undefined
            : {
                ...{ logGain: gain.logGain, beforeFps: gain.before.averageFps },
                ...{ half: none, fourFifths: none, nineTenths: none },
              },
        ],
      }
    })
    return regretOf(answered, 0, false) ?? 1
  })
  return regrets.reduce((sum, r) => sum + r, 0) / regrets.length
}

const fits = new WeakMap<Shop, Fit>()
function fitOnce(shop: Shop): Fit {
  const known = fits.get(shop) ?? fitOf(shop)
  fits.set(shop, known)
  return known
}

/** Makes `runs` runs one after another, each chosen in that way. */
export function courseOf(
  shop: Shop,
  size: Size,
  waiting: readonly Waiting[],
  way: Way,
  runs: number,
  draw = 0,
): Course {
  const random = randomFor(shop.seed, 'which run', way, String(draw))
  const possible = possibleFor(waiting)
  let fit = fitOnce(shop)
  const regrets = [regretNow(shop, fit, waiting)]
  for (let n = 0; n < runs; n++) {
    const next = chosen(shop, fit, waiting, possible, way, random)
    if (next !== undefined) fit = addRun(fit, made(shop, size, next, n))
    regrets.push(regretNow(shop, fit, waiting))
  }
  return { way, regrets }
}

function chosen(
  shop: Shop,
  fit: Fit,
  waiting: readonly Waiting[],
  possible: readonly PossibleRun[],
  way: Way,
  random: Random,
): PossibleRun | undefined {
  if (way === 'suggested')
    return nextRuns(
      fit,
      waiting.map(({ question }) => question),
      possible,
    )[0]
  if (way === 'random') return random.pick(possible)
  // What is run most often anyway: the pair of title and parts with the most runs among the possible, else of all.
  const count = new Map<string, number>()
  const pairOf = (titleId: string, fitted: Run['fitted']) => JSON.stringify([titleId, fittedKey(fitted)])
  for (const { titleId, fitted } of shop.runs) {
    const key = pairOf(titleId, fitted)
    count.set(key, (count.get(key) ?? 0) + 1)
  }
  const frequency = (run: PossibleRun): number => count.get(pairOf(run.titleId, run.fitted)) ?? 0
  const most = Math.max(...possible.map(frequency))
  return random.pick(possible.filter((run) => frequency(run) === most))
}
