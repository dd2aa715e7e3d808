import type { Hono } from 'hono'
import type { Child } from 'hono/jsx'
import type { LimitKey } from '../core/limits/limit.ts'
import type { BestLine, BestLines } from '../uses/answers/bestLines.ts'
import type { QuestionsView, Ready, ResumedLine } from '../uses/views.ts'
import { LIMIT_WORDS } from '../words/en/limits.ts'
import { WHY_EN } from '../words/en/why.ts'
import type { Figures } from '../words/figures.ts'
import { DayBlock } from './day.tsx'
import { ExportLink } from './exportLink.tsx'
import { ageText } from './facts.tsx'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { NextRunsBlock } from './nextRuns.tsx'
import { Find } from './pages.tsx'
import { QuestionLines } from './questionLines.tsx'
import { FIND_QUESTION, pathToQuestions } from './questionList.tsx'
import { SaidByOwners } from './saidByOwners.tsx'
import { isReady, Steps } from './steps.tsx'
import { comesAgain } from './waiting.tsx'

/** Three ways in, each one click away, for a shop that holds nothing yet. */
export const Start = ({ ready }: { ready: Ready }) => (
  <article class="card">
    <h1>Start here</h1>
    <p>Nothing is kept yet. There are three ways in.</p>
    <ol class="ways">
      <li>
        <h2>Bring a folder of tables</h2>
        <p>
          Machines, parts, prices and runs as CSV files, one table a file. A table may be left out. Nothing is
          kept unless every row can be read.
        </p>
        <p>
          <a class="button" href="/import">
            Choose the files
          </a>
        </p>
        <p class="soft">
          Or in a terminal: <code>npx stillfits import FOLDER</code>
        </p>
      </li>
      <li>
        <h2>Type the first machine</h2>
        <p>Its tag, what is fitted, and what you measured. What you leave empty counts as not known.</p>
        <p>
          <a class="button quiet" href="/machines/new">
            Add a machine
          </a>
        </p>
      </li>
      <li>
        <h2>Look at the demo shop</h2>
        <p>An invented shop with questions to answer, in a database of its own. Yours is left alone.</p>
        <p>
          In a terminal: <code id="demo-command">npm run demo</code>
        </p>
        <p>
          <button type="button" class="button quiet" data-copies="demo-command" data-tells="demo-told" hidden>
            Copy the command
          </button>{' '}
          <span id="demo-told" role="status" />
        </p>
      </li>
    </ol>
    <h2>What a first answer needs</h2>
    <Steps ready={ready} />
  </article>
)

type LineProps = {
  line: ResumedLine
  /** The answers in one line, by question. */
  best: BestLines
  now: string
  timeZone: string
  figures: Figures
}

const labels = (keys: readonly LimitKey[]): string =>
  [...new Set(keys.map((k) => LIMIT_WORDS[k].label))].join(', ')

const Waiting = ({ line, best, now, timeZone, figures }: LineProps) => (
  <li class="card ask">
    <p class="line">
      <Tag tag={line.machineTag} />
      <span class="soft">
        asked {ageText(line.askedAt, now, timeZone)}
        {line.customerName !== undefined && ` by ${line.customerName}`}
      </span>
      {line.remindAt !== undefined && <span class="due">due since {figures.date(line.remindAt)}</span>}
    </p>
    <h2>
      <a href={pathTo('questions', line.id)}>“{line.words}”</a>
    </h2>
    {line.state === 'new' && line.arrivedLimits.length > 0 && (
      <p class="arrived">
        <b>The missing thing arrived:</b> {labels(line.arrivedLimits)}.
        {line.answerLine !== undefined && ` ${line.answerLine}`}
        {line.isBeingFitted && ` ${WHY_EN.waiting.line}`}
      </p>
    )}
    {line.answerLine === undefined && <Best best={best.get(line.id)} />}
    {line.openLimits.length > 0 && <p>Waits for {labels(line.openLimits)}.</p>}
    <p class="soft">
      {[
        line.asks === 'what can I do' ? undefined : line.asks,
        line.asks === 'what can I do' || line.asks === 'will it run this'
          ? `wants ${figures.fps(line.targetFps)}`
          : undefined,
        line.budgetMinor === undefined ? undefined : `about ${figures.money(line.budgetMinor)}`,
        line.state === 'new' ? undefined : line.state,
      ]
        .filter((part) => part !== undefined)
        .join(' · ')}
    </p>
  </li>
)

const Best = ({ best }: { best: BestLine | undefined }) =>
  best === undefined ? null : (
    <p>
      <b>{best.isEarlier ? 'Best before the last change, being worked out anew:' : 'Best now:'}</b>{' '}
      {best.told}
    </p>
  )

