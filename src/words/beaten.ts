import type { Beaten } from '../core/ranking/beaten.ts'
import { RANKING_EN } from './en/ranking.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'

/** Which option of the list makes another one pointless. */
export function sayBeaten({ row, lessMinor, morePct }: Beaten, figures: Figures): string {
  const values = {
    row: figures.number(row),
    less: figures.money(lessMinor),
    pct: figures.gainPct(morePct),
  }
  return fill(lessMinor > 0 ? RANKING_EN.beaten : RANKING_EN.beatenSame, values)
}
