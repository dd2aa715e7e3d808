import type { Context, Hono } from 'hono'
import { html, raw } from 'hono/html'
import type { SaleWords } from '../core/sale/sale.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { SaleMessageView } from '../uses/sellSteps.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { CopyText } from './copyText.tsx'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import { MESSAGE_CSP, PREVIEW_CSP } from './guard.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { PutIntoOutbox } from './outboxParts.tsx'
import { ownerUrl, ReachNote } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { pathToSale } from './sellPaths.ts'

const w = SELL_EN.message

const LABELS: Readonly<Record<string, string>> = {
  subject: w.subject,
  opening: w.opening,
  closing: w.closing,
}

type MessageProps = {
  view: SaleMessageView
  typed: Typed
  problems: readonly Problem[]
  /** The limits sheet as a mail, in plain text. */
  mailText: string
  /** A link to the owner's page that was made a moment ago. */
  link?: { readonly token: string; readonly url: string } | undefined
}

const Mail = ({ view, mailText, link }: MessageProps) => {
  const path = `${pathToSale(view.tag)}/message`
  return (
    <section>
      <h2>{w.mail.head}</h2>
      {view.ownerEmail === undefined ? (
        <p class="soft">{w.mail.nobody}</p>
      ) : link === undefined ? (
        <>
          <PutIntoOutbox action={`${path}/outbox`} />
          <p class="actions">
            <a class="button quiet" href={`${path}/mail.eml`} download>
              {w.mail.save}
            </a>
            <span class="soft">{w.mail.saveHint}</span>
          </p>
        </>
      ) : (
        <>
          <PutIntoOutbox action={`${path}/outbox`} token={link.token} />
          <form method="post" action={`${path}/mail.eml`} class="actions">
            <input type="hidden" name="token" value={link.token} />
            <button class="button quiet" type="submit">
              {w.mail.saveWithLink}
            </button>
            <span class="soft">
              {w.mail.saveHint} {w.mail.linkHint}
            </span>
          </form>
        </>
      )}
      <iframe class="preview" title={w.mail.title} src={`${path}/preview`} sandbox=""></iframe>
      <p>
        <a href={`${path}/preview`}>{w.mail.alone}</a>
      </p>
      <details>
        <summary>{w.mail.plain}</summary>
        <pre class="letter" tabindex={0}>
          {mailText}
        </pre>
      </details>
    </section>
  )
}

const MessageBody = (props: MessageProps) => {
  const { view, typed, problems, link } = props
  const { tag, subject, text, ownerName, ownerEmail } = view
  const path = `${pathToSale(tag)}/message`
  return (
    <div class="two">
      <article class="card">
        <p class="line">
          <Tag tag={tag} />
        </p>
        <h1>{fill(w.head, { tag })}</h1>
        <p>{w.about}</p>
        <p class="soft">
          {ownerEmail === undefined
            ? w.toNobody
            : fill(w.to, { name: ownerName ?? ownerEmail, email: ownerEmail })}
        </p>
        <h2>{subject}</h2>
        <CopyText id="sale-text" label={w.text} text={text} rows={24} />
        <ReachNote link={link?.url} />
        {link === undefined ? (
          <form method="post" action={`${path}/link`} class="actions">
            <button class="button quiet" type="submit">
              {w.putLink}
            </button>
          </form>
        ) : (
          <p class="soft">{w.linkNote}</p>
        )}
        <Mail {...props} />
      </article>
      <aside class="card" aria-label={w.words}>
        <h2 class="over">{w.words}</h2>
        <form method="post" action={path} class="form">
          <ProblemSummary problems={problems} labels={(field) => LABELS[field]} />
          <Field name="subject" label={w.subject} typed={typed} problems={problems} />
          <Field
            name="opening"
            label={w.opening}
            hint={w.openingHint}
            rows={4}
            typed={typed}
            problems={problems}
          />
          <Field name="closing" label={w.closing} rows={4} typed={typed} problems={problems} />
          <p class="actions">
            <button class="button" type="submit">
              {w.save}
            </button>
            <a href={pathToSale(tag)}>{w.back}</a>
          </p>
        </form>
      </aside>
    </div>
  )
}

