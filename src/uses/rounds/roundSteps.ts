import { createHash } from 'node:crypto'
import type { RoundEvent } from '../../core/round/round.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadJob } from '../../store/jobs.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadMail } from '../../store/outbox.ts'
import { pauseMailsOf, resumeMailsOf, stopMailsOf } from '../../store/roundMails.ts'
import { type SeatRow, updateSeat } from '../../store/roundSeats.ts'
import { addRoundNote, updateRound } from '../../store/rounds.ts'
import { ROUNDS_EN } from '../../words/en/rounds.ts'
import { fill, formOf } from '../../words/say.ts'
import { bookIn } from '../jobs/bookJob.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { hasOneClick, type Reach } from '../outbox/facts.ts'
import { shopOrNeutral } from '../shop.ts'
import { applyEvent, type Hand, refusedBecause } from './applyEvent.ts'
import { isRepriced } from './isRepriced.ts'
import { type LoadedRound, loadRound, needsOf } from './loadRound.ts'
import type { RoundId } from './startRound.ts'

const w = ROUNDS_EN.refused
const PLURAL = new Intl.PluralRules('en')

const tooFewWords = (wanted: number, asked: number): string =>
  fill(formOf(w.tooFewAsked, asked, PLURAL), { wanted: String(wanted), asked: String(asked) })

const conflict = (next: string): Problem => ({ code: 'conflict', field: 'round', next })

/** Names what is approved: these customers, at these prices, in this order. */
export function markOfRound({ row, seats }: LoadedRound): string {
  const asked = seats.filter(({ standing }) => standing === 'asked')
  const said = [row.id, row.createdAt, asked.map(({ id, dueMinor, optionId }) => [id, dueMinor, optionId])]
  return createHash('sha256').update(JSON.stringify(said)).digest('hex').slice(0, 24)
}

/** One step of a round in one transaction; given up as a whole where it ends in a problem. */
export async function onRound(
  store: Store,
  roundId: string,
  work: (tx: Db, loaded: LoadedRound) => Promise<Result<unknown>>,
): Promise<Result<RoundId>> {
  const done = await allOrNothing(store, async (tx) => {
    const loaded = await loadRound(tx, roundId)
    return loaded.ok ? work(tx, loaded.value) : loaded
  })
  return done.ok ? ok({ roundId }) : done
}

/** Why a draft cannot go out as it is. */
async function beginProblems(tx: Db, loaded: LoadedRound, reach: Reach, at: string): Promise<Problem[]> {
  const { row, seats } = loaded
  const asked = seats.filter(({ standing }) => standing === 'asked')
  const shop = await shopOrNeutral(tx)
  const needed = new Set(asked.flatMap((seat) => needsOf(seat).map(({ itemId }) => itemId)))
  const repriced = await isRepriced(tx, row, [...needed])
  const wanted = row.kind === 'deal' ? (row.wantedYeses ?? 1) : 0
  return [
    ...(row.preparedAt === undefined ? [conflict(w.beingPrepared)] : []),
    ...(asked.length === 0 ? [conflict(w.nobodyAsked)] : []),
    ...(wanted > asked.length && asked.length > 0 ? [conflict(tooFewWords(wanted, asked.length))] : []),
    ...(row.kind === 'shelf' ? shrunkProblems(loaded) : []),
    ...(at > row.validUntil ? [conflict(w.ranOut)] : []),
    ...(repriced ? [conflict(w.repriced)] : []),
    ...(hasOneClick(reach) ? [] : [conflict(w.noReach)]),
    ...(shop.address.trim() === '' ? [conflict(w.noAddress)] : []),
  ]
}

/** What was free when the round was made must be there still: each mail says how many there are. */
const shrunkProblems = ({ items, free }: LoadedRound): Problem[] =>
  items.flatMap(({ itemId, quantity }): Problem[] => {
    const there = free.get(itemId) ?? 0
    if (there >= quantity) return []
    const values = { item: itemId, free: String(there), offered: String(quantity) }
    return [conflict(there === 0 ? fill(w.soldOut, values) : fill(formOf(w.shrunk, there, PLURAL), values))]
  })

