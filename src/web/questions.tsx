import type { Hono } from 'hono'
import type { Figures } from '../words/figures.ts'
import { ageText } from './facts.tsx'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { titleName } from './settingText.ts'
import type { QuestionLine, QuestionsView } from './webUses.ts'

/** Three ways in, each one click away, for a shop that holds nothing yet. */
export const Start = () => (
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
          Or in a terminal: <code>npm run stillfits import FOLDER</code>
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
          <button
            type="button"
            class="button quiet"
            data-copies="demo-command"
            data-tells="demo-told"
            hidden
          >
            Copy the command
          </button>{' '}
          <span id="demo-told" role="status" />
        </p>
      </li>
    </ol>
  </article>
)

const titlesOf = (line: QuestionLine, view: QuestionsView): string =>
  line.question.wanted.map((w) => titleName(view.titles, w.titleId)).join(', ')

const Waiting = ({ line, view, figures }: { line: QuestionLine; view: QuestionsView; figures: Figures }) => {
  const { question, owner } = line
  return (
    <li class="card ask">
      <p class="line">
        <Tag tag={question.machineTag} />
        <span class="soft">
          asked {ageText(question.askedAt, view.now)}
          {owner !== undefined && ` by ${owner.name}`}
        </span>
      </p>
      <h2>
        <a href={pathTo('questions', question.id)}>“{question.words}”</a>
      </h2>
      <p class="soft">
        {titlesOf(line, view)} · wants {figures.fps(question.targetFps)}
        {question.budgetMinor === undefined
          ? ' · no budget given'
          : ` · about ${figures.money(question.budgetMinor)}`}
      </p>
    </li>
  )
}

/** Answered questions of one list, newest first as given. */
export const Answered = ({ lines, figures }: { lines: readonly QuestionLine[]; figures: Figures }) => (
  <ul class="ruled">
    {lines.map(({ question, owner, answeredAt, answerId }) => (
      <li class="line">
        <Tag tag={question.machineTag} />
        <a href={pathTo('questions', question.id)}>“{question.words}”</a>
        <span class="soft">
          {owner !== undefined && `${owner.name}, `}
          {answeredAt === undefined ? (
            `asked ${figures.date(question.askedAt)}, waiting`
          ) : answerId === undefined ? (
            `answered ${figures.date(answeredAt)}`
          ) : (
            <a href={pathTo('answers', answerId)}>answered {figures.date(answeredAt)}</a>
          )}
        </span>
      </li>
    ))}
  </ul>
)

export const QuestionsBody = ({ view, figures }: { view: QuestionsView; figures: Figures }) => {
  const last = view.answered[0]?.answeredAt
  return (
    <>
      <div class="head">
        <h1>Questions</h1>
        <a class="button" href="/questions/new">
          Take down a question
        </a>
      </div>
      {view.waiting.length === 0 ? (
        <p class="card empty">
          No question waits.{last !== undefined && ` The last one was answered on ${figures.date(last)}.`}
        </p>
      ) : (
        <ul class="cards">
          {view.waiting.map((line) => (
            <Waiting line={line} view={view} figures={figures} />
          ))}
        </ul>
      )}
      {view.answered.length > 0 && (
        <section class="card">
          <h2>Answered</h2>
          <Answered lines={view.answered} figures={figures} />
        </section>
      )}
    </>
  )
}

export function questionsRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.questions()])
    const frame = { place: 'Questions', demo: options.demo } as const
    if (view.emptyShop) return page(c, { ...frame, title: 'Start here' }, <Start />)
    const title = view.waiting.length === 0 ? 'Questions' : `Questions (${view.waiting.length})`
    const body = <QuestionsBody view={view} figures={figuresOf(shop)} />
    return page(c, { ...frame, title, shopName: shop.name }, body)
  })
}
