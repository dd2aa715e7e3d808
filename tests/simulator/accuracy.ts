import { fittedKey } from '../../src/core/gain/run.ts'
import { type Ask, CHANGE_KINDS } from './asks.ts'
import type { Ends, Prediction, Predictor } from './predictors.ts'
import type { Shop } from './shop.ts'

/** One ask with what came out and what each predictor said, in the order of the predictors. */
export type Answered = {
  readonly ask: Ask
  /** Which shop, so that questions of two shops stay apart. */
  readonly shop: number
  readonly evidence: Evidence
  readonly trueLogGain: number
  readonly trueBeforeFps: number
  /** As it would be measured on the machine itself, with the noise of two runs. */
  readonly measuredLogGain: number
  readonly said: readonly (Prediction | undefined)[]
}

/** How much the shop knew. */
export const EVIDENCE = ['both measured', 'before measured', 'before unmeasured', 'part unmeasured'] as const
export type Evidence = (typeof EVIDENCE)[number]

export type Score = {
  readonly asks: number
  /** Share of asks that were refused. */
  readonly refused: number
  /** Mean of |predicted - true| log gain. */
  readonly meanError: number
  /** Share whose gain is off by more than 15 % of the frame rate. */
  readonly farOff: number
  /** Share of true gains in the 50, 80 and 90 % intervals. */
  readonly inHalf: number
  readonly inFourFifths: number
  readonly inNineTenths: number
  /** Share of gains as measured on the machine that lie in the 80 % interval. */
  readonly kept: number
  /** Half of the 80 % interval, in log gain, on average. */
  readonly halfWidth: number
  /** Share of the best option's true gain per dollar that is lost by buying what ranks first; over questions. */
  readonly regret: number
  /** The same with frame rates cut at the owner's target. */
  readonly usefulRegret: number
  /** Questions that count for the two regrets. */
  readonly questions: number
  readonly usefulQuestions: number
}

const FAR_OFF = Math.log(1.15)
/** Questions where even the best option is worth less than that are no question of ranking. */
const LEAST_BEST_GAIN = 0.03

/** Asks every predictor of one shop. Predictors see the shop's data only. */
export const answerAll = (shop: Shop, predictors: readonly Predictor[]): Answered[] => {
  const { runs, parts, titles, settings, policy, at } = shop
  const answers = predictors.map((p) => p.learn({ runs, parts, titles, settings, policy, at }))
  const measured = new Set(runs.map((r) => `${fittedKey(r.fitted)}|${r.titleId}|${r.settingId}`))
  const isMeasured = (ask: Ask, end: 'before' | 'after') =>
    measured.has(`${fittedKey(ask[end])}|${ask.titleId}|${ask.settingId}`)
  return shop.asks.map((ask) => {
    const before = shop.truth(ask.before, ask.titleId, ask.settingId)
    const after = shop.truth(ask.after, ask.titleId, ask.settingId)
    const { machineTag, titleId, settingId } = ask
    return {
      ask,
      shop: shop.seed,
      evidence: ask.unmeasuredPart
        ? 'part unmeasured'
        : !isMeasured(ask, 'before')
          ? 'before unmeasured'
          : isMeasured(ask, 'after')
            ? 'both measured'
            : 'before measured',
      trueLogGain: Math.log(after.averageFps / before.averageFps),
      trueBeforeFps: before.averageFps,
      measuredLogGain: shop.measuredGain(ask),
      said: answers.map((answer) =>
        answer({ machineTag, before: ask.before, after: ask.after, titleId, settingId }),
      ),
    }
  })
}

/** Asks that every predictor answers. */
export const answeredByAll = (answered: readonly Answered[]): Answered[] =>
  answered.filter((a) => a.said.every((said) => said !== undefined))

const mean = (values: readonly number[]): number =>
  values.length === 0 ? Number.NaN : values.reduce((sum, x) => sum + x, 0) / values.length

const share = <T>(list: readonly T[], holds: (item: T) => boolean): number =>
  list.length === 0 ? Number.NaN : list.filter(holds).length / list.length

const within = (x: number, [low, high]: Ends) => x >= low && x <= high

const percentGain = (beforeFps: number, logGain: number, targetFps: number): number =>
  100 * (Math.min(targetFps, beforeFps * Math.exp(logGain)) / Math.min(targetFps, beforeFps) - 1)

