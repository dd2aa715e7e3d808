import type { AnswerInputs } from '../../src/core/answer.ts'
import { OFFER_RULES } from '../../src/core/outbox/offerRules.ts'
import { failed, ok, type Problem } from '../../src/problem.ts'
import type { GoneSince } from '../../src/uses/outbox/goneSince.ts'
import type { OutboxUses } from '../../src/uses/outbox/outboxUses.ts'
import type { MailLine, OneMailView, OutboxView } from '../../src/uses/outbox/outboxViews.ts'
import type { QuestionMails } from '../../src/uses/outbox/questionMails.ts'
import type { PageState } from './states.ts'

const AT = '2026-05-02T15:00:00.000Z'
const LATER = '2026-05-02T15:30:00.000Z'
export const U_TOKEN = 'u'.repeat(43)

const BASE: MailLine = {
  ...{ id: '1', kind: 'answer', state: 'drafted', tries: 0, createdAt: AT, updatedAt: AT, hindrances: [] },
  ...{ toName: 'Imre Vale', toAddress: 'imre@example.org', subject: 'T-0007: yes, 60 FPS for $142' },
  ...{ html: '<p>Yes.</p>', text: 'Yes.\n', rfcMessageId: '<0123456789abcdef@bench.example>' },
}
const SERVER = { failures: 2, since: AT, nextTryAt: LATER, says: '421 try later' }

/** One mail of each state, by its id. */
const MAILS: Readonly<Record<string, MailLine>> = {
  1: BASE,
  2: { ...BASE, id: '2', state: 'approved', approvedAt: AT, dueAt: AT, waits: { why: 'its turn' } },
  3: { ...BASE, id: '3', state: 'held', handedAt: AT, tries: 1 },
  4: { ...BASE, id: '4', state: 'failed', tries: 1, says: '550 5.1.1 no such user' },
  5: { ...BASE, id: '5', state: 'sent', sentAt: AT, tries: 1, says: '250 OK' },
  6: { ...BASE, id: '6', kind: 'offer', state: 'stopped', says: 'no consent' },
  7: {
    ...{ ...BASE, id: '7', kind: 'offer', state: 'approved', approvedAt: AT },
    ...{ hindrances: [{ why: 'quiet hours', until: LATER }], waits: { why: 'hindered' } },
  },
  8: {
    ...{ ...BASE, id: '8', kind: 'offer' },
    hindrances: [{ why: 'no consent' }, { why: 'no postal address' }],
  },
  9: {
    ...{ ...BASE, id: '9', state: 'approved', tries: 1, dueAt: LATER },
    waits: { why: 'refused for now', says: '451 4.7.1 greylisted', nextTryAt: LATER },
  },
  10: { ...BASE, id: '10' },
  11: { ...BASE, id: '11', state: 'sending', leaseUntil: LATER },
  12: {
    ...{ ...BASE, id: '12', kind: 'offer', state: 'approved', approvedAt: AT, says: 'said gone' },
    ...{ hindrances: [{ why: 'said gone', until: LATER }], waits: { why: 'hindered' } },
  },
  14: { ...BASE, id: '14', kind: 'received', subject: 'T-0007: we have your question' },
  13: { ...BASE, id: '13', kind: 'offer', hindrances: [{ why: 'said gone', until: LATER }] },
}

const GONE: GoneSince = {
  ...{ questionId: 'Q-0001', machineTag: 'T-0007', customerName: 'Imre Vale', toldAt: AT },
  ...{ partIds: ['X'], partNames: ['Quarrel 8G', 'a kit'] },
}
const QUESTION_MAILS: QuestionMails = {
  mails: [{ id: '5', kind: 'received', state: 'sent', updatedAt: AT, sentAt: AT }],
  gone: GONE,
}

const unknownMail = (got: string) => {
  const next = 'There is no such mail. The outbox shows them all.'
  return failed({ code: 'not found', field: 'mail', got, next })
}

