import type { Context, Hono } from 'hono'
import { failed, ok, type Problem, type Result, STATUS_OF } from '../problem.ts'
import { questionMark } from '../uses/changeQuestion.ts'
import type { TitlesTested } from '../uses/titlesTested.ts'
import type { Known, QuestionView } from '../uses/views.ts'
import type { Figures } from '../words/figures.ts'
import { changedQuestionOf, typedFromQuestion } from './changeForm.ts'
import { FirstSubmit, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { QuestionBody } from './questionBody.tsx'
import { questionLabel, ROWS_MAX, withTitles } from './questionForm.ts'
import { WhatWasFilled } from './questionTitles.tsx'
import { readForm } from './readForm.ts'
import { stopped } from './waiting.tsx'

export const pathToChange = (questionId: string): string => `${pathTo('questions', questionId)}/change`

type Props = {
  view: QuestionView
  known: Known
  typed: Typed
  problems: readonly Problem[]
  oneMore: boolean
  filled?: TitlesTested | undefined
  /** The form stands as the question was until then. */
  asUntil?: string | undefined
}

/** What becomes of what was told already. */
const Told = ({ view, figures }: { view: QuestionView; figures: Figures }) => {
  const [newest] = view.earlier
  return newest === undefined ? null : (
    <p class="nothing" role="note">
      <b>An answer was kept on {figures.date(newest.at)}.</b> It stays as it was told. Once you save, a new
      one is worked out
      {view.state === 'answered' ? ', and the question waits for it again' : ''}.
    </p>
  )
}

const ChangeForm = ({ view, known, typed, problems, oneMore, asUntil, filled }: Props) => {
  const { question, shop } = view.answer.inputs
  const figures = figuresOf(shop)
  const { titles, settings } = known
  const { currency } = shop.policy
  return (
    <form method="post" action={pathToChange(question.id)} class="card form asking">
      <FirstSubmit value="save" />
      <input type="hidden" name="seen" value={questionMark(question)} />
      <p class="line">
        <Tag tag={question.machineTag} />
        <span class="soft">asked {figures.date(question.askedAt)}</span>
      </p>
      <h1>Change this question</h1>
      <ProblemSummary
        problems={problems}
        labels={(field) => (field === 'question' ? 'This question' : questionLabel(field))}
      />
      <Told view={view} figures={figures} />
      {asUntil !== undefined && (
        <p class="kept" role="status">
          <b>Filled in as it was until {figures.date(asUntil)}.</b> Nothing is changed before you save.
        </p>
      )}
      <WhatWasFilled filled={filled} />
      <QuestionBody {...{ titles, settings, currency, typed, problems, oneMore }} by="shop" canFill />
      <p class="actions">
        <button class="button" type="submit" name="do" value="save">
          Save and answer it anew
        </button>
        <a href={pathTo('questions', question.id)}>Leave it as it is</a>
      </p>
      <p class="hint">What it asked until now stays in its history, so a change can be taken back.</p>
    </form>
  )
}

/** What a question asks is changed here, until it is agreed. */
export function changeQuestionRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const find = async (c: Context): Promise<Result<QuestionView>> => {
    const view = await uses.questionView(param(c, 'id'))
    if (!view.ok) return view
    return view.value.fixed === undefined ? ok(view.value) : failed(view.value.fixed)
  }

  const show = async (c: Context, props: Omit<Props, 'known'>) => {
    const { shop, question } = props.view.answer.inputs
    const title = `${question.machineTag}: change the question`
    return page(
      c,
      { title, place: 'Questions', demo: options.demo, shopName: shop.name },
      <ChangeForm {...props} known={await uses.known()} />,
      props.problems[0] === undefined ? 200 : STATUS_OF[props.problems[0].code],
    )
  }

  app.get('/questions/:id/change', async (c) => {
    const found = await find(c)
    if (!found.ok) return stopped(c, web, found.problems)
    const { question, shop } = found.value.answer.inputs
    const edit = found.value.edits.find(({ id }) => id === c.req.query('was'))
    const typed = typedFromQuestion(edit?.was ?? question, figuresOf(shop).minorDigits)
    return show(c, { view: found.value, typed, problems: [], oneMore: false, asUntil: edit?.at })
  })

  app.post('/questions/:id/change', async (c) => {
    const found = await find(c)
    if (!found.ok) return stopped(c, web, found.problems)
    const { question, shop } = found.value.answer.inputs
    const typed = typedOf(await readForm(c))
    const shown = { view: found.value, typed, problems: [], oneMore: false }
    if (typed.get('do')?.[0] === 'more') return show(c, { ...shown, oneMore: true })
    if (typed.get('do')?.[0] === 'tested') {
      const tested = await uses.titlesTested(question.machineTag, ROWS_MAX)
      return tested.ok
        ? show(c, { ...shown, typed: withTitles(typed, tested.value.wanted), filled: tested.value })
        : show(c, { ...shown, problems: tested.problems })
    }
    const read = changedQuestionOf(question, typed, readingFor(shop))
    const saved = read.ok ? await uses.changeQuestion(question.id, read.value, textOf(typed, 'seen')) : read
    if (!saved.ok) return show(c, { ...shown, problems: saved.problems })
    return c.redirect(pathTo('questions', saved.value.id), 303)
  })
}
