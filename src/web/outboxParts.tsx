import type { Child } from 'hono/jsx'
import { standing } from '../core/outbox/hindrance.ts'
import type { MailLine, Sending } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import type { Figures } from '../words/figures.ts'
import { sayHindrance, saySays } from '../words/outbox.ts'
import { fill } from '../words/say.ts'

const w = OUTBOX_EN

export const pathToMail = (id: string): string => `/outbox/${encodeURIComponent(id)}`

/** Where mails go from here, so that nobody takes files for sent mails or the other way round. */
export const Going = ({ sending: { going, perMinute }, figures }: { sending: Sending; figures: Figures }) => (
  <p role="note" class="soft">
    {going.by === 'files' && (
      <>
        {w.files.split('{folder}')[0]}
        <code>{going.folder}</code>
        {w.files.split('{folder}')[1]} {w.filesHow}
      </>
    )}
    {going.by === 'smtp' &&
      `${fill(w.smtp, { host: going.host })} ${fill(w.rate, { n: figures.number(perMinute) })}`}
    {going.by === 'nobody' && w.off}
  </p>
)

/** Why an approved mail waits, in one sentence; what holds a draft back, likewise. */
export function whyText(mail: MailLine, figures: Figures): string | undefined {
  const [first] =
    mail.state === 'drafted'
      ? standing(mail.hindrances)
      : mail.waits?.why === 'hindered'
        ? mail.hindrances
        : []
  if (first !== undefined) return sayHindrance(first, figures)
  const { waits } = mail
  switch (waits?.why) {
    case 'round paused':
      return w.one.waitsRound
    case 'no sender':
      return w.one.waitsOff
    case 'server':
      return fill(w.one.waitsServer, { says: waits.says, next: figures.dateTime(waits.nextTryAt) })
    case 'refused for now':
      return fill(w.one.waitsTry, { says: waits.says, next: figures.dateTime(waits.nextTryAt) })
    case 'its turn':
      return w.one.waitsTurn
    default:
      return (mail.state === 'failed' || mail.state === 'stopped') && mail.says !== undefined
        ? saySays(mail.says, figures)
        : undefined
  }
}

/** One step of a person, with what it does beside it. */
export const Step = (props: {
  action: string
  says: string
  note?: string | undefined
  quiet?: boolean | undefined
  children?: Child
}) => (
  <form method="post" action={props.action} class="act">
    {props.children}
    <p class="does">
      <button class={props.quiet ? 'button quiet' : 'button'} type="submit">
        {props.says}
      </button>
      {props.note !== undefined && <span class="soft">{props.note}</span>}
    </p>
  </form>
)

/** Puts a written message among the drafts of the outbox. `token`: of an owner's link that stands in it. */
export const PutIntoOutbox = ({ action, token }: { action: string; token?: string }) => (
  <Step action={action} says={w.put} note={w.putNote}>
    {token !== undefined && <input type="hidden" name="token" value={token} />}
  </Step>
)
