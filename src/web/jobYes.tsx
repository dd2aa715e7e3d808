import type { Context, Hono } from 'hono'
import type { Answer } from '../core/answer.ts'
import { partsOut } from '../core/build.ts'
import { type Agreeable, agreeable, agreedPrice, promiseOf } from '../core/job/agreed.ts'
import { FITTERS } from '../core/job/job.ts'
import { line, oneOf } from '../input/cells.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok, STATUS_OF } from '../problem.ts'
import { beingFitted, isBeingFitted } from '../uses/answerQuestion.ts'
import type { Figures } from '../words/figures.ts'
import { sayFitter } from '../words/job.ts'
import { optionWords, partWords, priceWords } from '../words/options.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { BookFields } from './jobActs.tsx'
import { bookingOf, jobLabel } from './jobForm.ts'
import { page } from './layout.tsx'
import { Tag, VerdictMark } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { settingName, titleName } from './settingText.ts'
import { fieldReader } from './typed.ts'
import { stopped } from './waiting.tsx'
import { touchedWords } from './yesLink.tsx'

type YesProps = {
  answer: Answer
  answerId: string | undefined
  chosen: Agreeable
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const Promises = ({ answer, chosen, figures }: YesProps) => {
  const promised = promiseOf(chosen, answer)
  const { titles, settings } = answer.inputs
  if (promised.length === 0)
    return (
      <p>
        {chosen.standsOn === 'look first'
          ? 'Nothing is promised: first somebody looks whether there is anything to do.'
          : 'No title has a number that counts, so no frame rate is promised.'}
      </p>
    )
  return (
    <>
      <p>This is promised, and measured again afterwards:</p>
      <ul>
        {promised.map((p) => (
          <li>
            {titleName(titles, p.titleId)}: from {figures.number(p.beforeFps)} to {figures.fps(p.afterFps)},
            between {figures.number(p.afterFpsLow)} and {figures.number(p.afterFpsHigh)}{' '}
            <small class="block">{settingName(settings, p.settingId)}</small>
          </li>
        ))}
      </ul>
    </>
  )
}

const Shelf = ({ answer, chosen: { option } }: YesProps) => {
  const items = option.price.lines.flatMap(({ what, shelfItemId }) =>
    what === 'part' && shelfItemId !== undefined ? [shelfItemId] : [],
  )
  const named = items.map((id) => {
    const item = answer.inputs.shelf.find((i) => i.id === id)
    return item === undefined ? id : `${partWords(answer.inputs.parts, item.partId)} (${id})`
  })
  const out = partsOut(answer.inputs.machine.build, option.change)
  return (
    <>
      <p>
        {named.length === 0
          ? 'Nothing is put aside: this needs nothing from the shelf.'
          : `Put aside at once: ${named.join(', ')}.`}
      </p>
      {out.length > 0 && (
        <p>Comes out: {out.map(({ id }) => partWords(answer.inputs.parts, id)).join(', ')}.</p>
      )}
    </>
  )
}

const YesForm = (props: YesProps) => {
  const { answer, answerId, chosen, figures, typed, problems } = props
  const { option } = chosen
  const { question, customer, shop } = answer.inputs
  const touched = touchedWords(answer, option, figures)
  const validUntil = figures.dateAfter(answer.at, shop.policy.priceValidDays)
  return (
    <article class="card form">
      <p class="line">
        <Tag tag={question.machineTag} />
        <span class="soft">{customer?.name ?? 'owner not known'}</span>
      </p>
      <h1>They said yes to: {optionWords(option, answer.inputs.parts)}</h1>
      <ProblemSummary problems={problems} labels={jobLabel} />
      <p>
        <VerdictMark verdict={option.verdict} />
      </p>
      <Promises {...props} />
      <Shelf {...props} />
      {touched.map((text) => (
        <p>{text}</p>
      ))}
      {answerId !== undefined && (
        <p class="soft">
          Price and promise are those of the answer of {figures.date(answer.at)}; its price is good until{' '}
          {validUntil}.
        </p>
      )}
      <form method="post" action={`${pathTo('questions', question.id)}/yes`}>
        <OnceKey />
        <input type="hidden" name="option" value={option.id} />
        {answerId !== undefined && <input type="hidden" name="answer" value={answerId} />}
        <Select
          name="fittedBy"
          label="Who fits it"
          choices={FITTERS.map((by) => [
            by,
            `${sayFitter(by)}, ${by === 'shop' ? priceWords(option, figures) : figures.money(agreedPrice(option.price, by))}`,
          ])}
          typed={typed}
          problems={problems}
        />
        <fieldset>
          <legend>A date, if there is one</legend>
          <BookFields typed={typed} problems={problems} />
        </fieldset>
        <Field name="note" label="Note" typed={typed} problems={problems} />
        <p class="does">
          <button class="button" type="submit">
            Agree it
          </button>
          <span class="soft">
            The answer is kept with its promise and price, the parts are put aside, and the checklist is made.
            It can be called off at any time before the parts are in.
          </span>
        </p>
      </form>
      <p>
        <a href={pathTo('questions', question.id)}>Back to the question</a>
      </p>
    </article>
  )
}

type Found = { readonly answer: Answer; readonly answerId: string | undefined; readonly chosen: Agreeable }

/** The answer that was named, or the one of now; a promise counts on numbers, so none is shown before they are there. */
async function answerFor({ uses }: Web, questionId: string, answerId?: string): Promise<Result<Answer>> {
  if (answerId !== undefined) {
    const kept = await uses.storedAnswer(answerId)
    return kept.ok ? ok(kept.value.answer) : kept
  }
  const now = await uses.questionView(questionId)
  if (!now.ok) return now
  const { answer, fitting } = now.value
  return fitting === undefined ? ok(answer) : failed(beingFitted(fitting))
}

export function jobYesRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  /** The answer with the option in it. */
  const find = async (questionId: string, optionId: string, answerId?: string): Promise<Result<Found>> => {
    const answer = await answerFor(web, questionId, answerId)
    if (!answer.ok) return answer
    const chosen = agreeable(answer.value, optionId)
    if (chosen !== undefined) return ok({ answer: answer.value, answerId, chosen })
    const next = 'This option is no longer among the ones for this question. Choose another.'
    return failed({ code: 'not found', field: 'option', got: optionId, next })
  }

  const show = (c: Context, found: Found, typed: Typed, problems: readonly Problem[]) => {
    const { shop, question } = found.answer.inputs
    const first = problems[0]
    return page(
      c,
      { title: `${question.machineTag}: yes`, place: 'Questions', demo: options.demo, shopName: shop.name },
      <YesForm {...found} figures={figuresOf(shop)} typed={typed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/questions/:id/yes', async (c) => {
    const found = await find(param(c, 'id'), c.req.query('option') ?? '', c.req.query('answer'))
    if (!found.ok) return stopped(c, web, found.problems)
    const closed = await uses.yesProblems(found.value.answer)
    if (closed.length > 0) return problemPage(c, web, closed, 'Questions')
    return show(c, found.value, new Map(), [])
  })

  app.post('/questions/:id/yes', async (c) => {
    const typed = typedOf(await readForm(c))
    const questionId = param(c, 'id')
    const found = await find(questionId, textOf(typed, 'option') ?? '', textOf(typed, 'answer'))
    if (!found.ok) return stopped(c, web, found.problems)
    const { answer, answerId, chosen } = found.value
    const reader = fieldReader(typed, readingFor(answer.inputs.shop))
    const fittedBy = reader.need('fittedBy', oneOf(FITTERS), 'Say who fits it.')
    const booking = bookingOf(reader, answer.inputs.shop.timeZone, false)
    const note = reader.read('note', line())
    if (fittedBy === undefined || reader.problems.length > 0)
      return show(c, found.value, typed, reader.problems)
    const agreed = await uses.agreeJob(questionId, chosen.option.id, { fittedBy, answerId, ...booking, note })
    if (!agreed.ok && isBeingFitted(agreed.problems)) return stopped(c, web, agreed.problems)
    if (!agreed.ok) return show(c, found.value, typed, agreed.problems)
    return c.redirect(pathTo('jobs', agreed.value.jobId), 303)
  })
}
