import type { Context, Hono } from 'hono'
import { type Problem, STATUS_OF } from '../../problem.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from '../form.tsx'
import type { Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { readForm } from '../readForm.ts'
import { keepSession, sessionTokenIn } from './cookie.ts'
import { addressOf, isSecure } from './peer.ts'
import { againProblems, NewPassword, secretIn } from './secretFields.tsx'

const LABELS: Readonly<Record<string, string>> = {
  code: 'One-time code',
  name: 'Your name',
  password: 'Password',
  again: 'The same once more',
}

const WelcomeForm = (props: { isNew: boolean; typed: Typed; problems: readonly Problem[] }) => {
  const { isNew, typed, problems } = props
  return (
    <form method="post" action="/welcome" class="card form">
      <h1>{isNew ? 'Make the owner’s account' : 'Choose your password'}</h1>
      <ProblemSummary
        problems={problems}
        labels={(field) => LABELS[field]}
        kept="Nothing was saved. What is secret has to be typed again."
      />
      <Field
        name="code"
        label="One-time code"
        hint={
          isNew
            ? 'It stands where the program was started, below its address.'
            : 'Whoever added your account gave it to you.'
        }
        typed={new Map()}
        problems={problems}
        required
      />
      {isNew && (
        <Field
          name="name"
          label="Your name"
          hint="You sign in with it."
          autocomplete="username"
          typed={typed}
          problems={problems}
          required
        />
      )}
      <NewPassword problems={problems} />
      <p class="actions">
        <button class="button" type="submit">
          {isNew ? 'Make the account' : 'Save the password'}
        </button>
        {!isNew && <a href="/sign-in">I have a password</a>}
      </p>
    </form>
  )
}

export function welcomeRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const isNew = await uses.isNewShop()
    const first = problems[0]
    return page(
      c,
      { title: isNew ? 'Make the owner’s account' : 'Choose your password', demo: options.demo },
      <WelcomeForm {...{ isNew, typed, problems }} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/welcome', async (c) =>
    options.everybodyIs === undefined ? show(c, new Map(), []) : c.redirect('/', 303),
  )

  app.post('/welcome', async (c) => {
    const form = await readForm(c)
    const typed = typedOf(form)
    const again = againProblems(form)
    if (again.length > 0) return show(c, typed, again)
    const secure = isSecure(c, options.proxies ?? [])
    const tried = await uses.welcome({
      code: secretIn(form, 'code'),
      name: textOf(typed, 'name') ?? '',
      password: secretIn(form, 'password'),
      address: addressOf(c, options.proxies ?? []),
      earlier: sessionTokenIn(c, secure),
    })
    if (!tried.ok) {
      if (tried.waitSeconds !== undefined) c.header('Retry-After', String(tried.waitSeconds))
      return show(c, typed, tried.problems)
    }
    keepSession(c, secure, tried.value.token)
    return c.redirect('/', 303)
  })
}
