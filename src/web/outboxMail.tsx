import type { Context, Hono } from 'hono'
import { html, raw } from 'hono/html'
import { type Problem, type Result, STATUS_OF } from '../problem.ts'
import type { OneMailView } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import { saySays } from '../words/outbox.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { MESSAGE_CSP, PREVIEW_CSP } from './guard.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { choicesOf } from './messages.tsx'
import { Going, pathToMail, Step } from './outboxParts.tsx'
import { type MailProps, Steps } from './outboxSteps.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { pathToRound } from './rounds.tsx'

const w = OUTBOX_EN.one

const Seen = ({ view }: MailProps) => {
  const preview = `${pathToMail(view.mail.id)}/preview`
  return (
    <section>
      <h2>{w.preview}</h2>
      <h3>{w.desk}</h3>
      <iframe class="preview" title={`${w.preview}: ${w.desk}`} src={preview} sandbox=""></iframe>
      <h3>{w.phone}</h3>
      <iframe class="preview on-phone" title={`${w.preview}: ${w.phone}`} src={preview} sandbox=""></iframe>
      <p>
        <a href={preview}>{w.alone}</a>
      </p>
    </section>
  )
}

const Source = ({ view: { mail, bytes }, figures }: MailProps) => (
  <>
    <details>
      <summary>{w.text}</summary>
      <pre class="letter" tabindex={0}>
        {mail.text}
      </pre>
    </details>
    <details>
      <summary>{w.source}</summary>
      {bytes === undefined ? (
        <p>{w.sourceDraft}</p>
      ) : (
        <>
          <p>
            {fill(w.sourceNote, { size: `${figures.number(Math.ceil(bytes.length / 1024))}\u00a0KB` })}{' '}
            <a href={`${pathToMail(mail.id)}/mail.eml`} download>
              {w.download}
            </a>
          </p>
          <pre class="letter source" tabindex={0}>
            {Buffer.from(bytes).toString('latin1')}
          </pre>
        </>
      )}
    </details>
  </>
)

const History = ({ view: { steps }, figures }: MailProps) => (
  <section>
    <h2>{w.history}</h2>
    <ol class="ruled">
      {steps.map(({ at, event, by, says }) => (
        <li>
          <b>{OUTBOX_EN.events[event]}</b>
          {by !== undefined && ` ${fill(OUTBOX_EN.by, { name: by })}`}
          <small class="block">
            {figures.dateTime(at)}
            {says !== undefined && `: ${saySays(says, figures)}`}
          </small>
        </li>
      ))}
    </ol>
  </section>
)

const isChangedHere = ({ letter, words }: Pick<OneMailView, 'letter' | 'words'>): boolean =>
  letter !== undefined || words !== undefined

const Words = ({ view: { mail, letter, words, answerId, roundId }, figures, typed, problems }: MailProps) => {
  const shared = { typed, problems }
  const isHere = isChangedHere({ letter, words })
  return (
    <aside class="card" id="words" aria-label={isHere ? w.changed : w.around}>
      <h2 class="over">{isHere ? w.changed : w.around}</h2>
      {isHere ? (
        <form method="post" action={`${pathToMail(mail.id)}/words`} class="form">
          <Field name="subject" label={w.subject} {...shared} />
          {letter !== undefined && (
            <Select name="pickId" label={w.pick} choices={choicesOf(letter.answer, figures)} {...shared} />
          )}
          <Field
            name="opening"
            label={w.opening}
            hint={letter === undefined ? w.noticeHint : w.wordsHint}
            rows={4}
            {...shared}
          />
          <Field name="closing" label={w.closing} rows={4} {...shared} />
          <button class="button quiet" type="submit">
            {w.save}
          </button>
        </form>
      ) : (
        mail.state === 'drafted' && <p class="soft">{w.wordsElsewhere}</p>
      )}
      <ul>
        {answerId !== undefined && (
          <li>
            <a href={pathTo('answers', answerId)}>{w.behind}</a>
          </li>
        )}
        {mail.questionId !== undefined && (
          <li>
            <a href={pathTo('questions', mail.questionId)}>{w.question}</a>
          </li>
        )}
        {mail.jobId !== undefined && (
          <li>
            <a href={pathTo('jobs', mail.jobId)}>{w.job}</a>
          </li>
        )}
        {mail.kind === 'sheet' && mail.machineTag !== undefined && (
          <li>
            <a href={`/sell/${encodeURIComponent(mail.machineTag)}/message`}>{w.changed}</a>
          </li>
        )}
        {mail.machineTag !== undefined && (
          <li>
            <a href={pathTo('machines', mail.machineTag)}>{w.machine}</a>
          </li>
        )}
        {roundId !== undefined && (
          <li>
            <a href={pathToRound(roundId)}>{w.round}</a>
          </li>
        )}
      </ul>
    </aside>
  )
}

const LABELS: Readonly<Record<string, string>> = {
  ...{ subject: w.subject, opening: w.opening, closing: w.closing, pickId: w.pick },
  ...{ says: w.cameBackSays, mail: OUTBOX_EN.head },
}

