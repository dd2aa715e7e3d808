import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import { QUESTION_ROADS } from '../core/job/states.ts'
import { date, line } from '../input/cells.ts'
import { dayOf } from '../input/dates.ts'
import type { QuestionView } from '../uses/views.ts'
import { LIMIT_WORDS } from '../words/en/limits.ts'
import { CHANNEL_WORDS } from '../words/en/questionForm.ts'
import type { Figures } from '../words/figures.ts'
import { STATE_WORDS } from '../words/questionState.ts'
import { pathToChange } from './changeQuestion.tsx'
import { typedOf } from './form.tsx'
import { param, pathTo, readingFor, type Web } from './frame.ts'
import { pathToEnter } from './limits.tsx'
import { OnceKey } from './onceKey.tsx'
import { pathToAsk } from './ownerLink.tsx'
import { problemPage } from './problem.tsx'
import { Changed, QuestionHistory } from './questionHistory.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

type Props = { view: QuestionView; figures: Figures; timeZone: string; now: string }

const Step = ({ id, name, children }: { id: string; name: string; children: string }) => (
  <form method="post" action={`${pathTo('questions', id)}/${name}`}>
    <OnceKey />
    <button class="button quiet" type="submit">
      {children}
    </button>
  </form>
)

const Requests = ({ view, figures }: Props) => {
  const open = view.requests.filter(({ state }) => state === 'open')
  return open.length === 0 ? null : (
    <ul class="ruled">
      {open.map(({ id, machineTag, limitKey, askedAt }) => (
        <li>
          <b>{LIMIT_WORDS[limitKey].label}</b> <span class="soft">asked for {figures.date(askedAt)}</span>{' '}
          <a href={pathToEnter(machineTag, limitKey)}>
            Enter it<span class="unseen">: {LIMIT_WORDS[limitKey].label}</span>
          </a>{' '}
          <a href={pathToAsk(machineTag, limitKey, view.answer.inputs.question.id)}>
            The text for the owner<span class="unseen">: {LIMIT_WORDS[limitKey].label}</span>
          </a>
          <form method="post" action={`/requests/${id}/withdraw`} class="inline">
            <OnceKey />
            <button class="button quiet small" type="submit">
              Ask no longer<span class="unseen"> for {LIMIT_WORDS[limitKey].label}</span>
            </button>
          </form>
        </li>
      ))}
    </ul>
  )
}

/** How far the question is, what it waits for, when to look at it again, and what can be done with it now. */
export const Standing = (props: Props & { children: Child }) => {
  const { view, figures, timeZone, now } = props
  const { state, remindAt, soldOnAt, requests, answer } = view
  const { id, cameBy } = answer.inputs.question
  const roads = QUESTION_ROADS[state]
  const came = requests.filter((request) => request.state === 'answered')
  const isDue = remindAt !== undefined && dayOf(remindAt, timeZone) <= dayOf(now, timeZone)
  return (
    <section class="standing" aria-label="How far it is">
      <p class="line">
        <span class={`state ${state === 'waiting for the owner' ? 'waits' : ''}`}>{STATE_WORDS[state]}</span>
        {cameBy !== undefined && <span class="soft">came {CHANNEL_WORDS[cameBy]}</span>}
        {view.fixed === undefined && <a href={pathToChange(id)}>Change this question</a>}
        {remindAt !== undefined && (
          <span class={isDue ? 'due' : 'soft'}>
            {isDue ? 'due since' : 'look again on'} {figures.date(remindAt)}
          </span>
        )}
      </p>
      {soldOnAt !== undefined && (
        <p class="nothing" role="note">
          <b>Asked before {answer.inputs.machine.tag} was sold on</b>, on {figures.date(soldOnAt)}. It stays
          with the one who asked; the present owner sees nothing of it.
        </p>
      )}
      {state === 'new' && came.length > 0 && (
        <p class="arrived">
          <b>The missing thing arrived:</b>{' '}
          {came.map(({ limitKey }) => LIMIT_WORDS[limitKey].label).join(', ')}. This is the new answer.
        </p>
      )}
      <Changed view={view} figures={figures} />
      <Requests {...props} />
      {props.children}
      <details>
        <summary>Remind me, call it off, what happened so far</summary>
        <form method="post" action={`${pathTo('questions', id)}/remind`} class="form row">
          <div class="field">
            <label for="remind-on">Look at it again on</label>
            <input
              id="remind-on"
              name="remindOn"
              type="date"
              value={remindAt === undefined ? '' : dayOf(remindAt, timeZone)}
            />
          </div>
          <p class="actions">
            <button class="button quiet" type="submit">
              Set the day
            </button>
          </p>
        </form>
        {remindAt !== undefined && (
          <Step id={id} name="remind">
            Take the reminder away
          </Step>
        )}
        {roads['called off'] !== undefined && (
          <form method="post" action={`${pathTo('questions', id)}/call-off`} class="form row">
            <OnceKey />
            <div class="field">
              <label for="because">Why, if you like</label>
              <input id="because" name="because" type="text" autocomplete="off" />
            </div>
            <p class="actions">
              <button class="button quiet" type="submit">
                Call it off
              </button>
            </p>
          </form>
        )}
        <QuestionHistory view={view} figures={figures} />
      </details>
      {roads['taken up again'] !== undefined && (
        <Step id={id} name="take-up">
          Take it up again
        </Step>
      )}
    </section>
  )
}

export function standingRoutes(app: Hono, web: Web): void {
  const { uses } = web
  const back = (c: Context, result: Awaited<ReturnType<typeof uses.takeUpQuestion>>) =>
    result.ok
      ? c.redirect(pathTo('questions', result.value.id), 303)
      : problemPage(c, web, result.problems, 'Questions')

  app.post('/questions/:id/remind', async (c) => {
    const reader = fieldReader(typedOf(await readForm(c)), readingFor(await uses.shop()))
    const remindAt = reader.read('remindOn', date)
    if (reader.problems.length > 0) return problemPage(c, web, reader.problems, 'Questions')
    return back(c, await uses.remindOfQuestion(param(c, 'id'), remindAt))
  })
  app.post('/questions/:id/call-off', async (c) => {
    const reader = fieldReader(typedOf(await readForm(c)), readingFor(await uses.shop()))
    const because = reader.read('because', line())
    if (reader.problems.length > 0) return problemPage(c, web, reader.problems, 'Questions')
    return back(c, await uses.callOffQuestion(param(c, 'id'), because))
  })
  app.post('/questions/:id/take-up', async (c) => back(c, await uses.takeUpQuestion(param(c, 'id'))))
  app.post('/requests/:id/withdraw', async (c) => {
    const ended = await uses.withdrawRequest(param(c, 'id'))
    if (!ended.ok) return problemPage(c, web, ended.problems, 'Questions')
    const { tag, questionId } = ended.value
    return c.redirect(
      questionId === undefined ? pathTo('machines', tag) : pathTo('questions', questionId),
      303,
    )
  })
}
