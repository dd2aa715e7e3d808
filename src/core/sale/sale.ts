import type { Minor } from '../money.ts'
import type { LeavableStep } from './steps.ts'

/** A part of a sale and what it cost the shop. */
export type SalePart = {
  readonly id: string
  readonly partId: string
  /** The shelf item it was taken from; absent: it did not come from the shelf. */
  readonly itemId?: string | undefined
  readonly costMinor?: Minor | undefined
}

/** The builder's own words in the message to the buyer; absent: those it is proposed with, or none. */
export type SaleWords = {
  readonly subject?: string | undefined
  readonly opening?: string | undefined
  readonly closing?: string | undefined
}

/** A machine on its way out of the shop, as it is kept. Instants are ISO 8601 UTC. */
export type Sale = {
  readonly machineTag: string
  readonly startedAt: string
  readonly priceMinor?: Minor | undefined
  readonly otherCostMinor?: Minor | undefined
  readonly leftOut: readonly LeavableStep[]
  /** It made the machine; else the machine was written down before. */
  readonly madeMachine: boolean
  /** Its buyer was written down by this sale, and goes again when it is taken back. */
  readonly madeCustomer: boolean
  readonly sheetSeenAt?: string | undefined
  /** Absent: no message was written. */
  readonly words?: SaleWords | undefined
  readonly handedAt?: string | undefined
  readonly parts: readonly SalePart[]
}

/** What was done to a machine beside its sale: anything of it keeps the sale from being taken back. */
export const SINCE = [
  'limits',
  'pastLimits',
  'readings',
  'ownerReadings',
  'runs',
  'questions',
  'jobs',
  'requests',
  'photos',
  'links',
  'sheets',
  'reports',
  'owners',
  'partings',
  'messages',
  'mails',
  'offers',
] as const
export type Since = (typeof SINCE)[number]
