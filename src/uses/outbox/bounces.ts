import { readBounce } from '../../core/outbox/bounce.ts'
import { failed, type Problem, type Result } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import { type Mail, mailByMessageId } from '../../store/outbox.ts'
import { OUTBOX_EN } from '../../words/en/outbox.ts'
import { fill, oneLine } from '../../words/say.ts'
import type { MailId } from './draftMails.ts'
import { type Hand, mailCameBack } from './mailSteps.ts'

/** So many Message-IDs of a pasted mail are looked up; a notification quotes a few. */
const LOOKED_UP = 50

const w = OUTBOX_EN.bounce

const problem = (code: Problem['code'], next: string): Problem => ({ code, field: 'bounce', next })

/** A mail that came back, as pasted: found by our Message-ID in it. Only "failed" with a 5.x.x status is written down. */
export async function recordBounce(store: Store, text: string, hand: Hand): Promise<Result<MailId>> {
  const { messageIds, action, status, diagnostic } = readBounce(text)
  let mail: Mail | undefined
  for (const id of messageIds.slice(0, LOOKED_UP)) mail ??= await mailByMessageId(store.db, id)
  if (mail === undefined) return failed(problem('not found', w.unknown))
  if (action !== undefined && action !== 'failed')
    return failed(problem('not allowed', fill(w.notFinal, { status: status ?? action })))
  if (action === undefined || status === undefined || !status.startsWith('5'))
    return failed(problem('unreadable', w.unclear))
  return mailCameBack(store, mail.id, oneLine(`${status} ${diagnostic ?? ''}`), hand)
}
