import type { Hono } from 'hono'
import { MAIL_KINDS } from '../core/outbox/mail.ts'
import type { ApprovedMany, SeenMail, ToApprove } from '../uses/outbox/approveMany.ts'
import type { MailLine } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import type { Figures } from '../words/figures.ts'
import { sayStale } from '../words/outbox.ts'
import { fill, formOf } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { problemText, typedOf } from './form.tsx'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { Going, pathToMail, whyText } from './outboxParts.tsx'
import { readForm } from './readForm.ts'

const w = OUTBOX_EN.many

const PLURAL = new Intl.PluralRules('en')

/** A mail as it was looked at, in one field: its id and when it last changed. */
const seenValue = ({ id, updatedAt }: SeenMail): string => `${id} ${updatedAt}`
const SEEN = /^(\d{1,15}) (\S{1,40})$/

const Head = ({ mail }: { mail: MailLine }) => (
  <>
    <p class="line">
      {mail.machineTag !== undefined && <Tag tag={mail.machineTag} />}
      <b>{mail.subject === '' ? OUTBOX_EN.kinds[mail.kind] : mail.subject}</b>
    </p>
    <p class="soft">
      {OUTBOX_EN.to}: {mail.toName === '' ? mail.toAddress : `${mail.toName}, ${mail.toAddress}`} ·{' '}
      {OUTBOX_EN.kinds[mail.kind]}
    </p>
  </>
)

/** One mail, whole, with its tick. */
const Ready = ({ mail }: { mail: MailLine }) => (
  <li>
    <Head mail={mail} />
    <pre class="letter source" tabindex={0}>
      {mail.text}
    </pre>
    <p class="line">
      <label class="check">
        <input type="checkbox" name="seen" value={seenValue(mail)} checked /> {w.goes}
        <span class="unseen">: {mail.subject}</span>
      </label>
      <a href={`${pathToMail(mail.id)}/preview`}>
        {w.asSeen}
        <span class="unseen">: {mail.subject}</span>
      </a>
    </p>
  </li>
)

const Apart = ({ apart, figures }: { apart: ToApprove['apart']; figures: Figures }) =>
  apart.length === 0 ? null : (
    <section>
      <h2>{w.apartHead}</h2>
      <p>{w.apartAbout}</p>
      <ul class="ruled">
        {apart.map((mail) => (
          <li>
            <a href={pathToMail(mail.id)}>{mail.subject === '' ? OUTBOX_EN.open : mail.subject}</a>{' '}
            <span class="soft">{mail.toName === '' ? mail.toAddress : mail.toName}</span>
            <small class="block">
              {[whyText(mail, figures), ...mail.stale.map((one) => sayStale(one, figures))]
                .filter((text) => text !== undefined)
                .join(' ')}
            </small>
          </li>
        ))}
      </ul>
    </section>
  )

const Look = ({ view, figures }: { view: ToApprove; figures: Figures }) => {
  const { ready, apart, left } = view
  const counted = { n: figures.number(ready.length) }
  return (
    <article class="card">
      <h1>{w.head}</h1>
      {ready.length + apart.length === 0 ? (
        <p class="nothing">{w.none}</p>
      ) : (
        <>
          <p>{w.about}</p>
          <Going sending={view.sending} figures={figures} />
        </>
      )}
      {ready.length > 0 && (
        <form method="post" action="/outbox/many">
          <ul class="ruled">
            {ready.map((mail) => (
              <Ready mail={mail} />
            ))}
          </ul>
          <p class="actions">
            <button class="button" type="submit">
              {fill(formOf(w.approve, ready.length, PLURAL), counted)}
            </button>
          </p>
        </form>
      )}
      {left > 0 && <p class="soft">{fill(formOf(w.left, left, PLURAL), { n: figures.number(left) })}</p>}
      <Apart apart={apart} figures={figures} />
      <p>
        <a href="/outbox?group=drafted">{w.back}</a>
      </p>
    </article>
  )
}

const Refused = ({ done, figures }: { done: ApprovedMany; figures: Figures }) => (
  <article class="card">
    <h1>{w.refusedHead}</h1>
    <p role="status">
      {fill(formOf(w.approved, done.approved, PLURAL), { n: figures.number(done.approved) })}
    </p>
    <ul class="ruled">
      {done.refused.map(({ id, subject, problems }) => (
        <li>
          <a href={pathToMail(id)}>{subject === '' ? OUTBOX_EN.open : subject}</a>
          <small class="block">{problems.map(problemText).join(' ')}</small>
        </li>
      ))}
    </ul>
    <p>
      <a href="/outbox">{w.back}</a>
    </p>
  </article>
)

/** Several drafts looked through on one page and approved with one press. */
export function outboxManyRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const frame = { title: w.head, place: 'Outbox', demo: options.demo } as const

  app.get('/outbox/many', async (c) => {
    const kind = MAIL_KINDS.find((one) => one === c.req.query('kind'))
    const view = await uses.mailsToApprove(
      kind === undefined ? { ids: (c.req.queries('mail') ?? []).slice(0, 200) } : { kind },
    )
    return page(
      c,
      { ...frame, shopName: view.shop.name },
      <Look view={view} figures={figuresOf(view.shop)} />,
    )
  })

  app.post('/outbox/many', async (c) => {
    const seen = (typedOf(await readForm(c)).get('seen') ?? []).flatMap((value): SeenMail[] => {
      const [, id, updatedAt] = SEEN.exec(value) ?? []
      return id === undefined || updatedAt === undefined ? [] : [{ id, updatedAt }]
    })
    if (seen.length === 0) return c.redirect('/outbox/many', 303)
    const done = await uses.approveMails(seen, nameOf(who(c)))
    if (done.refused.length === 0) return c.redirect(`/outbox?group=approved&approved=${done.approved}`, 303)
    const shop = await uses.shop()
    return page(
      c,
      { ...frame, title: w.refusedHead, shopName: shop.name },
      <Refused done={done} figures={figuresOf(shop)} />,
      409,
    )
  })
}
