import type { Outcome } from '../job/promise.ts'
import type { Minor } from '../money.ts'
import type { Standing } from './states.ts'

/** What is known of one customer of a round beside where they stand. */
export type SeatFacts = {
  readonly id: string
  readonly standing: Standing
  readonly hasSaidYes: boolean
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

/** What a number of a result counts. */
export const COUNTED = [
  ...([
    'asked',
    'sent',
    'waiting',
    'in doubt',
    'not sent',
    'questions',
    'yes',
    'reserved',
    'in line',
    'no',
  ] as const),
  ...(['done', 'gained', 'earned', 'kept', 'missed'] as const),
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

const COUNTS: { readonly [K in Counted]: (seat: SeatFacts) => boolean } = {
  asked: ({ standing }) => standing !== 'left out',
  sent: ({ mail }) => mail === 'sent',
  waiting: ({ mail, standing }) => mail === 'waiting' || (mail === 'none' && standing === 'asked'),
  'in doubt': ({ mail }) => mail === 'in doubt',
  'not sent': ({ mail }) => mail === 'stopped' || mail === 'failed',
  questions: ({ questions }) => questions > 0,
  yes: ({ hasSaidYes }) => hasSaidYes,
  reserved: ({ standing }) => standing === 'held',
  'in line': ({ standing }) => standing === 'too late' || standing === 'to settle' || standing === 'counted',
  no: ({ standing }) => standing === 'said no',
  done: ({ standing }) => standing === 'done',
  gained: ({ gainedPct }) => gainedPct !== undefined,
  earned: ({ paidMinor }) => paidMinor !== undefined,
  kept: ({ promise }) => promise === 'kept' || promise === 'missed, better',
  missed: ({ promise }) => promise === 'missed, worse',
}

export function resultOf(seats: readonly SeatFacts[]): RoundResult {
  const idsOf = (counts: (seat: SeatFacts) => boolean) => seats.filter(counts).map(({ id }) => id)
  const of = Object.fromEntries(COUNTED.map((name) => [name, idsOf(COUNTS[name])])) as {
    [K in Counted]: string[]
  }
  const paid = seats.filter(COUNTS.earned)
  const costs = paid.flatMap(({ costMinor }) => costMinor ?? [])
  const gains = seats.flatMap(({ gainedPct }) => gainedPct ?? [])
  const earnedMinor = paid.reduce((sum, { paidMinor = 0 }) => sum + paidMinor, 0)
  return {
    of,
    questions: seats.reduce((sum, { questions }) => sum + questions, 0),
    toComeMinor: seats.filter(COUNTS.reserved).reduce((sum, { dueMinor }) => sum + dueMinor, 0),
    earnedMinor,
    ...(paid.length > 0 &&
      costs.length === paid.length && { marginMinor: earnedMinor - costs.reduce((a, b) => a + b, 0) }),
    ...(gains.length > 0 && { gainedPct: gains.reduce((a, b) => a + b, 0) / gains.length }),
  }
}
