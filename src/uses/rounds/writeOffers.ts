import { createHash, randomBytes } from 'node:crypto'
import type { Answer, Customer } from '../../core/answer.ts'
import { standingConsent } from '../../core/consent.ts'
import { standing } from '../../core/outbox/hindrance.ts'
import { isOpenDeal } from '../../core/round/round.ts'
import { MAILS } from '../../mail/mails.ts'
import type { DrawnNotice } from '../../mail/render.ts'
import type { Result } from '../../problem.ts'
import { saveAnswer } from '../../store/answers.ts'
import { consentsOf } from '../../store/consents.ts'
import { loadCustomer } from '../../store/customers.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadMail, moveMail } from '../../store/outbox.ts'
import { insertRoundLink, loadSeat, type SeatRow, seatToWrite, updateSeat } from '../../store/roundSeats.ts'
import { addRoundNote, loadRoundRow } from '../../store/rounds.ts'
import { draftMail, optOutOf } from '../outbox/draftMails.ts'
import { hindrancesNow, type Reach } from '../outbox/facts.ts'
import { approveIn } from '../outbox/mailSteps.ts'
import { shopOrNeutral } from '../shop.ts'
import { type LoadedRound, loadRound } from './loadRound.ts'
import { answerOfSeat } from './seatAnswer.ts'

/** 256 bits: nobody finds one by trying. Only its hash is kept. */
export const newYesToken = (): string => randomBytes(32).toString('base64url')
export const yesHash = (token: string): string => createHash('sha256').update(token).digest('hex')
export const yesUrl = ({ ownerUrl }: Reach, token: string): string => `${ownerUrl ?? ''}/y/${token}`

/**
 * An offer as somebody reads it now: named as they are called today, and of a deal without the parts that it was worked out
 * with, because nobody has them yet.
 */
export function asRead(answer: Answer, customer: Customer, { row, items }: LoadedRound): Answer {
  const notThere = row.kind === 'deal' && row.boughtPieces === undefined ? items : []
  const missing = new Set(notThere.map(({ itemId }) => itemId))
  const { inputs } = answer
  const shelf = inputs.shelf.map((item) => (missing.has(item.id) ? { ...item, quantity: 0 } : item))
  return { ...answer, inputs: { ...inputs, customer, shelf } }
}

/** How many owners get an offer of the same item, this one among them. */
export const askedFor = ({ seats }: Pick<LoadedRound, 'seats'>, itemId: string | undefined): number =>
  seats.filter((seat) => seat.standing !== 'left out' && seat.itemId === itemId).length

/** The mail to one customer with its own numbers; undefined while these are not worked out, or after they were erased. */
export async function drawOffer(
  db: Db,
  loaded: LoadedRound,
  seat: SeatRow,
  links: { readonly yesHref: string; readonly optOutHref: string },
): Promise<DrawnNotice | undefined> {
  const answer = await answerOfSeat(db, seat)
  const customer = await loadCustomer(db, seat.customerId)
  if (answer === undefined || customer === undefined || seat.optionId === undefined) return undefined
  const { row, round } = loaded
  const consent = standingConsent(await consentsOf(db, seat.customerId), row.createdAt)
  return MAILS.offer.draw(
    MAILS.offer.says({
      answer: asRead(answer, customer, loaded),
      ...{ pickId: seat.optionId, saidYesAt: consent?.at ?? row.createdAt },
      ...{ offeredTo: askedFor(loaded, seat.itemId), ...links },
      ...(isOpenDeal(round) && { wantedYeses: row.wantedYeses ?? 1 }),
    }),
  )
}

/**
 * Writes and approves the next mail of a round that goes out. Each step is kept before the next: a program that is stopped in
 * between finds the draft, or the approved mail, and goes on with it, so nobody gets two. True while there is more to do.
 */
export async function writeNext(store: Store, reach: Reach, at: string): Promise<boolean> {
  const seat = await seatToWrite(store.db)
  if (seat === undefined) return false
  const mailId = seat.mailId ?? (await draftOffer(store, seat, reach, at))
  if (mailId === undefined) return true
  await approveOffer(store, seat, mailId, reach, at)
  return true
}

const CANNOT_WRITE = 'cannot be written to'

/** The draft with its links, and the answer among the answers; undefined where it cannot be written. */
async function draftOffer(
  store: Store,
  seat: SeatRow,
  reach: Reach,
  at: string,
): Promise<string | undefined> {
  const loaded = await loadRound(store.db, seat.roundId)
  if (!loaded.ok) return undefined
  const token = newYesToken()
  const optOut = optOutOf(reach)
  const links = { yesHref: yesUrl(reach, token), optOutHref: optOut.url }
  const drawn = await drawOffer(store.db, loaded.value, seat, links)
  return store.write(async (tx) => {
    const [now, round] = [await loadSeat(tx, seat.id), await loadRoundRow(tx, seat.roundId)]
    // Another process wrote it, or the round was paused or the customer left it meanwhile.
    if (now?.standing !== 'asked' || now.mailId !== undefined || round?.state !== 'going out')
      return now?.mailId
    const customer = await loadCustomer(tx, seat.customerId)
    const answer = await answerOfSeat(tx, seat)
    const drafted: Result<{ mailId: string }> | undefined =
      drawn === undefined || customer === undefined || answer === undefined
        ? undefined
        : await draftMail(
            tx,
            {
              ...{ kind: 'offer', customer, machineTag: seat.machineTag, questionId: seat.questionId },
              ...{ unsubscribeToken: optOut.token, ...drawn },
            },
            at,
            round.begunBy,
          )
    if (drafted?.ok !== true || answer === undefined) {
      await updateSeat(tx, seat.id, { trouble: CANNOT_WRITE })
      return undefined
    }
    const { mailId } = drafted.value
    const answerId = seat.answerId ?? (await saveAnswer(tx, answer))
    await updateSeat(tx, seat.id, { mailId: Number(mailId), answerId: Number(answerId), draft: null })
    await insertRoundLink(tx, { tokenHash: yesHash(token), seatId: seat.id, createdAt: at })
    return mailId
  })
}

/**
 * Approves what was drafted, unless the round was paused or stopped meanwhile; what stands in its way for good stops it, with
 * the reason where the round shows it.
 */
async function approveOffer(
  store: Store,
  seat: SeatRow,
  mailId: string,
  reach: Reach,
  at: string,
): Promise<void> {
  await store.write(async (tx) => {
    const [round, mail] = [await loadRoundRow(tx, seat.roundId), await loadMail(tx, mailId)]
    if (round?.state !== 'going out') return
    if (mail?.state === 'drafted') {
      const shop = await shopOrNeutral(tx)
      const [inTheWay] = standing(await hindrancesNow(tx, mail, shop, reach, at))
      const seen = { updatedAt: mail.updatedAt, knowsStale: true }
      const approved =
        inTheWay === undefined
          ? await approveIn(tx, mailId, seen, reach, { at, by: round.begunBy })
          : undefined
      if (approved?.ok !== true) {
        const says = inTheWay?.why ?? CANNOT_WRITE
        await moveMail(tx, mailId, 'drafted', 'stopped', { event: 'stopped', at, says }, { says })
      }
    }
    await updateSeat(tx, seat.id, { askedAt: at })
    await addRoundNote(tx, seat.roundId, { at, event: 'written', seatId: seat.id })
  })
}

/** A mail that cannot be drawn must not hold up the others. */
export const passOver = (store: Store, seatId: string): Promise<void> =>
  store.write((tx) => updateSeat(tx, seatId, { trouble: CANNOT_WRITE }))
