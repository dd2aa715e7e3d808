import type { Context, MiddlewareHandler } from 'hono'
import { type Problem, STATUS_OF } from '../../problem.ts'
import { PROOF_MINUTES } from '../../uses/access/proof.ts'
import { ProblemSummary, type Typed, typedOf } from '../form.tsx'
import type { Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { readForm } from '../readForm.ts'
import { sessionTokenIn } from './cookie.ts'
import { patternOf } from './pattern.ts'
import { addressOf, isSecure } from './peer.ts'
import { rowOf } from './rights.ts'
import { PasswordField, secretIn } from './secretFields.tsx'
import { who } from './who.ts'

const LABELS: Readonly<Record<string, string>> = { proof: 'Your password' }

const ProofForm = (props: { to: string; typed: Typed; problems: readonly Problem[] }) => (
  <form method="post" action={props.to} class="card form">
    <h1>Type your password once more</h1>
    <p>
      Accounts and keys decide who gets in, so this makes sure that it is you. What you sent is done as soon
      as the password is right; after that you are not asked again for {PROOF_MINUTES} minutes.
    </p>
    <ProblemSummary
      problems={props.problems}
      labels={(field) => LABELS[field]}
      kept="Nothing was changed. Type the password again."
    />
    {[...props.typed].flatMap(([name, values]) =>
      name === 'proof' ? [] : values.map((value) => <input type="hidden" name={name} value={value} />),
    )}
    <PasswordField
      name="proof"
      label="Your password"
      autocomplete="current-password"
      problems={props.problems}
    />
    <p class="actions">
      <button class="button" type="submit">
        Go on
      </button>
      <a href="/settings">Leave it</a>
    </p>
  </form>
)

/**
 * Whatever changes accounts or keys takes a password that was typed lately (OWASP ASVS 4.0, 3.7.1): a browser that was
 * left open, or taken over, makes no way in of its own. What was sent waits in the page that asks for it.
 */
export function proof(web: Web): MiddlewareHandler {
  const { uses, options } = web
  const proxies = options.proxies ?? []

  const show = (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const first = problems[0]
    return page(
      c,
      { title: 'Type your password once more', place: 'Settings', demo: options.demo },
      <ProofForm {...{ to: c.req.path, typed, problems }} />,
      first === undefined ? 401 : STATUS_OF[first.code],
    )
  }

  return async (c, next) => {
    const pattern = patternOf(c)
    const row = pattern && rowOf(pattern.method, pattern.path)
    if (row?.may !== 'accounts' || row.method === 'GET' || options.everybodyIs !== undefined) return next()
    const token = sessionTokenIn(c, isSecure(c, proxies)) ?? ''
    if (who(c) === undefined || (await uses.isProven(token))) return next()
    const form = await readForm(c)
    const typed = typedOf(form)
    if (!form.has('proof')) return show(c, typed, [])
    const address = addressOf(c, proxies)
    const tried = await uses.prove({ token, password: secretIn(form, 'proof'), address })
    if (tried.ok) return next()
    if (tried.waitSeconds !== undefined) c.header('Retry-After', String(tried.waitSeconds))
    return show(c, typed, tried.problems)
  }
}
