import type { End, Grade, TitleGain } from '../../core/gain/gain.ts'
import { REPEATS_AGREE_LOG } from '../../core/gain/noise.ts'
import type { Pace } from '../../core/gain/pace/pace.ts'
import { PACE_CLEAR, PACE_LEANING } from '../../core/gain/pace/pace.ts'
import { isPromised } from '../../core/gain/useful.ts'
import { pacesOf } from '../../core/paceOfAnswer.ts'
import { displayOf } from '../../core/question.ts'
import { heldBackBy } from '../../core/ranking/heldBack.ts'
import { outwards, wholeOf } from '../figures.ts'
import { sayAdds, sayPace } from '../pace.ts'
import { type Filling, fill, fillPieces, type Piece } from '../say.ts'
import { type Context, optionWords } from './context.ts'
import { decidingFacts } from './facts.ts'
import type { GameRow, Letter } from './letter.ts'
import { type Case, type Known, knownGains } from './pick.ts'
import { aboutAfter, isEstimate, ratesOf, todayOf } from './rates.ts'
import { halfSaid } from './strip.ts'
import { isWorkOnly } from './workOnly.ts'

/** Bars weigh about 4 kB a game; mail programs cut a mail near 100 kB. The other games are told in sentences. */
export const BARS_MOST = 8

/** More names than these make the sentence too long to read at once. */
const NAMED_MOST = 2

type NoNumber = Extract<TitleGain, { grade: 'no number' }>

type Telling = {
  readonly ctx: Context
  /** All rows have the same grade: it is said once, above them. */
  readonly oneGrade: boolean
  /** All figures of today come from other machines: said once. */
  readonly allElsewhere: boolean
  /** All figures of afterwards come from other machines, and today's from this one: said once. */
  readonly afterElsewhere: boolean
  readonly oneSetting: boolean
  /** What sets the pace today, in the order of the titles; told where nothing is bought. */
  readonly paces: readonly (Pace | undefined)[]
  /** The first interval is told in full, later ones short. */
  intervalTold: boolean
  lowGlossed: boolean
}

/** One row a wanted title: today and afterwards, the interval, slow moments, and what is odd about the number. */
export function gamesOf(ctx: Context): Letter['games'] {
  const { answer, pick, words, figures } = ctx
  const w = words.games
  const { question } = answer.inputs
  const gains = pick?.gains ?? answer.ranking.today
  const [firstWanted] = question.wanted
  if (firstWanted === undefined || gains.length === 0) return undefined
  const known = knownGains(gains)
  const grades = new Set(known.map((g) => g.grade))
  const [onlyGrade] = grades
  const hz = displayOf(question).refreshHz
  const settings = new Set(question.wanted.map((x) => x.settingId))
  const telling: Telling = {
    ctx,
    oneGrade: grades.size === 1 && pick !== undefined,
    allElsewhere: known.length > 0 && known.every((g) => isElsewhere(g.before)),
    afterElsewhere:
      pick !== undefined &&
      known.length > 0 &&
      known.every((g) => g.before.onThisMachine && isElsewhere(g.after)),
    oneSetting: settings.size === 1,
    paces: pick === undefined ? pacesOf(answer.inputs) : [],
    intervalTold: false,
    lowGlossed: false,
  }
  const rows = gains.map((g, i) => rowOf(telling, g, question.wanted[i]?.settingId, telling.paces[i]))
  const shownRows = rows.slice(0, BARS_MOST)
  const isAllSure = gains.every((g) => g.grade === 'no number' || !g.disagrees)
  return {
    head: w.head,
    intro: [
      telling.oneSetting
        ? fill(w.average, { setting: ctx.settingWords(firstWanted.settingId) })
        : w.averageMixed,
      ...(telling.oneGrade && onlyGrade !== undefined && isAllSure
        ? [known.length < gains.length ? w.numberGrade[onlyGrade] : ofAll(ctx, onlyGrade)]
        : []),
      ...(telling.allElsewhere ? [w.otherMachineAll] : []),
      ...(telling.afterElsewhere && !isHeld(ctx) ? [w.afterElsewhereAll] : []),
    ],
    drawn: shownRows.some((r) => r.bar)
      ? [
          pick === undefined ? w.drawnToday : w.drawn,
          fill(w.drawnTarget, { fps: figures.number(question.targetFps) }),
          ...(hz === undefined ? [] : [fill(w.drawnDisplay, { hz: figures.named('refreshHz', hz) })]),
        ]
      : [],
    targetFps: question.targetFps,
    displayHz: hz,
    targetSays: fill(w.target, { fps: figures.number(question.targetFps) }),
    displaySays: hz === undefined ? undefined : fill(w.display, { hz: figures.named('refreshHz', hz) }),
    rows: [...shownRows, ...rows.slice(BARS_MOST).map((r) => ({ ...r, bar: undefined }))],
    more: [...wantedRuns(ctx, pick === undefined ? gainsLooked(ctx) : gains), ...endOf(ctx, known)],
  }
}

