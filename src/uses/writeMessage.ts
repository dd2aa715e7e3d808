import type { Answer } from '../core/answer.ts'
import { line, lines } from '../input/cells.ts'
import { Refusal } from '../input/refusal.ts'
import { emlOf } from '../mail/eml.ts'
import { renderAnswer } from '../mail/render.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { loadAnswer, saveAnswer } from '../store/answers.ts'
import type { Message } from '../store/messages.ts'
import { loadMessage, saveMessage, setMessageTold } from '../store/messages.ts'
import type { Store } from '../store/open.ts'
import { changeDraft } from '../store/outbox.ts'
import { mailsOfMessage } from '../store/outboxLists.ts'
import type { LetterEdits } from '../words/answer.ts'
import { chatTextOf, letterOf } from '../words/answer.ts'
import { isolatedText } from '../words/isolate.ts'
import { answerQuestion } from './answerQuestion.ts'
import { stepQuestion } from './questionState.ts'

/** A drafted message with the answer it was written from. */
export type MessageView = {
  readonly id: string
  readonly answerId: string
  readonly answer: Answer
  readonly edits: LetterEdits
  readonly subject: string
  readonly html: string
  readonly text: string
  readonly chatText: string
  /** When the owner was told in the words of then; absent while it was only written. */
  readonly toldAt?: string | undefined
  /** It says something else now than what was told. */
  readonly isChangedSince: boolean
}

/**
 * Keeps the answer as it stands now and drafts a message from it; nothing is sent, and the question counts as answered. `pickId`: the option to
 * recommend; absent: the ranking's own pick. `at` is now. Numbers that are not there within `waitMs` are a problem with
 * code `busy`, and nothing is kept.
 */
export async function prepareMessage(
  store: Store,
  questionId: string,
  pickId: string | undefined,
  at: string,
  waitMs?: number,
): Promise<Result<{ readonly messageId: string }>> {
  const answer = await answerQuestion(store, questionId, at, waitMs)
  if (!answer.ok) return answer
  const edits: LetterEdits = pickId === undefined ? {} : { pickId }
  const refused = pickProblem(answer.value, edits)
  if (refused !== undefined) return refused
  const mail = await renderAnswer(letterOf(answer.value, edits))
  return store.write(async (tx) => {
    const stepped = await stepQuestion(tx, questionId, 'answered', at, 'a message was written')
    if (!stepped.ok) return stepped
    const answerId = await saveAnswer(tx, answer.value)
    return ok({ messageId: await saveMessage(tx, draftOf(answer.value, answerId, edits, mail), at) })
  })
}

/** The builder copied the short text, or told the owner: the question is answered, and when is written down. */
export async function toldOwner(
  store: Store,
  messageId: string,
  at: string,
): Promise<Result<{ readonly messageId: string }>> {
  const found = await loadWithAnswer(store, messageId)
  if (!found.ok) return found
  return store.write(async (tx) => {
    const stepped = await stepQuestion(
      tx,
      found.value.message.questionId,
      'answered',
      at,
      'the owner was told',
    )
    if (!stepped.ok) return stepped
    await setMessageTold(tx, messageId, at, chatTextOf(found.value.answer, editsOf(found.value.message)))
    return ok({ messageId })
  })
}

/** Draws the message again with other words or another pick; the figures stay those of its answer. */
export async function editMessage(
  store: Store,
  messageId: string,
  edits: LetterEdits,
  at: string,
): Promise<Result<{ readonly messageId: string }>> {
  const found = await loadWithAnswer(store, messageId)
  if (!found.ok) return found
  const { message, answer } = found.value
  const refused = pickProblem(answer, edits)
  if (refused !== undefined) return refused
  const problems = textProblems(edits)
  if (problems.length > 0) return failed(...problems)
  const mail = await renderAnswer(letterOf(answer, edits))
  await store.write(async (tx) => {
    await saveMessage(tx, draftOf(answer, message.answerId, edits, mail), at)
    // A draft in the outbox follows; what was approved there stays as it was approved.
    const { subject, html, text } = mail
    for (const draft of await mailsOfMessage(tx, messageId))
      if (draft.state === 'drafted')
        await changeDraft(tx, draft.id, { subject, html, text }, { event: 'changed', at })
  })
  return ok({ messageId })
}

