import type { Outcome } from '../job/promise.ts'
import type { Minor } from '../money.ts'
import type { RoundState, Standing } from './states.ts'

/** What is known of one customer of a round beside where they stand. */
export type SeatFacts = {
  readonly id: string
  readonly standing: Standing
  /** `in doubt`: it was handed over and no reply is known; a person looks it up. */
  readonly mail: 'none' | 'waiting' | 'sent' | 'in doubt' | 'stopped' | 'failed'
  /** Questions about the machine that came after the mail went out. */
  readonly questions: number
  readonly dueMinor: Minor
  /** Of a job that is done: what was paid, what the round's pieces in it cost, and what became of its promise. */
  readonly paidMinor?: Minor | undefined
  readonly costMinor?: Minor | undefined
  readonly promise?: Outcome | undefined
  /** Measured gain in percent, the mean over the titles that were measured. */
  readonly gainedPct?: number | undefined
}

/** How far the mail of each customer who is asked is: every one of them stands under one of these. */
export const MAIL_COUNTED = ['sent', 'waiting', 'in doubt', 'not sent'] as const

/** What each customer who is asked said: every one of them stands under one of these. */
export const SAID_COUNTED = ['no answer', 'yes', 'no', 'given back', 'not bought'] as const

/** Where each yes that counts is: every one of them stands under one of these. */
export const YES_COUNTED = ['counted', 'reserved', 'in line', 'to settle', 'done'] as const

/** What a number of a result counts. */
export const COUNTED = [
  ...(['asked', ...MAIL_COUNTED, 'questions', ...SAID_COUNTED, ...YES_COUNTED] as const),
  ...(['gained', 'earned', 'kept', 'missed'] as const),
] as const
export type Counted = (typeof COUNTED)[number]

/** Each number as the customers it counts, so that it can be followed to them. */
export type RoundResult = {
  readonly of: { readonly [K in Counted]: readonly string[] }
  readonly questions: number
  /** What is put aside and not paid yet, what was paid, and what is left of it where every piece's cost was said. */
  readonly toComeMinor: Minor
  readonly earnedMinor: Minor
  readonly marginMinor?: Minor | undefined
  /** Mean over the machines that were measured after the work. */
  readonly gainedPct?: number | undefined
}

const YES: { readonly [S in Standing]?: (typeof YES_COUNTED)[number] } = {
  ...{ counted: 'counted', held: 'reserved', 'too late': 'in line', 'to settle': 'to settle', done: 'done' },
}

const SAID: { readonly [S in Standing]: (typeof SAID_COUNTED)[number] | undefined } = {
  ...{ asked: 'no answer', 'left out': undefined, 'said no': 'no' },
  ...{ counted: 'yes', held: 'yes', 'too late': 'yes', 'to settle': 'yes', done: 'yes' },
  ...{ 'let go': 'given back', 'not bought': 'not bought' },
}

/** Where the mail is that a customer is asked by. One that is not written yet waits as long as the round writes any. */
function mailCounted({ mail, standing }: SeatFacts, state: RoundState): (typeof MAIL_COUNTED)[number] {
  if (mail === 'sent' || mail === 'in doubt' || mail === 'waiting') return mail
  const writes = state === 'draft' || state === 'going out' || state === 'paused'
  return mail === 'none' && standing === 'asked' && writes ? 'waiting' : 'not sent'
}

/** The names under which one customer is counted. */
function countedAs(seat: SeatFacts, state: RoundState): readonly (Counted | undefined)[] {
  if (seat.standing === 'left out') return []
  return [
    ...['asked' as const, mailCounted(seat, state), SAID[seat.standing], YES[seat.standing]],
    ...[seat.questions > 0 ? ('questions' as const) : undefined],
    ...[seat.gainedPct === undefined ? undefined : ('gained' as const)],
    ...[seat.paidMinor === undefined ? undefined : ('earned' as const)],
    ...[seat.promise === 'kept' || seat.promise === 'missed, better' ? ('kept' as const) : undefined],
    ...[seat.promise === 'missed, worse' ? ('missed' as const) : undefined],
  ]
}

/** What came of a round so far. `state` tells whether mails are still to be written. */
export function resultOf(seats: readonly SeatFacts[], state: RoundState): RoundResult {
  const names = seats.map((seat) => ({ id: seat.id, as: new Set(countedAs(seat, state)) }))
  const of = Object.fromEntries(
    COUNTED.map((name) => [name, names.filter(({ as }) => as.has(name)).map(({ id }) => id)]),
  ) as { [K in Counted]: string[] }
  const paid = seats.filter(({ paidMinor }) => paidMinor !== undefined)
  const costs = paid.flatMap(({ costMinor }) => costMinor ?? [])
  const gains = seats.flatMap(({ gainedPct }) => gainedPct ?? [])
  const earnedMinor = paid.reduce((sum, { paidMinor = 0 }) => sum + paidMinor, 0)
  return {
    of,
    questions: seats.reduce((sum, { questions }) => sum + questions, 0),
    toComeMinor: seats
      .filter(({ standing }) => standing === 'held')
      .reduce((sum, { dueMinor }) => sum + dueMinor, 0),
    earnedMinor,
    ...(paid.length > 0 &&
      costs.length === paid.length && { marginMinor: earnedMinor - costs.reduce((a, b) => a + b, 0) }),
    ...(gains.length > 0 && { gainedPct: gains.reduce((a, b) => a + b, 0) / gains.length }),
  }
}
