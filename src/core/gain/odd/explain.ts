import { pictureKey } from '../model/cells.ts'
import { smax } from '../model/smax.ts'
import type { Expecting, Place, Said } from './expect.ts'
import { type Judged, logTime, type Outlook, runVariance } from './judge.ts'
import type { Neighbours } from './neighbours.ts'
import type { OddGuess } from './odd.ts'
import {
  CARD_SLOWED,
  CARD_SLOWED_SHARE,
  FINE_NU,
  KIND_PRIORS,
  PLAIN_RATE_MTS,
  PROCESSOR_SLOWED,
  SLIP_PRIORS,
  UNKNOWN_WIDTH,
} from './priors.ts'
import { slipsOf } from './slips.ts'

export type Weighed = { readonly guess: OddGuess; readonly weight: number }
/** Probability that nothing is wrong, and explanations, the likeliest first. */
export type Explained = { readonly fine: number; readonly guesses: readonly Weighed[] }

const LOG_PI = Math.log(Math.PI)

/**
 * Bayes' rule over what may have happened: nothing (Student's t around the outlook), a slip of the hand, something that
 * slowed a side, memory not as noted, another setting, title, machine or driver. Each explanation says where the run would
 * lie; its prior times its density there is its weight. Densities are of log frame time.
 */
export function explain(
  expecting: Expecting,
  judged: Judged,
  now: Outlook,
  neighbours: Neighbours,
): Explained {
  const { run } = judged
  const y = logTime(run)
  const { mean, variance } = now
  const spread = Math.sqrt(variance)
  const slips = slipsOf(run.averageFps).map(({ fps, slip, among }): Weighed => {
    const weight = (SLIP_PRIORS[slip] / among) * tDensity(logTime({ averageFps: fps }) - mean, spread)
    return { guess: { kind: 'digit', slip, ...(slip !== 'digit missing' && { fps }) }, weight }
  })
  const guesses = [
    ...joined(slips),
    ...slowed(y, now),
    ...elsewhere(expecting, judged, now, neighbours),
    ...otherTitles(expecting, judged, y, neighbours),
    ...driver(judged, y, now, neighbours),
    { guess: { kind: 'unknown' }, weight: KIND_PRIORS.unknown / UNKNOWN_WIDTH } as const,
  ].sort((p, q) => q.weight - p.weight)
  const wrong = guesses.reduce((sum, { weight }) => sum + weight, 0)
  const fine = FINE_PRIOR * tDensity(y - mean, spread)
  return { fine: fine / (fine + wrong), guesses: guesses.filter(({ weight }) => weight > 0) }
}

const FINE_PRIOR =
  1 - [...Object.values(SLIP_PRIORS), ...Object.values(KIND_PRIORS)].reduce((sum, prior) => sum + prior, 0)

/** Density of Student's t with FINE_NU degrees of freedom (5: Gamma(3) / Gamma(2.5) = 2 / (0.75 sqrt pi)). */
function tDensity(off: number, spread: number): number {
  const scaled = (off / spread) ** 2 / FINE_NU
  return (T_SCALE / spread) * (1 + scaled) ** (-(FINE_NU + 1) / 2)
}
const T_SCALE = 8 / (3 * Math.PI * Math.sqrt(FINE_NU))

const normalDensity = (off: number, variance: number): number =>
  Math.exp(-(off * off) / (2 * variance) - 0.5 * (Math.log(2 * variance) + LOG_PI))

/** Of the many digits that may be missing one explanation, with all their weight. */
function joined(slips: readonly Weighed[]): Weighed[] {
  const isMissing = ({ guess }: Weighed) => guess.kind === 'digit' && guess.slip === 'digit missing'
  const missing = slips.filter(isMissing)
  const weight = missing.reduce((sum, slip) => sum + slip.weight, 0)
  return [
    ...slips.filter((slip) => !isMissing(slip)),
    ...(missing[0] === undefined ? [] : [{ guess: missing[0].guess, weight }]),
  ]
}

/** One side took longer: the frame only where that side counts. What the cell itself is off stays. */
function slowed(y: number, { mean, variance, said }: Outlook): Weighed[] {
  const longer = (by: readonly number[], side: 'a' | 'b'): number =>
    by.reduce((sum, more) => {
      const t = side === 'a' ? smax(said.a + more, said.b, said.p) : smax(said.a, said.b + more, said.p)
      return sum + normalDensity(y - (mean + t - said.t), variance + STEP_VARIANCE)
    }, 0) / by.length
  const { slowed: prior } = KIND_PRIORS
  return [
    {
      guess: { kind: 'slowed', side: 'processor' },
      weight: prior * (1 - CARD_SLOWED_SHARE) * longer(PROCESSOR_SLOWED, 'a'),
    },
    {
      guess: { kind: 'slowed', side: 'card' },
      weight: prior * CARD_SLOWED_SHARE * longer(CARD_SLOWED, 'b'),
    },
  ]
}
/** Between two steps of slowing. */
const STEP_VARIANCE = 0.1 ** 2 / 12

