import { passesAt, standing } from '../core/outbox/hindrance.ts'
import type { Problem } from '../problem.ts'
import type { OneMailView } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import type { Figures } from '../words/figures.ts'
import { sayHindrance, sayStale } from '../words/outbox.ts'
import { fill } from '../words/say.ts'
import { Field, type Typed } from './form.tsx'
import { pathToMail, Step, whyText } from './outboxParts.tsx'

const w = OUTBOX_EN.one

export type MailProps = {
  view: OneMailView
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const Approve = ({ view: { mail, stale }, figures }: MailProps) => {
  const inTheWay = standing(mail.hindrances)
  if (inTheWay.length > 0)
    return (
      <section class="nothing">
        <h2 class="over">{w.hindered}</h2>
        {inTheWay.map((one) => (
          <p>{sayHindrance(one, figures)}</p>
        ))}
      </section>
    )
  const later = passesAt(mail.hindrances)
  const saidGone = mail.hindrances.filter(({ why }) => why === 'said gone')
  const note = [
    fill(w.approveNote, { address: mail.toAddress }),
    ...saidGone.map((one) => sayHindrance(one, figures)),
  ].join(' ')
  return (
    <>
      {stale.length > 0 && (
        <section class="nothing" role="note">
          <h2 class="over">{w.staleHead}</h2>
          {stale.map((one) => (
            <p>{sayStale(one, figures)}</p>
          ))}
          <p>{w.staleNote}</p>
        </section>
      )}
      <Step
        action={`${pathToMail(mail.id)}/approve`}
        says={stale.length > 0 ? w.approveOld : w.approve}
        note={
          later === undefined || saidGone.length > 0
            ? note
            : `${note} ${fill(w.approveLater, { dateTime: figures.dateTime(later) })}`
        }
      >
        <input type="hidden" name="seen" value={mail.updatedAt} />
        {stale.length > 0 && <input type="hidden" name="old" value="seen" />}
      </Step>
    </>
  )
}

const Held = ({ view: { mail }, figures }: MailProps) => {
  const path = pathToMail(mail.id)
  return (
    <section class="nothing">
      <h2 class="over">{w.heldHead}</h2>
      <p>{fill(w.heldSays, { dateTime: figures.dateTime(mail.handedAt ?? mail.updatedAt) })}</p>
      <p>{fill(w.heldHow, { name: mail.toName === '' ? mail.toAddress : mail.toName })}</p>
      <p>
        {w.messageId}: <code class="long">{mail.rfcMessageId}</code>
      </p>
      <form method="post" action={`${path}/settle`} class="actions">
        <button class="button" type="submit" name="do" value="arrived">
          {w.arrived}
        </button>
        <button class="button quiet" type="submit" name="do" value="not arrived">
          {w.notArrived}
        </button>
      </form>
    </section>
  )
}

const CameBack = ({ view: { mail }, typed, problems }: MailProps) => (
  <details open={problems.some(({ field }) => field === 'says')}>
    <summary>{w.cameBack}</summary>
    <form method="post" action={`${pathToMail(mail.id)}/came-back`} class="act">
      <Field name="says" label={w.cameBackSays} hint={w.cameBackHint} typed={typed} problems={problems} />
      <button class="button quiet" type="submit">
        {w.cameBack}
      </button>
    </form>
  </details>
)

/** What can be done with it from where it stands. */
/** What can be done with it as it stands. */
export const Steps = (props: MailProps) => {
  const { view, figures } = props
  const { mail } = view
  const path = pathToMail(mail.id)
  const why = whyText(mail, figures)
  return (
    <>
      {mail.state !== 'drafted' && why !== undefined && (
        <section class="nothing">
          <h2 class="over">{mail.state === 'approved' ? w.waits : OUTBOX_EN.states[mail.state]}</h2>
          <p>{why}</p>
        </section>
      )}
      {mail.state === 'drafted' && <Approve {...props} />}
      {mail.state === 'held' && <Held {...props} />}
      {mail.state === 'failed' && <Step action={`${path}/again`} says={w.again} note={w.againNote} />}
      {mail.state === 'stopped' && mail.subject !== '' && <Step action={`${path}/take-up`} says={w.takeUp} />}
      {mail.state === 'approved' && (
        <Step action={`${path}/take-back`} says={w.takeBack} note={w.takeBackNote} quiet />
      )}
      {['drafted', 'approved', 'sending', 'failed'].includes(mail.state) && (
        <Step action={`${path}/stop`} says={w.stop} note={w.stopNote} quiet />
      )}
      {(mail.state === 'sent' || mail.state === 'held') && <CameBack {...props} />}
    </>
  )
}
