import type { Context, Hono } from 'hono'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import { postsAfter } from '../core/ownerLink.ts'
import { key } from '../input/cells.ts'
import { claimSchema } from '../input/stored.ts'
import { LIMIT_COLUMNS } from '../input/tables/machines.ts'
import { fps, lowFps } from '../input/tables/runs.ts'
import type { Problem, Result } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { OWNER_EN } from '../words/en/ownerPage.ts'
import { PERSON_EN } from '../words/en/ownerPerson.ts'
import { sayLimit } from '../words/limits.ts'
import { KIND_WORDS } from '../words/options.ts'
import { sayOwnerState } from '../words/questionState.ts'
import { capital, fill } from '../words/say.ts'
import { enterableKey, sourcesFor } from './claimForm.ts'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, type Web } from './frame.ts'
import { HomeSheetBody } from './homeSheet.tsx'
import { AskForm, isOfQuestion, type OwnerProps, ownerLabel, Report, RequestForm } from './ownerForms.tsx'
import { nowherePage, ownerPage, ownerTrouble } from './ownerFrame.tsx'
import { photoOf } from './ownerLink.tsx'
import { AboutYou, ConsentBox, ownerPersonRoutes, partedPage } from './ownerPerson.tsx'
import { askedFields } from './questionForm.ts'
import { readForm } from './readForm.ts'
import { fieldReader, readingOf } from './typed.ts'

const w = OWNER_EN

const Questions = ({ view, figures }: OwnerProps) =>
  view.questions.length === 0 ? null : (
    <section class="card">
      <h2>{w.questions}</h2>
      <ul class="ruled">
        {view.questions.map(({ words, askedAt, state, fittedBy, isIn, answerText, toldAt }, i) => (
          <li>
            <b>“{words}”</b>{' '}
            <span class="soft">
              {figures.date(askedAt)}: {sayOwnerState(state, fittedBy, isIn)}
            </span>
            {answerText !== undefined && (
              <details open={i === 0}>
                <summary>
                  {toldAt === undefined ? w.answer : fill(w.answerOf, { date: figures.date(toldAt) })}
                  <span class="unseen">: {words}</span>
                </summary>
                <p class="letter-text">{answerText}</p>
              </details>
            )}
          </li>
        ))}
      </ul>
    </section>
  )

/** Parts that the owner fits at home: how, in which order, and what to mind. */
const Home = ({ view, token }: OwnerProps) => (
  <>
    {view.home.map(({ jobId, sheet }) => (
      <section class="card" id="fit">
        <h2>{sheet.title}</h2>
        <HomeSheetBody sheet={sheet} />
        <p>
          <a href={`/o/${token}/sheets/${encodeURIComponent(jobId)}`}>{w.printSheet}</a>
        </p>
      </section>
    ))}
  </>
)

const Facts = ({ view, token, figures }: OwnerProps) => {
  const known = LIMIT_KEYS.filter((k) => view.limits[k].known)
  return (
    <section class="card">
      <h2>{w.facts}</h2>
      <p>
        <a href={`/o/${token}/sheet`}>{w.sheet}</a>
      </p>
      <dl class="limits">
        {view.fitted.map(({ kind, name }) => (
          <div>
            <dt>{capital(KIND_WORDS[kind], 'en')}</dt>
            <dd>{name}</dd>
          </div>
        ))}
      </dl>
      {known.length > 0 && (
        <details>
          <summary>{w.limits}</summary>
          <dl class="limits">
            {known.map((k) => {
              const { label, value } = sayLimit(k, view.limits[k], figures)
              return (
                <div>
                  <dt>{label}</dt>
                  <dd class="num">{value}</dd>
                </div>
              )
            })}
          </dl>
        </details>
      )}
    </section>
  )
}

const Body = (props: OwnerProps & { oneMore: boolean; done: string | undefined }) => {
  const { view, figures, done, problems } = props
  const { shop, tag } = view
  return (
    <>
      <header class="owner-head">
        <p class="line">
          <span class="tag">{tag}</span> <span class="soft">{shop.name}</span>
        </p>
        <h1>{w.title}</h1>
        {done !== undefined && (
          <p class="kept" role="status">
            <b>{done}</b>
          </p>
        )}
      </header>
      <ProblemSummary problems={problems.filter((problem) => !isOfQuestion(problem))} labels={ownerLabel} />
      {view.requests.map((request) => (
        <RequestForm {...props} request={request} />
      ))}
      <Home {...props} />
      <Questions {...props} />
      <AskForm {...props} />
      <Report {...props} />
      <Facts {...props} />
      <ConsentBox {...props} />
      <AboutYou {...props} />
      <p class="soft owner-foot">
        {fill(w.foot, { shop: shop.name, date: figures.date(view.expiresAt) })}
        {shop.email !== '' && ` ${shop.email}`}
      </p>
    </>
  )
}

/** What is missing is said to its owner as to one, and not of one. */
const toOwner = (problem: Problem): Problem => {
  const next = problem.code === 'missing' ? w.lacking[problem.field] : undefined
  return next === undefined ? problem : { ...problem, next }
}

/** What a post ends with; the page says it once, and a reload does not send again. */
const DONE: ReadonlyMap<string, string> = new Map(Object.entries({ ...w.done, ...PERSON_EN.done }))

