import type { Matching } from '../core/matching/match.ts'
import type { MailState } from '../core/outbox/mail.ts'
import type { Part } from '../core/part.ts'
import type { Standing } from '../core/round/states.ts'
import { loadWork } from '../store/longWork.ts'
import type { Store } from '../store/open.ts'
import { countMailsIn } from '../store/outboxLists.ts'
import { loadParts } from '../store/parts.ts'
import { openRounds } from '../store/rounds.ts'
import { listFree } from '../store/shelf.ts'
import { type EndingWarranty, warrantiesEnding } from '../store/warranties.ts'
import { type JobLine, viewJobsToDo } from './jobs/jobViews.ts'
import { worksOf } from './longWork/longWork.ts'
import { isOldPrice } from './priceAge.ts'
import { glanceAtOdd } from './runs/oddRuns.ts'
import { shopOrNeutral } from './shop.ts'

/** An item of the shelf that more customers could take than there are pieces, by the last sharing out. */
export type WantedItem = { readonly itemId: string; readonly partId: string; readonly customers: number }

/** What a shop has to do today beside its questions. Everything is read as it stands; nothing is worked out for it. */
export type Day = {
  /** Booked for today or an earlier day, or to be looked at again. */
  readonly due: readonly JobLine[]
  /** Fitted, and what was promised is to be measured. */
  readonly bench: readonly JobLine[]
  /** Done, and the owner does not know. */
  readonly untold: readonly JobLine[]
  /** Mails that wait for a person. */
  readonly mails: Readonly<Record<WaitingMail, number>>
  /** Runs that do not fit the others and that nobody looked at; absent while the gain model is not ready. */
  readonly odd?: number | undefined
  /** Shelf items whose price the shop calls old. */
  readonly stale: number
  /** The last sharing out, with the items that most could take. */
  readonly wanted?:
    | { readonly id: string; readonly at: string; readonly items: readonly WantedItem[] }
    | undefined
  /** Yeses that a person has to look at, by round. */
  readonly toSettle: readonly { readonly roundId: string; readonly yeses: number }[]
  /** Deals whose date is over and about which nobody decided. */
  readonly dealsOver: readonly { readonly roundId: string; readonly yeses: number }[]
  /** Warranties that end within the month. */
  readonly warranties: readonly EndingWarranty[]
  /** Those that are named here: of what is wanted, and of the first warranties. */
  readonly parts: readonly Part[]
}

export const WAITING_MAILS = ['drafted', 'held', 'failed'] as const satisfies readonly MailState[]
export type WaitingMail = (typeof WAITING_MAILS)[number]

const WARRANTY_DAYS = 30
const DAY_MS = 86_400_000
const SHOWN = 3
/** So many warranties are told by name; of the others how many there are. */
export const WARRANTIES_NAMED = 3

export async function viewDay(store: Store, at: string): Promise<Day> {
  const { db } = store
  const { policy, timeZone } = await shopOrNeutral(db)
  const [{ due, bench, untold }, mails, shelf] = [
    await viewJobsToDo(store, at),
    await countMailsIn(db, WAITING_MAILS),
    await listFree(db),
  ]
  const found = await glanceAtOdd(store, at)
  const until = new Date(Date.parse(at) + WARRANTY_DAYS * DAY_MS).toISOString()
  const pricedAt = shelf.flatMap((item) => (item.quantity > 0 ? [item.at] : [])).sort()
  const wanted = await lastWanted(store)
  const warranties = await warrantiesEnding(db, at, until)
  const named = [...(wanted?.items ?? []), ...warranties.slice(0, WARRANTIES_NAMED)]
  return {
    ...{ due, bench, untold, wanted, warranties, ...roundsIn(await openRounds(db), at) },
    parts: await loadParts(db, [...new Set(named.map(({ partId }) => partId))]),
    mails: {
      drafted: mails.get('drafted') ?? 0,
      held: mails.get('held') ?? 0,
      failed: mails.get('failed') ?? 0,
    },
    ...(found.state === 'told' && { odd: found.told.odd.filter(({ look }) => look === undefined).length }),
    stale: countFirst(pricedAt, (priced) => isOldPrice(priced, at, timeZone, policy)),
  }
}

function roundsIn(
  rounds: Awaited<ReturnType<typeof openRounds>>,
  at: string,
): Pick<Day, 'toSettle' | 'dealsOver'> {
  const of = (standing: Standing, { standings }: (typeof rounds)[number]): number =>
    standings.get(standing) ?? 0
  return {
    toSettle: rounds.flatMap((round) => {
      const yeses = of('to settle', round)
      return yeses === 0 ? [] : [{ roundId: round.row.id, yeses }]
    }),
    dealsOver: rounds.flatMap((round) => {
      const { id, kind, validUntil, boughtPieces, state } = round.row
      const isOver = kind === 'deal' && state !== 'draft' && boughtPieces === undefined && validUntil <= at
      return isOver ? [{ roundId: id, yeses: of('counted', round) }] : []
    }),
  }
}

/** How many of a list hold, where those that hold come first: a calendar's days are dear to tell for hundreds of prices. */
function countFirst<T>(list: readonly T[], holds: (one: T) => boolean): number {
  let [low, high] = [0, list.length]
  while (low < high) {
    const middle = (low + high) >> 1
    const one = list[middle]
    if (one !== undefined && holds(one)) low = middle + 1
    else high = middle
  }
  return low
}

/** What most could take and not all can have, by the sharing out that was done last. */
async function lastWanted(store: Store): Promise<Day['wanted']> {
  const last = (await worksOf(store, 'match')).find(({ state }) => state === 'done')
  const work = last && (await loadWork(store.db, last.id))
  if (work === undefined || work.result === null) return undefined
  // Only what this program wrote stands there.
  const { items } = work.result as Matching
  const wanted = items.filter(({ couldGo, places }) => couldGo > places)
  const most = wanted.sort((a, b) => b.couldGo - a.couldGo).slice(0, SHOWN)
  return most.length === 0
    ? undefined
    : {
        ...{ id: work.id, at: work.askedAt },
        items: most.map(({ itemId, partId, couldGo }) => ({ itemId, partId, customers: couldGo })),
      }
}
