import type { Context, Hono } from 'hono'
import { type Problem, STATUS_OF } from '../../problem.ts'
import { IDLE_DAYS, LONGEST_DAYS } from '../../uses/access/openSession.ts'
import { ProblemSummary } from '../form.tsx'
import type { Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { readForm } from '../readForm.ts'
import { dropSession, keepSession } from './cookie.ts'
import { addressOf, isSecure } from './peer.ts'
import { againProblems, NewPassword, PasswordField, secretIn } from './secretFields.tsx'
import { type Who, who } from './who.ts'

const LABELS: Readonly<Record<string, string>> = {
  current: 'Present password',
  password: 'New password',
  again: 'The same once more',
}

type Person = Extract<Who, { accountId: string }>

/** The gate lets only people with an account come here. */
function personIn(c: Context): Person {
  const asker = who(c)
  if (asker === undefined || !('accountId' in asker)) throw new Error('an account page without an account')
  return asker
}

const ROLE: Record<Person['kind'], string> = {
  owner: 'owner: everything',
  staff: 'staff: the day’s work, without settings, accounts, keys and imports',
}

const Account = (props: { person: Person; problems: readonly Problem[]; saved: boolean }) => {
  const { person, problems, saved } = props
  return (
    <div class="stack">
      <article class="card form">
        <h1>{person.name}</h1>
        <p>This account is {ROLE[person.kind]}.</p>
        <p class="hint">
          A browser that was not used for {IDLE_DAYS} days is signed out, and each one after {LONGEST_DAYS}{' '}
          days.
        </p>
        <div class="acts">
          <form method="post" action="/sign-out">
            <button class="button" type="submit">
              Sign out here
            </button>
          </form>
          <form method="post" action="/sign-out-everywhere">
            <button class="button quiet" type="submit">
              Sign out everywhere
            </button>
          </form>
        </div>
      </article>
      <form method="post" action="/account/password" class="card form">
        <h2>Another password</h2>
        {saved && (
          <p class="done" role="status">
            Saved. Every other browser is signed out.
          </p>
        )}
        <ProblemSummary
          problems={problems}
          labels={(field) => LABELS[field]}
          kept="Nothing was saved. What is secret has to be typed again."
        />
        <input type="text" name="name" value={person.name} autocomplete="username" hidden />
        <PasswordField
          name="current"
          label="Present password"
          autocomplete="current-password"
          problems={problems}
        />
        <NewPassword problems={problems} label="New password" />
        <p class="actions">
          <button class="button" type="submit">
            Change the password
          </button>
        </p>
      </form>
    </div>
  )
}

export function accountRoutes(app: Hono, { uses, options }: Web): void {
  const proxies = options.proxies ?? []
  const show = async (c: Context, problems: readonly Problem[], saved = false) => {
    const shop = await uses.shop()
    const first = problems[0]
    return page(
      c,
      { title: 'Your account', demo: options.demo, shopName: shop.name },
      <Account {...{ person: personIn(c), problems, saved }} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/account', (c) => show(c, [], c.req.query('saved') !== undefined))

  app.post('/account/password', async (c) => {
    const form = await readForm(c)
    const again = againProblems(form)
    if (again.length > 0) return show(c, again)
    const tried = await uses.changePassword({
      accountId: personIn(c).accountId,
      current: secretIn(form, 'current'),
      password: secretIn(form, 'password'),
      address: addressOf(c, proxies),
    })
    if (!tried.ok) {
      if (tried.waitSeconds !== undefined) c.header('Retry-After', String(tried.waitSeconds))
      return show(c, tried.problems)
    }
    keepSession(c, isSecure(c, proxies), tried.value.token)
    return c.redirect('/account?saved', 303)
  })

  app.post('/sign-out-everywhere', async (c) => {
    await uses.signOutEverywhere(personIn(c).accountId)
    dropSession(c, isSecure(c, proxies))
    return c.redirect('/sign-in', 303)
  })
}
