import type { Context, Hono } from 'hono'
import type { Result } from '../problem.ts'
import type { WhyView } from '../uses/gain/whyNumber.ts'
import { WHY_EN } from '../words/en/why.ts'
import { optionWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { shownOf } from './answerContext.ts'
import { FitFailed } from './fitFailed.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { PATIENCE_MS, stopped, waitingPage } from './waiting.tsx'
import { TitleWhole } from './why/title.tsx'
import type { Told } from './why/told.tsx'
import { EndsByRuns, HandsIn, PriceAndRules, UsefulText } from './why.tsx'

const W = WHY_EN

const WhyBody = ({ told, back }: { told: Told; back: string }) => {
  const { answer, option, whys } = told.view
  const { machine, parts } = answer.inputs
  const shown = shownOf(answer, told.figures, back, option.id)
  return (
    <>
      <p>
        <a href={back}>{W.back}</a>
      </p>
      <h1>{W.head}</h1>
      <p>
        <b>{fill(W.of, { option: optionWords(option, parts), tag: machine.tag })}</b>
      </p>
      <FitFailed inputs={answer.inputs} />
      <PriceAndRules option={option} shown={shown} />
      {option.useful !== undefined && (
        <section class="card why-title">
          <h2>{W.together}</h2>
          <UsefulText option={option} shown={shown} />
        </section>
      )}
      {option.gains.map((gain, i) => (
        <TitleWhole gain={gain} why={whys[i]} told={told}>
          {whys[i] === undefined && <EndsByRuns gain={gain} shown={shown} />}
        </TitleWhole>
      ))}
      <HandsIn option={option} />
      {answer.inputs.gain !== undefined && <p class="soft">{W.method}</p>}
    </>
  )
}

export function whyRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = (c: Context, found: Result<WhyView>, back: string) => {
    if (!found.ok) return stopped(c, web, found.problems)
    const { answer } = found.value
    const { shop, machine } = answer.inputs
    const title = `${W.head} ${machine.tag}`
    return page(
      c,
      { title, place: 'Questions', demo: options.demo, shopName: shop.name },
      <WhyBody told={{ view: found.value, figures: figuresOf(shop) }} back={back} />,
    )
  }
  app.get('/questions/:id/why', async (c) => {
    const id = param(c, 'id')
    const fitting = await uses.fitUnderWay(PATIENCE_MS)
    if (fitting !== undefined) return waitingPage(c, web, fitting)
    return show(c, await uses.whyOfQuestion(id, c.req.query('option')), pathTo('questions', id))
  })
  app.get('/answers/:id/why', async (c) => {
    const id = param(c, 'id')
    return show(c, await uses.whyOfAnswer(id, c.req.query('option')), pathTo('answers', id))
  })
}
