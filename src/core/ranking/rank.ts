import { type Build, type Change, NO_CHANGE } from '../build.ts'
import type { Judged } from '../fit/judgeChange.ts'
import { between } from '../gain/between.ts'
import type { GainModel, LogGain, TitleGain } from '../gain/gain.ts'
import { FOUR_OF_FIVE_SD } from '../gain/noise.ts'
import { type Fitted, fittedKey, type MemoryAsItRuns } from '../gain/run.ts'
import { sdOfSum, seenGains } from '../gain/useful.ts'
import { fittedOf } from '../limits/asItRuns.ts'
import type { Machine } from '../machine.ts'
import type { Part } from '../part.ts'
import type { Question, Wanted } from '../question.ts'
import type { ShelfItem, ShopPolicy, TradeIn, WorkPrice } from '../shop.ts'
import { effectOf } from '../work/catalogue.ts'
import { workBase } from './bases.ts'
import { complete, type Draft, searchOf, withNothing } from './companions.ts'
import { doubtedWith } from './doubted.ts'
import { optionOf, titlesAtTarget } from './draftOption.ts'
import { lookerOf } from './look.ts'
import type { Option, Ranking } from './option.ts'
import { picksOf } from './picks.ts'
import { type Drafts, draftsOf, partsAlone, placesOf, ruledOutOf } from './places.ts'
import { priceTableOf } from './price.ts'
import type { Sound } from './quiet.ts'
import { movesAndFitOf } from './search/moves.ts'
import { widen } from './search/widen.ts'
import { offersOf } from './shelf.ts'
import { byPrice, byStanding, onGrid, type Standing } from './standing.ts'
import { leaderGroups } from './ties.ts'
import { ifUndone, isOutsideRuns, worksToday } from './works.ts'

/** Raise it when the same inputs would be ranked in another way. */
export const RANKING_VERSION = '6'

export type RankInput = {
  readonly machine: Machine
  readonly question: Question
  readonly parts: readonly Part[]
  readonly shelf: readonly ShelfItem[]
  readonly work: readonly WorkPrice[]
  readonly tradeIns: readonly TradeIn[]
  readonly policy: ShopPolicy
  readonly model: GainModel
  readonly judge: (machine: Machine, change: Change) => Judged
  /** How the machine's memory ran in its own runs, for modules nobody described. */
  readonly seenMemory?: MemoryAsItRuns | undefined
  /** What was measured for a wish for quiet; absent: that wish leaves nothing out. */
  readonly sound?: Sound | undefined
  /** Rank bundles of any size; the judge must then be the rules themselves, for they are compiled. Absent: see below. */
  readonly bundles?: boolean | undefined
}

/**
 * Ranks what the shelf allows for one machine and one question: every single part and every pair of processor, memory
 * and card, each with the cheapest minimal set of the parts that rules demand beside it, except pairs of which one part
 * does nothing for the frame rate, as far as anybody knows; every work that is to do, alone, beside one part where it moves what runs are told
 * by, and two such works. Exact within that, by trying all of them.
 *
 * With `bundles` every combination of board, processor, memory, card, case, cooler, supply and such works is searched beside that,
 * exactly (search/bundles.ts): the steps of its frontiers worth showing are ranked too, and for a part that goes in with others only,
 * the best with it. There nothing need demand a companion: a supply whose trade-in is worth more than it costs makes a bundle cheaper.
 *
 * Every gainful part of the shelf has one place: ranked, without a number, needs a fact, or ruled out; except a
 * processor, card or board that is fitted already, which is no change. With no titles, or none of positive weight,
 * nothing is ranked. The input's order does not matter, and nothing of it is changed.
 * Cost: about (parts^2 / 3) judgements, times the companions tried.
 */