/** The round goes out as it was looked at (`seen`): mails are written, approved and sent from now on. */
export const beginRound = (
  store: Store,
  roundId: string,
  seen: string,
  reach: Reach,
  hand: Hand,
): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx, loaded) => {
    if (loaded.row.state !== 'draft') return failed(refusedBecause('not now'))
    const problems = await beginProblems(tx, loaded, reach, hand.at)
    if (problems.length > 0) return failed(...problems)
    if (markOfRound(loaded) !== seen) return failed(conflict(w.changed))
    await updateRound(tx, roundId, { begunAt: hand.at, begunBy: hand.by ?? null })
    return applyEvent(tx, roundId, { is: 'begin' }, hand)
  })

/** What waits to be sent waits on until the round is resumed. */
export const pauseRound = (store: Store, roundId: string, hand: Hand) =>
  onRound(store, roundId, async (tx) => {
    const paused = await applyEvent(tx, roundId, { is: 'pause' }, hand)
    if (paused.ok) await pauseMailsOf(tx, roundId, hand.at)
    return paused
  })

export const resumeRound = (store: Store, roundId: string, hand: Hand) =>
  onRound(store, roundId, async (tx) => {
    const resumed = await applyEvent(tx, roundId, { is: 'resume' }, hand)
    if (resumed.ok) await resumeMailsOf(tx, roundId, hand.at)
    return resumed
  })

/** Why a mail of a round was stopped, beside what the outbox knows. */
export const STOPPED = 'round stopped'

const endsMails =
  (is: 'stop' | 'end' | 'call off') =>
  (store: Store, roundId: string, hand: Hand, because?: string): Promise<Result<RoundId>> =>
    onRound(store, roundId, async (tx) => {
      const moved = await applyEvent(tx, roundId, { is }, hand, because)
      if (moved.ok) await stopMailsOf(tx, roundId, STOPPED, hand.at)
      return moved
    })

/** No further mail goes out; who has one can still say yes. */
export const stopRound = endsMails('stop')
/** Nobody can say yes any more. */
export const endRound = endsMails('end')
/** A draft is dropped, or a deal is not bought. */
export const callOffRound = endsMails('call off')

/** One event about one customer. */
const onSeat = (
  store: Store,
  roundId: string,
  event: RoundEvent,
  hand: Hand,
  says?: string,
): Promise<Result<RoundId>> => onRound(store, roundId, (tx) => applyEvent(tx, roundId, event, hand, says))

/** One customer gets no mail, with the reason in the shop's own words. */
export const leaveOut = (
  store: Store,
  roundId: string,
  seat: string,
  because: string | undefined,
  hand: Hand,
): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx) => {
    const done = await applyEvent(tx, roundId, { is: 'leave out', seat }, hand, because)
    if (done.ok) await updateSeat(tx, seat, { leftBecause: 'by hand', leftNote: because ?? null })
    return done
  })

/** Why nobody may be written to, whoever decides. */
const BARRED: ReadonlySet<string> = new Set([
  ...(['no consent', 'no address', 'erased', 'no machine', 'no titles'] as const),
])

const hasOffer = ({ optionId, leftBecause }: SeatRow): boolean =>
  optionId !== undefined && leftBecause !== 'no option now'

/** Whether somebody who is left out can be asked after all, by a person's decision. */
export const canBePutBack = (seat: SeatRow): boolean => hasOffer(seat) && !BARRED.has(seat.leftBecause ?? '')

