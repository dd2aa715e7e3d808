import type { Context, Hono } from 'hono'
import { minorDigitsOf } from '../core/currency.ts'
import type { Language } from '../core/language.ts'
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
import { sayLimit } from '../words/limits.ts'
import { KIND_WORDS } from '../words/options.ts'
import { problemIn } from '../words/ownerProblems.ts'
import { sayOwnerState } from '../words/questionState.ts'
import { capital, fill, formOf } from '../words/say.ts'
import { type Tables, wordsIn } from '../words/tables.ts'
import { enterableKey, sourcesFor } from './claimForm.ts'
import { fieldsWithoutFiles, photosTooLarge } from './fieldsFirst.ts'
import { ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import { arePhotosTooLarge } from './guard.ts'
import { HomeSheetBody } from './homeSheet.tsx'
import { AboutYou, ConsentBox, LanguageChoice } from './ownerChoices.tsx'
import { AskForm, isOfQuestion, type OwnerProps, ownerLabel, Report, RequestForm } from './ownerForms.tsx'
import { nowhereBeside, nowherePage, ownerPage, ownerTrouble } from './ownerFrame.tsx'
import { OwnerHistory } from './ownerHistory.tsx'
import { photoOf, photosOf } from './ownerLink.tsx'
import { ownerPersonRoutes } from './ownerPerson.tsx'
import { OwnerReadingLink, ownerReadingRoutes } from './ownerReading.tsx'
import { ownerRoutesOf, partedPage, readIn } from './ownerRoutes.tsx'
import { askedFields } from './questionForm.ts'
import { readForm } from './readForm.ts'
import { fieldReader, readingOf } from './typed.ts'

const Questions = ({ view, words: { owner: w }, figures }: OwnerProps) =>
  view.questions.length === 0 ? null : (
    <section class="card">
      <h2>{w.questions}</h2>
      <ul class="ruled">
        {view.questions.map(({ words, askedAt, state, fittedBy, isIn, photos, answerText, toldAt }, i) => (
          <li>
            <b>{fill(w.quoted, { words })}</b>{' '}
            <span class="soft">
              {figures.date(askedAt)}: {sayOwnerState(state, fittedBy, isIn, view.language)}
              {photos > 0 &&
                `, ${fill(formOf(w.askedPhotos, photos, new Intl.PluralRules(view.language)), { count: String(photos) })}`}
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
const Home = ({ view, words: { owner: w }, token }: OwnerProps) => (
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

const Facts = (props: OwnerProps) => {
  const { view, words, token, figures } = props
  const w = words.owner
  const known = LIMIT_KEYS.filter((k) => view.limits[k].known)
  return (
    <section class="card">
      <h2>{w.facts}</h2>
      <p>
        <a href={`/o/${token}/sheet`}>{w.sheet}</a>
      </p>
      <OwnerReadingLink {...props} />
      <dl class="limits">
        {view.fitted.map(({ kind, name }) => (
          <div>
            <dt>
              {capital(view.language === 'en' ? KIND_WORDS[kind] : words.answer.kinds[kind], view.language)}
            </dt>
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
  const { view, words, figures, done, problems } = props
  const { shop, tag } = view
  const w = words.owner
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
      <ProblemSummary
        problems={problems.filter((problem) => !isOfQuestion(problem))}
        labels={ownerLabel(view.language)}
        language={view.language}
      />
      {view.requests.map((request) => (
        <RequestForm {...props} request={request} />
      ))}
      <Home {...props} />
      <Questions {...props} />
      <AskForm {...props} />
      <Report {...props} />
      <Facts {...props} />
      <OwnerHistory {...props} />
      <ConsentBox {...props} />
      <AboutYou {...props} />
      <LanguageChoice {...props} />
      <p class="soft owner-foot">
        {fill(w.foot, { shop: shop.name, date: figures.date(view.expiresAt) })} {w.closed}
        {shop.email !== '' && ` ${shop.email}`}
      </p>
    </>
  )
}

/** What is wrong is said to its owner as to one, and not of one, in the language of the page. */
const toOwner = (problem: Problem, language: Language): Problem => {
  const next = problem.code === 'missing' ? wordsIn(language).owner.lacking[problem.field] : undefined
  return next === undefined ? problemIn(problem, language) : { ...problem, next }
}

/** What a post ends with; the page says it once, and a reload does not send again. */
const doneIn = ({
  owner,
  ownerPerson,
  ownerReading,
}: Tables): Readonly<Record<string, string | undefined>> => ({
  ...{ ...owner.done, ...ownerPerson.done, reading: ownerReading.done },
})

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
    const { words, figures } = await readIn(web, view)
    const first = problems[0]
    const sent = c.req.query('sent') ?? ''
    const done = Object.hasOwn(doneIn(words), sent) ? doneIn(words)[sent] : undefined
    const own = problems.map((problem) => toOwner(problem, view.language))
    return ownerPage(
      c,
      `${words.owner.title} ${view.tag}`,
      options.demo,
      <Body {...{ view, words, token, figures, typed, problems: own, oneMore, done }} />,
      first === undefined ? 200 : STATUS_OF[first.code],
      view.language,
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
      return ownerTrouble(c, web, 'often', 429, undefined, page.value.language)
    })

  const readerFor = (typed: Typed, view: OwnerPageView) => {
    const { timeZone, policy } = view.shop
    return fieldReader(typed, readingOf(minorDigitsOf(policy.currency), timeZone, policy.currency))
  }

  const ended = async <T,>(c: Context, token: string, typed: Typed, what: string, result: Result<T>) =>
    result.ok ? c.redirect(`/o/${token}?sent=${what}`, 303) : show(c, typed, result.problems)

  app.get('/o/:token', (c) => show(c))

  app.get('/o/:token/sheets/:job', async (c) => {
    const token = param(c, 'token')
    const page = await uses.ownerPage(token)
    const home = page.ok ? page.value.home.find(({ jobId }) => jobId === param(c, 'job')) : undefined
    if (!page.ok || home === undefined) return nowhere(c)
    const { sheet } = home
    const { language } = page.value
    return ownerPage(
      c,
      `${sheet.title} ${page.value.tag}`,
      options.demo,
      <article class="card">
        <h1>{sheet.title}</h1>
        <p class="actions">
          <span class="soft">{sheet.print}</span> <a href={`/o/${token}`}>{wordsIn(language).owner.back}</a>
        </p>
        <HomeSheetBody sheet={sheet} />
      </article>,
      200,
      language,
    )
  })

  post('limits', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    const request = view.requests.find(({ id }) => id === textOf(typed, 'request'))
    const limit = request && enterableKey(request.limitKey)
    if (request === undefined || limit === undefined) return show(c, typed)
    const reader = readerFor(typed, view)
    const value = reader.need(`limit.${limit}`, LIMIT_COLUMNS[limit].cell as never, OWNER_EN.needValue)
    if (value === undefined) return show(c, typed, reader.problems)
    const claim = claimSchema.parse({ key: limit, value, source: sourceFor(limit), note: OWNER_EN.note })
    return ended(c, token, typed, 'limit', await uses.ownerLimit(token, request.id, claim))
  })

  post('photos', async (c, token) => {
    const form = await readForm(c)
    const typed = typedOf(form)
    const request = textOf(typed, 'request') ?? ''
    return ended(c, token, typed, 'photo', await uses.ownerPhoto(token, request, await photoOf(form)))
  })

  post('questions', async (c, token, view) => {
    if (arePhotosTooLarge(c)) {
      // What was not read to its end would be taken for the next request of the connection.
      c.header('Connection', 'close')
      const typed = new Map([...typedOf(await fieldsWithoutFiles(c)), ['hadPhotos', ['yes']] as const])
      return show(c, typed, [photosTooLarge()])
    }
    const form = await readForm(c)
    const photos = await photosOf(form)
    const typed = new Map([...typedOf(form), ...(photos.length > 0 ? [['hadPhotos', ['yes']] as const] : [])])
    if (typed.get('do')?.[0] === 'more') return show(c, typed, [], true)
    const reader = readerFor(typed, view)
    const fields = askedFields(typed, reader, OWNER_EN.noWords)
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    return ended(c, token, typed, 'question', await uses.ownerAsks(token, fields, photos))
  })

  post('fps', async (c, token, view) => {
    const typed = typedOf(await readForm(c))
    const reader = readerFor(typed, view)
    const averageFps = reader.need('reportFps', fps, OWNER_EN.noFps)
    const low1Fps = reader.read('reportLow1Fps', lowFps)
    const [titleId = '', settingId = ''] = (textOf(typed, 'reportTitle') ?? '').split('@')
    const jobId = reader.read('job', key) ?? ''
    if (averageFps === undefined || reader.problems.length > 0) return show(c, typed, reader.problems)
    const reported = { titleId, settingId, averageFps, ...(low1Fps !== undefined && { low1Fps }) }
    return ended(c, token, typed, 'report', await uses.ownerReports(token, jobId, reported))
  })

  const routes = ownerRoutesOf(app, web, { post, ended })
  ownerPersonRoutes(app, web, routes)
  ownerReadingRoutes(app, web, routes)

  // Whatever else is asked for under a link, held or not: the same calm page.
  app.get('/o/*', (c) => nowhereBeside(c, web))
}

/** The strongest source that the limit counts for something an owner looked at. */
const sourceFor = (limit: LimitKey) => {
  const sources = sourcesFor(limit).map(([source]) => source)
  return (['measured', 'read', 'entered'] as const).find((source) => sources.includes(source)) ?? 'entered'
}