/** Whose missing numbers a run would give, where nothing is recommended: those of what fits and has none. */
function gainsLooked({ answer }: Context): readonly TitleGain[] {
  const { ranked, withoutNumber, today } = answer.ranking
  const [first] = withoutNumber
  return ranked.length === 0 && first !== undefined ? [...today, ...first.gains] : today
}

/** What is said of afterwards where the rows tell today alone. */
export function afterwardsOf(ctx: Context, kind: Case, hasRoads: boolean): readonly string[] {
  const w = ctx.words.games.afterwards
  if (ctx.pick !== undefined) return []
  switch (kind) {
    case 'run':
      return [w.run]
    case 'fact':
      return [decidingFacts(ctx) === 1 ? w.fact : w.facts]
    default:
      return [hasRoads ? w.roads : w.same]
  }
}

/** That it is measured again, what is promised, and what a miss means. */
function endOf({ pick, words }: Context, known: readonly Known[]): readonly string[] {
  const w = words.games
  if (pick === undefined || known.length === 0) return []
  if (pick.verdict === "can't tell") return [w.ifItFits]
  if (!known.some(isPromisedHere)) return [w.end]
  return [w.end, isWorkOnly(pick) ? w.endMissWork : w.endMiss]
}

/** Where a miss is possible and nothing has to be run again first. */
const isPromisedHere = (gain: Known): boolean => isPromised(gain) && gain.sd > 0

/** The one figure of a game that is promised: the lower end of its range, as it is held against what is measured after the work. */
function promiseNote({ pick, words, figures }: Context, gain: Known): readonly string[] {
  if (pick === undefined || pick.verdict === "can't tell" || !isPromisedHere(gain)) return []
  const { low } = outwards(gain.afterFpsLow, gain.afterFpsHigh)
  return [fill(words.games.promise, { low: figures.fps(low) })]
}

/** Measured, and not on this machine. */
const isElsewhere = (end: End): boolean => !isEstimate(end) && !end.onThisMachine

/** Something holds the processor back here that did not where it was measured. */
const isHeld = ({ pick }: Context): boolean => pick !== undefined && heldBackBy(pick).length > 0

const ofAll = (ctx: Context, grade: Grade): string =>
  isHeld(ctx) && grade === 'measured'
    ? ctx.words.games.allHeld
    : ((ctx.pick && halfSaid(ctx, ctx.pick, grade)) ?? ctx.words.games.allGrade[grade])

function rowOf(t: Telling, gain: TitleGain, settingId: string | undefined, pace: Pace | undefined): GameRow {
  const { ctx } = t
  const w = ctx.words.games
  const name = ctx.titleName(gain.titleId)
  const title =
    t.oneSetting || settingId === undefined
      ? name
      : fill(w.titleAt, { title: name, setting: ctx.settingWords(settingId) })
  if (gain.grade === 'no number') return { title, ...withoutNumber(ctx, gain) }
  if (gain.disagrees) return { title, ...disagreeing(ctx, gain) }
  const today = ctx.pick === undefined
  return {
    title,
    says: today ? fillPieces(w.today, { before: todayOf(ctx, gain) }) : says(t, gain),
    notes: [
      ...promiseNote(ctx, gain),
      ...displayNote(ctx, gain, today),
      ...(today ? paceToday(ctx, pace) : paceNote(ctx, gain)),
      ...lowNote(t, gain, today),
      ...(t.oneGrade || today ? [] : [fill(w.grade, { grade: ctx.words.grades[gain.grade].word })]),
      ...(isElsewhere(gain.before) && !t.allElsewhere ? [w.otherMachine] : []),
      ...(!today && isElsewhere(gain.after) && gain.before.onThisMachine && !t.afterElsewhere
        ? [w.afterElsewhere]
        : []),
      ...markNotes(ctx, gain, today),
    ],
    bar: today
      ? { beforeFps: gain.before.averageFps }
      : {
          beforeFps: gain.before.averageFps,
          afterFps: gain.after.averageFps,
          lowFps: gain.afterFpsLow,
          highFps: gain.afterFpsHigh,
        },
  }
}