/** The message as it was drawn, with the short text for a chat. */
export async function viewMessage(store: Store, messageId: string): Promise<Result<MessageView>> {
  const found = await loadWithAnswer(store, messageId)
  if (!found.ok) return found
  const { message, answer } = found.value
  const edits = editsOf(message)
  const { id, answerId, subject, html, text, toldAt, updatedAt } = message
  return ok({
    id,
    answerId,
    answer,
    edits,
    subject,
    html,
    text,
    chatText: isolatedText(chatTextOf(answer, edits)),
    toldAt,
    isChangedSince: toldAt !== undefined && updatedAt > toldAt,
  })
}

/** The message as a file that any mail program opens (RFC 5322). A problem when the customer has no address. */
export async function messageEml(
  store: Store,
  messageId: string,
): Promise<Result<{ readonly fileName: string; readonly bytes: Uint8Array }>> {
  const found = await loadWithAnswer(store, messageId)
  if (!found.ok) return found
  const { message, answer } = found.value
  const addresses = addressesOf(answer)
  if (!addresses.ok) return addresses
  const { from, to } = addresses.value
  const bytes = await emlOf({
    from,
    to,
    subject: message.subject,
    html: message.html,
    text: message.text,
    date: message.updatedAt,
    messageId: `<answer-${message.id}.${Date.parse(message.createdAt).toString(36)}@${domainOf(from.address)}>`,
  })
  return ok({ fileName: `${message.machineTag}-${message.id}.eml`, bytes })
}

type Address = { readonly name: string; readonly address: string }

/** From whom to whom a mail of the answer goes; a problem where an address is missing at either end. */
export const addressesOf = ({ inputs }: Answer) => mailboxesOf(inputs.shop, inputs.customer)

export function mailboxesOf(
  shop: { readonly name: string; readonly email: string },
  customer: { readonly name: string; readonly email?: string | undefined } | undefined,
): Result<{ readonly from: Address; readonly to: Address }> {
  if (customer?.email === undefined) {
    const next = 'This customer has no e-mail address. Copy the short text and send it where you chat.'
    return failed({ code: 'missing', field: 'e-mail', next })
  }
  if (shop.email === '') {
    const next = 'Say who the shop is first: its e-mail address goes into the head of the mail.'
    return failed({ code: 'missing', field: 'shop e-mail', next })
  }
  return ok({
    from: { name: shop.name, address: shop.email },
    to: { name: customer.name, address: customer.email },
  })
}

export const domainOf = (address: string): string => address.slice(address.lastIndexOf('@') + 1)

type Mail = { readonly subject: string; readonly html: string; readonly text: string }

const draftOf = (answer: Answer, answerId: string, edits: LetterEdits, { subject, html, text }: Mail) => ({
  kind: 'answer' as const,
  questionId: answer.inputs.question.id,
  answerId,
  machineTag: answer.inputs.machine.tag,
  subject,
  html,
  text,
  edits,
})

async function loadWithAnswer(
  { db }: Store,
  messageId: string,
): Promise<Result<{ readonly message: Message; readonly answer: Answer }>> {
  const message = await loadMessage(db, messageId)
  const saved = message && (await loadAnswer(db, message.answerId))
  if (message === undefined || saved === undefined) {
    const next = 'There is no such message. Open the question and press "Write the answer" again.'
    return failed({ code: 'not found', field: 'message', got: messageId, next })
  }
  return ok({ message, answer: saved.answer })
}

// Only this file writes `edits`, so what comes out is what went in.
const editsOf = (message: Message): LetterEdits => (message.edits ?? {}) as LetterEdits

/** Well within the 998 octets of a line (RFC 5322, 2.1.1) before folding, and what people read of a subject. */
const SUBJECT_MOST = 200

const TEXTS = { subject: line(SUBJECT_MOST), opening: lines(), closing: lines() }

/** What is wrong with a person's own words; fields: `subject`, `opening`, `closing`. */
export function textProblems(edits: LetterEdits): Problem[] {
  const reading = { decimalMark: 'either', currencyDigits: 0, timeZone: 'UTC' } as const
  return (['subject', 'opening', 'closing'] as const).flatMap((field): Problem[] => {
    const got = edits[field]
    const read = got === undefined ? got : TEXTS[field].read(got, reading)
    if (!(read instanceof Refusal)) return []
    return [{ code: read.code, field, got, allowed: TEXTS[field].allowed, next: read.next }]
  })
}

function pickProblem({ ranking }: Answer, { pickId }: LetterEdits) {
  const options = [...ranking.ranked, ...ranking.withoutNumber, ...ranking.needsAFact]
  if (pickId === undefined || options.some((o) => o.id === pickId)) return undefined
  const next = 'This option is no longer among the ones for this question. Choose another.'
  return failed({ code: 'not found', field: 'optionId', got: pickId, next })
}
