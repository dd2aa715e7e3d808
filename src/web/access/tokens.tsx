import type { Context, Hono } from 'hono'
import { failed, type Problem, STATUS_OF } from '../../problem.ts'
import type { TokenLine } from '../../uses/access/apiTokens.ts'
import type { Figures } from '../../words/figures.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from '../form.tsx'
import { figuresOf, param, type Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { problemPage } from '../problem.tsx'
import { readForm } from '../readForm.ts'
import { nameOf, who } from './who.ts'

const LABELS: Readonly<Record<string, string>> = { name: 'Program', scope: 'What it may do' }

const SCOPES = [
  ['read', 'Read, no names'],
  ['read people', 'Read, names too'],
  ['write', 'Read and write, no names'],
  ['write people', 'Read and write, names too'],
] as const

/** What stands behind a choice. */
const RIGHTS_OF = {
  read: { scope: 'read', people: false },
  'read people': { scope: 'read', people: true },
  write: { scope: 'write', people: false },
  'write people': { scope: 'write', people: true },
} as const

type Made = { readonly name: string; readonly token: string }

const Given = ({ made }: { made: Made }) => (
  <section class="card form" role="status">
    <h2>The key for {made.name}</h2>
    <code class="secret">{made.token}</code>
    <p>
      It is shown this once, and kept here only as a check sum. The program sends it as{' '}
      <code>Authorization: Bearer KEY</code>. Whoever has it can do what it may do.
    </p>
  </section>
)

const Line = ({ line, figures }: { line: TokenLine; figures: Figures }) => (
  <tr>
    <td>
      <b>{line.name}</b>
      <small class="block">made {figures.shortDate(line.createdAt)}</small>
    </td>
    <td data-label="May do">
      {line.scope === 'write' ? 'read and write' : 'read'}
      <small class="block">{line.people ? 'with' : 'without'} names and addresses of owners</small>
    </td>
    <td data-label="Last used">{line.usedAt === undefined ? 'never' : figures.dateTime(line.usedAt)}</td>
    <td>
      {line.revokedAt === undefined ? (
        <form method="post" action={`/settings/tokens/${encodeURIComponent(line.id)}/revoke`}>
          <button class="button quiet" type="submit" aria-label={`Take it back: ${line.name}`}>
            Take it back
          </button>
        </form>
      ) : (
        `taken back ${figures.shortDate(line.revokedAt)}`
      )}
    </td>
  </tr>
)

export function tokenRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Shown = { typed?: Typed; problems?: readonly Problem[]; made?: Made }

  const show = async (c: Context, { typed = new Map(), problems = [], made }: Shown) => {
    const [shop, lines] = await Promise.all([uses.shop(), uses.tokens()])
    const figures = figuresOf(shop)
    const first = problems[0]
    return page(
      c,
      { title: 'Keys of programs', place: 'Settings', demo: options.demo, shopName: shop.name },
      <div class="stack">
        <div class="head">
          <h1>Keys of programs</h1>
          <a href="/settings">Back to the settings</a>
        </div>
        {made !== undefined && <Given made={made} />}
        {lines.length === 0 ? (
          <p class="card empty">
            No program has a key. One that is to read or write here needs one of its own.
          </p>
        ) : (
          <table class="list">
            <thead>
              <tr>
                <th scope="col">Program</th>
                <th scope="col">May do</th>
                <th scope="col">Last used</th>
                <th scope="col">To do</th>
              </tr>
            </thead>
            <tbody>
              {lines.map((line) => (
                <Line line={line} figures={figures} />
              ))}
            </tbody>
          </table>
        )}
        <form method="post" action="/settings/tokens" class="card form">
          <h2>Make a key</h2>
          <ProblemSummary problems={problems} labels={(field) => LABELS[field]} />
          <Field
            name="name"
            label="Program"
            hint="What uses it, so that you know it again."
            typed={typed}
            problems={problems}
            required
          />
          <Select
            name="scope"
            label="What it may do"
            hint="Names: who owns a machine, and how they are reached. What owners asked, and your own notes, every key reads as they were written."
            choices={SCOPES}
            typed={typed}
            problems={problems}
          />
          <p class="actions">
            <button class="button" type="submit">
              Make a key
            </button>
          </p>
        </form>
      </div>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/settings/tokens', (c) => show(c, {}))

  app.post('/settings/tokens', async (c) => {
    const typed = typedOf(await readForm(c))
    const scope = SCOPES.find(([value]) => value === textOf(typed, 'scope'))?.[0]
    const asker = who(c)
    if (asker === undefined || !('accountId' in asker)) throw new Error('a key without an account')
    const made =
      scope === undefined
        ? failed({ code: 'missing', field: 'scope', next: 'Take one of the choices.' })
        : await uses.makeToken({
            ...{ name: textOf(typed, 'name') ?? '', accountId: asker.accountId },
            ...RIGHTS_OF[scope],
          })
    return made.ok ? show(c, { made: made.value }) : show(c, { typed, problems: made.problems })
  })

  app.post('/settings/tokens/:id/revoke', async (c) => {
    const done = await uses.takeTokenBack(param(c, 'id'), nameOf(who(c)) ?? '')
    return done.ok ? c.redirect('/settings/tokens', 303) : problemPage(c, web, done.problems, 'Settings')
  })
}
