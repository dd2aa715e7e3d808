import { agreeable } from '../../core/job/agreed.ts'
import { isOver } from '../../core/job/states.ts'
import {
  isThereFor,
  type RoundEffect,
  type RoundEvent,
  type RoundRefusal,
  roundAfter,
} from '../../core/round/round.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { saveAnswer } from '../../store/answers.ts'
import { loadCustomer } from '../../store/customers.ts'
import { loadJob } from '../../store/jobs.ts'
import type { Db } from '../../store/open.ts'
import { stopMailsOf } from '../../store/roundMails.ts'
import { type SeatRow, updateSeat } from '../../store/roundSeats.ts'
import { addRoundNote, setRoundItem, updateRound } from '../../store/rounds.ts'
import { putBackOnShelf } from '../../store/shelf.ts'
import { ROUNDS_EN } from '../../words/en/rounds.ts'
import { fill } from '../../words/say.ts'
import { agreeIn } from '../jobs/agreeJob.ts'
import { visitToJoin } from '../jobs/joinVisit.ts'
import { takeStep } from '../jobs/onJob.ts'
import { alreadyFitted } from '../jobs/problems.ts'
import { machineProblems } from '../jobs/toAgree.ts'
import { type LoadedRound, loadRound } from './loadRound.ts'
import { answerOfSeat } from './seatAnswer.ts'

/** Who does it, and when: ISO 8601 UTC. Without a name it is the owner, by their link, or the program. */
export type Hand = { readonly at: string; readonly by?: string | undefined }

const w = ROUNDS_EN.refused

/** Why something cannot be done to a round, for whoever looks at its page. */
export const refusedBecause = (why: RoundRefusal): Problem => ({
  ...{ code: why === 'no such customer' ? 'not found' : 'conflict', field: 'round' },
  next: w[why],
})

/**
 * One event of a round with all it does to shelf, jobs and mails, within a transaction that is given up where this ends in a
 * problem. What is free is read in the same transaction, so of two who say yes to the last one at once one has it.
 */
export async function applyEvent(
  tx: Db,
  roundId: string,
  event: RoundEvent,
  hand: Hand,
  says?: string,
): Promise<Result<LoadedRound>> {
  const loaded = await loadRound(tx, roundId)
  if (!loaded.ok) return loaded
  const before = loaded.value
  const stepped = roundAfter(before.round, event, before.free)
  if (!stepped.ok) return failed(refusedBecause(stepped.why))
  const { state, yeses, boughtPieces } = stepped.round
  const hasChanged = JSON.stringify(stepped.round) !== JSON.stringify(before.round)
  if (!hasChanged) return ok(before)
  await updateRound(tx, roundId, {
    ...{ state, yeses, boughtPieces: boughtPieces ?? null },
    ...(event.is === 'bought' && { boughtAt: hand.at }),
  })
  const seatRows = new Map(before.seats.map((seat) => [seat.id, seat]))
  for (const seat of stepped.round.seats) {
    const was = seatRows.get(seat.id)
    if (was === undefined || (was.standing === seat.standing && was.yesNumber === seat.yesNumber)) continue
    const saysSomething =
      'seat' in event && event.seat === seat.id && (event.is === 'yes' || event.is === 'no')
    await updateSeat(tx, seat.id, {
      ...{ standing: seat.standing, yesNumber: seat.yesNumber ?? null },
      ...(saysSomething && { saidAt: hand.at, saidBy: hand.by ?? null }),
      ...(seat.standing !== 'to settle' && { trouble: null }),
    })
  }
  const seatId = 'seat' in event ? event.seat : undefined
  await addRoundNote(tx, roundId, { at: hand.at, by: hand.by, event: event.is, seatId, says })
  for (const effect of stepped.effects) {
    const done = await happen(tx, before, effect, hand, says)
    if (!done.ok) return done
  }
  const after = await loadRound(tx, roundId)
  if (after.ok) await stopWhatIsGone(tx, after.value, hand.at)
  return loadRound(tx, roundId)
}

