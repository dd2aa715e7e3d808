import type { Lowered } from '../core/ranking/lowered.ts'
import { RUN_EN } from './en/runs.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'

/** A lower setting for the builder: what is lowered, and what was measured. */
export function sayLowered(
  one: Lowered,
  title: string,
  figures: Figures,
): { readonly what: string; readonly gain: string } {
  const w = RUN_EN.lowered
  const fps = (n: number) => figures.decimal(n)
  const values = {
    title,
    what: one.what.join(', '),
    before: fps(one.before.averageFps),
    after: fps(one.after.averageFps),
    ...figures.outwards(one.afterFpsLow, one.afterFpsHigh),
    pct: figures.gainPct(100 * Math.expm1(one.logGain)),
  }
  return { what: fill(w.what, values), gain: fill(one.isAtLeast ? w.gainAtLeast : w.gain, values) }
}
