import type { Hono } from 'hono'
import type { QuestionState } from '../core/job/states.ts'
import type { QuestionList } from '../uses/views.ts'
import type { Figures } from '../words/figures.ts'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { type Asked, askedOf, Find, listPath, Pages, pieceAt } from './pages.tsx'
import { QuestionLines } from './questionLines.tsx'

/** How the list of all questions is parted. */
const GROUPS = {
  new: ['new'],
  asked: ['waiting for the owner'],
  answered: ['answered'],
  calledOff: ['called off'],
} as const satisfies Readonly<Record<string, readonly QuestionState[]>>
type Group = keyof typeof GROUPS

const ALL: readonly QuestionState[] = Object.values(GROUPS).flat()

const HEADS: Readonly<Record<Group, string>> = {
  new: 'Waiting',
  asked: 'Waiting for the owner',
  answered: 'Answered',
  calledOff: 'Called off',
}

export const FIND_QUESTION = 'Words, tag, owner or number'

const QUESTIONS_A_PAGE = 50

const groupOf = (text: string | undefined): Group | undefined =>
  (Object.keys(GROUPS) as Group[]).find((group) => group === text)

export const pathToQuestions = (asked: {
  readonly group?: Group | undefined
  readonly q?: string | undefined
  readonly page?: number | undefined
}): string => listPath('/questions', asked)

type Props = { found: QuestionList; asked: Asked; group: Group | undefined; figures: Figures }

const List = ({ found: { lines, total, counts }, asked: { query, page: at }, group, figures }: Props) => {
  const countOf = (states: readonly QuestionState[]) => states.reduce((n, state) => n + counts[state], 0)
  return (
    <>
      <div class="head">
        <h1>All questions</h1>
        <p class="line">
          <a class="button" href="/questions/new">
            Take down a question
          </a>
        </p>
      </div>
      <Find action="/questions" label={FIND_QUESTION} query={query} keeps={{ group }} />
      <nav aria-label="Questions by how far they are" class="groups">
        <a href={pathToQuestions({ q: query })} aria-current={group === undefined ? 'page' : undefined}>
          All <span class="soft">{figures.number(countOf(ALL))}</span>
        </a>
        {(Object.keys(GROUPS) as Group[]).map((name) => (
          <a
            href={pathToQuestions({ group: name, q: query })}
            aria-current={name === group ? 'page' : undefined}
          >
            {HEADS[name]} <span class="soft">{figures.number(countOf(GROUPS[name]))}</span>
          </a>
        ))}
      </nav>
      <section class="card">
        <h2>{group === undefined ? 'All' : HEADS[group]}</h2>
        {total === 0 ? (
          <p>{query === '' ? 'No question is that far.' : `No question matches “${query}”.`}</p>
        ) : (
          <>
            {query !== '' && (
              <p class="soft" role="status">
                {total === 1 ? 'One question matches' : `${figures.number(total)} questions match`} “{query}”
              </p>
            )}
            <QuestionLines lines={lines} figures={figures} />
          </>
        )}
        <Pages
          of="questions"
          {...{ page: at, total, most: QUESTIONS_A_PAGE, figures }}
          to={(to) => pathToQuestions({ group, q: query, page: to })}
        />
      </section>
      <p>
        <a href="/">What waits today</a>
      </p>
    </>
  )
}

/** Every question, found by words and by how far it is, a page at a time. */
export function questionListRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/questions', async (c) => {
    const asked = askedOf(c)
    const group = groupOf(c.req.query('group'))
    const states = group === undefined ? ALL : GROUPS[group]
    const [shop, found] = await Promise.all([
      uses.shop(),
      uses.questionList({ states, query: asked.query, ...pieceAt(asked.page, QUESTIONS_A_PAGE) }),
    ])
    return page(
      c,
      { title: 'All questions', place: 'Questions', demo: options.demo, shopName: shop.name },
      <List found={found} asked={asked} group={group} figures={figuresOf(shop)} />,
    )
  })
}
