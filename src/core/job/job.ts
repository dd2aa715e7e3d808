import { type Minor, sumMinor } from '../money.ts'
import type { NetPrice } from '../ranking/option.ts'
import { dueOfLines } from '../ranking/price.ts'
import { taxOn } from '../ranking/tax.ts'
import type { Step } from './checklist.ts'
import type { Promised } from './promise.ts'
import { isOver, type JobState } from './states.ts'

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
  /** Where a promise was missed: what was checked, in the builder's words. */
  readonly missChecked?: string | undefined
  /** And what the owner can choose, a line each. */
  readonly missChoices?: string | undefined
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

/** A step of the checklist as it stands: its place, and when it was done. */
export type JobStepLine = Step & { readonly position: number; readonly doneAt?: string | undefined }

/** Steps that are ticked by hand, before the parts are said to be in; the others follow from what is recorded. */
export const TICKED_BY_HAND: ReadonlySet<Step['what']> = new Set(['opening', 'work', 'take out', 'fit'])

/**
 * Whether another change may be agreed for the same visit: it is still to come or on the bench, nothing is promised, and
 * nothing goes in or comes out, so the parts that the other change counts on are those of today.
 */
export const mayBeJoined = (
  { state, promised, fittedAt }: Pick<Job, 'state' | 'promised' | 'fittedAt'>,
  steps: readonly Pick<Step, 'what'>[],
): boolean =>
  !isOver(state) &&
  fittedAt === undefined &&
  promised.length === 0 &&
  !steps.some(({ what }) => what === 'fit' || what === 'take out')

/** A part that came out in a job, and what became of it. */
export type PartOut = {
  readonly id: string
  readonly partId: string
  readonly outcome: OutOutcome
  readonly outcomeAt?: string | undefined
  /** What the owner gets for it; positive. */
  readonly creditMinor: Minor
  readonly itemId?: string | undefined
  readonly note?: string | undefined
}

/** What an owner says a title ran at: kept beside the promise, never among the shop's runs. */
export type OwnerReport = {
  readonly machineTag: string
  readonly jobId?: string | undefined
  readonly customerId?: string | undefined
  /** ISO 8601 UTC. */
  readonly at: string
  readonly titleId: string
  readonly settingId: string
  readonly averageFps: number
  readonly low1Fps?: number | undefined
  readonly note?: string | undefined
}

/** What the agreed price counts for each of these parts that come out, in their order; two of one part count twice. */
export function creditsFor({ lines }: Pick<NetPrice, 'lines'>, partIds: readonly string[]): Minor[] {
  const left = lines.filter((line) => line.what === 'trade-in')
  return partIds.map((id) => {
    const at = left.findIndex((line) => line.ref === id)
    const [line] = at < 0 ? [] : left.splice(at, 1)
    return line === undefined ? 0 : 0 - line.amountMinor
  })
}

/** The agreed price with the credits as they turned out: a part given back is not paid for, nor does it lower the tax. */
export function settleProposal(agreedMinor: Minor, price: NetPrice, outs: readonly PartOut[]): Minor {
  if (outs.length === 0) return agreedMinor
  const agreed = dueOfLines(
    price,
    price.lines.filter((l) => l.what === 'trade-in'),
  )
  const { creditTaxBp = 0 } = price
  const turnedOut = outs.map((out) => out.creditMinor + taxOn(out.creditMinor, creditTaxBp))
  return agreedMinor - agreed - sumMinor(turnedOut)
}