function says(t: Telling, gain: Known): readonly Piece[] {
  const { ctx } = t
  const { figures, words, answer } = ctx
  const w = words.games
  const before = wholeOf(gain.before.averageFps)
  const after = wholeOf(gain.after.averageFps)
  const values = {
    before: ratesOf(ctx, gain).before,
    after: aboutAfter(ctx, gain),
    ...figures.outwards(gain.afterFpsLow, gain.afterFpsHigh),
  }
  if (isEstimate(gain.after)) return estimated(t, gain, values)
  if (gain.sd === 0 && before === after) return fillPieces(w.same, values)
  const hz = displayOf(answer.inputs.question).refreshHz
  if (after === before) return fillPieces(w.near, values)
  if (after < before) return fillPieces(w.slower, values)
  if (hz !== undefined && gain.before.averageFps >= hz) return fillPieces(w.unseen, values)
  const line = t.intervalTold ? w.riseAgain : w.rise
  t.intervalTold = true
  return fillPieces(line, values)
}

/** An estimate says so in the sentence of its figure. */
function estimated(t: Telling, gain: Known, values: Filling): readonly Piece[] {
  const w = t.ctx.words.games
  const hz = displayOf(t.ctx.answer.inputs.question).refreshHz
  if (hz !== undefined && gain.before.averageFps >= hz) return fillPieces(w.unseenEstimated, values)
  if (wholeOf(gain.after.averageFps) < wholeOf(gain.before.averageFps))
    return fillPieces(w.slowerEstimated, values)
  const line = t.intervalTold ? w.riseEstimatedAgain : w.riseEstimated
  t.intervalTold = true
  return fillPieces(line, values)
}

/** What sets the pace today, where one side does and the display hides nothing: the row tells that already. */
function paceToday(ctx: Context, pace: Pace | undefined): readonly string[] {
  const { answer, figures, words } = ctx
  const { refreshHz } = displayOf(answer.inputs.question)
  if (pace === undefined || pace.displayHides || pace.sure === 'balanced' || pace.side === 'cap') return []
  return sayPace(pace, figures, refreshHz, words.games.pace)
}

/**
 * The part that is bought against the side that sets the pace: where that is the other one, how little it adds, in frames of
 * this very option and never as a share of blame. Where both are changed it says nothing.
 */
function paceNote({ pick, figures, words }: Context, gain: Known): readonly string[] {
  const kinds = new Set((pick?.change.add ?? []).map(({ kind }) => kind))
  if (kinds.has('card') === kinds.has('processor') || (kinds.has('card') && kinds.has('memory'))) return []
  const [side, limits] = kinds.has('card')
    ? (['processor', gain.processorLimits?.before ?? 0] as const)
    : (['card', gain.cardLimits?.before ?? 0] as const)
  if (limits < PACE_LEANING) return []
  const now = gain.before.averageFps
  const low = Math.max(0, Math.floor(gain.afterFpsLow - now))
  const high = Math.max(low, Math.ceil(gain.afterFpsHigh - now))
  const sure = limits >= PACE_CLEAR ? 'clear' : 'leaning'
  return [sayAdds(side, sure, { low, high }, words.games.pace, figures)]
}

/** Why runs of a game count for less, and that a cap hides how fast it is; each once. */
function markNotes(ctx: Context, gain: Known, today: boolean): readonly string[] {
  const w = ctx.words.games
  const { marks, atLeast, runAgain } = gain
  const said = new Set([...(marks?.before ?? []), ...((!today && marks?.after) || [])])
  const isCapped = atLeast !== undefined && (atLeast.before || (!today && atLeast.after))
  return [
    ...(said.has('old') ? [w.marks.old] : []),
    ...(said.has('other version') ? [w.marks['other version']] : []),
    ...(said.has('flagged') || runAgain ? [w.marks.flagged] : []),
    ...(isCapped ? [w.capped] : []),
  ]
}

