import { readEdits, readNotice } from '../../mail/keptNotice.ts'
import { renderNotice } from '../../mail/render.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { changeDraft, loadMail, loadMailWords } from '../../store/outbox.ts'
import { editedNotice, type Notice, type NoticeEdits } from '../../words/mails/notice.ts'
import { oneLine } from '../../words/say.ts'
import { textProblems } from '../writeMessage.ts'
import type { MailId } from './draftMails.ts'
import { type Hand, noMail } from './mailSteps.ts'

/** The words of a draft that can be changed, as they stand. */
export type NoticeWords = { readonly opening: string; readonly closing: string }

/** Undefined where a mail was drawn of something else. */
export async function noticeWordsOf(db: Db, id: string): Promise<NoticeWords | undefined> {
  const kept = await loadMailWords(db, id)
  const notice = readNotice(kept?.notice)
  if (notice === undefined) return undefined
  const { opening, closing } = editedNotice(notice, readEdits(kept?.edits))
  return { opening: asText(opening), closing: asText(closing) }
}

const NOT_HERE: Problem = {
  ...{ code: 'conflict', field: 'mail' },
  next: 'Only a draft can be changed. Take it back first, or change its words where it was written.',
}

/** A draft in a person's own words: subject, and paragraphs before and after. What is left as proposed is no change. */
export async function changeNotice(
  store: Store,
  id: string,
  typed: NoticeEdits,
  { at, by }: Hand,
): Promise<Result<MailId>> {
  const problems = textProblems(Object.fromEntries(Object.entries(typed).filter(([, text]) => text !== '')))
  if (problems.length > 0) return failed(...problems)
  return store.write(async (tx) => {
    const mail = await loadMail(tx, id)
    if (mail === undefined) return failed(noMail(id))
    const notice = readNotice((await loadMailWords(tx, id))?.notice)
    if (notice === undefined || mail.state !== 'drafted') return failed(NOT_HERE)
    const edits = onlyChanged(typed, notice)
    const drawn = await renderNotice(editedNotice(notice, edits))
    await changeDraft(tx, id, { ...drawn, notice, edits }, { event: 'changed', at, by })
    return ok({ mailId: id })
  })
}

/** Paragraphs as a form shows them. */
const asText = (paragraphs: readonly string[]): string => paragraphs.join('\n\n')

/** An empty subject is none; empty paragraphs take away what was proposed. */
const onlyChanged = (
  { subject = '', opening = '', closing = '' }: NoticeEdits,
  notice: Notice,
): NoticeEdits => ({
  ...(oneLine(subject) !== '' && oneLine(subject) !== oneLine(notice.subject) && { subject }),
  ...(opening.trim() !== asText(notice.opening) && { opening }),
  ...(closing.trim() !== asText(notice.closing) && { closing }),
})
