import type { Context, Hono } from 'hono'
import { LANGUAGES } from '../core/language.ts'
import { PARTING_DAYS } from '../core/ownerLink.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { problemIn } from '../words/ownerProblems.ts'
import { fill, formOf } from '../words/say.ts'
import type { Tables } from '../words/tables.ts'
import { EraseShown } from './eraseShown.tsx'
import { ProblemSummary, textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import { Tick } from './ownerChoices.tsx'
import { nowherePage } from './ownerFrame.tsx'
import { type OwnerRoutes, pathUnder } from './ownerRoutes.tsx'
import { readForm } from './readForm.ts'
import { RecordShown } from './recordShown.tsx'

const Back = ({ token, words }: { token: string; words: Tables }) => (
  <p>
    <a href={`/o/${token}`}>{words.owner.back}</a>
  </p>
)

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
                {w.sold.keeps} <a href={pathUnder(token, 'erase')}>{w.eraseLink}</a>
              </p>
            )}
            <form method="post" action={pathUnder(token, 'sold')}>
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
              <b>{w.erase.undone}</b> <a href={pathUnder(token, 'mine')}>{w.mine}</a>
            </p>
            <p>{w.erase.who}</p>
            {kept.value.openJobs.length > 0 && <p>{w.erase.open}</p>}
            <form method="post" action={pathUnder(token, 'erase')} class="form">
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
            <a href={pathUnder(token, 'mine.json')}>{w.mineJson}</a> <a href={`/o/${token}`}>{owner.back}</a>
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
