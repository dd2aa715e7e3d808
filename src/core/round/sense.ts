import type { Minor } from '../money.ts'

/** What somebody wants to offer, before anything is worked out. */
export type Offering = {
  readonly pieces: number
  /** Machines that are asked and no others; 0: whoever gains most. */
  readonly named: number
  /** What a piece is sold for, and what it costs the shop where that was said. */
  readonly priceMinor: Minor
  readonly costMinor?: Minor | undefined
  /** Of a part that is not bought yet: so many yeses are wanted, and what a piece was seen for at most. */
  readonly deal?: { readonly wantedYeses: number; readonly seenHighMinor: Minor } | undefined
}

/** What can never come true. */
export type Impossible =
  | { readonly why: 'more yeses than pieces'; readonly wanted: number; readonly pieces: number }
  | { readonly why: 'more yeses than named'; readonly wanted: number; readonly named: number }

/** Each yes brings one customer with one machine, so there must be a piece and a machine for each that is wanted. */
export function impossibleOf({ pieces, named, deal }: Offering): Impossible[] {
  const wanted = deal?.wantedYeses ?? 0
  return [
    ...(wanted > pieces ? [{ why: 'more yeses than pieces', wanted, pieces } as const] : []),
    ...(named > 0 && wanted > named ? [{ why: 'more yeses than named', wanted, named } as const] : []),
  ]
}

/** What can be done and is unwise: each piece is sold for less than it costs, or than the part was seen for. */
export type Unwise =
  | { readonly why: 'sold at a loss'; readonly priceMinor: Minor; readonly costMinor: Minor }
  | { readonly why: 'may be sold at a loss'; readonly priceMinor: Minor; readonly seenHighMinor: Minor }

export function unwiseOf({ priceMinor, costMinor, deal }: Offering): Unwise | undefined {
  if (costMinor !== undefined)
    return priceMinor < costMinor ? { why: 'sold at a loss', priceMinor, costMinor } : undefined
  const seenHighMinor = deal?.seenHighMinor
  return seenHighMinor !== undefined && priceMinor < seenHighMinor
    ? { why: 'may be sold at a loss', priceMinor, seenHighMinor }
    : undefined
}
