/** How long a link for an owner holds. */
export const LINK_DAYS = 90

const DAY_MS = 86_400_000

/** When a link that is made now ends; ISO 8601 UTC. */
export const linkEnd = (at: string): string => new Date(Date.parse(at) + LINK_DAYS * DAY_MS).toISOString()

type Standing = {
  readonly customerId?: string | undefined
  readonly expiresAt: string
  readonly revokedAt?: string | undefined
}

/** A link holds until its end, unless it was taken back or the machine went to somebody else. */
export const linkHolds = (link: Standing, ownerId: string | undefined, at: string): boolean =>
  link.revokedAt === undefined && at < link.expiresAt && link.customerId === ownerId

/** How long an owner who said the machine is sold can take that back; then the link ends. */
export const PARTING_DAYS = 7

/** Until when that can be taken back; ISO 8601 UTC. */
export const partingEnd = (saidAt: string): string =>
  new Date(Date.parse(saidAt) + PARTING_DAYS * DAY_MS).toISOString()

/** Posts that one link may send in an hour. */
export const POSTS_AN_HOUR = 20
const HOUR_MS = 3_600_000

/** The instants (ms) of the last hour, with this one when it may still be sent. */
export function postsAfter(
  earlier: readonly number[],
  atMs: number,
): { readonly posts: readonly number[]; readonly isAllowed: boolean } {
  const recent = earlier.filter((ms) => atMs - ms < HOUR_MS)
  return recent.length < POSTS_AN_HOUR
    ? { posts: [...recent, atMs], isAllowed: true }
    : { posts: recent, isAllowed: false }
}
