import type { Outcome } from '../../core/outbox/outcome.ts'

/** A mail ready to go: its bytes are not changed any more. */
export type Parcel = {
  readonly from: string
  readonly to: string
  /** With angle brackets. */
  readonly messageId: string
  readonly bytes: Uint8Array
  /** Asked right before the end of the mail leaves us; false: it must not leave. */
  readonly mayHandOver: () => Promise<boolean>
}

export type Transport = {
  /** Sending a mail twice makes one, so what was cut off can be sent again without asking. */
  readonly isRepeatable: boolean
  /** So many mails at once. */
  readonly connections: number
  /** Never rejects: trouble is an outcome. */
  readonly send: (parcel: Parcel) => Promise<Outcome>
  readonly close: () => Promise<void>
}
