import type { Context, Hono } from 'hono'
import type { SaleWords } from '../core/sale/sale.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { SaleMessageView } from '../uses/sellSteps.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { CopyText } from './copyText.tsx'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
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
  link?: string | undefined
}

const MessageBody = ({ view, typed, problems, link }: MessageProps) => {
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
        <ReachNote link={link} />
        {link === undefined ? (
          <form method="post" action={`${path}/link`} class="actions">
            <button class="button quiet" type="submit">
              {w.putLink}
            </button>
          </form>
        ) : (
          <p class="soft">{w.linkNote}</p>
        )}
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

  const show = async (c: Context, props: MessageProps) => {
    const shop = await uses.shop()
    const first = props.problems[0]
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
    const link = ownerUrl(c, web, made.value.token)
    const linked = await uses.saleMessage(view.value.tag, link)
    if (!linked.ok) return problemPage(c, web, linked.problems, 'Machines')
    return show(c, { view: linked.value, typed: typedFrom(linked.value), problems: [], link })
  })
}