/** The outbox of the canned shop: `calls` notes what pages handed over. */
export function cannedOutboxUses(from: AnswerInputs, calls: unknown[][]): OutboxUses {
  const shop = { ...from.shop, email: 'bench@bench.example' }
  const sending = { going: { by: 'files', folder: '/var/lib/stillfits/mails' } as const, perMinute: 30 }
  const mail = MAILS
  const one = (id: string): OneMailView | undefined => {
    const found = mail[id]
    return (
      found && {
        ...{ shop, sending, mail: { ...found, machineTag: from.machine.tag } },
        steps: [
          { at: AT, event: 'drafted', by: 'Nell' },
          ...(found.says === undefined ? [] : [{ at: LATER, event: 'put off', says: found.says } as const]),
        ],
        words: id === '14' ? { opening: 'Thank you for asking.', closing: '' } : undefined,
        stale: id === '10' ? [{ why: 'price ran out', at: AT }] : [],
        bytes: found.state === 'drafted' ? undefined : new TextEncoder().encode('Subject: x\r\n\r\nYes.\r\n'),
      }
    )
  }
  const step =
    (name: string) =>
    async (id: string, ...given: unknown[]) => {
      calls.push([name, id, ...given])
      return mail[id] === undefined ? unknownMail(id) : ok({ mailId: id })
    }
  const drafting =
    (name: string) =>
    async (...given: unknown[]) => {
      calls.push([name, ...given])
      return ok({ mailId: '1' })
    }
  const optOut = async (token: string) =>
    token === U_TOKEN
      ? ok({ shopName: shop.name, customerId: 'K-1', customerName: 'Imre Vale' })
      : failed({ code: 'not found', field: 'link', next: 'This link leads nowhere.' } satisfies Problem)
  return {
    outbox: async ({ group, query, page }): Promise<OutboxView> => {
      const all = Object.values(mail).filter(({ subject }) => subject.includes(query))
      const counts = { drafted: 4, held: 1, failed: 1, approved: 5, sent: 1, stopped: 1 }
      const lines = group === undefined ? all : all.filter(({ state }) => state === group)
      return {
        ...{ shop, sending, counts, group, lines, total: lines.length, page, pages: 2 },
        manyOf: [{ kind: 'offer', n: 2 }],
        progress: { waiting: 3, sending: 1, sent: 12 },
      }
    },
    mail: async (id) => {
      const view = one(id)
      return view === undefined ? unknownMail(id) : ok(view)
    },
    draftAnswerMail: step('draftAnswerMail'),
    draftJobMail: step('draftJobMail'),
    draftSheetMail: async (tag, ...given) => {
      calls.push(['draftSheetMail', tag, ...given])
      return ok({ mailId: '1' })
    },
    changeMailWords: step('changeMailWords'),
    questionMails: async () => ({ mails: [] }),
    goneSince: async () => [GONE],
    draftReceivedMail: drafting('draftReceivedMail'),
    draftAskOneMail: drafting('draftAskOneMail'),
    draftGoneMail: drafting('draftGoneMail'),
    mailsToApprove: async (picked) => {
      const all = Object.values(mail).filter(({ state }) => state === 'drafted')
      const picks = all.filter(({ id, kind }) =>
        'ids' in picked ? picked.ids.includes(id) : kind === picked.kind,
      )
      const lines = picks.map((line) => ({ ...line, stale: one(line.id)?.stale ?? [] }))
      const isReady = (line: (typeof lines)[number]) => line.stale.length + line.hindrances.length === 0
      return {
        ...{ shop, sending, left: 'kind' in picked ? 2 : 0 },
        ready: lines.filter(isReady),
        apart: lines.filter((line) => !isReady(line)),
      }
    },
    approveMails: async (seen, by) => {
      calls.push(['approveMails', seen, by])
      const next = 'This mail changed since you looked at it. Look again, then approve it.'
      const changed = seen.filter(({ updatedAt }) => updatedAt !== AT)
      return {
        approved: seen.length - changed.length,
        refused: changed.map(({ id }) => ({
          ...{ id, subject: BASE.subject },
          problems: [{ code: 'conflict', field: 'mail', next }],
        })),
      }
    },
    approveMail: async (id, seen, by) => {
      calls.push(['approveMail', id, seen, by])
      const next = 'This mail changed since you looked at it. Look again, then approve it.'
      return seen.updatedAt === AT ? ok({ mailId: id }) : failed({ code: 'conflict', field: 'mail', next })
    },
    takeBackMail: step('takeBackMail'),
    stopMail: step('stopMail'),
    takeUpMail: step('takeUpMail'),
    tryMailAgain: step('tryMailAgain'),
    settleMail: step('settleMail'),
    mailCameBack: step('mailCameBack'),
    recordBounce: async (text, by) => {
      calls.push(['recordBounce', text, by])
      const next = 'None of our mails’ Message-IDs stands in it.'
      return text.includes('@bench.example')
        ? ok({ mailId: '5' })
        : failed({ code: 'not found', field: 'bounce', next })
    },
    sendTestMail: step('sendTestMail'),
    offerRules: async () => ({ rules: OFFER_RULES, shop }),
    saveOfferRules: async (rules) => {
      calls.push(['saveOfferRules', rules])
      return ok(rules)
    },
    optOutView: optOut,
    optOut: async (token) => {
      calls.push(['optOut', token])
      return optOut(token)
    },
  }
}

