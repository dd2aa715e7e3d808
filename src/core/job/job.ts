import type { Minor } from '../money.ts'
import type { Promised } from './promise.ts'
import type { JobState } from './states.ts'

/** Who fits the parts: the shop on its bench, or the owner at home. */
export const FITTERS = ['shop', 'owner'] as const
export type Fitter = (typeof FITTERS)[number]

/** What becomes of a part that came out. */
export const OUT_OUTCOMES = ['to test', 'on the shelf', 'given back', 'scrapped'] as const
export type OutOutcome = (typeof OUT_OUTCOMES)[number]

/** An agreed change on its way. Instants are ISO 8601 UTC; the option itself stands in its kept answer. */
export type Job = {
  /** `J-0001`. */
  readonly id: string
  readonly questionId: string
  readonly answerId: string
  readonly optionId: string
  readonly machineTag: string
  readonly customerId?: string | undefined
  readonly fittedBy: Fitter
  readonly state: JobState
  readonly agreedAt: string
  readonly promised: readonly Promised[]
  /** Net price as agreed. */
  readonly agreedMinor: Minor
  readonly bookedFor?: string | undefined
  readonly depositMinor?: Minor | undefined
  readonly depositAt?: string | undefined
  /** When the parts went in; runs from then on tell whether the promise is kept. */
  readonly fittedAt?: string | undefined
  readonly settledMinor?: Minor | undefined
  readonly settledAt?: string | undefined
  readonly toldAt?: string | undefined
  readonly remindAt?: string | undefined
  readonly note?: string | undefined
}

/** Shelf items put aside: open until released or used. */
export type Reservation = {
  readonly itemId: string
  readonly quantity: number
  readonly reservedAt: string
  readonly releasedAt?: string | undefined
  readonly usedAt?: string | undefined
}

export const isOpen = ({ releasedAt, usedAt }: Reservation): boolean =>
  releasedAt === undefined && usedAt === undefined

/** What is left of an item for others: what stands on the shelf less what is put aside. Never below 0. */
export const freeQuantity = (quantity: number, reservations: readonly Reservation[]): number =>
  Math.max(
    0,
    reservations.filter(isOpen).reduce((left, r) => left - r.quantity, quantity),
  )
