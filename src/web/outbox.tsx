import type { Context, Hono } from 'hono'
import { type Problem, STATUS_OF } from '../problem.ts'
import { GROUPS, type Group, isGroup, type MailLine, type OutboxView } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import type { Figures } from '../words/figures.ts'
import { fill, formOf } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { Going, pathToMail, whyText } from './outboxParts.tsx'
import { readForm } from './readForm.ts'

const w = OUTBOX_EN

/** While something is on its way the page comes again by itself, also without a script. */
const AGAIN_S = 4

const PLURAL = new Intl.PluralRules('en')

type Asked = { readonly query: string }
type Props = { view: OutboxView; figures: Figures } & Asked

const groupPath = (group: Group | undefined, query: string, at = 1): string => {
  const asked = new URLSearchParams({
    ...(group !== undefined && { group }),
    ...(query !== '' && { q: query }),
    ...(at > 1 && { page: String(at) }),
  })
  return `/outbox?${asked}`
}

const Groups = ({ view: { counts, group }, figures }: Props) => (
  <nav aria-label={w.head} class="groups">
    {(Object.keys(GROUPS) as Group[]).map((name) => (
      <a href={groupPath(name, '')} aria-current={name === group ? 'page' : undefined}>
        {w.groups[name]} <span class="soft">{figures.number(counts[name])}</span>
      </a>
    ))}
  </nav>
)

const whenOf = (mail: MailLine, figures: Figures): string =>
  `${w.states[mail.state]}, ${figures.dateTime(mail.sentAt ?? mail.updatedAt)}`

const Line = ({ mail, figures }: { mail: MailLine; figures: Figures }) => {
  const why = whyText(mail, figures)
  return (
    <li>
      <p class="line">
        {mail.machineTag !== undefined && <Tag tag={mail.machineTag} />}
        <a href={pathToMail(mail.id)}>{mail.subject === '' ? w.open : mail.subject}</a>
      </p>
      <p class="soft">
        {mail.toName === '' ? mail.toAddress : `${mail.toName}, ${mail.toAddress}`} · {w.kinds[mail.kind]} ·{' '}
        {whenOf(mail, figures)}
      </p>
      {why !== undefined && <p>{why}</p>}
    </li>
  )
}

const Pages = ({ view: { page: at, pages, group }, query, figures }: Props) =>
  pages === 1 ? null : (
    <nav aria-label={w.pages} class="actions">
      {at > 1 && <a href={groupPath(group, query, at - 1)}>{w.newer}</a>}
      <span class="soft">{fill(w.page, { n: figures.number(at), of: figures.number(pages) })}</span>
      {at < pages && <a href={groupPath(group, query, at + 1)}>{w.older}</a>}
    </nav>
  )

const Progress = ({ view: { progress }, figures }: Props) =>
  progress === undefined ? null : (
    <section class="nothing">
      <p role="status">
        {fill(w.progress, {
          waiting: figures.number(progress.waiting),
          sending: figures.number(progress.sending),
          sent: figures.number(progress.sent),
        })}
      </p>
      <progress
        max={progress.waiting + progress.sending + progress.sent}
        value={progress.sent}
        aria-label={w.groups.approved}
      />
    </section>
  )

const Trouble = ({ view: { server, sending }, figures }: Props) =>
  server === undefined ? null : (
    <p class="nothing" role="alert">
      {fill(sending.going.by === 'files' ? w.serverFiles : w.server, {
        since: figures.dateTime(server.since),
        says: server.says,
        next: figures.dateTime(server.nextTryAt),
      })}
    </p>
  )

const List = (props: Props) => {
  const { view, query, figures } = props
  const isEmpty = Object.values(view.counts).every((n) => n === 0)
  return (
    <>
      <article class="card">
        <h1>{w.head}</h1>
        <p>{w.about}</p>
        <Going sending={view.sending} figures={figures} />
        <Trouble {...props} />
        <Progress {...props} />
        <p class="actions">
          <a href="/outbox/bounce">{w.bounce.head}</a> <a href="/outbox/rules">{w.rules}</a>
        </p>
      </article>
      {isEmpty ? (
        <p class="card empty">{w.empty}</p>
      ) : (
        <>
          <search>
            <form method="get" action="/outbox" class="find">
              <label for="q">{w.search}</label>
              <input id="q" name="q" type="search" value={query} />
              <button class="button quiet" type="submit">
                {w.find}
              </button>
              {query !== '' && <a href="/outbox">{w.all}</a>}
            </form>
          </search>
          <Groups {...props} />
          <section class="card">
            <h2 class="over">
              {view.group === undefined
                ? fill(formOf(w.mails, view.total, PLURAL), { n: figures.number(view.total) })
                : w.groups[view.group]}
            </h2>
            {view.lines.length === 0 ? (
              <p>
                {query !== '' || view.group === undefined ? fill(w.noneFound, { query }) : w.none[view.group]}
              </p>
            ) : (
              <ul class="ruled">
                {view.lines.map((mail) => (
                  <Line mail={mail} figures={figures} />
                ))}
              </ul>
            )}
            <Pages {...props} />
          </section>
        </>
      )}
    </>
  )
}

const Bounce = ({ typed, problems }: { typed: Typed; problems: readonly Problem[] }) => (
  <article class="card">
    <h1>{w.bounce.head}</h1>
    <p>{w.bounce.about}</p>
    <form method="post" action="/outbox/bounce" class="form">
      <ProblemSummary problems={problems} labels={() => w.bounce.label} />
      <Field name="bounce" label={w.bounce.label} rows={12} typed={typed} problems={problems} />
      <p class="actions">
        <button class="button" type="submit">
          {w.bounce.save}
        </button>
        <a href="/outbox">{w.head}</a>
      </p>
    </form>
  </article>
)

/** Mails on their way, and those that came back. */
export function outboxRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/outbox', async (c) => {
    const asked = c.req.query('group') ?? ''
    const query = (c.req.query('q') ?? '').trim().slice(0, 100)
    const at = /^\d{1,5}$/.test(c.req.query('page') ?? '') ? Number(c.req.query('page')) : 1
    const group = isGroup(asked) ? asked : undefined
    const view = await uses.outbox({ group, query, page: Math.max(1, at) })
    const isMoving = view.progress !== undefined && view.sending.going.by !== 'nobody'
    if (isMoving && query === '') c.header('Refresh', String(AGAIN_S))
    return page(
      c,
      { title: w.head, place: 'Outbox', demo: options.demo, shopName: view.shop.name },
      <List view={view} query={query} figures={figuresOf(view.shop)} />,
    )
  })

  const bounce = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [first] = problems
    const shop = await uses.shop()
    return page(
      c,
      { title: w.bounce.head, place: 'Outbox', demo: options.demo, shopName: shop.name },
      <Bounce typed={typed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/outbox/bounce', (c) => bounce(c, new Map(), []))

  app.post('/outbox/bounce', async (c) => {
    const typed = typedOf(await readForm(c))
    const kept = await uses.recordBounce(textOf(typed, 'bounce') ?? '', nameOf(who(c)))
    return kept.ok ? c.redirect(pathToMail(kept.value.mailId), 303) : bounce(c, typed, kept.problems)
  })
}