export function rank(input: RankInput): Ranking {
  const { machine, question } = input
  const desk = deskOf(input)
  const { offers, unwanted, search, apart, judgedToday, fittedToday, fittedAfter, gains } = desk
  const works = worksToday(judgedToday)
  const fit = input.bundles === true ? movesAndFitOf(desk, input) : undefined
  const searching = fit === undefined ? search : { ...search, look: lookerOf(fit) }
  const { isTried, ...drafts } = draftsOf(offers, works.toDo, searching, (base, alone) => {
    const end = fittedAfter(withNothing(base, searching))
    return end !== undefined && isIdle(end, alone.map(fittedAfter), desk, question)
  })
  const aloneOf = partsAlone(drafts.fitting)
  const { optionFrom } = desk
  const wide = fit && widen(desk, input, isTried, fit)
  const optionFor = (draft: Draft): Option =>
    optionFrom(
      fittedToday,
      draft,
      wide?.aloneOf(draft) ??
        aloneOf(draft).flatMap((alone) => (alone === undefined ? [] : [fittedAfter(alone)])),
    )
  const standingsOf = (fitting: readonly Draft[]): Standing[] =>
    fitting
      .filter(hasPrice)
      .flatMap((draft) => standingOf(optionFor(draft), fittedAfter(draft), question))
      .sort(byStanding)
  const placed = (all: Drafts) => {
    const standings = standingsOf(all.fitting)
    const ranked = new Map(standings.map((s) => [s.option.id, s.option]))
    return { standings, ranked, places: placesOf(offers, all, (draft) => ranked.has(draft.id)) }
  }
  const fewer = placed(wide === undefined ? drafts : wide.withFrontiers(drafts))
  const { standings, ranked, places } =
    wide === undefined ? fewer : placed(wide.withHomes(drafts, fewer.places.homeless))

  const today = gains(fittedToday, fittedToday)
  const checkFirst = works.check.flatMap(({ work, limits }) => {
    const { fitting, unclear } = complete(workBase(work), search)
    const draft = fitting ?? unclear
    const undone = input.judge(ifUndone(machine, work), NO_CHANGE)
    const from = fittedOf(undone.after, undone.limitsAfter)
    return draft === undefined ? [] : [{ option: optionFrom(from, draft), limits }]
  })
  const titlesAtTargetToday = titlesAtTarget(today, question)
  return {
    ranked: [...ranked.values()],
    groups: leaderGroups(standings, apart),
    withoutNumber: places.noNumber.map(optionFor).sort(byPrice),
    needsAFact: places.unclear.map(optionFor).sort(byPromise),
    ruledOut: ruledOutOf(places.homeless, unwanted, search),
    checkFirst: checkFirst.sort((a, b) => byPromise(a.option, b.option)),
    ...picksOf(standings, question, titlesAtTargetToday),
    ...(wide && { cautiousIds: wide.cautiousIds.filter((id) => ranked.has(id)) }),
    today,
    titlesAtTargetToday,
  }
}

/** What one machine, one question and one shelf have in common for every change that is judged. */
export type Desk = ReturnType<typeof deskOf>

/** Lays out what `rank` works with, for changes that are no offer of the shelf as well. */
export function deskOf(input: RankInput) {
  const { machine, question, policy } = input
  const { offers, unwanted } = offersOf(input.shelf, input.parts, question.wishes, machine.build, input.sound)
  const prices = priceTableOf(input.work, input.tradeIns, policy)
  const search = searchOf(machine.build, offers, prices, (change) => input.judge(machine, change))
  const gainOf = remembered((titleId, settingId, before, after) =>
    input.model.predict({ titleId, settingId, machineTag: machine.tag, before, after }),
  )
  const apart = remembered((titleId, settingId, first, second) =>
    between(input.model, { titleId, settingId, machineTag: machine.tag }, first, second),
  )
  const judgedToday = input.judge(machine, NO_CHANGE)
  const fittedToday = fittedOf(machine.build, judgedToday.limitsAfter, input.seenMemory)
  const fittedAfter = ({
    change,
    outcome: { after, limitsAfter },
  }: Pick<Draft, 'change' | 'outcome'>): Fitted | undefined =>
    fittedOf(after, limitsAfter, leavesMemory(machine.build, after, change) ? input.seenMemory : undefined)
  const gains = (from: Fitted | undefined, to: Fitted | undefined) =>
    question.wanted.map((wanted) => gainOf(wanted, from, to))
  const optionFrom = (
    from: Fitted | undefined,
    draft: Draft,
    alone: readonly (Fitted | undefined)[] = [],
  ): Option => {
    const to = fittedAfter(draft)
    const told = isOutsideRuns(draft.base)
      ? untold(gains(from, from), from, question)
      : doubtedWith(
          gains(from, to),
          alone.map((end) => gains(from, end)),
        )
    const option = optionOf(draft, told, question, policy)
    return draft.surely === undefined ? option : { ...option, surely: optionFrom(from, draft.surely) }
  }
  const optionFor = (draft: Draft): Option => optionFrom(fittedToday, draft)
  return {
    ...{ offers, unwanted, prices, search, apart, judgedToday, fittedToday },
    ...{ fittedAfter, gains, optionFrom, optionFor },
  }
}

/** What is fitted today and after a change, as far as frame rates go; `undefined` where it is not known. */
export function endsOf(
  { fittedToday, fittedAfter }: Desk,
  { judge, machine }: RankInput,
  change: Change,
): { readonly before: Fitted | undefined; readonly after: Fitted | undefined } {
  return { before: fittedToday, after: fittedAfter({ change, outcome: judge(machine, change) }) }
}

/**
 * One of the two does nothing: the machine after the pair runs as after one of them alone. Or nobody ran the pair and it cannot
 * be told apart from one of them alone: the 80 % interval of what the second part adds, over the owner's titles, does not lie
 * above 0. A pair that was run stays then, whatever came out. An end that is not known says nothing.
 */