const shown = async (uses: OutboxUses, change: Partial<OutboxView>): Promise<OutboxView> => ({
  ...(await uses.outbox({ query: '', page: 1 })),
  ...change,
})

const none = { drafted: 0, held: 0, failed: 0, approved: 0, sent: 0, stopped: 0 }

/** The list in other states than the canned one. */
const listUses = (from: AnswerInputs, change: Partial<OutboxView>): Partial<OutboxUses> => ({
  outbox: async () => shown(cannedOutboxUses(from, []), change),
})

export const outboxStates = (from: AnswerInputs): readonly PageState[] => [
  { name: 'outbox', path: '/outbox' },
  { name: 'outbox-drafted', path: '/outbox?group=drafted' },
  { name: 'outbox-found', path: '/outbox?q=FPS' },
  { name: 'outbox-not-found', path: '/outbox?q=zzz' },
  {
    name: 'outbox-empty',
    path: '/outbox',
    uses: listUses(from, { counts: none, lines: [], total: 0, pages: 1, progress: undefined }),
  },
  {
    name: 'outbox-trouble',
    path: '/outbox',
    uses: listUses(from, {
      server: SERVER,
      sending: { going: { by: 'smtp', host: 'mail.bench.example' }, perMinute: 30 },
    }),
  },
  {
    name: 'outbox-off',
    path: '/outbox',
    uses: listUses(from, { group: 'sent', lines: [], sending: { going: { by: 'nobody' }, perMinute: 0 } }),
  },
  ...Object.entries(MAILS).map(([id, { state }]) => ({
    name: `outbox-mail-${id}-${state}`,
    path: `/outbox/${id}`,
  })),
  { name: 'outbox-mail-unknown', path: '/outbox/99', status: 404 },
  { name: 'outbox-mail-changed', path: '/outbox/1/approve', form: { seen: 'before' }, status: 409 },
  {
    name: 'question-gone',
    path: '/questions/Q-0007',
    uses: { questionMails: async () => QUESTION_MAILS },
  },
  { name: 'outbox-many', path: '/outbox/many?mail=1&mail=10&mail=8' },
  { name: 'outbox-many-kind', path: '/outbox/many?kind=answer' },
  { name: 'outbox-many-none', path: '/outbox/many' },
  { name: 'outbox-many-approved', path: '/outbox?group=approved&approved=2' },
  { name: 'outbox-many-changed', path: '/outbox/many', form: { seen: '1 before' }, status: 409 },
  { name: 'outbox-words', path: '/outbox/14' },
  { name: 'outbox-bounce', path: '/outbox/bounce' },
  { name: 'outbox-bounce-wrong', path: '/outbox/bounce', form: { bounce: 'hello' }, status: 404 },
  { name: 'outbox-rules', path: '/outbox/rules' },
  {
    name: 'outbox-rules-wrong',
    path: '/outbox/rules',
    form: { quietFromHour: '25', quietUntilHour: '', capOffers: '0', capDays: '30' },
    status: 422,
  },
  { name: 'unsubscribe', path: `/u/${U_TOKEN}`, as: 'stranger' },
  {
    name: 'unsubscribe-done',
    path: `/u/${U_TOKEN}`,
    form: { 'List-Unsubscribe': 'One-Click' },
    as: 'stranger',
  },
  { name: 'unsubscribe-unknown', path: '/u/nobody', as: 'stranger', status: 404 },
]