async function happen(
  tx: Db,
  { row, seats, items }: LoadedRound,
  effect: RoundEffect,
  hand: Hand,
  because: string | undefined,
): Promise<Result<unknown>> {
  if (effect.do === 'put on the shelf') {
    await putBackOnShelf(tx, effect.itemId, effect.pieces)
    const costMinor = items.find(({ itemId }) => itemId === effect.itemId)?.costMinor
    await setRoundItem(tx, row.id, { itemId: effect.itemId, quantity: effect.pieces, costMinor })
    return ok(undefined)
  }
  const seat = seats.find(({ id }) => id === effect.seat)
  if (seat === undefined) throw new Error('an effect on nobody')
  return effect.do === 'hold' ? hold(tx, row.id, seat, hand) : release(tx, seat, hand, because)
}

/** A yes becomes a job, with everything it needs put aside; where something about the machine forbids that a person settles it. */
async function hold(tx: Db, roundId: string, seat: SeatRow, hand: Hand): Promise<Result<unknown>> {
  const answer = await answerOfSeat(tx, seat)
  const chosen = answer && seat.optionId && agreeable(answer, seat.optionId)
  if (answer === undefined || chosen === undefined || chosen === '')
    throw new Error('a yes to an offer that nobody kept')
  // A yes that came before the mail was written: its answer is kept from now on.
  const answerId = seat.answerId ?? (await saveAnswer(tx, answer))
  await updateSeat(tx, seat.id, { answerId: Number(answerId), draft: null })
  const problems = (await machineProblems(tx, answer)).map(({ next }) => next)
  const customer = await loadCustomer(tx, seat.customerId)
  if (customer?.erasedAt !== undefined) problems.push(w.erased)
  // What joins a visit cannot be given back by itself: letting go would call off the other work of the visit with it.
  const visit = problems.length > 0 ? undefined : await visitToJoin(tx, answer.inputs.question.id)
  if (visit !== undefined) problems.push(fill(w.visit, { job: visit.job.id }))
  if (problems.length > 0) {
    const trouble = problems.join(' ')
    await updateSeat(tx, seat.id, { standing: 'to settle', trouble })
    await addRoundNote(tx, roundId, { at: hand.at, event: 'could not hold', seatId: seat.id, says: trouble })
    return ok(undefined)
  }
  const note = `${ROUNDS_EN.jobNote} ${roundId}`
  const agreement = { fittedBy: 'shop', note } as const
  const agreed = await agreeIn(tx, { answer, answerId, chosen, agreement }, hand.at)
  if (agreed.ok) await updateSeat(tx, seat.id, { jobId: agreed.value.jobId })
  return agreed
}

/** What was put aside goes back: its job is called off, unless that was done already or the parts are in. */
async function release(
  tx: Db,
  { jobId }: SeatRow,
  { at }: Hand,
  because: string | undefined,
): Promise<Result<unknown>> {
  const job = jobId === undefined ? undefined : await loadJob(tx, jobId)
  if (job === undefined || isOver(job.state)) return ok(undefined)
  return job.fittedAt !== undefined
    ? failed(alreadyFitted(job, 'called off'))
    : takeStep(tx, job, 'call off', at, { because: because ?? ROUNDS_EN.letGoNote })
}

/** How the outbox tells that what a mail offers is gone, or that its reader answered before it went. */
export const GONE = 'gone'
export const ANSWERED = 'answered already'

/**
 * A mail that waits must not offer what nobody can have any more, nor ask who said something already; who was not written to
 * yet is passed over while nothing is left.
 */
async function stopWhatIsGone(tx: Db, { row, round, seats, free }: LoadedRound, at: string): Promise<void> {
  if (row.state === 'draft') return
  const there = new Map(round.seats.map((seat) => [seat.id, isThereFor(round, seat, free)]))
  const mailsOf = (which: readonly SeatRow[]) => which.flatMap(({ mailId }) => mailId ?? [])
  const asked = seats.filter(({ standing }) => standing === 'asked')
  const gone = mailsOf(asked.filter(({ id }) => there.get(id) === false))
  const answered = mailsOf(seats.filter(({ standing }) => standing !== 'asked'))
  if (gone.length > 0) await stopMailsOf(tx, row.id, GONE, at, gone)
  if (answered.length > 0) await stopMailsOf(tx, row.id, ANSWERED, at, answered)
  for (const { id, askedAt, trouble } of asked) {
    if (askedAt !== undefined) continue
    if (there.get(id) === false && trouble === undefined) await updateSeat(tx, id, { trouble: GONE })
    if (there.get(id) === true && trouble === GONE) await updateSeat(tx, id, { trouble: null })
  }
}
