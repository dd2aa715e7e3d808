import type { Context, Hono } from 'hono'
import { html, raw } from 'hono/html'
import type { Answer } from '../core/answer.ts'
import type { Option } from '../core/ranking/option.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { MessageView } from '../uses/writeMessage.ts'
import type { LetterEdits } from '../words/answer/letter.ts'
import { linkLine } from '../words/askOwner.ts'
import type { Figures } from '../words/figures.ts'
import { optionWords } from '../words/options.ts'
import { nameOf, who } from './access/who.ts'
import { CopyText } from './copyText.tsx'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { MESSAGE_CSP, PREVIEW_CSP } from './guard.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { PutIntoOutbox } from './outboxParts.tsx'
import { ownerUrl, ReachNote } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'

const LABELS: Record<string, string> = {
  subject: 'Subject',
  opening: 'Before the answer',
  closing: 'After the answer',
  pickId: 'What it recommends',
}

/** What can be recommended; to somebody with a complaint works come before any part. */
export function choicesOf(
  { ranking, inputs, asked }: Answer,
  figures: Figures,
): [value: string, text: string][] {
  const isComplaint = asked?.ask === 'something is wrong'
  const options = [...ranking.ranked, ...ranking.withoutNumber, ...ranking.needsAFact]
  const isPart = ({ change }: Option) => Number(change.add.length > 0)
  const ordered = isComplaint ? options.toSorted((a, b) => isPart(a) - isPart(b)) : options
  return [
    ['', isComplaint ? 'work first, as the answer says' : 'the pick of the ranking'],
    ...ordered.map((option): [string, string] => [
      option.id,
      `${optionWords(option, inputs.parts)}, ${figures.money(option.price.netMinor)}`,
    ]),
  ]
}

