import type { Answer, Shop } from '../../core/answer.ts'
import type { Hindrance } from '../../core/outbox/hindrance.ts'
import { MAIL_STATES, type MailKind, type MailState } from '../../core/outbox/mail.ts'
import type { OfferRules } from '../../core/outbox/offerRules.ts'
import type { Stale } from '../../core/outbox/stale.ts'
import { type WhyWaits, whyWaits } from '../../core/outbox/whyWaits.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { loadAnswer } from '../../store/answers.ts'
import { type ServerTrouble, serverTrouble } from '../../store/mailLeases.ts'
import { loadMessage } from '../../store/messages.ts'
import { loadOfferRules } from '../../store/offerRules.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadMail, loadMailBytes, type Mail, type MailStep, mailEventsOf } from '../../store/outbox.ts'
import { countDrafts, countMails, searchMails, sentSince } from '../../store/outboxLists.ts'
import { seatOfMail } from '../../store/roundSeats.ts'
import type { LetterEdits } from '../../words/answer.ts'
import { shopOrNeutral } from '../shop.ts'
import { hindrancesNow, type Reach } from './facts.ts'
import { noMail } from './mailSteps.ts'
import { type NoticeWords, noticeWordsOf } from './noticeWords.ts'
import { staleOf } from './staleOf.ts'

/** How mails leave this program. */
export type Going =
  | { readonly by: 'files'; readonly folder: string }
  | { readonly by: 'smtp'; readonly host: string }
  | { readonly by: 'nobody' }

export type Sending = Reach & { readonly going: Going; readonly perMinute: number }

/** How the list is parted. */
export const GROUPS = {
  drafted: ['drafted'],
  held: ['held'],
  failed: ['failed'],
  approved: ['approved', 'sending'],
  sent: ['sent'],
  stopped: ['stopped'],
} as const satisfies Readonly<Record<string, readonly MailState[]>>
export type Group = keyof typeof GROUPS
export const isGroup = (text: string): text is Group => Object.hasOwn(GROUPS, text)

export const MAILS_A_PAGE = 25

export type MailLine = Mail & {
  readonly waits?: WhyWaits | undefined
  readonly hindrances: readonly Hindrance[]
}

export type OutboxView = {
  readonly shop: Shop
  readonly sending: Sending
  readonly counts: Readonly<Record<Group, number>>
  /** Undefined: all states, found by words. */
  readonly group: Group | undefined
  readonly lines: readonly MailLine[]
  readonly total: number
  readonly page: number
  readonly pages: number
  /** How many drafts there are of each kind that there are several of. */
  readonly manyOf: readonly { readonly kind: MailKind; readonly n: number }[]
  readonly server?: ServerTrouble | undefined
  /** While some are due or on their way. */
  readonly progress?:
    | { readonly waiting: number; readonly sending: number; readonly sent: number }
    | undefined
}

const HOUR_MS = 3_600_000

/** One page of one group of the outbox, or of all mails with some words in them. */
export async function viewOutbox(
  { db }: Store,
  sending: Sending,
  {
    group,
    query,
    page,
  }: { readonly group?: Group | undefined; readonly query: string; readonly page: number },
  at: string,
): Promise<OutboxView> {
  const shop = await shopOrNeutral(db)
  const byState = await countMails(db)
  const of = (states: readonly MailState[]) => states.reduce((n, state) => n + (byState.get(state) ?? 0), 0)
  const counts = Object.fromEntries(
    Object.entries(GROUPS).map(([name, states]) => [name, of(states)]),
  ) as Record<Group, number>
  const shown = group ?? (query === '' ? firstToLookAt(counts) : undefined)
  const states = shown === undefined ? MAIL_STATES : GROUPS[shown]
  const offset = (page - 1) * MAILS_A_PAGE
  const { mails, total } = await searchMails(db, { states, query, offset, most: MAILS_A_PAGE })
  const server = await serverTrouble(db)
  const lines: MailLine[] = []
  for (const mail of mails) lines.push(await lineOf(db, mail, { shop, sending, server, at }))
  const onTheirWay = of(['sending'])
  const waiting = of(['approved'])
  const hourAgo = new Date(Date.parse(at) - HOUR_MS).toISOString()
  return {
    ...{ shop, sending, counts, group: shown, lines, total, page, server },
    pages: Math.max(1, Math.ceil(total / MAILS_A_PAGE)),
    manyOf: [...(await countDrafts(db))].flatMap(([kind, n]) => (n > 1 ? [{ kind, n }] : [])),
    ...(onTheirWay + waiting > 0 && {
      progress: { waiting, sending: onTheirWay, sent: await sentSince(db, hourAgo) },
    }),
  }
}

