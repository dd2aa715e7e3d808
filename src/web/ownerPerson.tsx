import type { Context, Hono } from 'hono'
import { PARTING_DAYS } from '../core/ownerLink.ts'
import type { Problem, Result } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { OWNER_EN } from '../words/en/ownerPage.ts'
import { PERSON_EN } from '../words/en/ownerPerson.ts'
import { fill, formOf } from '../words/say.ts'
import { EraseShown } from './eraseShown.tsx'
import { FieldProblems, idOf, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, type Web } from './frame.ts'
import type { OwnerProps } from './ownerForms.tsx'
import { nowherePage, ownerPage } from './ownerFrame.tsx'
import { readForm } from './readForm.ts'
import { RecordShown } from './recordShown.tsx'

const w = PERSON_EN
const RULES = new Intl.PluralRules('en')

const to = (token: string, rest: string): string => `/o/${token}/${rest}`
const labels = (field: string) => w.labels[field]

/** A box for one yes; never ticked beforehand. */
const Tick = (props: { name: string; says: string; problems: readonly Problem[] }) => {
  const { name, says, problems } = props
  const isWrong = problems.some(({ field }) => field === name)
  return (
    <div class={isWrong ? 'field bad' : 'field'}>
      <label class="check">
        <input
          id={idOf(name)}
          type="checkbox"
          name={name}
          value="yes"
          aria-invalid={isWrong ? 'true' : undefined}
          aria-describedby={isWrong ? `${idOf(name)}-wrong` : undefined}
        />{' '}
        {says}
      </label>
      <FieldProblems name={name} problems={problems} />
    </div>
  )
}

/** Whether they want mails about upgrades: a yes in the very words, a no in one step. */
export const ConsentBox = ({ view, token, figures, problems }: OwnerProps) => {
  const { person } = view
  if (person === undefined) return null
  const { consent, wording, hasAddress } = person
  return (
    <section class="card" id="offers">
      <h2>{w.offers}</h2>
      {consent?.standing === 'given' ? (
        <>
          <p>{fill(w.given, { date: figures.date(consent.at) })}</p>
          <blockquote>{consent.wording}</blockquote>
          {!hasAddress && <p class="soft">{w.noAddress}</p>}
          <form method="post" action={to(token, 'consent')}>
            <p class="actions">
              <button class="button quiet" type="submit" name="do" value="stop">
                {w.stop}
              </button>
            </p>
          </form>
        </>
      ) : (
        <>
          <p>{consent === undefined ? w.never : fill(w.withdrawn, { date: figures.date(consent.at) })}</p>
          {!hasAddress && <p class="soft">{w.noAddress}</p>}
          {person.eraseAskedAt === undefined && (
            <form method="post" action={to(token, 'consent')} class="form">
              <input type="hidden" name="wording" value={wording} />
              <Tick name="consent" says={wording} problems={problems} />
              <p class="actions">
                <button class="button quiet" type="submit" name="do" value="yes">
                  {w.yes}
                </button>
              </p>
            </form>
          )}
        </>
      )}
    </section>
  )
}

/** What else is theirs to decide: what is kept of them, that the machine has gone, to be erased. */
export const AboutYou = ({ view, token, figures }: OwnerProps) => (
  <section class="card" id="you">
    <h2>{w.about}</h2>
    {view.person?.eraseAskedAt !== undefined && (
      <form method="post" action={to(token, 'erase/back')}>
        <p>{fill(w.erase.asked, { date: figures.date(view.person.eraseAskedAt) })}</p>
        <p class="actions">
          <button class="button quiet" type="submit">
            {w.erase.back}
          </button>
        </p>
      </form>
    )}
    <ul class="ruled">
      {view.person !== undefined && (
        <li>
          <a href={to(token, 'mine')}>{w.mine}</a>
        </li>
      )}
      <li>
        <a href={to(token, 'sold')}>{w.soldLink}</a>
      </li>
      {view.person !== undefined && view.person.eraseAskedAt === undefined && (
        <li>
          <a href={to(token, 'erase')}>{w.eraseLink}</a>
        </li>
      )}
    </ul>
  </section>
)

const Back = ({ token }: { token: string }) => (
  <p>
    <a href={`/o/${token}`}>{OWNER_EN.back}</a>
  </p>
)

/** How the pages of an owner's link come: with what was wrong, and the machine's tag above. */
const bare = (c: Context, web: Web, title: string, tag: string, body: unknown, problem?: Problem) =>
  ownerPage(
    c,
    `${title} ${tag}`,
    web.options.demo,
    <article class="card">
      <p class="line">
        <span class="tag">{tag}</span>
      </p>
      {body}
    </article>,
    problem === undefined ? 200 : STATUS_OF[problem.code],
  )

/** An owner who said the machine is sold: that, and the way back. Undefined for any other link. */
export async function partedPage(c: Context, web: Web) {
  const parted = await web.uses.ownerParted(param(c, 'token'))
  if (!parted.ok) return undefined
  const { shop, tag, saidAt, until } = parted.value
  const figures = figuresOf({ ...(await web.uses.shop()), ...shop })
  const values = { tag, date: figures.date(saidAt), until: figures.date(until) }
  return bare(
    c,
    web,
    w.parted.title,
    tag,
    <>
      <h1>{w.parted.title}</h1>
      <p>{fill(w.parted.says, values)}</p>
      <form method="post" action={to(param(c, 'token'), 'sold/back')}>
        <p class="actions">
          <button class="button quiet" type="submit">
            {w.parted.back}
          </button>
        </p>
      </form>
      <p class="soft">{fill(w.parted.newOwner, { shop: shop.name })}</p>
    </>,
  )
}

