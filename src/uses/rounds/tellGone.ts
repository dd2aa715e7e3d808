import { isLeftFor, isOpenDeal } from '../../core/round/round.ts'
import { MAILS } from '../../mail/mails.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadCustomer } from '../../store/customers.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadMail } from '../../store/outbox.ts'
import { type SeatRow, updateSeat } from '../../store/roundSeats.ts'
import { contextOf } from '../../words/answer/context.ts'
import { pickOf } from '../../words/answer/pick.ts'
import { notBoughtMail } from '../../words/mails/notBought.ts'
import { answerQuestion } from '../answerQuestion.ts'
import { draftMail, type MailId } from '../outbox/draftMails.ts'
import type { Hand } from './applyEvent.ts'
import { type LoadedRound, loadRound } from './loadRound.ts'
import { answerOfSeat } from './seatAnswer.ts'

const nothingToTell = (next: string): Problem => ({ code: 'conflict', field: 'round', next })

/**
 * Who waits to hear that it is gone, or that it was not bought. Before a deal is decided nobody's is gone, nor is it for one in
 * line for whom there is one again.
 */
export function isToBeTold(
  { id, standing, toldMailId }: Pick<SeatRow, 'id' | 'standing' | 'toldMailId'>,
  { round, free }: Pick<LoadedRound, 'round' | 'free'>,
): boolean {
  if (toldMailId !== undefined) return false
  if (standing === 'not bought') return true
  const seat = round.seats.find((one) => one.id === id)
  return seat?.standing === 'too late' && !isOpenDeal(round) && !isLeftFor(round, seat, free)
}

/** Whether fewer said yes to a part that was not bought than would have made it worth buying. */
export const hadTooFew = ({ row, seats }: Pick<LoadedRound, 'row' | 'seats'>): boolean =>
  seats.filter(({ standing }) => standing === 'not bought').length < (row.wantedYeses ?? 1)

/** So many are written with one press: each is an answer of its own, and the page waits for them. */
export const TOLD_AT_ONCE = 20

/** What became of telling everybody: the drafts that are there to look through, and what was in the way of others. */
export type ToldAll = { readonly mailIds: readonly string[]; readonly problems: readonly Problem[] }

/** A draft to each who waits to hear it, with those that are drafted already: pressed twice it leads to the same ones. */
export async function tellAll(
  store: Store,
  roundId: string,
  hand: Hand,
  waitMs?: number,
): Promise<Result<ToldAll>> {
  const found = await loadRound(store.db, roundId)
  if (!found.ok) return found
  const { seats } = found.value
  const mailIds = await draftedOf(store.db, seats)
  const problems: Problem[] = []
  for (const seat of seats.filter((one) => isToBeTold(one, found.value)).slice(0, TOLD_AT_ONCE)) {
    const told = await tellGone(store, roundId, seat.id, hand, waitMs)
    if (told.ok) mailIds.push(told.value.mailId)
    else problems.push(...told.problems)
    // Numbers that are not there for one are there for nobody.
    if (problems.some(({ code }) => code === 'busy')) break
  }
  if (mailIds.length > 0) return ok({ mailIds, problems })
  return failed(...(problems.length > 0 ? problems : [nothingToTell('Nobody waits to hear anything.')]))
}

/** Drafts that tell it and that nobody approved yet. */
async function draftedOf(db: Db, seats: readonly SeatRow[]): Promise<string[]> {
  const mails = await Promise.all(
    seats.flatMap(({ toldMailId }) => toldMailId ?? []).map((id) => loadMail(db, id)),
  )
  return mails.flatMap((mail) => (mail?.state === 'drafted' ? mail.id : []))
}

/**
 * The mail among the drafts to somebody whose yes came too late, with the next best thing as the shelf is now; or, of a part that
 * was not bought, that nothing comes of it. Numbers that are not there within `waitMs` are a problem with code `busy`.
 */
export async function tellGone(
  store: Store,
  roundId: string,
  seatId: string,
  { at, by }: Hand,
  waitMs?: number,
): Promise<Result<MailId>> {
  const found = await loadRound(store.db, roundId)
  if (!found.ok) return found
  const { row, seats } = found.value
  const seat = seats.find(({ id }) => id === seatId)
  const customer = seat && (await loadCustomer(store.db, seat.customerId))
  const offered = seat && (await answerOfSeat(store.db, seat))
  if (seat === undefined || customer === undefined || offered === undefined || seat.questionId === undefined)
    return failed(nothingToTell('There is nobody to write to any more.'))
  if (seat.toldMailId !== undefined) return ok({ mailId: seat.toldMailId })
  const isNotBought = seat.standing === 'not bought'
  if (!isToBeTold(seat, found.value))
    return failed(nothingToTell('Nothing of theirs is gone: there is nothing to tell.'))
  const now = await answerQuestion(store, seat.questionId, at, waitMs)
  if (!now.ok) return now
  const answer = { ...now.value, inputs: { ...now.value.inputs, customer } }
  const item = offered.inputs.shelf.find(({ id }) => id === seat.itemId)
  const offeredToThem = { ...offered, inputs: { ...offered.inputs, customer } }
  const what = contextOf(offeredToThem, undefined).partWords(item?.partId ?? '')
  const nextId = pickOf(answer)?.id
  const saidYesAt = seat.saidAt ?? row.createdAt
  const notice = isNotBought
    ? notBoughtMail({ answer, what, saidYesAt, nextId, tooFew: hadTooFew(found.value) })
    : MAILS.gone.says({ answer, what, saidYesAt, nextId, bought: row.boughtPieces })
  const drawn = await MAILS.gone.draw(notice)
  return store.write(async (tx) => {
    const { machineTag, questionId } = seat
    const drafted = await draftMail(tx, { kind: 'gone', customer, machineTag, questionId, ...drawn }, at, by)
    if (drafted.ok) await updateSeat(tx, seatId, { toldMailId: Number(drafted.value.mailId) })
    return drafted
  })
}
