import type { Build } from './build.ts'
import type { Claim } from './limits/limit.ts'

/** One sold build as it stands: its tag, what is fitted now, and what is claimed about its limits. */
export type Machine = {
  /** As written on the case label, such as `M-0042`. */
  readonly tag: string
  readonly build: Build
  /** The day it is judged, ISO 8601 UTC: ages count to it. Absent: no age is known. */
  readonly at?: string | undefined
  /** Claims that were stored (read, measured, entered); claims from parts and tables are derived. */
  readonly claims: readonly Claim[]
}
