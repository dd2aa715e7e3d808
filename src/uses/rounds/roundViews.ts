import type { Shop } from '../../core/answer.ts'
import type { Job } from '../../core/job/job.ts'
import { overall } from '../../core/job/promise.ts'
import { isAboveCeiling } from '../../core/matching/leftOut.ts'
import type { Minor } from '../../core/money.ts'
import type { MailState } from '../../core/outbox/mail.ts'
import type { Part } from '../../core/part.ts'
import { type RoundResult, resultOf, type SeatFacts } from '../../core/round/result.ts'
import { isOpenDeal, leftOf, nextInLine, sumsOf } from '../../core/round/round.ts'
import type { Standing } from '../../core/round/states.ts'
import type { Findable, ShelfItem } from '../../core/shop.ts'
import { type RoundSource, sourceSchema } from '../../input/storedRound.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { listCustomers } from '../../store/customers.ts'
import { listFindable } from '../../store/findable.ts'
import { listJobs } from '../../store/jobs.ts'
import type { Store } from '../../store/open.ts'
import { loadMail, type Mail } from '../../store/outbox.ts'
import { listParts } from '../../store/parts.ts'
import { listQuestions, type QuestionLine } from '../../store/questionLines.ts'
import { type SeatRow, seatsByRound } from '../../store/roundSeats.ts'
import { listRounds, notesOfRound, type RoundNote, type RoundRow } from '../../store/rounds.ts'
import { listShelf, listShelfItems, type ShelfLine } from '../../store/shelf.ts'
import { viewJob } from '../jobs/jobViews.ts'
import { hasOneClick, type Reach } from '../outbox/facts.ts'
import { shopOrNeutral } from '../shop.ts'
import { isItemChoosable } from './choosable.ts'
import { type LoadedRound, loadRound } from './loadRound.ts'
import { canBePutBack, markOfRound } from './roundSteps.ts'
import { isToBeTold } from './tellGone.ts'
import { drawOffer } from './writeOffers.ts'

/** A round in one line. */
export type RoundLine = RoundRow & {
  readonly seats: { readonly [S in Standing]: number }
  readonly itemIds: readonly string[]
}

export type RoundsView = {
  readonly rounds: readonly RoundLine[]
  /** What a round can be made of. */
  readonly shelf: readonly ShelfLine[]
  readonly findable: readonly { readonly findable: Findable; readonly part: Part }[]
  readonly shop: Shop
}

export async function viewRounds({ db }: Store): Promise<RoundsView> {
  const seats = await seatsByRound(db)
  const rounds = (await listRounds(db)).map((row): RoundLine => {
    const own = seats.get(row.id) ?? []
    const core = own.map(({ id, standing }) => ({ id, standing, needs: [], dueMinor: 0 }))
    const itemIds = [...new Set(own.flatMap(({ itemId }) => itemId ?? []))]
    return { ...row, seats: sumsOf({ seats: core }).seats, itemIds }
  })
  return {
    rounds,
    shelf: (await listShelf(db)).filter((line) => isItemChoosable(line.part) && line.item.quantity > 0),
    findable: (await listFindable(db)).filter(({ part }) => isItemChoosable(part)),
    shop: await shopOrNeutral(db),
  }
}

/** One customer of a round with all that is known of them in it. */
export type SeatLine = SeatRow & {
  readonly name?: string | undefined
  readonly mail?: Mail | undefined
  readonly job?: Job | undefined
  readonly questions: readonly QuestionLine[]
  /** The most that they named to spend, where the offer costs more. */
  readonly ceilingMinor?: Minor | undefined
  /** Other machines of theirs that could take it. */
  readonly others: readonly { readonly machineTag: string; readonly pct?: number | undefined }[]
  /** How far the mail is by which they hear that it is gone or not bought. */
  readonly toldState?: MailState | undefined
  /** They wait to hear that it is gone or not bought, and no mail says so yet. */
  readonly isToTell: boolean
  /** Left out, and a person may decide otherwise. */
  readonly canBePutBack: boolean
  readonly facts: SeatFacts
}

