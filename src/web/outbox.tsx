import type { Context, Hono } from 'hono'
import { type Problem, STATUS_OF } from '../problem.ts'
import { GROUPS, type Group, isGroup, type MailLine, type OutboxView } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import type { Figures } from '../words/figures.ts'
import { fill, formOf } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, type Web } from './frame.ts'
import { FOLLOWING_CSP } from './guard.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { Going, pathToMail, whyText } from './outboxParts.tsx'
import { readForm } from './readForm.ts'

const w = OUTBOX_EN

/** While something is on its way the page comes again by itself; with a script only what changed, so the place stays. */
const AGAIN_S = 4

const PLURAL = new Intl.PluralRules('en')

type Asked = {
  readonly query: string
  /** So many were approved a moment ago. */
  readonly approved: number
}
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

const Line = ({ mail, figures, picks }: { mail: MailLine; figures: Figures; picks: boolean }) => {
  const why = whyText(mail, figures)
  return (
    <li>
      <p class="line">
        {picks && (
          <input
            type="checkbox"
            name="mail"
            value={mail.id}
            aria-label={`${w.many.pick}: ${mail.subject === '' ? w.kinds[mail.kind] : mail.subject}`}
          />
        )}
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

const isMoving = ({ progress, sending }: OutboxView): boolean =>
  progress !== undefined && sending.going.by !== 'nobody'

const Progress = ({ view, view: { progress }, figures }: Props) => (
  <section id="sending" data-again={isMoving(view) ? AGAIN_S : undefined}>
    {progress !== undefined && (
      <div class="nothing">
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
      </div>
    )}
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

/** Drafts can be picked and looked through together. */
const Lines = ({ view: { lines, group, manyOf }, figures }: Props) => {
  const picks = group === 'drafted' && lines.length > 1
  const list = (
    <ul class="ruled">
      {lines.map((mail) => (
        <Line mail={mail} figures={figures} picks={picks} />
      ))}
    </ul>
  )
  if (!picks) return list
  return (
    <form method="get" action="/outbox/many">
      {list}
      <p class="actions">
        <button class="button" type="submit">
          {w.many.look}
        </button>
        {manyOf.map(({ kind, n }) => (
          <a href={`/outbox/many?kind=${kind}`}>
            {fill(w.many.lookKind, { kind: w.kinds[kind], n: figures.number(n) })}
          </a>
        ))}
      </p>
    </form>
  )
}

/** The groups and the mails of one of them; they follow what happens, but for drafts, where ticks would be lost. */
const Mails = (props: Props) => {
  const { view, query, figures } = props
  const follows = isMoving(view) && view.group !== 'drafted'
  return (
    <div id="mails" data-again={follows ? AGAIN_S : undefined}>
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
          <Lines {...props} />
        )}
        <Pages {...props} />
      </section>
    </div>
  )
}

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
        {props.approved > 0 && (
          <p class="kept" role="status">
            <b>
              {fill(formOf(w.many.approved, props.approved, PLURAL), { n: figures.number(props.approved) })}
            </b>
          </p>
        )}
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
          <Mails {...props} />
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
    if (isMoving(view)) c.header('Content-Security-Policy', FOLLOWING_CSP)
    const said = c.req.query('approved') ?? ''
    const approved = /^\d{1,4}$/.test(said) ? Number(said) : 0
    return page(
      c,
      {
        ...{ title: w.head, place: 'Outbox', demo: options.demo, shopName: view.shop.name },
        // Where mails are picked or looked for, the page stays: what was ticked or typed would be lost.
        again: isMoving(view) && query === '' && view.group !== 'drafted' ? AGAIN_S : undefined,
      },
      <List view={view} query={query} approved={approved} figures={figuresOf(view.shop)} />,
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
