import type { Context, Hono } from 'hono'
import type { Answer } from '../core/answer.ts'
import { isOver } from '../core/job/states.ts'
import type { Option } from '../core/ranking/option.ts'
import type { JobLine } from '../uses/jobs/jobViews.ts'
import type { QuestionMails } from '../uses/outbox/questionMails.ts'
import type { QuestionView } from '../uses/views.ts'
import { cautionsForOpening, sayCaution } from '../words/cautions.ts'
import { LETTER_WORDS } from '../words/en/questionForm.ts'
import { WHY_NOT_EN } from '../words/en/whyNot.ts'
import { optionWords, priceWords } from '../words/options.ts'
import { type Shown, shownOf } from './answerContext.ts'
import { AskedBlock } from './askedBlock.tsx'
import { FactsLine } from './facts.tsx'
import { FitFailed } from './fitFailed.tsx'
import { textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { JobLines } from './jobLines.tsx'
import { LaterList } from './later.tsx'
import { page } from './layout.tsx'
import { LimitSummary } from './limits.tsx'
import { LoweredList } from './lowered.tsx'
import { Tag } from './mark.tsx'
import { CheckFirstList, NeedsAFact, RuledOutList, WithoutNumber } from './notRanked.tsx'
import { OnceKey } from './onceKey.tsx'
import { OptionTable } from './optionTable.tsx'
import { Photos } from './ownerLink.tsx'
import { PaceOfAnswer } from './pace.tsx'
import { WhyNotPartByPart } from './partByPart.tsx'
import { LoadBar } from './pictures/load.tsx'
import { CostStair } from './pictures/stair.tsx'
import { TitleBars } from './pictures/titleBars.tsx'
import { problemPage } from './problem.tsx'
import { MailsOfQuestion } from './questionMails.tsx'
import { Standing } from './questionStanding.tsx'
import { readForm } from './readForm.ts'
import { RunsThatTell } from './runLink.tsx'
import { SpaceList } from './space.tsx'
import { BeingComputed, comesAgain, stopped } from './waiting.tsx'
import { pathToWhyNot } from './whyNot.tsx'
import { pathToYes } from './yesLink.tsx'

/** Nothing is to recommend before a fact is known: finding it out comes before all that is ranked. */
const isFactFirst = ({ ranking, inputs }: Answer): boolean =>
  ranking.bestPerMoneyId === undefined && ranking.needsAFact.length > 0 && inputs.question.wanted.length > 0

/** What stands in the table's place, or above it, where the ranking recommends nothing. */
const Nothing = ({ answer }: { answer: Answer }) => {
  const { ranking, inputs } = answer
  if (inputs.shelf.length === 0 && inputs.question.wanted.length > 0) {
    return (
      <p class="nothing">
        The shelf is empty, so nothing can be ranked. <a href="/shelf/new">Put on the shelf</a> what you can
        sell today, or <a href="/import">import shelf.csv</a>.
      </p>
    )
  }
  // Without titles there is nothing to rank by: what was asked by name is answered above.
  if (inputs.question.wanted.length === 0) return null
  const unranked = ranking.withoutNumber.length + ranking.needsAFact.length
  if (ranking.ranked.length === 0 && unranked > 0)
    return (
      <p class="nothing">
        Nothing on the shelf has a number for this machine yet. See below what would help.
      </p>
    )
  if (ranking.ranked.length === 0) {
    const count = ranking.ruledOut.length
    return (
      <p class="nothing">
        Nothing on the shelf fits this machine. {count} {count === 1 ? 'item was' : 'items were'} ruled out:{' '}
        <a href="#ruled-out">see why</a>.
      </p>
    )
  }
  if (isFactFirst(answer))
    return (
      <p class="nothing">Nothing that surely fits is worth the visit. A missing fact decides about more:</p>
    )
  if (ranking.bestPerMoneyId === undefined)
    return <p class="nothing">Nothing here is worth the visit. Doing nothing is an honest answer.</p>
  return null
}

/** How many titles reach the target; a title without a number is said to be unknown, never counted as missed. */
const reachText = ({ answer, lead }: Shown): string => {
  const { ranking, inputs } = answer
  const titles = inputs.question.wanted.length
  const unknown = ranking.today.filter((gain) => gain.grade === 'no number').length
  const of = `of ${titles} ${titles === 1 ? 'title' : 'titles'}`
  if (unknown === titles) return 'Nothing was measured on these parts, so today’s frame rates are not known.'
  const now = `Today ${ranking.titlesAtTargetToday} ${of} average the wanted rate${unknown === 0 ? '' : `; ${unknown} not measured`}.`
  return lead?.useful === undefined ? now : `${now} With this option: ${lead.titlesAtTarget} of ${titles}.`
}

const Games = ({ shown }: { shown: Shown }) => {
  const { answer, lead, figures } = shown
  const gains = lead?.gains ?? answer.ranking.today
  if (gains.length === 0) return null
  return (
    <section id="games">
      <h2>In the owner’s games</h2>
      {lead !== undefined && (
        <p>
          <b>{optionWords(lead, answer.inputs.parts)}</b>
        </p>
      )}
      <p>{reachText(shown)}</p>
      <TitleBars answer={answer} gains={gains} isToday={lead === undefined} figures={figures} />
      <RunsThatTell gains={gains} shown={shown} />
    </section>
  )
}

/** What was asked by name and without titles is answered above: the rest of the shelf is beside the question. */
const isShelfAsked = ({ answer }: Shown): boolean =>
  answer.asked === undefined || answer.inputs.question.wanted.length > 0

const Side = ({ shown }: { shown: Shown }) => {
  const { answer, lead, figures } = shown
  const hasLoad = lead?.findings.some((f) => f.rule === 'power.load' && typeof f.values.loadW === 'number')
  const cautions = lead === undefined ? [] : cautionsForOpening(lead.findings.flatMap((f) => f.cautions))
  return (
    <aside class="card" aria-label="This machine">
      <h2>What this board can take</h2>
      <LimitSummary limits={answer.limits} figures={figures} />
      {hasLoad && (
        <>
          <h2>Load against rating</h2>
          <LoadBar findings={lead?.findings ?? []} figures={figures} />
        </>
      )}
      {isShelfAsked(shown) && <RuledOutList shown={shown} />}
      {cautions.length > 0 && (
        <>
          <h2>Before hands go in</h2>
          <ul>
            {cautions.map((id) => (
              <li>{sayCaution(id).long}</li>
            ))}
          </ul>
        </>
      )}
    </aside>
  )
}

const Earlier = ({
  earlier,
  shown,
}: {
  earlier: readonly QuestionView['earlier'][number][]
  shown: Shown
}) => (
  <section>
    <h2>Answers written before</h2>
    <ul class="ruled">
      {earlier.map(({ answerId, at, messageId }) => (
        <li class="line">
          <a href={pathTo('answers', answerId)}>Answer of {shown.figures.date(at)}</a>
          {messageId !== undefined && <a href={pathTo('messages', messageId)}>its message</a>}
        </li>
      ))}
    </ul>
  </section>
)

/** One missing fact decides whether it fits, so it cannot be agreed yet. */
const isOpen = ({ answer }: Shown, { id }: Option): boolean =>
  answer.ranking.needsAFact.some((option) => option.id === id)

/** What can be done with the answer, right above the options: on a phone nobody scrolls past them to write it. */
const Write = ({ shown }: { shown: Shown }) => {
  const { lead, answer, figures } = shown
  const { question, parts, machine } = answer.inputs
  return (
    <form method="post" action={`${pathTo('questions', question.id)}/message`} id="write">
      <OnceKey />
      {lead !== undefined && (
        <>
          <input type="hidden" name="optionId" value={lead.id} />
          <p>
            {LETTER_WORDS.recommends} <b>{optionWords(lead, parts)}</b>, {priceWords(lead, figures)}.
          </p>
        </>
      )}
      <p class="actions">
        <button class="button" type="submit">
          Write the answer
        </button>
        {lead !== undefined && !shown.isTaken && !isOpen(shown, lead) && (
          <a class="button quiet" href={pathToYes(question.id, lead)}>
            They said yes
          </a>
        )}
        <a class="button quiet" href={pathTo('machines', machine.tag)}>
          Open machine {machine.tag}
        </a>
      </p>
    </form>
  )
}

const Kept = ({ shown, messageId }: { shown: Shown; messageId: string | undefined }) => {
  const { answer, figures } = shown
  const { facts, rules, gain, ranking } = answer.versions
  return (
    <section class="kept">
      <p>
        <b>Kept as it was on {figures.date(answer.at)}.</b> Prices, parts and runs are those of that day.{' '}
        <small class="num">
          {facts}, rules {rules}, gain {gain}, ranking {ranking}
        </small>
      </p>
      <p class="actions">
        {messageId !== undefined && (
          <a class="button" href={pathTo('messages', messageId)}>
            Open its message
          </a>
        )}
        <a class="button quiet" href={pathTo('questions', answer.inputs.question.id)}>
          Answer it as things are now
        </a>
      </p>
    </section>
  )
}

type Mode =
  | {
      readonly now: true
      readonly view: QuestionView
      readonly mails: QuestionMails
      readonly earlier: readonly QuestionView['earlier'][number][]
    }
  | { readonly now: false; readonly messageId: string | undefined }

type BodyProps = {
  shown: Shown
  mode: Mode
  jobs: readonly JobLine[]
  clock: { readonly now: string; readonly timeZone: string }
}

const AnswerBody = ({ shown, mode, jobs, clock }: BodyProps) => {
  const { answer, figures } = shown
  const { question, customer, titles, settings } = answer.inputs
  // The page comes again by itself meanwhile, so there is no form on it: what was typed would be lost.
  const fitting = mode.now ? mode.view.fitting : undefined
  return (
    <div class="two">
      <article class="card">
        <p class="line">
          <Tag tag={question.machineTag} />
          <span class="soft">
            asked {figures.date(question.askedAt)}
            {customer !== undefined && ` by ${customer.name}`}
          </span>
        </p>
        <h1>“{question.words}”</h1>
        <FactsLine question={question} titles={titles} settings={settings} figures={figures} />
        {mode.now && <Photos photos={mode.view.photos} of={question.id} />}
        {jobs.length > 0 && <JobLines lines={jobs} onPageOf={question.machineTag} figures={figures} />}
        {!mode.now && <Kept shown={shown} messageId={mode.messageId} />}
        <FitFailed inputs={answer.inputs} />
        {fitting !== undefined && <BeingComputed of={fitting} figures={figures} />}
        {mode.now && fitting === undefined && (
          <Standing view={mode.view} figures={figures} {...clock}>
            <MailsOfQuestion of={mode.mails} view={mode.view} figures={figures} />
          </Standing>
        )}
        <AskedBlock
          shown={shown}
          mayAgree={
            mode.now &&
            !shown.isTaken &&
            jobs.every(({ state, mayBeJoined }) => state === 'called off' || mayBeJoined)
          }
        />
        {answer.asked !== undefined && question.wanted.length > 0 && <h2>What the shelf can do</h2>}
        <Nothing answer={answer} />
        {isFactFirst(answer) && <NeedsAFact shown={shown} />}
        <LoweredList shown={shown} />
        <LaterList shown={shown} />
        <SpaceList shown={shown} />
        {mode.now && fitting === undefined && <Write shown={shown} />}
        {answer.ranking.ranked.length > 0 && <OptionTable shown={shown} />}
        <WhyNotPartByPart shown={shown} />
        <Games shown={shown} />
        <PaceOfAnswer answer={answer} figures={figures} />
        {answer.ranking.ranked.length > 0 && (
          <section>
            <h2>Cost against gain</h2>
            <CostStair answer={answer} figures={figures} />
          </section>
        )}
        {mode.now && question.wanted.length > 0 && (
          <p>
            <a href={pathToWhyNot(question.id)}>{WHY_NOT_EN.open}</a>
          </p>
        )}
        {question.wanted.length > 0 && <WithoutNumber shown={shown} />}
        {question.wanted.length > 0 && !isFactFirst(answer) && <NeedsAFact shown={shown} />}
        {isShelfAsked(shown) && <CheckFirstList shown={shown} />}
        {mode.now && mode.earlier.length > 0 && <Earlier earlier={mode.earlier} shown={shown} />}
      </article>
      <Side shown={shown} />
    </div>
  )
}

const TITLE_MAX = 60

export function questionRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = async (c: Context, answer: Answer, path: string, mode: Mode, answerId?: string) => {
    const { shop, question } = answer.inputs
    const jobs = await uses.jobsOfQuestion(question.id)
    const isClosed = mode.now && (mode.view.soldOnAt !== undefined || mode.view.fitting !== undefined)
    const shown = {
      ...shownOf(answer, figuresOf(shop), path, c.req.query('option'), answerId),
      isWhole: c.req.query('all') === 'yes',
      isTaken: isClosed || jobs.some(({ state, mayBeJoined }) => !isOver(state) && !mayBeJoined),
    }
    const words = question.words.slice(0, TITLE_MAX)
    const title = `${question.machineTag}: ${words}${words.length < question.words.length ? '…' : ''}`
    return page(
      c,
      { title, place: 'Questions', demo: options.demo, shopName: shop.name },
      <AnswerBody
        shown={shown}
        mode={mode}
        jobs={jobs}
        clock={{ now: uses.now(), timeZone: shop.timeZone }}
      />,
    )
  }

  app.get('/questions/:id', async (c) => {
    const view = await uses.questionView(param(c, 'id'))
    if (!view.ok) return stopped(c, web, view.problems)
    const { answer, earlier, fitting } = view.value
    if (fitting !== undefined) comesAgain(c, fitting)
    return show(c, answer, pathTo('questions', answer.inputs.question.id), {
      now: true,
      view: view.value,
      mails: await uses.questionMails(answer.inputs.question.id),
      earlier,
    })
  })

  app.post('/questions/:id/message', async (c) => {
    const optionId = textOf(typedOf(await readForm(c)), 'optionId')
    const message = await uses.prepareMessage(param(c, 'id'), optionId)
    if (!message.ok) return stopped(c, web, message.problems)
    return c.redirect(pathTo('messages', message.value.messageId), 303)
  })

  app.get('/answers/:id', async (c) => {
    const id = param(c, 'id')
    const stored = await uses.storedAnswer(id)
    if (!stored.ok) return problemPage(c, web, stored.problems, 'Questions')
    const { answer, messageId } = stored.value
    return show(c, answer, pathTo('answers', id), { now: false, messageId }, id)
  })
}
