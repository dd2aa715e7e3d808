import type { Grade } from '../../core/gain/gain.ts'
import type { Kept, Outcome, Promised } from '../../core/job/promise.ts'
import type { GameRow, Letter } from '../answer/letter.ts'
import { type Figures, outwards, wholeOf } from '../figures.ts'
import { fill, fillPieces, oneLine } from '../say.ts'
import { mailWords } from './parts.ts'

type Games = NonNullable<Letter['games']>

/** Names and figures that rows of games need. */
export type Playing = {
  readonly targetFps: number
  titleName(id: string): string
  settingName(id: string): string
}

/** The heading of a game with the setting it was played at. */
const titleAt = (playing: Playing, { titleId, settingId }: Promised, figures: Figures): string =>
  fill(mailWords(figures).tables.answer.games.titleAt, {
    title: oneLine(playing.titleName(titleId)),
    setting: oneLine(playing.settingName(settingId)),
  })

function figuresOf(promised: Promised, { targetFps }: Playing, figures: Figures) {
  const { low, high } = outwards(promised.afterFpsLow, promised.afterFpsHigh)
  return {
    before: figures.fpsAgainst(promised.beforeFps, targetFps),
    promised: figures.numberAgainst(promised.afterFps, targetFps),
    after: figures.fpsAgainst(promised.afterFps, targetFps),
    low: figures.number(low),
    high: figures.number(high),
  }
}

/** What is promised in each game, with bars. */
export function promisedGames(
  promised: readonly Promised[],
  playing: Playing,
  grades: Readonly<Partial<Record<string, Grade>>>,
  more: readonly string[],
  figures: Figures,
): Games {
  const { w } = mailWords(figures)
  const b = w.booked
  const rows = promised.map((p, i): GameRow => {
    const values = figuresOf(p, playing, figures)
    const stays = wholeOf(p.beforeFps) === wholeOf(p.afterFps)
    const line = stays ? b.stays : i === 0 ? b.promise : b.promiseAgain
    return {
      title: titleAt(playing, p, figures),
      says: fillPieces(line, values),
      notes: [
        b.grade[grades[p.titleId] ?? 'no number'],
        p.afterFpsLow < p.afterFpsHigh ? fill(b.promised, { low: figures.fps(leastOf(p)) }) : '',
      ].filter((note) => note !== ''),
      ...(i < BARS_MOST && {
        bar: {
          beforeFps: p.beforeFps,
          afterFps: p.afterFps,
          lowFps: p.afterFpsLow,
          highFps: p.afterFpsHigh,
        },
      }),
    }
  })
  return framed(b.promiseHead, [w.fps], b.drawn, rows, more, playing, figures)
}

/** The figure that is promised: the lower end as printed. */
const leastOf = ({ afterFpsLow, afterFpsHigh }: Promised): number => outwards(afterFpsLow, afterFpsHigh).low

/** A mail with more bars than this grows beyond what programs show whole. */
const BARS_MOST = 8

/** What was promised and what was measured in each game, with bars. */
export function keptGames(
  kept: readonly Kept[],
  playing: Playing,
  more: readonly string[],
  figures: Figures,
): Games {
  const { w } = mailWords(figures)
  const d = w.done
  const rows = kept.map(({ promised, outcome, measuredFps }, i): GameRow => {
    const { low, high } = outwards(promised.afterFpsLow, promised.afterFpsHigh)
    const measured = wholeOf(measuredFps ?? 0)
    const scatters = outcome === 'kept' && (measured < low || measured > high)
    return {
      title: titleAt(playing, promised, figures),
      says: fillPieces(scatters ? d.scatter : d.row[outcome], {
        ...figuresOf(promised, playing, figures),
        measured: measuredFps === undefined ? '' : figures.fpsAgainst(measuredFps, playing.targetFps),
        missed: figures.fps(Math.max(1, low - measured)),
      }),
      notes: missesWanted(promised, outcome, measuredFps, playing, figures),
      ...(i < BARS_MOST && {
        bar: {
          beforeFps: promised.beforeFps,
          ...(measuredFps !== undefined && { afterFps: measuredFps }),
          lowFps: promised.afterFpsLow,
          highFps: promised.afterFpsHigh,
        },
      }),
    }
  })
  return framed(d.head, [d.intro, w.fps], d.drawn, rows, more, playing, figures)
}

/** Below what was wanted too, where the promise was not. */
function missesWanted(
  { afterFps }: Promised,
  outcome: Outcome,
  measuredFps: number | undefined,
  { targetFps }: Playing,
  figures: Figures,
): readonly string[] {
  const isBelow = measuredFps !== undefined && measuredFps < targetFps && afterFps >= targetFps
  return outcome === 'missed, worse' && isBelow
    ? [fill(mailWords(figures).w.done.belowWanted, { target: figures.fps(targetFps) })]
    : []
}

function framed(
  head: string,
  intro: readonly string[],
  drawn: string,
  rows: readonly GameRow[],
  more: readonly string[],
  { targetFps }: Playing,
  figures: Figures,
): Games {
  const { booked } = mailWords(figures).w
  const fps = figures.fps(targetFps)
  return {
    head,
    intro,
    drawn: [drawn, fill(booked.drawnTarget, { fps })],
    targetFps,
    targetSays: fill(booked.target, { fps }),
    rows,
    more,
  }
}
