/** The five verdicts, from best to worst. A change is as good as its worst finding. */
export const VERDICTS = ['fits', 'fits slower', 'fits after work', "can't tell", 'does not fit'] as const

export type Verdict = (typeof VERDICTS)[number]

/** Position in the order from best (0) to worst (4). */
export const rankOfVerdict = (verdict: Verdict): number => VERDICTS.indexOf(verdict)

/** The worst of the verdicts; `fits` when there is none, because then no rule had anything to say. */
export const worstVerdict = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.reduce<Verdict>((worst, v) => (rankOfVerdict(v) > rankOfVerdict(worst) ? v : worst), 'fits')

/** True when the part goes in today or after named work; `can't tell` is never among them. */
export const isFitting = (verdict: Verdict): boolean =>
  rankOfVerdict(verdict) <= rankOfVerdict('fits after work')
