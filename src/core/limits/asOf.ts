import type { Claim } from './limit.ts'

/** A claim that something else took the place of, or that went with a part, and when. */
export type PastClaim = { readonly claim: Claim; readonly endedAt: string }

/**
 * What was claimed at an instant (ISO 8601 UTC, included): what began by then and had not ended. A claim without a date
 * counts as there all along, because nobody knows since when.
 */
export const claimsAsOf = (
  now: readonly Claim[],
  past: readonly PastClaim[],
  at: string,
): readonly Claim[] => {
  const hasBegun = (claim: Claim) => claim.at === undefined || claim.at <= at
  return [
    ...past.filter(({ claim, endedAt }) => hasBegun(claim) && at < endedAt).map(({ claim }) => claim),
    ...now.filter(hasBegun),
  ]
}