/** What needs a person comes first; with nothing to do, what was sent. */
const firstToLookAt = (counts: Readonly<Record<Group, number>>): Group =>
  (['held', 'drafted', 'failed', 'approved'] as const).find((group) => counts[group] > 0) ??
  (counts.sent > 0 ? 'sent' : 'drafted')

type Around = {
  readonly shop: Shop
  readonly sending: Sending
  readonly server?: ServerTrouble | undefined
  readonly at: string
}

/** A mail with why it waits or what stands in its way. */
export async function lineOf(db: Db, mail: Mail, { shop, sending, server, at }: Around): Promise<MailLine> {
  const isOpen = mail.state === 'drafted' || mail.state === 'approved'
  const hindrances = isOpen ? await hindrancesNow(db, mail, shop, sending, at) : []
  if (mail.state !== 'approved') return { ...mail, hindrances }
  const waiting = {
    ...{ isPaused: mail.pausedAt !== undefined, isHindered: hindrances.length > 0 },
    dueAt: mail.dueAt,
    refusedSays: mail.tries > 0 ? mail.says : undefined,
    hasSender: sending.going.by !== 'nobody',
    server,
  }
  return { ...mail, hindrances, waits: whyWaits(waiting, at) }
}

export type OneMailView = {
  readonly mail: MailLine
  readonly shop: Shop
  readonly sending: Sending
  readonly steps: readonly MailStep[]
  readonly stale: readonly Stale[]
  /** The mail as it is sent, from its approval on. */
  readonly bytes?: Uint8Array | undefined
  /** Its words where they can be changed here, of any draft but answer and sheet. */
  readonly words?: NoticeWords | undefined
  /** Of an answer's draft: what its words can be changed by. */
  readonly letter?: { readonly answer: Answer; readonly edits: LetterEdits } | undefined
  readonly answerId?: string | undefined
  /** The round of offers that it is of. */
  readonly roundId?: string | undefined
}

/** One mail with all that is known of it. */
export async function viewMail(
  { db }: Store,
  sending: Sending,
  id: string,
  at: string,
): Promise<Result<OneMailView>> {
  const mail = await loadMail(db, id)
  if (mail === undefined) return failed(noMail(id))
  const shop = await shopOrNeutral(db)
  const server = await serverTrouble(db)
  const message = mail.messageId === undefined ? undefined : await loadMessage(db, mail.messageId)
  const saved = message && (await loadAnswer(db, message.answerId))
  const isDraft = mail.state === 'drafted'
  return ok({
    ...{ shop, sending, answerId: message?.answerId, roundId: (await seatOfMail(db, id))?.roundId },
    words: isDraft ? await noticeWordsOf(db, id) : undefined,
    mail: await lineOf(db, mail, { shop, sending, server, at }),
    steps: await mailEventsOf(db, id),
    stale: isDraft ? await staleOf(db, mail, at) : [],
    bytes: isDraft ? undefined : await loadMailBytes(db, id),
    ...(saved !== undefined &&
      message !== undefined &&
      isDraft && { letter: { answer: saved.answer, edits: (message.edits ?? {}) as LetterEdits } }),
  })
}

export type OfferRulesView = { readonly rules: OfferRules; readonly shop: Shop }

export const viewOfferRules = async ({ db }: Store): Promise<OfferRulesView> => ({
  rules: await loadOfferRules(db),
  shop: await shopOrNeutral(db),
})
