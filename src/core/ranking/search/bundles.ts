import { FOUR_OF_FIVE_SD } from '../../gain/noise.ts'
import type { Fitted } from '../../gain/run.ts'
import { sdOfSum, seenGains } from '../../gain/useful.ts'
import { changeOf } from '../bases.ts'
import { type Draft, draftOf, isFittingAlone } from '../companions.ts'
import type { Desk, RankInput } from '../rank.ts'
import { objectivesOf } from './gains.ts'
import { type MachineSpace, machineSpace, type Places } from './machineSpace.ts'
import { movesAndFitOf } from './moves.ts'
import { type Pricing, pricing } from './price.ts'
import { NO, type Priced, type Space } from './space.ts'
import { frontier, type Objective, type Step } from './sweep.ts'

/** A combination that the search found, as a change of parts, with what doubts its estimate. */
export type Found = {
  readonly draft: Draft
  readonly alone: readonly (Fitted | undefined)[]
  /** Natural log of the useful gain, or its lower end, or titles: as its frontier counts. */
  readonly value: number
}

export type Bundles = {
  /** All steps of the frontier of the useful gain: nothing that costs no more gains as much. */
  readonly steps: readonly Step[]
  /** Of these the ones to show: each adds at least 1 % to the one shown before it, and is told apart from it. */
  readonly shown: readonly Found[]
  /** The frontier of the lower ends, thinned likewise. */
  readonly cautious: readonly Found[]
  /** The cheapest way to each number of titles at the target, more than today. */
  readonly toTarget: readonly Found[]
  /** The frontier of what holds that shelf item, thinned; empty where it goes in with nothing, or gains nothing. */
  readonly having: (itemId: string) => readonly Found[]
}

/**
 * The exact search over every bundle that the shelf allows for this machine: board, processor, memory, card, case, cooler,
 * supply, and works that move what runs are told by. Call it with the real rules only: they are compiled (fit/compiled.ts).
 *
 * `isUnclearFine`: what nobody can tell counts as fitting. What is then better is what finding out may open.
 */
export function bundlesOf(
  desk: Desk,
  input: RankInput,
  isUnclearFine = false,
  fit = movesAndFitOf(desk, input),
): Bundles {
  const at = machineSpace(desk, input, isUnclearFine, fit)
  const objectives = objectivesOf(desk, input, at)
  const prices = pricing(at.space)
  const sweep = (objective: Objective, space = at.space, of: Pricing = prices): Step[] =>
    frontier({ space, prices: of, objective })
  const found = (step: Step): Found[] => {
    const draft = draftFor(desk, input, at, step, isUnclearFine)
    const alone = objectives.aloneOf(step.gainClass, step.card)
    return draft === undefined ? [] : [{ draft, alone, value: step.value }]
  }
  const thinned = (steps: readonly Step[]): Found[] => thin(steps, desk, input, at).flatMap(found)
  const steps = sweep(objectives.median)
  return {
    steps,
    shown: thinned(steps),
    cautious: thinned(sweep(objectives.cautious)),
    toTarget: sweep(objectives.reached).flatMap(found),
    having: (itemId) => {
      const space = onlyWith(at.space, at.placesOf(itemId))
      if (space === undefined) return []
      return thinned(sweep(objectives.median, space, pricing(space)))
    },
  }
}

/** The found combination as a draft, judged by the rules themselves. */
function draftFor(
  { search }: Desk,
  { machine, judge }: RankInput,
  at: MachineSpace,
  priced: Priced,
  isUnclearFine: boolean,
): Draft | undefined {
  const { base, companions } = at.baseOf(priced)
  const judged = judge(machine, changeOf(base, companions))
  return isUnclearFine || isFittingAlone(judged) ? draftOf(base, companions, judged, search) : undefined
}

/** What is added to the last one shown, in log, at least: 1 %. */
const LEAST_STEP = Math.log(1.01)

/** Steps worth showing. Steps of other sets of titles are thinned by themselves. */
function thin(steps: readonly Step[], desk: Desk, input: RankInput, at: MachineSpace): Step[] {
  const last = new Map<string, Step>()
  return steps.filter((step) => {
    const before = last.get(step.set)
    if (step.value - (before?.value ?? 0) < LEAST_STEP) return false
    if (!isApart(before, step, desk, input, at)) return false
    last.set(step.set, step)
    return true
  })
}

/** The 80 % interval of what the step adds to the one before lies above 0; see ranking/ties.ts. */
function isApart(
  before: Step | undefined,
  step: Step,
  { gains, apart, fittedToday }: Desk,
  { question }: RankInput,
  at: MachineSpace,
): boolean {
  const [from, to] = [
    before ? at.endOf(before.gainClass, before.card) : fittedToday,
    at.endOf(step.gainClass, step.card),
  ]
  if (from === undefined || to === undefined) return false
  let mean = 0
  const sds: number[] = []
  for (const { wanted, weight } of seenGains(gains(fittedToday, to), question)) {
    const adds = apart(wanted, from, to)
    if (adds === undefined) return true
    mean += weight * adds.logGain
    sds.push(weight * adds.sd)
  }
  return mean > FOUR_OF_FIVE_SD * sdOfSum(sds)
}

/** The space with the lists cut to combinations that hold one item; undefined where it is in none. */
export function onlyWith(space: Space, places: Places): Space | undefined {
  if (Object.keys(places).length === 0) return undefined
  const all = (list: readonly unknown[]) => list.map((_, i) => i)
  const p = places.platform ?? all(space.platforms)
  const g = places.card ?? all(space.cards)
  const c = places.case ?? all(space.cases)
  const k = places.cooler ?? all(space.coolers)
  const s = places.supply ?? all(space.supplies)
  // Lists keep their places, so that classes, ends and changes are found by them; what is cut out fits nowhere.
  const set = (list: readonly number[]) => new Set(list)
  const [inP, inG, inC, inK, inS] = [set(p), set(g), set(c), set(k), set(s)]
  return {
    ...space,
    platforms: space.platforms.map((platform, i) => (inP.has(i) ? platform : { ...platform, class: -1 })),
    // A card without a price is never looked at.
    cards: space.cards.map((card, i) =>
      inG.has(i) ? card : { ...card, priceMinor: Number.POSITIVE_INFINITY },
    ),
    cardFits: (a, b) => (inP.has(a) && inG.has(b) ? space.cardFits(a, b) : NO),
    caseFits: (a, b, d) => (inC.has(d) ? space.caseFits(a, b, d) : NO),
    coolerFits: (a, b, d, e) => (inK.has(e) ? space.coolerFits(a, b, d, e) : NO),
    supplyFits: (a, b, d, e) => (inS.has(e) ? space.supplyFits(a, b, d, e) : NO),
  }
}
