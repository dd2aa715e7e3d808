import { randomUUID } from 'node:crypto'
import type { Context } from 'hono'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import { patternOf } from './access/pattern.ts'
import { placeWords, problemText, typedOf } from './form.tsx'
import type { Place, Web } from './frame.ts'
import { page } from './layout.tsx'
import { isForOwner, ownerTrouble } from './ownerFrame.tsx'

/** One card: what it is, why, and what to do. */
export const Calm = ({ head, what, next }: { head: string; what: string; next: string }) => (
  <article class="card slim">
    <h1>{head}</h1>
    <p>{what}</p>
    <p>{next}</p>
    <p class="actions">
      <a class="button" href="/">
        Go to the questions
      </a>
    </p>
  </article>
)

const calm = (
  c: Context,
  web: Web,
  status: ContentfulStatusCode,
  words: { head: string; what: string; next: string },
) => page(c, { title: words.head, demo: web.options.demo }, <Calm {...words} />, status)

export const notFoundPage = (c: Context, web: Web) =>
  calm(c, web, 404, {
    head: 'There is no page here',
    what: `Nothing is kept at ${c.req.path}.`,
    next: 'Check the address, or start from the questions. Machines are found by their tag, such as M-0042.',
  })

export const wrongMethodPage = (c: Context, web: Web, allowed: readonly string[]) => {
  c.header('Allow', allowed.join(', '))
  return calm(c, web, 405, {
    head: 'That cannot be done here',
    what: `This page does not answer ${c.req.method}; it answers ${allowed.join(', ')}.`,
    next: 'Go back and use the form or the link on the page.',
  })
}

export const refusedPage = (c: Context, web: Web) => {
  if (isForOwner(c)) return ownerTrouble(c, web, 'elsewhere', 403)
  return calm(c, web, 403, {
    head: 'This form did not come from our own page',
    what: 'Nothing was saved. A form is taken only from the page that showed it.',
    next: 'Open the page again, and send the form from there.',
  })
}

/** Asked for a name that is not ours (RFC 9110, 15.5.20): nothing of the shop stands on this page. */
export const elsewherePage = (c: Context, web: Web) =>
  calm(c, web, 421, {
    head: 'This is not an address of this shop',
    what: 'Nothing is shown or taken under this name.',
    next: 'Open the address that the program printed when it started, or add this name to STILLFITS_HOSTS.',
  })

export const unreadablePage = (c: Context, web: Web) => {
  if (isForOwner(c)) return ownerTrouble(c, web, 'unreadable', 400)
  return calm(c, web, 400, {
    head: 'This could not be read',
    what: 'What arrived is not a form, or it broke off on its way. Nothing was saved.',
    next: 'Open the page again, and send the form from there.',
  })
}

export const tooLargePage = (c: Context, web: Web, limitBytes: number) => {
  if (isForOwner(c)) return ownerTrouble(c, web, 'large', 413)
  return calm(c, web, 413, {
    head: 'That is too much at once',
    what: `Nothing was saved. This page takes up to ${Math.floor(limitBytes / 1024)} kB at once.`,
    next: 'Send fewer or smaller files. A whole folder can also be read with the command stillfits import.',
  })
}

/** The time limit ran out (RFC 9110, 15.6.5); what was begun may still end. */
export const tooSlowPage = (c: Context, web: Web) => {
  if (isForOwner(c)) return ownerTrouble(c, web, 'slow', 504)
  return calm(c, web, 504, {
    head: 'This takes too long',
    what: 'We stopped waiting for it. It may still be finished behind this page.',
    next: 'Wait a minute, and look whether it was saved before you send it again.',
  })
}

/**
 * After an error that was thrown: what a person can do about it, or, for a fault of ours, the reference under which
 * `onFault` was told. What was posted is kept on the page either way, to be sent again.
 */
export const thrownPage = async (c: Context, web: Web, error: unknown) => {
  const problem = web.options.problemOf?.(error)
  const reference = randomUUID().slice(0, 8)
  if (problem === undefined || problem.code === 'internal')
    web.options.onFault?.({
      reference,
      requestId: c.get('requestId'),
      method: c.req.method,
      path: patternOf(c)?.path ?? '/…',
      error,
    })
  if (problem?.code === 'busy') c.header('Retry-After', String(RETRY_SECONDS))
  const status = STATUS_OF[problem?.code ?? 'internal']
  const again = <Again c={c} posted={await postedTo(c)} />
  if (isForOwner(c)) return ownerTrouble(c, web, problem?.code === 'busy' ? 'busy' : 'ours', status, again)
  const head = problem === undefined ? HEADS.internal : HEADS[problem.code]
  const says =
    problem?.next ??
    `It is our fault, not yours. Its reference is ${reference}; the log has the rest under it.`
  return page(
    c,
    { title: head ?? NEEDS_FIRST, demo: web.options.demo },
    <article class="card slim">
      <h1>{head ?? NEEDS_FIRST}</h1>
      <p>{says}</p>
      {again}
    </article>,
    status,
  )
}