export type RoundView = {
  readonly row: RoundRow
  readonly source: RoundSource
  readonly seats: readonly SeatLine[]
  /** Items with how many the round gives, how many are left of these, and how many are asked. */
  readonly items: readonly {
    readonly item: ShelfItem
    readonly quantity: number
    readonly left: number
    /** Of it on the shelf that nobody holds, whoever they are for. */
    readonly free: number
    readonly asked: number
  }[]
  readonly parts: readonly Part[]
  /** Every item of the shelf, for the names of what offers put in. */
  readonly shelf: readonly ShelfItem[]
  readonly result: RoundResult
  /** Goes along with the approval: what was looked at is what goes out. */
  readonly seen: string
  readonly isOpenDeal: boolean
  /** What came back goes to this one first. */
  readonly nextSeat?: string | undefined
  /** Offers that are worked out, and mails that are written, of how many. */
  readonly prepared: { readonly done: number; readonly of: number }
  readonly written: { readonly done: number; readonly of: number }
  /** Mails that tell it is gone or not bought: still to be written, and written and not approved. */
  readonly notices: { readonly toWrite: number; readonly drafted: readonly string[] }
  readonly hasReach: boolean
  readonly notes: readonly RoundNote[]
  readonly shop: Shop
}

export async function viewRound(store: Store, id: string, reach: Reach): Promise<Result<RoundView>> {
  const { db } = store
  const found = await loadRound(db, id)
  if (!found.ok) return found
  const loaded = found.value
  const { row, round, seats, free } = loaded
  const names = new Map((await listCustomers(db)).map(({ id: customer, name }) => [customer, name]))
  const jobs = new Map((await listJobs(db)).map((job) => [job.id, job]))
  const asked = await listQuestions(db)
  const lines: SeatLine[] = []
  for (const seat of seats) {
    const mail = seat.mailId === undefined ? undefined : await loadMail(db, seat.mailId)
    const job = seat.jobId === undefined ? undefined : jobs.get(seat.jobId)
    const since = mail?.sentAt
    const questions = asked.filter(
      ({ machineTag, askedAt }) => since !== undefined && machineTag === seat.machineTag && askedAt > since,
    )
    const facts = await factsOf(store, loaded, seat, { mail, job, questions: questions.length })
    const told = seat.toldMailId === undefined ? undefined : await loadMail(db, seat.toldMailId)
    const ceilingMinor = asked.find(({ id: question }) => question === seat.questionId)?.budgetMinor
    lines.push({
      ...{ ...seat, name: names.get(seat.customerId), mail, job, questions, facts },
      ...{ toldState: told?.state, others: othersOf(seat, seats) },
      isToTell: isToBeTold(seat, loaded),
      canBePutBack: seat.standing === 'left out' && canBePutBack(seat),
      ...(isAboveCeiling(seat.dueMinor ?? 0, ceilingMinor) && { ceilingMinor }),
    })
  }
  const inRound = seats.filter(({ standing }) => standing !== 'left out')
  // Also a place on the shelf that was dropped with its deal: this page still names it.
  const shelf = new Map((await listShelfItems(db)).map((item) => [item.id, item]))
  return ok({
    ...{ row, seats: lines, source: sourceSchema.parse(row.source) },
    items: loaded.items.flatMap(({ itemId, quantity }) => {
      const item = shelf.get(itemId)
      const here = inRound.filter((seat) => seat.itemId === itemId).length
      return item === undefined
        ? []
        : [
            {
              ...{ item, quantity, asked: here, free: free.get(itemId) ?? 0 },
              left: Math.max(0, leftOf(round, itemId, free)),
            },
          ]
    }),
    ...{ parts: await listParts(db), shelf: [...shelf.values()] },
    result: resultOf(
      lines.map(({ facts }) => facts),
      row.state,
    ),
    ...{ seen: markOfRound(loaded), isOpenDeal: isOpenDeal(round), nextSeat: nextInLine(round, free)?.id },
    prepared: { done: inRound.filter(isPrepared).length, of: inRound.length },
    written: { done: inRound.filter(({ askedAt }) => askedAt !== undefined).length, of: inRound.length },
    notices: {
      toWrite: lines.filter(({ isToTell }) => isToTell).length,
      drafted: lines.flatMap(({ toldState, toldMailId = [] }) => (toldState === 'drafted' ? toldMailId : [])),
    },
    ...{ hasReach: hasOneClick(reach), notes: await notesOfRound(db, id), shop: await shopOrNeutral(db) },
  })
}