type MessageProps = {
  /** A link to the owner's page that was made a moment ago. */
  link?: string | undefined
  view: MessageView
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const EditForm = ({ view, figures, typed, problems }: MessageProps) => (
  <form method="post" action={pathTo('messages', view.id)} class="form">
    <ProblemSummary problems={problems} labels={(field) => LABELS[field]} />
    <Field name="subject" label="Subject" typed={typed} problems={problems} />
    <Select
      name="pickId"
      label="What it recommends"
      choices={choicesOf(view.answer, figures)}
      typed={typed}
      problems={problems}
    />
    <Field
      name="opening"
      label="Before the answer"
      hint="Your own words; an empty line parts paragraphs. Figures are not changed here: they stay those of the answer."
      rows={4}
      typed={typed}
      problems={problems}
    />
    <Field name="closing" label="After the answer" rows={4} typed={typed} problems={problems} />
    <p class="actions">
      <button class="button" type="submit">
        Save and draw it again
      </button>
    </p>
  </form>
)

/** Whether the owner has it: their page shows what was told, in the words of then, and nothing that was only written. */
const Told = ({ view, figures }: { view: MessageView; figures: Figures }) => (
  <p class={view.isChangedSince || view.toldAt === undefined ? 'nothing' : 'kept'} role="note">
    {view.toldAt === undefined ? (
      <>
        <b>Not told yet.</b> The owner’s page shows it once you say below that they have it.
      </>
    ) : (
      <>
        <b>The owner was told on {figures.date(view.toldAt)}.</b>{' '}
        {view.isChangedSince
          ? 'It was changed since; their page still shows the words of then.'
          : 'Their page shows it.'}
      </>
    )}
  </p>
)

const Chat = ({ view, link, figures }: { view: MessageView; link: string | undefined; figures: Figures }) => (
  <section id="chat">
    <h2>As a text for a chat</h2>
    <CopyText
      id="chat-text"
      label="Text for a chat"
      text={link === undefined ? view.chatText : `${view.chatText}\n\n${linkLine(link)}`}
      rows={12}
    />
    <ReachNote link={link} />
    <Told view={view} figures={figures} />
    <div class="actions">
      {link === undefined && (
        <form method="post" action={`${pathTo('messages', view.id)}/link`}>
          <button class="button quiet" type="submit">
            Put a link to the owner’s page into it
          </button>
        </form>
      )}
      <form method="post" action={`${pathTo('messages', view.id)}/told`}>
        <button class="button quiet" type="submit">
          {view.toldAt === undefined || !view.isChangedSince
            ? 'Sent, copied or told: the owner has it'
            : 'The owner has the new words too'}
        </button>
      </form>
    </div>
  </section>
)

const Mail = ({ view }: { view: MessageView }) => (
  <section>
    <h2>The mail as it will be seen</h2>
    <iframe
      class="preview"
      title="The mail as the customer will see it"
      src={`${pathTo('messages', view.id)}/preview`}
      sandbox=""
    ></iframe>
    <p>
      <a href={`${pathTo('messages', view.id)}/preview`}>Open the mail alone</a>
    </p>
    <details>
      <summary>The same as plain text</summary>
      <pre class="letter" tabindex={0}>
        {view.text}
      </pre>
    </details>
  </section>
)

const MessageBody = (props: MessageProps) => {
  const { view } = props
  const { customer, question } = view.answer.inputs
  const address = customer?.email
  return (
    <div class="two">
      <article class="card">
        <p class="line">
          <Tag tag={question.machineTag} />
          <span class="soft">
            {customer === undefined ? 'owner not known' : customer.name}
            {address !== undefined && `, ${address}`}
          </span>
        </p>
        <h1>{view.subject}</h1>
        {address === undefined ? (
          <>
            <p>
              There is no mail address for this owner, so there is no mail file to save. The text below says
              the same.
            </p>
            <Chat view={view} link={props.link} figures={props.figures} />
            <Mail view={view} />
          </>
        ) : (
          <>
            <PutIntoOutbox action={`${pathTo('messages', view.id)}/outbox`} />
            <p class="actions">
              <a class="button quiet" href={`${pathTo('messages', view.id)}/mail.eml`} download>
                Save as .eml
              </a>
              <span class="soft">Opens in a mail program, ready to send from your own address.</span>
            </p>
            <Mail view={view} />
            <Chat view={view} link={props.link} figures={props.figures} />
          </>
        )}
      </article>
      <aside class="card" aria-label="Change the message">
        <h2>Your words in it</h2>
        <EditForm {...props} />
        <p>
          <a href={pathTo('answers', view.answerId)}>The answer behind it</a> ·{' '}
          <a href={pathTo('questions', question.id)}>The question as things are now</a>
        </p>
      </aside>
    </div>
  )
}

/** What the form shows before anything is typed: the saved words, or those the mail stands with. */
const typedFrom = ({ edits, subject }: MessageView): Typed =>
  new Map([
    ['subject', [subject]],
    ['opening', [edits.opening ?? '']],
    ['closing', [edits.closing ?? '']],
    ['pickId', [edits.pickId ?? '']],
  ])

/** Edits as typed. A subject left as proposed is no edit, so it follows the recommended option. */
const editsOf = (typed: Typed, view: MessageView): LetterEdits => {
  const subject = textOf(typed, 'subject')
  return {
    subject: subject === view.subject ? view.edits.subject : subject,
    opening: textOf(typed, 'opening'),
    closing: textOf(typed, 'closing'),
    pickId: textOf(typed, 'pickId'),
  }
}

export function messageRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = (c: Context, view: MessageView, typed: Typed, problems: readonly Problem[], link?: string) => {
    const { shop } = view.answer.inputs
    const first = problems[0]
    c.header('Content-Security-Policy', MESSAGE_CSP)
    return page(
      c,
      { title: view.subject, place: 'Questions', demo: options.demo, shopName: shop.name },
      <MessageBody view={view} figures={figuresOf(shop)} typed={typed} problems={problems} link={link} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/messages/:id', async (c) => {
    const message = await uses.message(param(c, 'id'))
    if (!message.ok) return problemPage(c, web, message.problems, 'Questions')
    return show(c, message.value, typedFrom(message.value), [])
  })

  app.post('/messages/:id', async (c) => {
    const message = await uses.message(param(c, 'id'))
    if (!message.ok) return problemPage(c, web, message.problems, 'Questions')
    const typed = typedOf(await readForm(c))
    const saved = await uses.saveMessage(message.value.id, editsOf(typed, message.value))
    if (!saved.ok) return show(c, message.value, typed, saved.problems)
    return c.redirect(pathTo('messages', saved.value.messageId), 303)
  })

  app.post('/messages/:id/told', async (c) => {
    const told = await uses.toldOwner(param(c, 'id'))
    if (!told.ok) return problemPage(c, web, told.problems, 'Questions')
    const message = await uses.message(told.value.messageId)
    if (!message.ok) return problemPage(c, web, message.problems, 'Questions')
    return c.redirect(pathTo('questions', message.value.answer.inputs.question.id), 303)
  })

  app.post('/messages/:id/link', async (c) => {
    const message = await uses.message(param(c, 'id'))
    if (!message.ok) return problemPage(c, web, message.problems, 'Questions')
    const made = await uses.makeOwnerLink(message.value.answer.inputs.machine.tag, nameOf(who(c)))
    if (!made.ok) return problemPage(c, web, made.problems, 'Questions')
    return show(c, message.value, typedFrom(message.value), [], ownerUrl(c, web, made.value.token))
  })

  // The mail's own HTML, unchanged, under a policy that lets it do nothing but look as it will look.
  app.get('/messages/:id/preview', async (c) => {
    const message = await uses.message(param(c, 'id'))
    if (!message.ok) return problemPage(c, web, message.problems, 'Questions')
    c.header('Content-Security-Policy', PREVIEW_CSP)
    return c.html(html`${raw(message.value.html)}`)
  })

  app.get('/messages/:id/mail.eml', async (c) => {
    const mail = await uses.messageEml(param(c, 'id'))
    if (!mail.ok) return problemPage(c, web, mail.problems, 'Questions')
    const name = mail.value.fileName.replaceAll(/[^A-Za-z0-9._-]/g, '-')
    return c.body(new Uint8Array(mail.value.bytes), 200, {
      'Content-Type': 'message/rfc822',
      'Content-Disposition': `attachment; filename="${name}"`,
    })
  })
}
