import type { Context, Hono } from 'hono'
import { failed, type Problem, STATUS_OF } from '../../problem.ts'
import type { AccountLine, CodeGiven } from '../../uses/access/accounts.ts'
import type { Figures } from '../../words/figures.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from '../form.tsx'
import { figuresOf, param, type Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { problemPage } from '../problem.tsx'
import { readForm } from '../readForm.ts'
import { originOf } from './peer.ts'
import { nameOf, who } from './who.ts'

const LABELS: Readonly<Record<string, string>> = { name: 'Name', role: 'What they may do' }

const ROLES = [
  ['staff', 'Staff: the day’s work'],
  ['owner', 'Owner: everything'],
] as const

const Given = ({ given, origin, figures }: { given: CodeGiven; origin: string; figures: Figures }) => (
  <section class="card form" role="status">
    <h2>The code for {given.name}</h2>
    <code class="secret">{given.code}</code>
    <p>
      It is shown this once. Give it to {given.name}, who chooses a password with it at{' '}
      <b>{`${origin}/welcome`}</b>. It holds once, until {figures.dateTime(given.expiresAt)}.
    </p>
  </section>
)

const standing = ({ disabledAt, hasPassword, browsers }: AccountLine): string => {
  if (disabledAt !== undefined) return 'closed'
  if (!hasPassword) return 'no password yet'
  return browsers === 1 ? 'signed in at 1 browser' : `signed in at ${browsers} browsers`
}

const Act = ({ id, act, name, children }: { id: string; act: string; name: string; children: string }) => (
  <form method="post" action={`/settings/accounts/${encodeURIComponent(id)}/${act}`}>
    <button class="button quiet" type="submit" aria-label={`${children}: ${name}`}>
      {children}
    </button>
  </form>
)

const Line = ({ line, isSelf, figures }: { line: AccountLine; isSelf: boolean; figures: Figures }) => (
  <tr>
    <td>
      <b>{line.name}</b> {isSelf && <small>you</small>}
    </td>
    <td data-label="May do">{line.role}</td>
    <td data-label="Stands">
      {standing(line)}
      <small class="block">added {figures.shortDate(line.createdAt)}</small>
    </td>
    <td>
      <div class="acts">
        {line.disabledAt === undefined ? (
          <>
            <Act id={line.id} act="code" name={line.name}>
              New code
            </Act>
            {line.browsers > 0 && (
              <Act id={line.id} act="sign-out" name={line.name}>
                Sign out everywhere
              </Act>
            )}
            {!isSelf && (
              <Act id={line.id} act="disable" name={line.name}>
                Close
              </Act>
            )}
          </>
        ) : (
          <Act id={line.id} act="enable" name={line.name}>
            Open again
          </Act>
        )}
      </div>
    </td>
  </tr>
)

export function accountsRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Shown = { typed?: Typed; problems?: readonly Problem[]; given?: CodeGiven }

  const show = async (c: Context, { typed = new Map(), problems = [], given }: Shown) => {
    const [shop, lines] = await Promise.all([uses.shop(), uses.accounts()])
    const figures = figuresOf(shop)
    const asker = who(c)
    const ownId = asker !== undefined && 'accountId' in asker ? asker.accountId : undefined
    const first = problems[0]
    return page(
      c,
      { title: 'Accounts', place: 'Settings', demo: options.demo, shopName: shop.name },
      <div class="stack">
        <div class="head">
          <h1>Accounts</h1>
          <a href="/settings">Back to the settings</a>
        </div>
        {given !== undefined && <Given {...{ given, figures }} origin={originOf(c, options.proxies ?? [])} />}
        <table class="list">
          <thead>
            <tr>
              <th scope="col">Name</th>
              <th scope="col">May do</th>
              <th scope="col">Stands</th>
              <th scope="col">To do</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <Line line={line} isSelf={line.id === ownId} figures={figures} />
            ))}
          </tbody>
        </table>
        <form method="post" action="/settings/accounts" class="card form">
          <h2>Add somebody</h2>
          <ProblemSummary problems={problems} labels={(field) => LABELS[field]} />
          <Field
            name="name"
            label="Name"
            hint="They sign in with it."
            typed={typed}
            problems={problems}
            required
          />
          <Select name="role" label="What they may do" choices={ROLES} typed={typed} problems={problems} />
          <p class="actions">
            <button class="button" type="submit">
              Add and make a code
            </button>
          </p>
        </form>
      </div>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/settings/accounts', (c) => show(c, {}))

  app.post('/settings/accounts', async (c) => {
    const typed = typedOf(await readForm(c))
    const role = ROLES.find(([value]) => value === textOf(typed, 'role'))?.[0]
    const added =
      role === undefined
        ? failed({ code: 'missing', field: 'role', allowed: 'staff, owner', next: 'Take staff or owner.' })
        : await uses.addAccount({ name: textOf(typed, 'name') ?? '', role }, nameOf(who(c)) ?? '')
    return added.ok ? show(c, { given: added.value }) : show(c, { typed, problems: added.problems })
  })

  app.post('/settings/accounts/:id/code', async (c) => {
    const made = await uses.newCodeFor(param(c, 'id'), nameOf(who(c)) ?? '')
    return made.ok ? show(c, { given: made.value }) : problemPage(c, web, made.problems, 'Settings')
  })

  const acts = {
    disable: (id: string, by: string) => uses.disableAccount(id, by),
    enable: (id: string, by: string) => uses.enableAccount(id, by),
    'sign-out': (id: string, by: string) => uses.signOutAccount(id, by),
  }
  for (const [act, work] of Object.entries(acts))
    app.post(`/settings/accounts/:id/${act}`, async (c) => {
      const done = await work(param(c, 'id'), nameOf(who(c)) ?? '')
      return done.ok ? c.redirect('/settings/accounts', 303) : problemPage(c, web, done.problems, 'Settings')
    })
}