/** Machines of the same customer that were found to take it too and are not asked about, because this one is. */
const othersOf = ({ id, customerId, standing }: SeatRow, seats: readonly SeatRow[]): SeatLine['others'] =>
  standing === 'left out'
    ? []
    : seats.flatMap((one) =>
        one.customerId === customerId &&
        one.id !== id &&
        one.optionId !== undefined &&
        one.machineTag !== undefined
          ? [{ machineTag: one.machineTag, pct: one.pct }]
          : [],
      )

const isPrepared = ({ isDrafted, answerId }: SeatRow): boolean => isDrafted || answerId !== undefined

type Known = { readonly mail?: Mail | undefined; readonly job?: Job | undefined; readonly questions: number }

async function factsOf(
  store: Store,
  { items }: LoadedRound,
  seat: SeatRow,
  { mail, job, questions }: Known,
): Promise<SeatFacts> {
  const shared = {
    ...{ id: seat.id, standing: seat.standing },
    ...{ mail: mailFact(mail), questions, dueMinor: seat.dueMinor ?? 0 },
  }
  if (job?.state !== 'done') return shared
  const costMinor = items.find(({ itemId }) => itemId === seat.itemId)?.costMinor
  const view = await viewJob(store, job.id)
  const kept = view.ok ? view.value.kept : []
  const gains = kept.flatMap(({ measuredFps, promised }) =>
    measuredFps === undefined ? [] : [100 * (measuredFps / promised.beforeFps - 1)],
  )
  return {
    ...shared,
    paidMinor: job.settledMinor ?? job.agreedMinor,
    ...(costMinor !== undefined && { costMinor }),
    promise: overall(kept),
    ...(gains.length > 0 && { gainedPct: gains.reduce((a, b) => a + b, 0) / gains.length }),
  }
}

function mailFact(mail: Mail | undefined): SeatFacts['mail'] {
  if (mail === undefined) return 'none'
  if (mail.state === 'sent' || mail.state === 'stopped' || mail.state === 'failed') return mail.state
  return mail.state === 'held' ? 'in doubt' : 'waiting'
}

/** Where the links of a mail lead while it is looked at: nowhere. */
const NO_LINKS = { yesHref: 'https://offer.example/y/preview', optOutHref: 'https://offer.example/u/preview' }

/** The mail to one customer as it would go out, or as it went. */
export async function viewOfferMail(
  { db }: Store,
  roundId: string,
  seatId: string,
): Promise<Result<{ readonly subject: string; readonly html: string; readonly text: string }>> {
  const found = await loadRound(db, roundId)
  if (!found.ok) return found
  const seat = found.value.seats.find(({ id }) => id === seatId)
  const written = seat?.mailId === undefined ? undefined : await loadMail(db, seat.mailId)
  if (written !== undefined) return ok(written)
  const drawn = seat && (await drawOffer(db, found.value, seat, NO_LINKS))
  if (drawn !== undefined) return ok(drawn)
  const next = 'This offer is not worked out, so there is no mail to look at.'
  return failed({ code: 'not found', field: 'round', got: seatId, next })
}
