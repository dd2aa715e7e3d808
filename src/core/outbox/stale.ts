/** Why a kept answer is not what would be answered today. */
export type Stale =
  | { readonly why: 'price ran out'; readonly at: string }
  | { readonly why: 'question changed'; readonly at: string }
  | { readonly why: 'newer answer'; readonly at: string }

const DAY_MS = 86_400_000

/** What became old about an answer of that instant; instants are ISO 8601 UTC. */
export function staleReasons(
  answer: { readonly at: string; readonly priceValidDays: number },
  now: {
    readonly at: string
    readonly questionChangedAt?: string | undefined
    readonly newestAnswerAt?: string | undefined
  },
): Stale[] {
  const validUntil = new Date(Date.parse(answer.at) + answer.priceValidDays * DAY_MS).toISOString()
  const { questionChangedAt: changed, newestAnswerAt: newer } = now
  return [
    ...(now.at > validUntil ? [{ why: 'price ran out', at: validUntil } as const] : []),
    ...(changed !== undefined && changed > answer.at
      ? [{ why: 'question changed', at: changed } as const]
      : []),
    ...(newer !== undefined && newer > answer.at ? [{ why: 'newer answer', at: newer } as const] : []),
  ]
}