type GroupProps = Omit<LineProps, 'line'> & {
  head: string
  lines: readonly LineProps['line'][]
  /** The list that holds those which are not shown here. */
  all: string
}

/** Questions of a group that stand on the first page; who has more looks at one after the other anyway. */
const SHOWN_OF_GROUP = 15

const Group = ({ head, lines, all, ...rest }: GroupProps) =>
  lines.length === 0 ? null : (
    <section>
      <h2 class="over">{head}</h2>
      <ul class="cards">
        {lines.slice(0, SHOWN_OF_GROUP).map((line) => (
          <Waiting line={line} {...rest} />
        ))}
      </ul>
      {lines.length > SHOWN_OF_GROUP && (
        <p>
          <a href={all}>
            All {rest.figures.number(lines.length)}: {head.toLowerCase()}
          </a>
        </p>
      )}
    </section>
  )

/** Looks through all questions, whatever their state. */
const FindQuestion = () => <Find action="/questions" label={FIND_QUESTION} query="" />

/** Nothing that the shop could do something about now. */
const isNothingOpen = ({ resumed, due, waiting }: QuestionsView): boolean =>
  resumed.length + due.length + waiting.length === 0

export const QuestionsBody = ({
  view,
  best,
  day,
  now,
  timeZone,
  figures,
}: {
  view: QuestionsView
  best: BestLines
  /** What is due beside them. */
  day?: Child
  now: string
  timeZone: string
  figures: Figures
}) => {
  const last = view.written[0]?.answeredAt
  const rest = { best, now, timeZone, figures }
  return (
    <>
      <div class="head">
        <h1>Questions</h1>
        <p class="line">
          {!view.emptyShop && <ExportLink table="questions" />}
          <a class="button" href="/questions/new">
            Take down a question
          </a>
        </p>
      </div>
      {isNothingOpen(view) && (
        <p class="card empty">
          No question waits.
          {last !== undefined && ` The last message was written on ${figures.date(last)}.`}
        </p>
      )}
      <SaidByOwners said={view.fromOwners} figures={figures} />
      {day}
      <Group
        head="The missing thing arrived"
        lines={view.resumed}
        all={pathToQuestions({ group: 'new' })}
        {...rest}
      />
      <Group head="Due today" lines={view.due} all={pathToQuestions({})} {...rest} />
      <Group head="Waiting" lines={view.waiting} all={pathToQuestions({ group: 'new' })} {...rest} />
      <Group
        head="Waiting for the owner"
        lines={view.asked}
        all={pathToQuestions({ group: 'asked' })}
        {...rest}
      />
      {!isReady(view.ready) && (
        <section class="card">
          <h2>Still needed</h2>
          <Steps ready={view.ready} />
        </section>
      )}
      {view.written.length > 0 && (
        <section class="card">
          <h2>Message written</h2>
          <QuestionLines lines={view.written} figures={figures} />
          {view.over.answered > view.written.length && (
            <p>
              <a href={pathToQuestions({ group: 'answered' })}>
                All {figures.number(view.over.answered)} answered questions
              </a>
            </p>
          )}
        </section>
      )}
      {!view.emptyShop && <FindQuestion />}
      {view.over.calledOff > 0 && (
        <p>
          <a href={pathToQuestions({ group: 'calledOff' })}>
            {view.over.calledOff === 1
              ? 'One question was called off'
              : `${figures.number(view.over.calledOff)} questions were called off`}
          </a>
        </p>
      )}
    </>
  )
}

/** Those that the shop could do something about now, as far as the first page shows them. */
const idsShown = ({ resumed, due, waiting }: QuestionsView): string[] =>
  [resumed, due, waiting].flatMap((lines) => lines.slice(0, SHOWN_OF_GROUP).map(({ id }) => id))

export function questionsRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.questions()])
    const frame = { place: 'Questions', demo: options.demo } as const
    if (view.emptyShop) return page(c, { ...frame, title: 'Start here' }, <Start ready={view.ready} />)
    const open = view.resumed.length + view.due.length + view.waiting.length
    const title = open === 0 ? 'Questions' : `Questions (${open})`
    const fitting = view.resumed.some((line) => line.isBeingFitted) ? await uses.fitUnderWay(0) : undefined
    if (fitting !== undefined) comesAgain(c, fitting)
    const figures = figuresOf(shop)
    const [day, next] = [await uses.day(), await uses.nextRuns()]
    const now = uses.now()
    const best = await uses.bestLines(idsShown(view))
    const body = (
      <>
        <QuestionsBody
          view={view}
          best={best}
          day={<DayBlock day={day} now={now} figures={figures} />}
          now={now}
          timeZone={shop.timeZone}
          figures={figures}
        />
        {view.ready.runs && <NextRunsBlock now={next} figures={figures} />}
      </>
    )
    return page(c, { ...frame, title, shopName: shop.name }, body)
  })
}
