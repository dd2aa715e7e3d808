import { type Stale, staleReasons } from '../../core/outbox/stale.ts'
import { listAnswers, loadAnswer } from '../../store/answers.ts'
import { listEdits } from '../../store/edits.ts'
import { loadMessage } from '../../store/messages.ts'
import type { Db } from '../../store/open.ts'
import type { Mail } from '../../store/outbox.ts'

/** What grew old about the answer behind a mail. Its numbers stay those of its answer, so only a new answer has newer ones. */
export async function staleOf(db: Db, mail: Pick<Mail, 'messageId'>, at: string): Promise<Stale[]> {
  const message = mail.messageId === undefined ? undefined : await loadMessage(db, mail.messageId)
  const saved = message && (await loadAnswer(db, message.answerId))
  if (message === undefined || saved === undefined) return []
  const { answer } = saved
  const [edits, answers] = [
    await listEdits(db, 'question', message.questionId),
    await listAnswers(db, message.questionId),
  ]
  const newest = answers.map((one) => one.at).toSorted()
  return staleReasons(
    { at: answer.at, priceValidDays: answer.inputs.shop.policy.priceValidDays },
    { at, questionChangedAt: edits.at(-1)?.at, newestAnswerAt: newest.at(-1) },
  )
}