/** They get one after all. Whoever may not be written to, or whose other machine is asked about, stays out. */
export const putBack = (store: Store, roundId: string, seat: string, hand: Hand): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx, { seats }) => {
    const one = seats.find(({ id }) => id === seat)
    const isAskedAlready = seats.some(
      ({ id, customerId, standing }) => id !== seat && customerId === one?.customerId && standing === 'asked',
    )
    if (isAskedAlready) return failed(conflict(w.asksAlready))
    if (one === undefined || !hasOffer(one)) return failed(conflict(w.noOption))
    if (!canBePutBack(one)) return failed(conflict(w.mayNotWrite))
    const done = await applyEvent(tx, roundId, { is: 'put back', seat }, hand)
    if (done.ok) {
      // What their mail goes out in spite of stays with them, so that it is told and not found again.
      const inSpiteOf = ['above the ceiling', 'quiet period'].find((reason) => reason === one.leftBecause)
      await updateSeat(tx, seat, { leftBecause: inSpiteOf ?? null, leftNote: null })
      // Their offer may not be worked out yet.
      if (!one.isDrafted) await updateRound(tx, roundId, { preparedAt: null })
    }
    return done
  })

/**
 * A yes or no that came by mail, by phone or over the counter. With a day the job that a yes becomes is booked at once; where the
 * yes only stands in line there is nothing to book yet. Fields of its problems: `bookedDay` and those of the round.
 */
export const sayFor = (
  store: Store,
  roundId: string,
  seat: string,
  is: 'yes' | 'no',
  hand: Hand,
  bookedFor?: string,
) =>
  onRound(store, roundId, async (tx) => {
    const said = await applyEvent(
      ...([tx, roundId, is === 'yes' ? { is, seat, at: hand.at } : { is, seat }, hand] as const),
    )
    if (!said.ok || bookedFor === undefined) return said
    const one = said.value.seats.find(({ id }) => id === seat)
    return one?.standing === 'held' ? bookSeat(tx, one, bookedFor, hand) : said
  })

/** The job of a yes gets its day. */
export const bookFor = (
  store: Store,
  roundId: string,
  seat: string,
  bookedFor: string,
  hand: Hand,
): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx, { seats }) => {
    const one = seats.find(({ id }) => id === seat)
    return one?.standing === 'held'
      ? bookSeat(tx, one, bookedFor, hand)
      : failed(refusedBecause('nothing said'))
  })

async function bookSeat(
  tx: Db,
  { jobId }: Pick<SeatRow, 'jobId'>,
  bookedFor: string,
  { at }: Hand,
): Promise<Result<unknown>> {
  const job = jobId === undefined ? undefined : await loadJob(tx, jobId)
  return job === undefined ? failed(refusedBecause('nothing said')) : bookIn(tx, job, { bookedFor }, at)
}

/** What was put aside goes back to the shelf. */
export const letGo = (store: Store, roundId: string, seat: string, because: string | undefined, hand: Hand) =>
  onSeat(store, roundId, { is: 'let go', seat }, hand, because)

/** What came back, or could be settled, is put aside for one who said yes. */
export const giveTo = (store: Store, roundId: string, seat: string, hand: Hand) =>
  onSeat(store, roundId, { is: 'give', seat }, hand)

/** A mail that was stopped or failed is written anew; what stood in its way is looked at again. */
export const askAnew = (store: Store, roundId: string, seat: string, hand: Hand): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx, { row, seats }) => {
    const one = seats.find(({ id }) => id === seat)
    const mail = one?.mailId === undefined ? undefined : await loadMail(tx, one.mailId)
    const isOut = mail !== undefined && mail.state !== 'stopped' && mail.state !== 'failed'
    if (row.state !== 'going out' || one?.standing !== 'asked' || isOut)
      return failed(refusedBecause('not now'))
    await updateSeat(tx, seat, { mailId: null, askedAt: null, trouble: null })
    await addRoundNote(tx, roundId, { at: hand.at, by: hand.by, event: 'asked anew', seatId: seat })
    return ok(undefined)
  })

/** A round that could not be worked out is tried again. */
export const prepareAgain = (store: Store, roundId: string): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx) => {
    await updateRound(tx, roundId, { trouble: null })
    return ok(undefined)
  })
