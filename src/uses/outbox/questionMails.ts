import type { Store } from '../../store/open.ts'
import type { Mail } from '../../store/outbox.ts'
import { mailsOfQuestion } from '../../store/outboxLists.ts'
import { type GoneSince, goneOf } from './goneSince.ts'

/** What was written about a question in the outbox, and what there is to write. */
export type QuestionMails = {
  /** The newest first. */
  readonly mails: readonly Pick<Mail, 'id' | 'kind' | 'state' | 'updatedAt' | 'sentAt'>[]
  /** What its owner was told of is sold; absent where it still stands. */
  readonly gone?: GoneSince | undefined
}

export async function viewQuestionMails(
  { db }: Store,
  questionId: string,
  at: string,
): Promise<QuestionMails> {
  const mails = await mailsOfQuestion(db, questionId)
  return {
    mails: mails.map(({ id, kind, state, updatedAt, sentAt }) => ({ id, kind, state, updatedAt, sentAt })),
    gone: await goneOf(db, questionId, at),
  }
}