type Other = { readonly place: Place; readonly guess: OddGuess; readonly prior: number }

/** Explanations by which the run stands elsewhere in the same title. */
function elsewhere(
  expecting: Expecting,
  { run, place, block, unheard }: Judged,
  now: Outlook,
  neighbours: Neighbours,
): Weighed[] {
  const { fit } = expecting
  const { memory } = run.fitted
  const withMemory = (over: Partial<typeof memory>): Place => ({
    ...place,
    fitted: { ...place.fitted, memory: { ...memory, ...over } },
  })
  const plain = Object.hasOwn(PLAIN_RATE_MTS, memory.memoryType)
    ? PLAIN_RATE_MTS[memory.memoryType]
    : undefined
  const settings = neighbours.settings(run).flatMap((settingId) => {
    const setting = fit.catalog.settings.get(settingId)
    const picture = setting && pictureKey(setting)
    const isSame = picture === undefined || picture === place.picture
    return isSame || expecting.blockOf({ titleId: run.titleId, settingId }) !== block
      ? []
      : [{ settingId, picture }]
  })
  const machines = neighbours.machines(run)
  const others: Other[] = [
    ...(memory.channels > 1
      ? [
          {
            place: withMemory({ channels: 1 }),
            guess: { kind: 'memory', channels: 1 },
            prior: KIND_PRIORS.memory / 2,
          } as const,
        ]
      : []),
    ...(plain !== undefined && plain < memory.rateMts
      ? [
          {
            place: withMemory({ rateMts: plain }),
            guess: { kind: 'memory', rateMts: plain },
            prior: KIND_PRIORS.memory / 2,
          } as const,
        ]
      : []),
    ...settings.map(
      ({ settingId, picture }): Other => ({
        place: { ...place, settingId, picture },
        guess: { kind: 'setting', settingId },
        prior: KIND_PRIORS.setting / settings.length,
      }),
    ),
    ...machines.map(
      ({ fitted, machineTag }): Other => ({
        place: { ...place, fitted },
        guess: { kind: 'machine', machineTag, cardId: fitted.cardId, processorId: fitted.processorId },
        prior: KIND_PRIORS.machine / machines.length,
      }),
    ),
  ]
  if (others.length === 0) return []
  const said = expecting.at(block, [place, ...others.map((other) => other.place)], unheard)
  const y = logTime(run)
  return others.map(({ guess, prior }, k) => {
    const there = said[k + 1] as Said
    // Other memory is the same cell but for the memory, so what the cell is off stays; another place is another cell.
    const isNear = guess.kind === 'memory'
    const mean = isNear ? now.mean + there.t - now.said.t : there.t
    const variance = isNear ? now.variance : there.variance + fit.average.scales.tau ** 2 + runVariance(fit)
    return { guess, weight: prior * tDensity(y - mean, Math.sqrt(variance)) }
  })
}

/** Rows of a sheet that were mixed up: what another title of that day makes. */
function otherTitles(
  expecting: Expecting,
  { run, place }: Judged,
  y: number,
  neighbours: Neighbours,
): Weighed[] {
  const { fit } = expecting
  const titles = neighbours.titles(run)
  return titles.flatMap((titleId): Weighed[] => {
    const there: Place = { ...place, titleId, versionsBack: 0, otherScene: '' }
    const block = expecting.blockOf(there)
    const said = block < 0 ? undefined : expecting.at(block, [there])[0]
    if (said === undefined) return []
    const variance = said.variance + fit.average.scales.tau ** 2 + runVariance(fit)
    const weight = (KIND_PRIORS.title / titles.length) * tDensity(y - said.t, Math.sqrt(variance))
    return [{ guess: { kind: 'title', titleId }, weight }]
  })
}

/** Off in the same way as the card's runs with the same driver in other titles: at least two, all to one side. */
function driver({ run }: Judged, y: number, { mean, variance }: Outlook, neighbours: Neighbours): Weighed[] {
  const { driverVersion } = run
  const others = neighbours.withDriver(run)
  const offs = others.map(({ off }) => off).sort((p, q) => p - q)
  const middle = offs[offs.length >> 1]
  if (driverVersion === undefined || middle === undefined || offs.length < DRIVER_LEAST) return []
  const toOneSide = offs.every((off) => off > 0) || offs.every((off) => off < 0)
  if (!toOneSide || Math.abs(middle) < DRIVER_OFF) return []
  const runIds = others.map(({ runId }) => runId)
  const weight = KIND_PRIORS.driver * normalDensity(y - (mean + middle), variance)
  return [{ guess: { kind: 'driver', driverVersion, runIds }, weight }]
}
const DRIVER_LEAST = 2
/** Less than this is no driver's doing. */
const DRIVER_OFF = 0.05