const Body = (props: MailProps) => {
  const { view, figures, problems } = props
  const { mail, shop, sending } = view
  return (
    <div class="two">
      <article class="card">
        <p class="line">
          {mail.machineTag !== undefined && <Tag tag={mail.machineTag} />}
          <span class="soft">
            {OUTBOX_EN.kinds[mail.kind]} · {OUTBOX_EN.states[mail.state]}
          </span>
        </p>
        <h1>{mail.subject === '' ? OUTBOX_EN.kinds[mail.kind] : mail.subject}</h1>
        <p>
          {OUTBOX_EN.to}: {mail.toName === '' ? mail.toAddress : `${mail.toName}, ${mail.toAddress}`}
        </p>
        <ProblemSummary problems={problems} labels={(field) => LABELS[field]} />
        <Steps {...props} />
        {mail.subject !== '' && shop.email !== '' && mail.kind !== 'test' && (
          <Step
            action={`${pathToMail(mail.id)}/test`}
            says={w.test}
            note={fill(w.testNote, { address: shop.email })}
            quiet
          />
        )}
        {isChangedHere(view) && (
          <p>
            <a href="#words">{w.changed}</a>
          </p>
        )}
        <Going sending={sending} figures={figures} />
        <Seen {...props} />
        <Source {...props} />
        <History {...props} />
        <p>
          <a href="/outbox">{OUTBOX_EN.head}</a>
        </p>
      </article>
      <Words {...props} />
    </div>
  )
}

const typedFrom = ({ mail, letter, words }: OneMailView): Typed =>
  new Map([
    ['subject', [mail.subject]],
    ['opening', [letter?.edits.opening ?? words?.opening ?? '']],
    ['closing', [letter?.edits.closing ?? words?.closing ?? '']],
    ['pickId', [letter?.edits.pickId ?? '']],
  ])

/** One mail: how it will be seen, what happened to it, and what a person can do with it. */
export function outboxMailRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = (
    c: Context,
    view: OneMailView,
    typed = typedFrom(view),
    problems: readonly Problem[] = [],
  ) => {
    const [first] = problems
    c.header('Content-Security-Policy', MESSAGE_CSP)
    return page(
      c,
      {
        title: view.mail.subject === '' ? OUTBOX_EN.head : view.mail.subject,
        ...{ place: 'Outbox', demo: options.demo, shopName: view.shop.name },
      },
      <Body view={view} figures={figuresOf(view.shop)} typed={typed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/outbox/:id', async (c) => {
    const view = await uses.mail(param(c, 'id'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Outbox')
    if (view.value.mail.state === 'sending') c.header('Refresh', '3')
    return show(c, view.value)
  })

  /** A step: done, it leads to the mail; refused, the mail is shown with why. */
  const step = (
    name: string,
    act: (id: string, typed: Typed, by: string | undefined) => Promise<Result<{ readonly mailId: string }>>,
  ) =>
    app.post(`/outbox/:id/${name}`, async (c) => {
      const view = await uses.mail(param(c, 'id'))
      if (!view.ok) return problemPage(c, web, view.problems, 'Outbox')
      const typed = typedOf(await readForm(c))
      const done = await act(view.value.mail.id, typed, nameOf(who(c)))
      if (done.ok) return c.redirect(pathToMail(done.value.mailId), 303)
      const again = await uses.mail(view.value.mail.id)
      return show(
        c,
        again.ok ? again.value : view.value,
        new Map([...typedFrom(view.value), ...typed]),
        done.problems,
      )
    })

  step('approve', (id, typed, by) =>
    uses.approveMail(
      id,
      { updatedAt: textOf(typed, 'seen'), knowsStale: textOf(typed, 'old') === 'seen' },
      by,
    ),
  )
  step('take-back', (id, _, by) => uses.takeBackMail(id, by))
  step('stop', (id, _, by) => uses.stopMail(id, by))
  step('take-up', (id, _, by) => uses.takeUpMail(id, by))
  step('again', (id, _, by) => uses.tryMailAgain(id, by))
  step('settle', (id, typed, by) => uses.settleMail(id, textOf(typed, 'do') === 'arrived', by))
  step('came-back', (id, typed, by) => uses.mailCameBack(id, textOf(typed, 'says') ?? w.cameBack, by))
  step('test', (id, _, by) => uses.sendTestMail(id, by))
  step('words', async (id, typed, by) => {
    const view = await uses.mail(id)
    if (!view.ok) return view
    const subject = textOf(typed, 'subject')
    // A subject left as proposed is no edit, so it follows the recommended option.
    const { mail, letter } = view.value
    const edits = {
      subject: letter !== undefined && subject === mail.subject ? letter.edits.subject : subject,
      opening: textOf(typed, 'opening'),
      closing: textOf(typed, 'closing'),
      pickId: textOf(typed, 'pickId'),
    }
    return uses.changeMailWords(id, edits, by)
  })

  // The mail's own HTML, unchanged, under a policy that lets it do nothing but look as it will look.
  app.get('/outbox/:id/preview', async (c) => {
    const view = await uses.mail(param(c, 'id'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Outbox')
    c.header('Content-Security-Policy', PREVIEW_CSP)
    return c.html(html`${raw(view.value.mail.html)}`)
  })

  app.get('/outbox/:id/mail.eml', async (c) => {
    const view = await uses.mail(param(c, 'id'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Outbox')
    const { bytes, mail } = view.value
    if (bytes === undefined) {
      const problem = { code: 'not found', field: 'mail', next: w.sourceDraft } as const
      return problemPage(c, web, [problem], 'Outbox')
    }
    return c.body(new Uint8Array(bytes), 200, {
      'Content-Type': 'message/rfc822',
      'Content-Disposition': `attachment; filename="mail-${mail.id}.eml"`,
    })
  })
}
