import type { Answer } from '../../core/answer.ts'
import { isLeftFor, isOpenDeal, leftOf, takesYes } from '../../core/round/round.ts'
import type { Standing } from '../../core/round/states.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadCustomer } from '../../store/customers.ts'
import { loadJob } from '../../store/jobs.ts'
import { ownerIdOf } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { unsentMailsOf } from '../../store/roundMails.ts'
import { type SeatRow, seatOfLink } from '../../store/roundSeats.ts'
import { notesOfRound } from '../../store/rounds.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { applyEvent } from './applyEvent.ts'
import { type LoadedRound, loadRound } from './loadRound.ts'
import { answerOfSeat } from './seatAnswer.ts'
import { hadTooFew } from './tellGone.ts'
import { askedFor, asRead, yesHash } from './writeOffers.ts'

const TOKEN = /^[A-Za-z0-9_-]{43}$/

const NO_OFFER: Problem = {
  ...{ code: 'not found', field: 'link' },
  next: 'This link does not lead anywhere. Ask the shop for a new one.',
}

/** What an owner sees behind the link of an offer. */
export type OfferView = {
  readonly answer: Answer
  readonly optionId: string
  readonly standing: Standing
  /** A yes would be taken at this moment. */
  readonly isOpen: boolean
  /** There is one for them; of one who stands in line, because it came back. */
  readonly isLeft: boolean
  readonly left: number
  readonly asked: number
  readonly validUntil: string
  /** Of a part that is not bought yet: so many yeses are wanted, and so many there are. */
  readonly deal?: { readonly wanted: number; readonly counted: number } | undefined
  /** It was bought for nobody; whether because too few said yes. */
  readonly isCalledOff: boolean
  readonly hadTooFew: boolean
  /** When the shop ended it before its date; ISO 8601 UTC. */
  readonly endedAt?: string | undefined
  /** The day of its job; absent: none yet. */
  readonly bookedFor?: string | undefined
  /** The parts are in, or the machine is on the bench: no link takes that back. */
  readonly isUnderWay: boolean
}

type Behind = { readonly seat: SeatRow; readonly loaded: LoadedRound; readonly answer: Answer }

/** Whoever the link was sent to, while they are known to the shop and the machine is theirs. */
async function behind(db: Db, token: string): Promise<Result<Behind>> {
  const found = TOKEN.test(token) ? await seatOfLink(db, yesHash(token)) : undefined
  const loaded = found && (await loadRound(db, found.roundId))
  if (found === undefined || loaded?.ok !== true) return failed(NO_OFFER)
  const seat = loaded.value.seats.find(({ id }) => id === found.id)
  const customer = await loadCustomer(db, found.customerId)
  const answer = await answerOfSeat(db, found)
  const isTheirs =
    found.machineTag !== undefined && (await ownerIdOf(db, found.machineTag)) === found.customerId
  if (seat === undefined || answer === undefined || customer === undefined || !isTheirs)
    return failed(NO_OFFER)
  if (customer.erasedAt !== undefined) return failed(NO_OFFER)
  return ok({ seat, loaded: loaded.value, answer: asRead(answer, customer, loaded.value) })
}

/** What is offered, and whether it is there; nothing is changed by looking, because programs follow links before people do. */
export async function viewOffer({ db }: Store, token: string, at: string): Promise<Result<OfferView>> {
  const found = await behind(db, token)
  if (!found.ok) return found
  const { seat, loaded, answer } = found.value
  const { round, row, free } = loaded
  const job = seat.jobId === undefined ? undefined : await loadJob(db, seat.jobId)
  const core = round.seats.find(({ id }) => id === seat.id)
  if (core === undefined || seat.optionId === undefined) return failed(NO_OFFER)
  const counted = round.seats.filter(({ standing }) => standing === 'counted').length
  return ok({
    ...{ answer, optionId: seat.optionId, standing: seat.standing, validUntil: row.validUntil },
    isOpen: takesYes(round, at),
    // A yes that was given back has lost its place: said again it comes last.
    isLeft: isLeftFor(round, core.standing === 'too late' ? core : { ...core, yesNumber: undefined }, free),
    left: seat.itemId === undefined ? 0 : Math.max(0, leftOf(round, seat.itemId, free)),
    asked: await writtenTo(db, loaded, seat.itemId),
    ...(isOpenDeal(round) && { deal: { wanted: row.wantedYeses ?? 1, counted } }),
    ...{ isCalledOff: row.state === 'called off', hadTooFew: hadTooFew(loaded) },
    ...(row.state === 'ended' && { endedAt: await endedEarly(db, row) }),
    ...(job?.state === 'booked' && { bookedFor: job.bookedFor }),
    isUnderWay: job !== undefined && (job.state === 'on the bench' || job.state === 'done'),
  })
}

/** How many owners got an offer of the same item, or are about to: who was passed over was not asked. */
async function writtenTo(db: Db, { row, seats }: LoadedRound, itemId: string | undefined): Promise<number> {
  const unsent = await unsentMailsOf(db, row.id)
  const isPassedOver = ({ mailId, trouble, standing }: SeatRow) =>
    mailId === undefined ? standing === 'asked' && trouble !== undefined : unsent.has(mailId)
  return askedFor({ seats: seats.filter((one) => !isPassedOver(one)) }, itemId)
}

/** When a round was ended while its date still held. */
async function endedEarly(db: Db, { id, validUntil }: LoadedRound['row']): Promise<string | undefined> {
  const at = (await notesOfRound(db, id)).findLast(({ event }) => event === 'end')?.at
  return at !== undefined && at <= validUntil ? at : undefined
}

/** What somebody can say by their link. `back`: not after all. */
export const SAYS = ['yes', 'no', 'back'] as const
export type Says = (typeof SAYS)[number]

/**
 * What the owner says. Said twice it is said once; a yes to what is gone is kept with its place in line. Of two who say yes to
 * the last one at once, in whichever processes, one has it: what is free is read and taken in one write transaction.
 */
export async function sayByLink(
  store: Store,
  token: string,
  says: Says,
  at: string,
): Promise<Result<OfferView>> {
  const done = await allOrNothing(store, async (tx): Promise<Result<unknown>> => {
    const found = await behind(tx, token)
    if (!found.ok) return found
    const { seat, loaded } = found.value
    const event =
      says === 'yes'
        ? ({ is: 'yes', seat: seat.id, at } as const)
        : ({ is: says === 'back' ? 'let go' : 'no', seat: seat.id } as const)
    return applyEvent(tx, loaded.row.id, event, { at }, says === 'yes' ? undefined : 'the owner, by the link')
  })
  // What could not be said is told by how the page stands then.
  if (!done.ok && done.problems.some(({ field }) => field === 'link')) return failed(NO_OFFER)
  return viewOffer(store, token, at)
}
