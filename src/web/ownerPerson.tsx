import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { LANGUAGES, type Language } from '../core/language.ts'
import { PARTING_DAYS } from '../core/ownerLink.ts'
import type { Problem, Result } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { type Figures, figuresOf } from '../words/figures.ts'
import { problemIn } from '../words/ownerProblems.ts'
import { fill, formOf } from '../words/say.ts'
import { type Tables, wordsIn } from '../words/tables.ts'
import { EraseShown } from './eraseShown.tsx'
import { FieldProblems, idOf, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import type { OwnerProps } from './ownerForms.tsx'
import { nowherePage, ownerPage } from './ownerFrame.tsx'
import { readForm } from './readForm.ts'
import { RecordShown } from './recordShown.tsx'

const to = (token: string, rest: string): string => `/o/${token}/${rest}`

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
export const ConsentBox = ({ view, words, token, figures, problems }: OwnerProps) => {
  const { person } = view
  const w = words.ownerPerson
  if (person === undefined) return null
  const { consent, wording, hasAddress } = person
  return (
    <section class="card" id="offers">
      <h2>{w.offers}</h2>
      {consent?.standing === 'given' ? (
        <>
          <p>{fill(w.given, { date: figures.date(consent.at) })}</p>
          <blockquote lang={consent.language}>{consent.wording}</blockquote>
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
export const AboutYou = ({ view, words: { ownerPerson: w }, token, figures }: OwnerProps) => (
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

/** The page, and mails, in another language; quiet, because most never need it. */
export const LanguageChoice = ({ view, words, token }: OwnerProps) => {
  if (view.person === undefined) return null
  const w = words.owner.language
  return (
    <form method="post" action={to(token, 'language')} class="line" aria-label={w.head}>
      <span class="soft">{w.says}</span>
      {LANGUAGES.map((language) =>
        language === view.language ? (
          <b lang={language}>{LANGUAGE_NAMES[language]}</b>
        ) : (
          <button class="button quiet" type="submit" name="language" value={language} lang={language}>
            {LANGUAGE_NAMES[language]}
          </button>
        ),
      )}
    </form>
  )
}

/** Each in itself, so that whoever needs it can read it. */
const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' }

const Back = ({ token, words }: { token: string; words: Tables }) => (
  <p>
    <a href={`/o/${token}`}>{words.owner.back}</a>
  </p>
)

type Read = Pick<OwnerPageView, 'language' | 'chosen' | 'tag'> & {
  readonly shop: { readonly locale: string; readonly timeZone: string }
}

/** Words and figures as the owner reads them. */
export async function readIn({ uses }: Web, { shop, language, chosen }: Read) {
  const { policy } = await uses.shop()
  return { words: wordsIn(language), figures: figuresOf({ ...shop, policy }, { language: chosen }) }
}

/** How the pages of an owner's link come: in their language, with the machine's tag above. */
const bareOf =
  (web: Web) =>
  async (
    c: Context,
    view: Read,
    title: (words: Tables) => string,
    body: (words: Tables, figures: Figures) => Child,
    status: ContentfulStatusCode = 200,
  ) => {
    const { words, figures } = await readIn(web, view)
    return ownerPage(
      c,
      `${title(words)} ${view.tag}`,
      web.options.demo,
      <article class="card">
        <p class="line">
          <span class="tag">{view.tag}</span>
        </p>
        {body(words, figures)}
      </article>,
      status,
      view.language,
    )
  }

/** An owner who said the machine is sold: that, and the way back. Undefined for any other link. */
export async function partedPage(c: Context, web: Web) {
  const parted = await web.uses.ownerParted(param(c, 'token'))
  if (!parted.ok) return undefined
  const { shop, tag, saidAt, until } = parted.value
  return bareOf(web)(
    c,
    parted.value,
    ({ ownerPerson: w }) => w.parted.title,
    ({ ownerPerson: w }, figures) => (
      <>
        <h1>{w.parted.title}</h1>
        <p>{fill(w.parted.says, { tag, date: figures.date(saidAt), until: figures.date(until) })}</p>
        <form method="post" action={to(param(c, 'token'), 'sold/back')}>
          <p class="actions">
            <button class="button quiet" type="submit">
              {w.parted.back}
            </button>
          </p>
        </form>
        <p class="soft">{fill(w.parted.newOwner, { shop: shop.name })}</p>
        <p class="soft">{fill(w.parted.wish, { shop: shop.name })}</p>
      </>
    ),
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

/** What every route of an owner's page is built of. */
export type OwnerRoutes = {
  /** A page behind a link that holds; else the same as for every dead link. */
  readonly looked: (
    path: string,
    show: (c: Context, token: string, view: OwnerPageView) => Promise<Response>,
  ) => void
  /** Something sent, once the link holds and is not used too often. */
  readonly post: Post
  readonly ended: Ended
  readonly bare: ReturnType<typeof bareOf>
}

/** Joins those pieces; `post` and `ended` are the page's own. */
export const ownerRoutesOf = (app: Hono, web: Web, { post, ended }: Pick<OwnerRoutes, 'post' | 'ended'>) => ({
  ...{ post, ended, bare: bareOf(web) },
  looked: (path: string, show: (c: Context, token: string, view: OwnerPageView) => Promise<Response>) =>
    void app.get(`/o/:token/${path}`, async (c) => {
      const token = param(c, 'token')
      const view = await web.uses.ownerPage(token)
      if (view.ok) return show(c, token, view.value)
      return (await partedPage(c, web)) ?? nowherePage(c, web)
    }),
})

/** What an owner decides about themselves: consent, that the machine has gone, to be erased; and what is kept of them. */
export function ownerPersonRoutes(app: Hono, web: Web, { looked, post, ended, bare }: OwnerRoutes): void {
  const { uses } = web

  post('consent', async (c, token) => {
    const typed = typedOf(await readForm(c))
    if (textOf(typed, 'do') === 'stop')
      return ended(c, token, typed, 'stopped', await uses.ownerWithdraws(token))
    const said = { yes: textOf(typed, 'consent') === 'yes', wording: typed.get('wording')?.[0] ?? '' }
    return ended(c, token, typed, 'consent', await uses.ownerConsents(token, said))
  })

  post('language', async (c, token) => {
    const asked = textOf(typedOf(await readForm(c)), 'language')
    const language = LANGUAGES.find((known) => known === asked)
    if (language === undefined) return c.redirect(`/o/${token}`, 303)
    return ended(c, token, new Map(), 'language', await uses.ownerReads(token, language))
  })

  looked('sold', async (c, token, view) => {
    const waiting = view.questions.filter(({ state }) => state === 'new' || state === 'waiting for the owner')
    const [newest] = waiting
    const hasJob = view.questions.some(
      ({ state, fittedBy }) => fittedBy !== undefined && state !== 'done' && state !== 'called off',
    )
    return bare(
      c,
      view,
      ({ ownerPerson: w }) => w.sold.title,
      (words) => {
        const w = words.ownerPerson
        const rules = new Intl.PluralRules(view.language)
        return (
          <>
            <h1>{w.sold.title}</h1>
            <ul>
              {w.sold.does.map((line) => (
                <li>{line}</li>
              ))}
            </ul>
            {newest !== undefined && (
              <p>
                {fill(formOf(w.sold.waiting, waiting.length, rules), {
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
            <Back token={token} words={words} />
          </>
        )
      },
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
    const own = problems.map((problem) => problemIn(problem, view.language))
    return bare(
      c,
      view,
      ({ ownerPerson: w }) => w.erase.title,
      (words) => {
        const w = words.ownerPerson
        return (
          <>
            <h1>{w.erase.title}</h1>
            <ProblemSummary problems={own} labels={(field) => w.labels[field]} language={view.language} />
            <EraseShown kept={kept.value} language={view.language} />
            <p>
              <b>{w.erase.undone}</b> <a href={to(token, 'mine')}>{w.mine}</a>
            </p>
            <p>{w.erase.who}</p>
            {kept.value.openJobs.length > 0 && <p>{w.erase.open}</p>}
            <form method="post" action={to(token, 'erase')} class="form">
              <Tick name="sure" says={w.erase.sure} problems={own} />
              <p class="actions">
                <button class="button" type="submit">
                  {w.erase.confirm}
                </button>
              </p>
            </form>
            <Back token={token} words={words} />
          </>
        )
      },
      problems[0] && STATUS_OF[problems[0].code],
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
    return bare(
      c,
      view,
      ({ ownerPerson: w }) => w.record.title,
      ({ owner, ownerPerson: w }, figures) => (
        <>
          <h1>{w.record.title}</h1>
          <p>{w.mineSays}</p>
          <p class="actions">
            <a href={to(token, 'mine.json')}>{w.mineJson}</a> <a href={`/o/${token}`}>{owner.back}</a>
          </p>
          <RecordShown record={record.value} figures={figures} />
        </>
      ),
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
