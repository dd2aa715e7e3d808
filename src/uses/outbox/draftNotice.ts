import { readEdits } from '../../mail/keptNotice.ts'
import { type DrawnNotice, renderNotice } from '../../mail/render.ts'
import { ok, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { changeDraft, loadMailWords } from '../../store/outbox.ts'
import { type MailAbout, mailsAbout } from '../../store/outboxLists.ts'
import { editedNotice, type Notice } from '../../words/mails/notice.ts'
import { type DrawnMail, draftMail, type MailId } from './draftMails.ts'
import type { Hand } from './mailSteps.ts'

/** A notice for one customer, not drawn yet. */
export type NewNotice = Omit<DrawnMail, 'subject' | 'html' | 'text' | 'notice' | 'unsubscribeToken'> & {
  readonly notice: Notice
}

/**
 * A notice among the drafts. Where one of its kind about the same thing is there already and nobody approved it yet, that
 * one says what is true now; the words that a person put into it stay. Without `about` it is one more.
 */
export async function draftNotice(
  store: Store,
  { notice, ...mail }: NewNotice,
  about: MailAbout | undefined,
  { at, by }: Hand,
): Promise<Result<MailId>> {
  const drawn = await renderNotice(notice)
  return store.write(async (tx) => {
    const there = about === undefined ? [] : await mailsAbout(tx, mail.kind, about)
    const draft = there.find(({ state }) => state === 'drafted')
    if (draft === undefined) return draftMail(tx, { ...mail, ...drawn }, at, by)
    await changeDraft(tx, draft.id, await redrawn(tx, draft.id, drawn), { event: 'changed', at, by })
    return ok({ mailId: draft.id })
  })
}

/** The new notice in the words of the old draft. */
async function redrawn(tx: Db, id: string, drawn: DrawnNotice): Promise<DrawnNotice> {
  const { notice } = drawn
  const edits = readEdits((await loadMailWords(tx, id))?.edits)
  if (Object.keys(edits).length === 0) return drawn
  return { ...(await renderNotice(editedNotice(notice, edits))), notice }
}