const typedFrom = ({ words, subject }: SaleMessageView): Typed =>
  new Map([
    ['subject', [subject]],
    ['opening', [words.opening ?? '']],
    ['closing', [words.closing ?? '']],
  ])

/** Words as typed. A subject left as proposed is none of the builder's own. */
const wordsOf = (typed: Typed, view: SaleMessageView): SaleWords => {
  const subject = textOf(typed, 'subject')
  return {
    subject: subject === view.subject ? view.words.subject : subject,
    opening: textOf(typed, 'opening'),
    closing: textOf(typed, 'closing'),
  }
}

/** The message that goes with a machine: drafted here, sent by a person. */
export function sellMessageRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, shown: Omit<MessageProps, 'mailText'>) => {
    const shop = await uses.shop()
    const mail = await uses.sheetMail(shown.view.tag)
    if (!mail.ok) return problemPage(c, web, mail.problems, 'Machines')
    const props: MessageProps = { ...shown, mailText: mail.value.text }
    const first = props.problems[0]
    c.header('Content-Security-Policy', MESSAGE_CSP)
    return page(
      c,
      {
        title: fill(w.head, { tag: props.view.tag }),
        place: 'Machines',
        demo: options.demo,
        shopName: shop.name,
      },
      <MessageBody {...props} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/sell/:tag/message', async (c) => {
    const view = await uses.saleMessage(param(c, 'tag'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    return show(c, { view: view.value, typed: typedFrom(view.value), problems: [] })
  })

  app.post('/sell/:tag/message', async (c) => {
    const view = await uses.saleMessage(param(c, 'tag'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    const typed = typedOf(await readForm(c))
    const kept = await uses.draftSaleMessage(view.value.tag, wordsOf(typed, view.value))
    if (!kept.ok) return show(c, { view: view.value, typed, problems: kept.problems })
    return c.redirect(`${pathToSale(kept.value.tag)}/message`, 303)
  })

  app.post('/sell/:tag/message/link', async (c) => {
    const view = await uses.saleMessage(param(c, 'tag'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    const made = await uses.makeOwnerLink(view.value.tag, nameOf(who(c)))
    if (!made.ok) return problemPage(c, web, made.problems, 'Machines')
    const { token } = made.value
    const link = { token, url: ownerUrl(c, web, token) }
    const linked = await uses.saleMessage(view.value.tag, link.url)
    if (!linked.ok) return problemPage(c, web, linked.problems, 'Machines')
    return show(c, { view: linked.value, typed: typedFrom(linked.value), problems: [], link })
  })

  // The mail's own HTML, unchanged, under a policy that lets it do nothing but look as it will look.
  app.get('/sell/:tag/message/preview', async (c) => {
    const mail = await uses.sheetMail(param(c, 'tag'))
    if (!mail.ok) return problemPage(c, web, mail.problems, 'Machines')
    c.header('Content-Security-Policy', PREVIEW_CSP)
    return c.html(html`${raw(mail.value.html)}`)
  })

  const saveMail = async (c: Context, token?: string) => {
    const link = token === undefined ? undefined : { token, url: ownerUrl(c, web, token) }
    const mail = await uses.sheetMailEml(param(c, 'tag'), link)
    if (!mail.ok) return problemPage(c, web, mail.problems, 'Machines')
    const name = mail.value.fileName.replaceAll(/[^A-Za-z0-9._-]/g, '-')
    return c.body(new Uint8Array(mail.value.bytes), 200, {
      'Content-Type': 'message/rfc822',
      'Content-Disposition': `attachment; filename="${name}"`,
    })
  }

  app.get('/sell/:tag/message/mail.eml', (c) => saveMail(c))

  // The secret of a link stands in what is sent and not in an address, which browsers remember.
  app.post('/sell/:tag/message/mail.eml', async (c) =>
    saveMail(c, textOf(typedOf(await readForm(c)), 'token') ?? ''),
  )
}