type Post = (
  path: string,
  act: (c: Context, token: string, view: OwnerPageView) => Response | Promise<Response>,
) => void
type Ended = <T>(
  c: Context,
  token: string,
  typed: Typed,
  what: string,
  result: Result<T>,
) => Promise<Response> | Response

/** What an owner decides about themselves: consent, that the machine has gone, to be erased; and what is kept of them. */
export function ownerPersonRoutes(app: Hono, web: Web, { post, ended }: { post: Post; ended: Ended }): void {
  const { uses } = web

  /** A page behind a link that holds; else the same as for every dead link. */
  const looked = (
    path: string,
    show: (c: Context, token: string, view: OwnerPageView) => Promise<Response>,
  ) =>
    app.get(`/o/:token/${path}`, async (c) => {
      const token = param(c, 'token')
      const view = await uses.ownerPage(token)
      if (view.ok) return show(c, token, view.value)
      return (await partedPage(c, web)) ?? nowherePage(c, web)
    })

  post('consent', async (c, token) => {
    const typed = typedOf(await readForm(c))
    if (textOf(typed, 'do') === 'stop')
      return ended(c, token, typed, 'stopped', await uses.ownerWithdraws(token))
    const said = { yes: textOf(typed, 'consent') === 'yes', wording: typed.get('wording')?.[0] ?? '' }
    return ended(c, token, typed, 'consent', await uses.ownerConsents(token, said))
  })

  looked('sold', async (c, token, view) => {
    const waiting = view.questions.filter(({ state }) => state === 'new' || state === 'waiting for the owner')
    const [newest] = waiting
    const hasJob = view.questions.some(
      ({ state, fittedBy }) => fittedBy !== undefined && state !== 'done' && state !== 'called off',
    )
    return bare(
      c,
      web,
      w.sold.title,
      view.tag,
      <>
        <h1>{w.sold.title}</h1>
        <ul>
          {w.sold.does.map((line) => (
            <li>{line}</li>
          ))}
        </ul>
        {newest !== undefined && (
          <p>
            {fill(formOf(w.sold.waiting, waiting.length, RULES), {
              ...{ count: String(waiting.length), words: newest.words },
            })}
          </p>
        )}
        {hasJob && <p>{w.sold.job}</p>}
        <p>{fill(w.sold.undo, { days: String(PARTING_DAYS) })}</p>
        {view.person !== undefined && (
          <p>
            {w.sold.keeps} <a href={to(token, 'erase')}>{w.eraseLink}</a>
          </p>
        )}
        <form method="post" action={to(token, 'sold')}>
          <p class="actions">
            <button class="button" type="submit">
              {w.sold.confirm}
            </button>
          </p>
        </form>
        <Back token={token} />
      </>,
    )
  })

  post('sold', async (c, token) => ended(c, token, new Map(), 'sold', await uses.ownerParts(token)))

  // Behind a link that shows nothing else any more, so it has a route of its own kind.
  app.post('/o/:token/sold/back', async (c) => {
    const token = param(c, 'token')
    const back = await uses.ownerTakesPartingBack(token)
    return back.ok ? c.redirect(`/o/${token}?sent=back`, 303) : nowherePage(c, web)
  })

  const erasePage = async (
    c: Context,
    token: string,
    view: OwnerPageView,
    problems: readonly Problem[] = [],
  ) => {
    const kept = await uses.ownerErase(token)
    if (!kept.ok) return nowherePage(c, web)
    return bare(
      c,
      web,
      w.erase.title,
      view.tag,
      <>
        <h1>{w.erase.title}</h1>
        <ProblemSummary problems={problems} labels={labels} />
        <EraseShown kept={kept.value} />
        <p>
          <b>{w.erase.undone}</b> <a href={to(token, 'mine')}>{w.mine}</a>
        </p>
        <p>{w.erase.who}</p>
        {kept.value.openJobs.length > 0 && <p>{w.erase.open}</p>}
        <form method="post" action={to(token, 'erase')} class="form">
          <Tick name="sure" says={w.erase.sure} problems={problems} />
          <p class="actions">
            <button class="button" type="submit">
              {w.erase.confirm}
            </button>
          </p>
        </form>
        <Back token={token} />
      </>,
      problems[0],
    )
  }

  looked('erase', (c, token, view) => erasePage(c, token, view))

  post('erase', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    const asked = await uses.ownerAsksErase(token, textOf(typed, 'sure') === 'yes')
    return asked.ok ? ended(c, token, typed, 'erase', asked) : erasePage(c, token, view, asked.problems)
  })

  post('erase/back', async (c, token) =>
    ended(c, token, new Map(), 'kept', await uses.ownerTakesEraseBack(token)),
  )

  looked('mine', async (c, token, view) => {
    const record = await uses.ownerRecord(token)
    if (!record.ok) return nowherePage(c, web)
    const figures = figuresOf({ ...(await web.uses.shop()), ...view.shop })
    return bare(
      c,
      web,
      w.record.title,
      view.tag,
      <>
        <h1>{w.record.title}</h1>
        <p>{w.mineSays}</p>
        <p class="actions">
          <a href={to(token, 'mine.json')}>{w.mineJson}</a> <a href={`/o/${token}`}>{OWNER_EN.back}</a>
        </p>
        <RecordShown record={record.value} figures={figures} />
      </>,
    )
  })

  looked('mine.json', async (c, token, view) => {
    const record = await uses.ownerRecord(token)
    if (!record.ok) return nowherePage(c, web)
    c.header('Content-Disposition', `attachment; filename="${view.tag.replaceAll(/[^\w-]/g, '_')}.json"`)
    c.header('X-Robots-Tag', 'noindex, nofollow')
    return c.json({ currency: view.shop.policy.currency, ...record.value })
  })
}