function isIdle(
  after: Fitted,
  alone: readonly (Fitted | undefined)[],
  { gains, apart, fittedToday }: Desk,
  { wanted }: Question,
): boolean {
  const ends = alone.filter((end) => end !== undefined)
  const key = fittedKey(after)
  if (ends.some((end) => fittedKey(end) === key)) return true
  const ofPair = gains(fittedToday, after).flatMap((gain, i) => {
    const title = wanted[i]
    return gain.grade !== 'no number' && title !== undefined && title.weight > 0 ? [{ gain, title }] : []
  })
  if (ofPair.length === 0 || ofPair.some(({ gain }) => gain.after.runIds.length > 0)) return false
  const weights = ofPair.reduce((sum, { title }) => sum + title.weight, 0)
  return ends.some((first) => {
    const more = ofPair.flatMap(({ title }) => {
      const adds = apart(title, first, after)
      return adds === undefined ? [] : [{ share: title.weight / weights, ...adds }]
    })
    if (more.length < ofPair.length) return false
    const mean = more.reduce((sum, { share, logGain }) => sum + share * logGain, 0)
    return mean <= FOUR_OF_FIVE_SD * sdOfSum(more.map(({ share, sd }) => share * sd))
  })
}

/** The largest gain first, those without a number last; then the lower price. */
const byPromise = (a: Option, b: Option): number => {
  const promise = ({ useful }: Option) => (useful === undefined ? -101e9 : onGrid(useful.pct))
  return promise(b) - promise(a) || byPrice(a, b)
}

/** An option's standing; none without a number. */
function standingOf(option: Option, after: Fitted | undefined, question: Question): Standing[] {
  const { useful, price, pctPer100 } = option
  if (useful === undefined || after === undefined) return []
  const seen = seenGains(option.gains, question)
  const gains = onGrid(useful.pct) > 0
  return [
    {
      option,
      useful,
      seen,
      after,
      titles: JSON.stringify(seen.map(({ wanted }) => [wanted.titleId, wanted.settingId])),
      titleWeight: seen.reduce((sum, { wanted }) => sum + wanted.weight, 0),
      class: !gains ? 2 : price.netMinor <= 0 ? 0 : 1,
      value: gains && pctPer100 !== undefined ? pctPer100 : useful.pct,
    },
  ]
}

/** A work that is done for its own sake has a place by money only where the shop has priced it. */
const hasPrice = ({ base, price }: Draft): boolean =>
  base.chosen.every((work) => !price.unpriced.includes(work))

/**
 * No number for work that no run is told by: nothing that was measured speaks of it. The run that would tell is one of
 * the machine as it is, before the work and after it.
 */
const untold = (
  today: readonly TitleGain[],
  fitted: Fitted | undefined,
  { wanted }: Question,
): readonly TitleGain[] =>
  wanted.map(({ titleId, settingId }, i) => ({
    grade: 'no number',
    titleId,
    because: 'not told by runs',
    before: today[i]?.before,
    wanted: fitted === undefined ? [] : [{ titleId, settingId, fitted }],
  }))

/** Nothing that the memory's rate hangs on changes: neither parts nor a work. */
const leavesMemory = (before: Build, after: Build, { work }: Change): boolean =>
  before.processor?.id === after.processor?.id &&
  before.board?.id === after.board?.id &&
  before.memory.length === after.memory.length &&
  before.memory.every((kit, i) => kit.id === after.memory[i]?.id) &&
  MEMORY_STATES.every((key) => !effectOf(work).ends.has(key))

const MEMORY_STATES = ['memoryRunsMts', 'memoryProfileOn', 'modulesInBothChannels'] as const

type Ends<T> = (
  titleId: string,
  settingId: string,
  before: Fitted | undefined,
  after: Fitted | undefined,
) => T

/** What a model answers to two ends, each asked once. */
function remembered<T extends TitleGain | LogGain | undefined>(ask: Ends<T>) {
  const byTitle = new Map<string, Map<string, Map<string, T>>>()
  const nameOf = (end: Fitted | undefined): string => (end === undefined ? '' : fittedKey(end))
  return ({ titleId, settingId }: Wanted, before: Fitted | undefined, after: Fitted | undefined): T => {
    const byBefore = within(byTitle, JSON.stringify([titleId, settingId]))
    const byAfter = within(byBefore, nameOf(before))
    const known = byAfter.get(nameOf(after))
    if (known !== undefined) return known
    const fresh = ask(titleId, settingId, before, after)
    byAfter.set(nameOf(after), fresh)
    return fresh
  }
}

function within<K, L, V>(map: Map<K, Map<L, V>>, key: K): Map<L, V> {
  const known = map.get(key)
  if (known !== undefined) return known
  const fresh = new Map<L, V>()
  map.set(key, fresh)
  return fresh
}
