import type { LogGain } from '../gain/gain.ts'
import { FOUR_OF_FIVE_SD } from '../gain/noise.ts'
import type { Fitted } from '../gain/run.ts'
import { type SeenGain, sdOfSum } from '../gain/useful.ts'
import type { Wanted } from '../question.ts'
import type { Standing } from './standing.ts'

/** What one new end gains over another in one of the owner's titles, the old end cancelled; see gain/between.ts. */
export type Between = (wanted: Wanted, from: Fitted, to: Fitted) => LogGain | undefined

/**
 * Groups of options that cannot be told apart *from their leader*, in the order given. The first is a leader; its
 * group is everything not yet grouped, of the same titles and class, that cannot be told from it; then the next
 * ungrouped one leads. Not being told apart is not transitive, so no chains are made: of gains .30, .25, .20 whose
 * differences have sd .05 the groups are {.30, .25} and {.20}.
 */
export function leaderGroups(standings: readonly Standing[], between: Between): string[][] {
  const groups: string[][] = []
  const grouped = new Set<Standing>()
  for (const leader of standings) {
    if (grouped.has(leader)) continue
    const group = standings.filter((s) => !grouped.has(s) && (s === leader || isTie(leader, s, between)))
    for (const s of group) grouped.add(s)
    groups.push(group.map((s) => s.option.id))
  }
  return groups
}

/**
 * Whether the 80 % interval of the difference of two options' standing holds 0. With r = value (percent for 100 major
 * units, or percent), `a = dr/dU`, and for each title the visible sd `s` (half the 80 % interval as the display shows
 * it, over 1.2) of errors e1, e2 that correlate by what the shared old end leaves:
 *
 *     cov(e1, e2) = (sd1^2 + sd2^2 - sd12^2) / 2          sd12: predicted from new end 1 to new end 2, old end cancelled
 *     var_t = w^2 (a1^2 s1^2 + a2^2 s2^2 - 2 a1 a2 c1 c2 cov),   c = s / sd
 *     tie when |r1 - r2| <= 1.2 sqrt(0.2 (sum sqrt var_t)^2 + 0.8 sum var_t)
 *
 * Where the two new ends have no number between them, cov = 0: the old end is not cancelled, the interval is wider,
 * and a tie is said rather than a difference that was not measured. Overlap of the two own intervals would be the
 * wrong test: it counts the old end's noise twice.
 */
function isTie(a: Standing, b: Standing, between: Between): boolean {
  if (a.titles !== b.titles || a.class !== b.class) return false
  const distance = Math.abs(a.value - b.value)
  const [slopeA, slopeB] = [slopeOf(a), slopeOf(b)]
  const terms = a.seen.map((t, i) => termOf(t, b.seen[i] ?? t, slopeA, slopeB))
  // No correlation can make the difference more uncertain than the sum of both: most pairs are told apart here,
  // without asking the model.
  if (distance > FOUR_OF_FIVE_SD * sdOfSum(terms.map((t) => t.sdA + t.sdB)) + 1e-9) return false
  const sds = terms.map(({ sdA, sdB, seenA, seenB }) => {
    if (sdA === 0 || sdB === 0) return sdA + sdB
    const gain = between(seenA.wanted, a.after, b.after)
    if (gain === undefined) return Math.hypot(sdA, sdB)
    const correlation =
      (seenA.gain.sd ** 2 + seenB.gain.sd ** 2 - gain.sd ** 2) / (2 * seenA.gain.sd * seenB.gain.sd)
    return Math.sqrt(Math.max(0, sdA ** 2 + sdB ** 2 - 2 * sdA * sdB * correlation))
  })
  return distance <= FOUR_OF_FIVE_SD * sdOfSum(sds) + 1e-9
}

const termOf = (seenA: SeenGain, seenB: SeenGain, slopeA: number, slopeB: number) => ({
  seenA,
  seenB,
  sdA: slopeA * seenA.weight * visibleSd(seenA),
  sdB: slopeB * seenB.weight * visibleSd(seenB),
})

const visibleSd = (t: SeenGain): number => (t.seenHigh - t.seenLow) / (2 * FOUR_OF_FIVE_SD)

/** How much the value moves with the log of the useful gain: d(100 (e^U - 1) k)/dU = (100 + pct) k. */
const slopeOf = ({ useful, value, class: c }: Standing): number =>
  c === 1 && useful.pct !== 0 ? ((100 + useful.pct) * value) / useful.pct : 100 + useful.pct
