import type { Shop } from '../../core/answer.ts'
import { standing } from '../../core/outbox/hindrance.ts'
import type { MailKind } from '../../core/outbox/mail.ts'
import type { Stale } from '../../core/outbox/stale.ts'
import type { Problem, Result } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import { loadMail } from '../../store/outbox.ts'
import { draftsOf } from '../../store/outboxLists.ts'
import { shopOrNeutral } from '../shop.ts'
import type { MailId } from './draftMails.ts'
import type { Reach } from './facts.ts'
import { approveMail, type Hand } from './mailSteps.ts'
import { lineOf, type MailLine, type Sending } from './outboxViews.ts'
import { staleOf } from './staleOf.ts'

/** So many mails are looked at and approved in one go: more nobody reads. */
export const MOST_AT_ONCE = 100

/** Which drafts are looked at together: those that were ticked, or all of one kind. */
export type PickedMails = { readonly ids: readonly string[] } | { readonly kind: MailKind }

/** A mail as it was looked at. */
export type SeenMail = { readonly id: string; readonly updatedAt: string }

export type ToApprove = {
  readonly shop: Shop
  readonly sending: Sending
  /** Those that one press approves, as they stand. */
  readonly ready: readonly MailLine[]
  /** Those that something stands in the way of, or whose answer grew old: each is looked at by itself. */
  readonly apart: readonly (MailLine & { readonly stale: readonly Stale[] })[]
  /** Drafts of the kind that are left for the next time. */
  readonly left: number
}

/** Several drafts at once, whole, with what can be approved of them. */
export async function viewToApprove(
  { db }: Store,
  sending: Sending,
  picked: PickedMails,
  at: string,
): Promise<ToApprove> {
  const shop = await shopOrNeutral(db)
  const { mails, total } = await draftsOf(db, picked, MOST_AT_ONCE)
  const lines: (MailLine & { readonly stale: readonly Stale[] })[] = []
  for (const mail of mails) {
    const line = await lineOf(db, mail, { shop, sending, at })
    lines.push({ ...line, stale: await staleOf(db, mail, at) })
  }
  const isReady = ({ stale, hindrances }: (typeof lines)[number]) =>
    stale.length === 0 && standing(hindrances).length === 0
  return {
    ...{ shop, sending },
    ready: lines.filter(isReady),
    apart: lines.filter((line) => !isReady(line)),
    left: total - lines.length,
  }
}

/** What became of each: approved, or why not. */
export type ApprovedMany = {
  readonly approved: number
  readonly refused: readonly {
    readonly id: string
    readonly subject: string
    readonly problems: readonly Problem[]
  }[]
}

/** Approves each as `approveMail` does, one after the other: what is refused of one leaves the others alone. */
export async function approveMails(
  store: Store,
  seen: readonly SeenMail[],
  reach: Reach,
  hand: Hand,
): Promise<ApprovedMany> {
  const refused: ApprovedMany['refused'][number][] = []
  let approved = 0
  for (const { id, updatedAt } of seen.slice(0, MOST_AT_ONCE)) {
    const done: Result<MailId> = await approveMail(store, id, { updatedAt, knowsStale: false }, reach, hand)
    if (done.ok) approved++
    else refused.push({ id, subject: (await loadMail(store.db, id))?.subject ?? '', problems: done.problems })
  }
  return { approved, refused }
}
