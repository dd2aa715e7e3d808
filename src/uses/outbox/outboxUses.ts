import type { OfferRules } from '../../core/outbox/offerRules.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { saveOfferRules } from '../../store/offerRules.ts'
import type { Store } from '../../store/open.ts'
import { loadMail } from '../../store/outbox.ts'
import type { LetterEdits } from '../../words/answer.ts'
import type { LinkInMail } from '../sheetMail.ts'
import { editMessage } from '../writeMessage.ts'
import { approveMails, type PickedMails, type SeenMail, viewToApprove } from './approveMany.ts'
import { recordBounce } from './bounces.ts'
import { draftJobMail } from './draftJobMail.ts'
import { draftAnswer, draftSheet, type MailId } from './draftMails.ts'
import { draftOptedOut } from './draftOptedOut.ts'
import { type AskOneOf, draftAskOne, draftGone, draftReceived, type InPlace } from './draftQuestionMail.ts'
import { goneSince } from './goneSince.ts'
import {
  approveMail,
  mailCameBack,
  noMail,
  notFromHere,
  sendTest,
  settleMail,
  stopMail,
  takeBackMail,
  takeUpMail,
  tryMailAgain,
} from './mailSteps.ts'
import { changeNotice } from './noticeWords.ts'
import { type Group, type Sending, viewMail, viewOfferRules, viewOutbox } from './outboxViews.ts'
import { viewQuestionMails } from './questionMails.ts'
import { optOut, viewOptOut } from './unsubscribe.ts'

/** A form that needs the gain model's numbers waits so long for them. */
const NUMBERS_WAIT_MS = 5000

/** What a person does with the outbox, joined to a store and the clock. `wake`: something may be due now. */
export function outboxUsesOf(
  store: Store,
  now: () => string,
  { sending, wake }: { readonly sending: Sending; readonly wake: () => void },
) {
  const hand = (by: string | undefined) => ({ at: now(), by })
  const woken = async <T>(work: Promise<T>): Promise<T> => {
    const done = await work
    wake()
    return done
  }
  return {
    outbox: (asked: { readonly group?: Group | undefined; readonly query: string; readonly page: number }) =>
      viewOutbox(store, sending, asked, now()),
    mail: (id: string) => viewMail(store, sending, id, now()),
    draftAnswerMail: (messageId: string, by?: string) => draftAnswer(store, messageId, now(), by),
    draftJobMail: (jobId: string, by?: string) => draftJobMail(store, jobId, now(), by),
    draftSheetMail: (tag: string, link: LinkInMail | undefined, by?: string) =>
      draftSheet(store, tag, now(), link, by),
    /** Fields of its problems: `subject`, `opening`, `closing`, `optionId`. */
    changeMailWords: async (id: string, edits: LetterEdits, by?: string): Promise<Result<MailId>> => {
      const mail = await loadMail(store.db, id)
      if (mail === undefined) return failed(noMail(id))
      const { pickId: _, ...words } = edits
      if (mail.messageId === undefined) return changeNotice(store, id, words, hand(by))
      if (mail.state !== 'drafted') return failed(notFromHere(mail.state))
      const edited = await editMessage(store, mail.messageId, edits, now())
      return edited.ok ? ok({ mailId: id }) : edited
    },
    questionMails: (questionId: string) => viewQuestionMails(store, questionId, now()),
    goneSince: () => goneSince(store.db, now()),
    draftReceivedMail: (questionId: string, answerBy: string | undefined, by?: string) =>
      draftReceived(store, questionId, answerBy, hand(by)),
    draftAskOneMail: (asked: AskOneOf, by?: string) => draftAskOne(store, asked, hand(by)),
    /** Fields of its problems: `optionId`. */
    draftGoneMail: (questionId: string, inPlace: InPlace, by?: string) =>
      draftGone(store, questionId, inPlace, hand(by), NUMBERS_WAIT_MS),
    approveMail: (
      id: string,
      seen: { readonly updatedAt: string | undefined; readonly knowsStale: boolean },
      by?: string,
    ) => woken(approveMail(store, id, seen, sending, hand(by))),
    mailsToApprove: (asked: PickedMails) => viewToApprove(store, sending, asked, now()),
    approveMails: (seen: readonly SeenMail[], by?: string) =>
      woken(approveMails(store, seen, sending, hand(by))),
    takeBackMail: (id: string, by?: string) => takeBackMail(store, id, hand(by)),
    stopMail: (id: string, by?: string) => stopMail(store, id, hand(by)),
    takeUpMail: (id: string, by?: string) => takeUpMail(store, id, hand(by)),
    tryMailAgain: (id: string, by?: string) => woken(tryMailAgain(store, id, hand(by))),
    settleMail: (id: string, arrived: boolean, by?: string) =>
      woken(settleMail(store, id, arrived, hand(by))),
    mailCameBack: (id: string, says: string, by?: string) => mailCameBack(store, id, says, hand(by)),
    recordBounce: (text: string, by?: string) => recordBounce(store, text, hand(by)),
    sendTestMail: (id: string, by?: string) => woken(sendTest(store, id, sending, hand(by))),
    offerRules: () => viewOfferRules(store),
    saveOfferRules: async (rules: OfferRules): Promise<Result<OfferRules>> => {
      await store.write((tx) => saveOfferRules(tx, rules))
      return ok(rules)
    },
    optOutView: (token: string) => viewOptOut(store, token),
    optOut: async (token: string) => {
      const done = await optOut(store, token, now())
      if (done.ok) await draftOptedOut(store, done.value.customerId, now())
      return done
    },
  }
}

export type OutboxUses = ReturnType<typeof outboxUsesOf>
