import type { LimitKey } from '../../core/limits/limit.ts'
import { displayOf } from '../../core/question.ts'
import { MAILS } from '../../mail/mails.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadMachine } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { mailsAbout } from '../../store/outboxLists.ts'
import { askerOf, loadQuestion } from '../../store/questions.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { contextOf } from '../../words/answer/context.ts'
import { isInside } from '../../words/answer/facts.ts'
import { pickOf } from '../../words/answer/pick.ts'
import { displayWords } from '../../words/display.ts'
import { figuresOf } from '../../words/figures.ts'
import { decidedBy } from '../../words/mails/askOne.ts'
import { settingText } from '../../words/settings.ts'
import { answerLately, answerQuestion } from '../answerQuestion.ts'
import { shopOrNeutral } from '../shop.ts'
import type { MailId } from './draftMails.ts'
import { draftNotice } from './draftNotice.ts'
import { goneOf } from './goneSince.ts'
import type { Hand } from './mailSteps.ts'

const NO_QUESTION: Problem = {
  ...{ code: 'not found', field: 'question' },
  next: 'There is no such question. The list of questions shows them all, the waiting ones first.',
}

const NOBODY: Problem = {
  ...{ code: 'missing', field: 'customer' },
  next: 'Nobody is written down who asked this. Name the owner on the machine first.',
}

/** Who asked, else whose machine it is. */
async function readerOf(db: Db, questionId: string, tag: string) {
  return (await askerOf(db, questionId)) ?? (await loadMachine(db, tag))?.owner
}

/**
 * "We have your question" among the drafts, with the day by which an answer is there if the shop names one. One that was
 * sent or approved already is not written a second time.
 */
export async function draftReceived(
  store: Store,
  questionId: string,
  answerBy: string | undefined,
  hand: Hand,
): Promise<Result<MailId>> {
  const { db } = store
  const question = await loadQuestion(db, questionId)
  if (question === undefined) return failed(NO_QUESTION)
  const there = (await mailsAbout(db, 'received', { questionId })).find(({ state }) =>
    ['approved', 'sending', 'held', 'sent'].includes(state),
  )
  if (there !== undefined) return ok({ mailId: there.id })
  const { machineTag: tag, words, askedAt, wanted, targetFps, budgetMinor } = question
  const customer = await readerOf(db, questionId, tag)
  if (customer === undefined) return failed(NOBODY)
  const shop = await shopOrNeutral(db)
  const figures = figuresOf(shop, customer)
  const titles = new Map((await listTitles(db)).map(({ id, name }) => [id, name]))
  const settings = new Map((await listSettings(db)).map((setting) => [setting.id, setting]))
  const notice = MAILS.received.says(
    {
      ...{ shop, tag, question: words, askedAt, answerBy, budgetMinor, customerName: customer.name },
      ...{
        targetFps: wanted.length === 0 ? undefined : targetFps,
        display: displayWords(displayOf(question)),
      },
      games: wanted.map(({ titleId, settingId }) => {
        const setting = settings.get(settingId)
        return {
          title: titles.get(titleId) ?? titleId,
          setting: setting === undefined ? settingId : settingText(setting, figures.language),
        }
      }),
    },
    figures,
  )
  return draftNotice(
    store,
    { kind: 'received', customer, machineTag: tag, questionId, notice },
    { questionId },
    hand,
  )
}

/** So long the numbers behind a question are waited for, to name what hangs on a missing fact. */
const NAME_WAIT_MS = 500

/** What an owner is asked for, and what for. */
export type AskOneOf = {
  readonly tag: string
  readonly limitKey: LimitKey
  readonly questionId?: string | undefined
  /** The owner's page, where a link was made. */
  readonly link?: string | undefined
}

/** "We need one thing from you" among the drafts. A link in it leads to a page of its own, so each is a mail of its own. */
export async function draftAskOne(
  store: Store,
  { tag, limitKey, questionId, link }: AskOneOf,
  { at, by }: Hand,
): Promise<Result<MailId>> {
  const { db } = store
  const question = questionId === undefined ? undefined : await loadQuestion(db, questionId)
  const customer =
    questionId === undefined ? (await loadMachine(db, tag))?.owner : await readerOf(db, questionId, tag)
  if (customer === undefined) return failed(NOBODY)
  const shop = await shopOrNeutral(db)
  const answer = question && (await answerLately(store, question.id, at, NAME_WAIT_MS))
  const decides = answer?.ok === true ? decidedBy(answer.value, limitKey) : []
  const notice = MAILS.askOne.says(
    {
      ...{ shop, tag, limitKey, link, decides, customerName: customer.name },
      isInside: isInside({ limit: limitKey }),
      askedAt: question?.askedAt,
    },
    figuresOf(shop, customer),
  )
  // No two asks are one: each stands for a request of its own.
  const mail = { kind: 'askOne', customer, machineTag: tag, questionId, notice } as const
  return draftNotice(store, mail, undefined, { at, by })
}

/** What is offered in place of what is gone: `nothing`, an option of the answer as things are now, or its own pick. */
export type InPlace = 'nothing' | { readonly optionId: string } | undefined

/** "It is gone" among the drafts, to an owner who was told of something that the shelf has no more. */
export async function draftGone(
  store: Store,
  questionId: string,
  inPlace: InPlace,
  hand: Hand,
  waitMs?: number,
): Promise<Result<MailId>> {
  const gone = await goneOf(store.db, questionId, hand.at)
  if (gone === undefined) {
    const next = 'What this owner was last told of is still on the shelf, or its price ran out. Answer anew.'
    return failed({ code: 'conflict', field: 'question', next })
  }
  const computed = await answerQuestion(store, questionId, hand.at, waitMs)
  if (!computed.ok) return computed
  const answer = computed.value
  const { customer, machine } = answer.inputs
  if (customer === undefined) return failed(NOBODY)
  const { ranked, withoutNumber } = answer.ranking
  const wanted = typeof inPlace === 'object' ? inPlace.optionId : undefined
  if (wanted !== undefined && ![...ranked, ...withoutNumber].some(({ id }) => id === wanted)) {
    const next = 'This option is no longer among the ones for this question. Choose another.'
    return failed({ code: 'not found', field: 'optionId', got: wanted, next })
  }
  const nextId = inPlace === 'nothing' ? undefined : (wanted ?? pickOf(answer)?.id)
  const { list, partWords } = contextOf(answer, undefined)
  const notice = MAILS.gone.says({
    ...{ answer, nextId, toldAt: gone.toldAt },
    what: list(gone.partIds.map(partWords)),
  })
  return draftNotice(
    store,
    { kind: 'gone', customer, machineTag: machine.tag, questionId, notice },
    { questionId },
    hand,
  )
}