/**
 * Regret of one question: nothing is bought when nothing is thought to gain. Between 0 (bought the best) and 1 (bought
 * nothing, or what gains nothing); `undefined` where no option is worth having or nothing was answered.
 */
export const regretOf = (
  options: readonly Answered[],
  predictor: number,
  useful: boolean,
): number | undefined => {
  const ranked = options.map(({ ask, said, trueBeforeFps, trueLogGain }) => {
    const guess = said[predictor]
    const target = useful ? ask.targetFps : Number.POSITIVE_INFINITY
    return {
      gain: percentGain(trueBeforeFps, trueLogGain, target),
      price: ask.priceUsd,
      guessPerDollar:
        guess === undefined ? undefined : percentGain(guess.beforeFps, guess.logGain, target) / ask.priceUsd,
    }
  })
  if (Math.max(...ranked.map((o) => o.gain)) < 100 * LEAST_BEST_GAIN) return undefined
  const best = Math.max(...ranked.map((o) => o.gain / o.price))
  let bought: (typeof ranked)[number] | undefined
  let answered = false
  for (const option of ranked) {
    if (option.guessPerDollar === undefined) continue
    answered = true
    if (option.guessPerDollar > (bought?.guessPerDollar ?? 0)) bought = option
  }
  if (!answered) return undefined
  return bought === undefined ? 1 : 1 - Math.max(0, bought.gain / bought.price / best)
}

const questionsOf = (answered: readonly Answered[]): Answered[][] => {
  const questions = new Map<string, Answered[]>()
  for (const a of answered) {
    const key = `${a.shop}|${a.ask.question}`
    const list = questions.get(key)
    if (list === undefined) questions.set(key, [a])
    else list.push(a)
  }
  return [...questions.values()]
}

/** How one predictor does on these asks. */
export const scoreOf = (answered: readonly Answered[], predictor: number): Score => {
  const given = answered.flatMap(({ said, trueLogGain, measuredLogGain }) => {
    const guess = said[predictor]
    return guess === undefined ? [] : [{ guess, trueLogGain, measuredLogGain }]
  })
  const errors = given.map(({ guess, trueLogGain }) => Math.abs(guess.logGain - trueLogGain))
  const questions = questionsOf(answered)
  const regrets = questions.flatMap((options) => regretOf(options, predictor, false) ?? [])
  const usefulRegrets = questions.flatMap((options) => regretOf(options, predictor, true) ?? [])
  return {
    asks: answered.length,
    refused: share(answered, ({ said }) => said[predictor] === undefined),
    meanError: mean(errors),
    farOff: share(errors, (e) => e > FAR_OFF),
    inHalf: share(given, ({ guess, trueLogGain }) => within(trueLogGain, guess.half)),
    inFourFifths: share(given, ({ guess, trueLogGain }) => within(trueLogGain, guess.fourFifths)),
    inNineTenths: share(given, ({ guess, trueLogGain }) => within(trueLogGain, guess.nineTenths)),
    kept: share(given, ({ guess, measuredLogGain }) => within(measuredLogGain, guess.fourFifths)),
    halfWidth: mean(given.map(({ guess }) => (guess.fourFifths[1] - guess.fourFifths[0]) / 2)),
    regret: mean(regrets),
    usefulRegret: mean(usefulRegrets),
    questions: regrets.length,
    usefulQuestions: usefulRegrets.length,
  }
}

/** What measuring both ends once on the machine would get wrong itself: no predictor need do better. */
export const floorOf = (answered: readonly Answered[]): Pick<Score, 'meanError' | 'farOff'> => {
  const errors = answered.map((a) => Math.abs(a.measuredLogGain - a.trueLogGain))
  return { meanError: mean(errors), farOff: share(errors, (e) => e > FAR_OFF) }
}

/** Ways to cut the asks into rows of the table. Regret is told over whole questions only: under `all`. */
export const CUTS = {
  all: { names: ['all'], of: () => 'all' },
  kind: { names: CHANGE_KINDS, of: (a: Answered) => a.ask.kind },
  evidence: { names: EVIDENCE, of: (a: Answered) => a.evidence },
} as const satisfies Record<string, { names: readonly string[]; of: (a: Answered) => string }>
export type Cut = keyof typeof CUTS
