import type { Context, Hono } from 'hono'
import type { Answer } from '../core/answer.ts'
import { date } from '../input/cells.ts'
import type { Problem } from '../problem.ts'
import type { GoneSince } from '../uses/outbox/goneSince.ts'
import type { QuestionMails } from '../uses/outbox/questionMails.ts'
import type { QuestionView } from '../uses/views.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import type { Figures } from '../words/figures.ts'
import { optionWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, Select, textOf, typedOf } from './form.tsx'
import { param, pathTo, readingFor, type Web } from './frame.ts'
import { OnceKey } from './onceKey.tsx'
import { pathToMail } from './outboxParts.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'
import { stopped } from './waiting.tsx'

const w = OUTBOX_EN.ofQuestion

const pathToReceived = (id: string): string => `${pathTo('questions', id)}/mails/received`
const pathToGone = (id: string): string => `${pathTo('questions', id)}/mails/gone`

const list = new Intl.ListFormat('en')

/** What the owner was told of is sold: said at once, with the mail that tells them. */
const Gone = ({ gone, answer, figures }: { gone: GoneSince; answer: Answer; figures: Figures }) => {
  const { ranked, withoutNumber } = answer.ranking
  const choices = [
    ['', w.ownPick],
    ...[...ranked, ...withoutNumber].map((option): [string, string] => [
      option.id,
      `${optionWords(option, answer.inputs.parts)}, ${figures.money(option.price.netMinor)}`,
    ]),
    ['-', w.nothingInPlace],
  ] as const
  return (
    <section class="nothing">
      <p>
        <b>{fill(w.gone, { parts: list.format(gone.partNames) })}</b>{' '}
        {fill(w.goneSays, { date: figures.date(gone.toldAt) })}
      </p>
      <form method="post" action={pathToGone(gone.questionId)} class="form">
        <OnceKey />
        <Select name="inPlace" label={w.inPlace} choices={choices} typed={new Map()} problems={[]} />
        <p class="actions">
          <button class="button quiet" type="submit">
            {w.writeGone}
          </button>
        </p>
      </form>
    </section>
  )
}

/** What went to the owner about this question from the outbox, and what can be written there. */
export const MailsOfQuestion = (props: { of: QuestionMails; view: QuestionView; figures: Figures }) => {
  const { of, view, figures } = props
  const { answer, state } = view
  const { id } = answer.inputs.question
  const isOpen = state === 'new' || state === 'waiting for the owner'
  const isWritten = of.mails.some((mail) => mail.kind === 'received' && mail.state !== 'stopped')
  return (
    <>
      {of.gone !== undefined && <Gone gone={of.gone} answer={answer} figures={figures} />}
      {of.mails.length > 0 && (
        <ul class="ruled">
          {of.mails.map((mail) => (
            <li>
              <a href={pathToMail(mail.id)}>{fill(w.mail, { kind: OUTBOX_EN.kinds[mail.kind] })}</a>{' '}
              <span class="soft">
                {OUTBOX_EN.states[mail.state]}, {figures.dateTime(mail.sentAt ?? mail.updatedAt)}
              </span>
            </li>
          ))}
        </ul>
      )}
      {isOpen && !isWritten && (
        <details>
          <summary>{w.received}</summary>
          <form method="post" action={pathToReceived(id)} class="form row">
            <OnceKey />
            <Field name="answerBy" label={w.answerBy} type="date" typed={new Map()} problems={[]} narrow />
            <p class="actions">
              <button class="button quiet" type="submit">
                {w.writeReceived}
              </button>
            </p>
          </form>
          <p class="soft">{w.receivedSays}</p>
        </details>
      )}
    </>
  )
}

/** Parts that owners were told of and that were sold since, wherever that is of use. */
export const GoneList = ({ gone, figures }: { gone: readonly GoneSince[]; figures: Figures }) =>
  gone.length === 0 ? null : (
    <section class="card">
      <h2>{w.goneHead}</h2>
      <p>{w.goneAbout}</p>
      <ul class="ruled">
        {gone.map(({ questionId, machineTag, customerName, toldAt, partNames }) => (
          <li>
            <b>{list.format(partNames)}</b>{' '}
            <a href={pathTo('questions', questionId)}>
              {fill(w.goneFor, { name: customerName ?? machineTag, tag: machineTag })}
            </a>{' '}
            <span class="soft">{fill(w.toldOn, { date: figures.date(toldAt) })}</span>
          </li>
        ))}
      </ul>
    </section>
  )

export function questionMailRoutes(app: Hono, web: Web): void {
  const { uses } = web
  const refused = (c: Context, problems: readonly Problem[]) => problemPage(c, web, problems, 'Questions')

  app.post('/questions/:id/mails/received', async (c) => {
    const reader = fieldReader(typedOf(await readForm(c)), readingFor(await uses.shop()))
    const answerBy = reader.read('answerBy', date)
    if (answerBy !== undefined && answerBy < uses.now())
      reader.problems.push({ code: 'not allowed', field: 'answerBy', next: w.dayPast })
    if (reader.problems.length > 0) return refused(c, reader.problems)
    const put = await uses.draftReceivedMail(param(c, 'id'), answerBy, nameOf(who(c)))
    return put.ok ? c.redirect(pathToMail(put.value.mailId), 303) : refused(c, put.problems)
  })

  app.post('/questions/:id/mails/gone', async (c) => {
    const chosen = textOf(typedOf(await readForm(c)), 'inPlace')
    const inPlace = chosen === undefined ? undefined : chosen === '-' ? 'nothing' : { optionId: chosen }
    const put = await uses.draftGoneMail(param(c, 'id'), inPlace, nameOf(who(c)))
    return put.ok ? c.redirect(pathToMail(put.value.mailId), 303) : stopped(c, web, put.problems)
  })
}