/** Repeats that disagree: both figures, no interval and no promise. `gain` has the faster one. */
function disagreeing(ctx: Context, gain: Known): Omit<GameRow, 'title'> {
  const w = ctx.words.games
  const ratesOf = (runIds: readonly string[]) =>
    ctx.answer.inputs.runs.filter((r) => runIds.includes(r.id)).map((r) => r.averageFps)
  const apart = (rates: readonly number[]) =>
    rates.length === 2 && Math.log(Math.max(...rates) / Math.min(...rates)) > REPEATS_AGREE_LOG
  const [before, after] = [ratesOf(gain.before.runIds), ratesOf(gain.after.runIds)]
  const rates = apart(before) ? before : apart(after) ? after : undefined
  if (rates === undefined) return { says: fillPieces(w.disagreePlain, {}), notes: [w.disagrees] }
  const values = {
    before: ctx.fpsAt(gain.before.averageFps),
    low: ctx.figures.number(Math.min(...rates)),
    high: ctx.figures.fps(Math.max(...rates)),
  }
  return {
    says: fillPieces(apart(before) ? w.disagreeToday : w.disagreeAfter, values),
    notes: [w.disagrees],
    ...(apart(before) ? {} : { bar: { beforeFps: gain.before.averageFps } }),
  }
}

function displayNote(ctx: Context, gain: Known, today: boolean): readonly string[] {
  const hz = displayOf(ctx.answer.inputs.question).refreshHz
  if (hz === undefined) return []
  const w = ctx.words.games
  const shown = ctx.figures.number(hz)
  if (gain.before.averageFps >= hz) return [fill(w.displayNote, { shown })]
  return !today && gain.after.averageFps > hz ? [fill(w.displayPart, { shown })] : []
}

function lowNote(t: Telling, gain: Known, today: boolean): readonly string[] {
  const { figures, words, gloss } = t.ctx
  const w = words.games
  const before = gain.before.low1Fps
  const after = today ? undefined : gain.after.low1Fps
  if (before === undefined && after === undefined) return []
  const low = t.lowGlossed ? w.low : w.lowGlossed
  if (!t.lowGlossed) gloss.note('1% low')
  t.lowGlossed = true
  if (before === undefined)
    return after === undefined ? [] : [fill(w.lowAfter, { low, after: figures.fps(after) })]
  if (after === undefined) return [fill(w.lowToday, { low, before: figures.fps(before) })]
  if (wholeOf(before) === wholeOf(after)) return [fill(w.lowSame, { low, after: figures.fps(after) })]
  return [fill(w.lowBoth, { low, before: figures.number(before), after: figures.fps(after) })]
}

function withoutNumber(
  ctx: Context,
  gain: NoNumber,
): { readonly says: readonly Piece[]; readonly notes: readonly string[]; readonly bar?: GameRow['bar'] } {
  const w = ctx.words.games
  const before = gain.before?.averageFps
  if (gain.before === undefined || before === undefined)
    return { says: fillPieces(w.none, {}), notes: [w.because[gain.because]] }
  const fps = ctx.fpsAt(before)
  const today = isEstimate(gain.before) ? fill(ctx.words.rates.aboutEstimated, { fps }) : fps
  const says = fillPieces(w.noneToday, { before: today })
  return { says, notes: [w.because[gain.because]], bar: { beforeFps: before } }
}

/** Which runs would give the missing numbers, one sentence for what is new in them. */
function wantedRuns(ctx: Context, gains: readonly TitleGain[]): readonly string[] {
  const titles = new Map<string, string[]>()
  for (const gain of gains) {
    const fitted = gain.grade === 'no number' ? gain.wanted[0]?.fitted : undefined
    if (fitted === undefined) continue
    const parts = newIn(ctx, fitted, gain.before !== undefined)
    titles.set(parts, [...new Set([...(titles.get(parts) ?? []), ctx.titleName(gain.titleId)])])
  }
  const { wanted, wantedMany, wantedToday, wantedTodayMany, wantedOurs } = ctx.words.games
  const said = [...titles].map(([parts, names]) => {
    const [few, many] = parts === '' ? [wantedToday, wantedTodayMany] : [wanted, wantedMany]
    return fill(names.length > NAMED_MOST ? many : few, { parts, titles: ctx.list(names) })
  })
  return said.length === 0 ? [] : [...said, wantedOurs]
}

/** What a run has that the machine has not; where that is neither processor nor card, what it is about. */
function newIn(
  ctx: Context,
  { processorId, cardId }: { readonly processorId: string; readonly cardId: string },
  isTodayKnown: boolean,
): string {
  const { processor, card } = ctx.answer.inputs.machine.build
  const ids = [processorId, cardId].filter((id) => id !== processor?.id && id !== card?.id)
  if (ids.length > 0) return ctx.list(ids.map(ctx.partWords))
  const option = ctx.pick ?? ctx.answer.ranking.withoutNumber[0]
  return option === undefined || !isTodayKnown ? '' : optionWords(ctx, option)
}
