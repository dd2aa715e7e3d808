import type { Adds, Pace } from '../core/gain/pace/pace.ts'
import { PACE_EN } from './en/pace.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'

/** The lines it is said with; a letter brings those of its language. */
export type PaceWords = typeof PACE_EN

/** Frames that a part may add, from least to most, rounded so that the truth is not cut off. */
export type AddsFps = { readonly low: number; readonly high: number }

const upTo = (fps: number): number => Math.ceil(fps - 1e-9)

const addsOf = ({ mostFps }: Adds): AddsFps => ({ low: 0, high: upTo(mostFps) })

/** "The processor sets the pace here; a faster card adds 0 to 3 FPS." */
export function sayAdds(
  side: 'processor' | 'card',
  sure: 'clear' | 'leaning',
  { low, high }: AddsFps,
  words: PaceWords,
  figures: Figures,
): string {
  return fill(words[side][sure], { low: figures.number(low), high: figures.fps(high) })
}

/**
 * What sets the pace, and what the part that does not would add. Where the display hides all of it, that alone; where it
 * hides some, how much of it is seen.
 */
export function sayPace(
  pace: Pace,
  figures: Figures,
  refreshHz?: number | undefined,
  words: PaceWords = PACE_EN,
): readonly string[] {
  const { side, sure, nowFps, displayHides, card, processor } = pace
  if (displayHides && refreshHz !== undefined)
    return [fill(words.hidden, { shown: figures.number(refreshHz), now: figures.fps(nowFps) })]
  if (side === 'cap') return [words.cap]
  if (side === 'both' || sure === 'balanced')
    return [
      fill(words.both, {
        card: figures.fps(upTo(card.mostFps)),
        processor: figures.fps(upTo(processor.mostFps)),
      }),
      ...seenOf([card, processor], words, figures),
    ]
  const adds = side === 'processor' ? card : processor
  return [sayAdds(side, sure, addsOf(adds), words, figures), ...seenOf([adds], words, figures)]
}

/** Only where the display hides a whole frame or more of what a part may add. */
function seenOf(adds: readonly Adds[], words: PaceWords, figures: Figures): readonly string[] {
  const hides = adds.some(({ mostFps, mostSeenFps }) => upTo(mostFps) > upTo(mostSeenFps))
  const seen = Math.max(...adds.map(({ mostSeenFps }) => mostSeenFps))
  return hides ? [fill(words.seen, { seen: figures.fps(upTo(seen)) })] : []
}