export function ownerRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  /** Instants (ms) of the posts of each link in the last hour; gone when the program stops. */
  const posts = new Map<string, readonly number[]>()

  /** A link that does not hold, or one whose owner has the machine no more. */
  const nowhere = async (c: Context) => (await partedPage(c, web)) ?? nowherePage(c, web)

  const show = async (
    c: Context,
    typed: Typed = new Map(),
    problems: readonly Problem[] = [],
    oneMore = false,
  ) => {
    const token = param(c, 'token')
    const page = await uses.ownerPage(token)
    if (!page.ok) return nowhere(c)
    const view = page.value
    const { locale, timeZone, policy } = view.shop
    const figures = figuresOf({ ...view.shop, address: '', locale, timeZone, policy })
    const first = problems[0]
    const done = DONE.get(c.req.query('sent') ?? '')
    return ownerPage(
      c,
      `${w.title} ${view.tag}`,
      options.demo,
      <Body {...{ view, token, figures, typed, problems, oneMore, done }} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  /** Looks that the link holds and is not used too often, before anything that was sent is looked at. */
  const post = (
    path: string,
    act: (c: Context, token: string, view: OwnerPageView) => Response | Promise<Response>,
  ) =>
    app.post(`/o/:token/${path}`, async (c) => {
      const token = param(c, 'token')
      const page = await uses.ownerPage(token)
      if (!page.ok) return nowhere(c)
      const { posts: now, isAllowed } = postsAfter(posts.get(token) ?? [], Date.parse(uses.now()))
      posts.set(token, now)
      if (isAllowed) return act(c, token, page.value)
      return ownerTrouble(c, web, 'often', 429)
    })

  const readerFor = (typed: Typed, view: OwnerPageView) => {
    const { timeZone, policy } = view.shop
    const digits = figuresOf({ ...view.shop, address: '' }).minorDigits
    return fieldReader(typed, readingOf(digits, timeZone, policy.currency))
  }

  const ended = async <T,>(c: Context, token: string, typed: Typed, what: string, result: Result<T>) =>
    result.ok ? c.redirect(`/o/${token}?sent=${what}`, 303) : show(c, typed, result.problems.map(toOwner))

  app.get('/o/:token', (c) => show(c))

  app.get('/o/:token/sheets/:job', async (c) => {
    const token = param(c, 'token')
    const page = await uses.ownerPage(token)
    const home = page.ok ? page.value.home.find(({ jobId }) => jobId === param(c, 'job')) : undefined
    if (!page.ok || home === undefined) return nowhere(c)
    const { sheet } = home
    return ownerPage(
      c,
      `${sheet.title} ${page.value.tag}`,
      options.demo,
      <article class="card">
        <h1>{sheet.title}</h1>
        <p class="actions">
          <span class="soft">{sheet.print}</span> <a href={`/o/${token}`}>{w.back}</a>
        </p>
        <HomeSheetBody sheet={sheet} />
      </article>,
    )
  })

  post('limits', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    const request = view.requests.find(({ id }) => id === textOf(typed, 'request'))
    const limit = request && enterableKey(request.limitKey)
    if (request === undefined || limit === undefined) return show(c, typed)
    const reader = readerFor(typed, view)
    const value = reader.need(`limit.${limit}`, LIMIT_COLUMNS[limit].cell as never, w.needValue)
    if (value === undefined) return show(c, typed, reader.problems)
    const claim = claimSchema.parse({ key: limit, value, source: sourceFor(limit), note: w.note })
    return ended(c, token, typed, 'limit', await uses.ownerLimit(token, request.id, claim))
  })

  post('photos', async (c, token) => {
    const form = await readForm(c)
    const typed = typedOf(form)
    const request = textOf(typed, 'request') ?? ''
    return ended(c, token, typed, 'photo', await uses.ownerPhoto(token, request, await photoOf(form)))
  })

  post('questions', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    if (typed.get('do')?.[0] === 'more') return show(c, typed, [], true)
    const reader = readerFor(typed, view)
    const fields = askedFields(typed, reader, w.noWords)
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    return ended(c, token, typed, 'question', await uses.ownerAsks(token, fields))
  })

  post('fps', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    const reader = readerFor(typed, view)
    const averageFps = reader.need('reportFps', fps, w.noFps)
    const low1Fps = reader.read('reportLow1Fps', lowFps)
    const [titleId = '', settingId = ''] = (textOf(typed, 'reportTitle') ?? '').split('@')
    const jobId = reader.read('job', key) ?? ''
    if (averageFps === undefined || reader.problems.length > 0) return show(c, typed, reader.problems)
    const reported = { titleId, settingId, averageFps, ...(low1Fps !== undefined && { low1Fps }) }
    return ended(c, token, typed, 'report', await uses.ownerReports(token, jobId, reported))
  })

  ownerPersonRoutes(app, web, { post, ended })

  // Whatever else is asked for under a link, held or not: the same calm page.
  app.get('/o/*', (c) => nowherePage(c, web))
}

/** The strongest source that the limit counts for something an owner looked at. */
const sourceFor = (limit: LimitKey) => {
  const sources = sourcesFor(limit).map(([source]) => source)
  return (['measured', 'read', 'entered'] as const).find((source) => sources.includes(source)) ?? 'entered'
}