/** When a program should ask again (RFC 9110, 10.2.3); people have the button. */
const RETRY_SECONDS = 5

/** The form that was posted; undefined for a page that was only asked for, or a body that is no form. */
export async function postedTo(c: Context): Promise<FormData | undefined> {
  if (c.req.method !== 'POST') return undefined
  try {
    return await c.req.formData()
  } catch {
    return undefined
  }
}

/** Fields that are never written into a page again. */
const SECRETS = ['password', 'again', 'current', 'code', 'proof']

/** The same request once more: a link, or a form that holds what was posted. Files cannot be held by a page. */
export const Again = (props: { c: Context; posted: FormData | undefined; says?: string | undefined }) => {
  const { c, posted, says = 'Try again' } = props
  const { pathname, search } = new URL(c.req.url)
  const here = `${pathname}${search}`
  const hasFiles = posted !== undefined && [...posted.values()].some((value) => typeof value !== 'string')
  if (c.req.method !== 'POST' || hasFiles)
    return (
      <>
        {hasFiles && <p>Choose the files again: a page cannot keep them.</p>}
        <p class="actions">
          <a class="button" href={here}>
            {hasFiles ? 'Back to the form' : says}
          </a>
        </p>
      </>
    )
  if (posted === undefined || SECRETS.some((name) => posted.has(name)))
    return <p>Open the page again, and send the form from there.</p>
  return (
    <form method="post" action={here} class="form">
      <p>What you typed is kept on this page.</p>
      {[...typedOf(posted)].flatMap(([name, values]) =>
        values.map((value) => <input type="hidden" name={name} value={value} />),
      )}
      <p class="actions">
        <button class="button" type="submit">
          {says}
        </button>
      </p>
    </form>
  )
}

const NEEDS_FIRST = 'This needs something first'

const HEADS: Partial<Record<Problem['code'], string>> = {
  busy: 'The database is in use',
  'not found': 'That is not here',
  conflict: 'This can’t be done as things are',
  internal: 'Something broke on our side',
}

const ABOVE: Readonly<Record<string, string>> = { questions: 'Back to the question', jobs: 'Back to the job' }

/** From a page under a question or a job, such as its form for a yes, the way back to it. */
function wayUp(path: string): { readonly href: string; readonly says: string } | undefined {
  const [, place = '', id] = /^\/(questions|jobs)\/([^/]+)\/./.exec(path) ?? []
  const says = ABOVE[place]
  return id === undefined || says === undefined ? undefined : { href: `/${place}/${id}`, says }
}

/** Problems that belong to no form, such as a key that nothing is kept under. */
export const problemPage = (c: Context, web: Web, problems: readonly Problem[], place?: Place) => {
  const first = problems[0]?.code ?? 'internal'
  const head = HEADS[first] ?? NEEDS_FIRST
  const up = first === 'not found' ? undefined : wayUp(c.req.path)
  return page(
    c,
    { title: head, place, demo: web.options.demo },
    <article class="card slim">
      <h1>{head}</h1>
      <ProblemList problems={problems} />
      <p class="actions">
        {up !== undefined && (
          <a class="button" href={up.href}>
            {up.says}
          </a>
        )}
        <a class={up === undefined ? 'button' : 'button quiet'} href="/">
          Go to the questions
        </a>
      </p>
    </article>,
    STATUS_OF[first],
  )
}

/** A list of problems: where, what was given, what to do. */
export const ProblemList = ({ problems }: { problems: readonly Problem[] }) => (
  <ul class="ruled">
    {problems.map((p) => (
      <li>
        <b>
          {[
            p.file,
            p.line === undefined ? undefined : `line ${p.line}`,
            p.file === undefined ? placeWords(p.field) : p.field,
          ]
            .filter(Boolean)
            .join(', ')}
        </b>
        {`: ${problemText(p)}`}
        {p.allowed !== undefined && !p.next.includes(p.allowed) && (
          <small class="block">Allowed: {p.allowed}</small>
        )}
      </li>
    ))}
  </ul>
)
