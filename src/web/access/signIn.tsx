import type { Context, Hono } from 'hono'
import { type Problem, STATUS_OF } from '../../problem.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from '../form.tsx'
import { type Web, wayBack } from '../frame.ts'
import { page } from '../layout.tsx'
import { readForm } from '../readForm.ts'
import { dropSession, keepSession, sessionTokenIn } from './cookie.ts'
import { addressOf, isSecure } from './peer.ts'
import { PasswordField, secretIn } from './secretFields.tsx'
import { who } from './who.ts'

const LABELS: Readonly<Record<string, string>> = { name: 'Name', password: 'Password' }

const SignInForm = (props: {
  typed: Typed
  problems: readonly Problem[]
  to: string | undefined
  shopName: string
}) => {
  const { typed, problems, to, shopName } = props
  return (
    <form method="post" action="/sign-in" class="card form">
      <h1>Sign in to {shopName}</h1>
      <ProblemSummary
        problems={problems}
        labels={(field) => LABELS[field]}
        kept="Nobody was signed in. Type the password again."
      />
      {to !== undefined && <input type="hidden" name="to" value={to} />}
      <Field name="name" label="Name" autocomplete="username" typed={typed} problems={problems} required />
      <PasswordField name="password" label="Password" autocomplete="current-password" problems={problems} />
      <p class="actions">
        <button class="button" type="submit">
          Sign in
        </button>
      </p>
      <p class="hint">
        With a one-time code, <a href="/welcome">choose a password first</a>. If nobody can sign in any more,
        the command <code>npx stillfits account code NAME</code> makes a code on the computer that runs this.
      </p>
    </form>
  )
}

export function signInRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const proxies = options.proxies ?? []

  const show = async (c: Context, typed: Typed, problems: readonly Problem[], to: string | undefined) => {
    const { name } = await uses.shop()
    const first = problems[0]
    return page(
      c,
      { title: 'Sign in', demo: options.demo },
      <SignInForm {...{ typed, problems, to }} shopName={name} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/sign-in', async (c) => {
    const to = wayBack(c.req.query('to'))
    if (who(c) !== undefined) return c.redirect(to ?? '/', 303)
    if (await uses.isNewShop()) return c.redirect('/welcome', 303)
    return show(c, new Map(), [], to)
  })

  app.post('/sign-in', async (c) => {
    const form = await readForm(c)
    const typed = typedOf(form)
    const secure = isSecure(c, proxies)
    const to = wayBack(textOf(typed, 'to'))
    const tried = await uses.signIn({
      name: textOf(typed, 'name') ?? '',
      password: secretIn(form, 'password'),
      address: addressOf(c, proxies),
      earlier: sessionTokenIn(c, secure),
    })
    if (!tried.ok) {
      if (tried.waitSeconds !== undefined) c.header('Retry-After', String(tried.waitSeconds))
      return show(c, typed, tried.problems, to)
    }
    keepSession(c, secure, tried.value.token)
    return c.redirect(to ?? '/', 303)
  })

  app.post('/sign-out', async (c) => {
    const secure = isSecure(c, proxies)
    const token = sessionTokenIn(c, secure)
    if (token !== undefined) await uses.signOut(token)
    dropSession(c, secure)
    return c.redirect('/sign-in', 303)
  })
}
