import type { Hono } from 'hono'
import type { JobLine, JobsView } from '../uses/jobs/jobViews.ts'
import type { Figures } from '../words/figures.ts'
import { figuresOf, type Web } from './frame.ts'
import { JobCards, JobLines } from './jobLines.tsx'
import { page } from './layout.tsx'
import { askedOf, listPath, Pages } from './pages.tsx'

const Part = ({ head, lines, figures }: { head: string; lines: readonly JobLine[]; figures: Figures }) =>
  lines.length === 0 ? null : (
    <section class="card">
      <h2>{head}</h2>
      <JobLines lines={lines} figures={figures} />
    </section>
  )

/** Jobs that are over, of which there are many; the others are what a bench has under way. */
const OVER = { done: 'Done lately', calledOff: 'Called off' } as const
type Over = keyof typeof OVER
const SHOWN = 20
const JOBS_A_PAGE = 50

const pathToOver = (over: Over, at = 1): string => listPath('/jobs', { all: over, page: at })

/** The latest of those that are over, with the way to all of them. */
const Lately = ({ over, lines, figures }: { over: Over; lines: readonly JobLine[]; figures: Figures }) =>
  lines.length === 0 ? null : (
    <section class="card">
      <h2>{OVER[over]}</h2>
      <JobLines lines={lines.slice(0, SHOWN)} figures={figures} />
      {lines.length > SHOWN && (
        <p>
          <a href={pathToOver(over)}>
            All {figures.number(lines.length)}: {OVER[over].toLowerCase()}
          </a>
        </p>
      )}
    </section>
  )

/** All that are over, a page at a time. */
const AllOver = (props: { over: Over; lines: readonly JobLine[]; at: number; figures: Figures }) => {
  const { over, lines, at, figures } = props
  return (
    <>
      <div class="head">
        <h1>{OVER[over]}</h1>
        <p class="line">
          <a href="/jobs">All jobs</a>
        </p>
      </div>
      <section class="card">
        {lines.length === 0 ? (
          <p>None within the last 60 days.</p>
        ) : (
          <JobLines lines={lines.slice((at - 1) * JOBS_A_PAGE, at * JOBS_A_PAGE)} figures={figures} />
        )}
        <Pages
          of="jobs"
          {...{ page: at, total: lines.length, most: JOBS_A_PAGE, figures }}
          to={(to) => pathToOver(over, to)}
        />
      </section>
    </>
  )
}

const JobsBody = ({ view, figures }: { view: JobsView; figures: Figures }) => {
  const { due, booked, agreed, bench, untold, done, calledOff } = view
  const open = [due, booked, agreed, bench, untold].some((lines) => lines.length > 0)
  return (
    <>
      <div class="head">
        <h1>Jobs</h1>
      </div>
      {due.length > 0 ? (
        <section>
          <h2 class="over">Today and overdue</h2>
          <JobCards lines={due} figures={figures} />
        </section>
      ) : (
        <p class="card empty">
          {open ? (
            'Nothing is due today.'
          ) : (
            <>
              No job is open. A job begins with a yes: open <a href="/">a question</a>, choose an option, and
              press “They said yes”.
            </>
          )}
        </p>
      )}
      <div class="stack">
        <Part head="Booked" lines={booked} figures={figures} />
        <Part head="Agreed, without a date" lines={agreed} figures={figures} />
        <Part head="On the bench" lines={bench} figures={figures} />
        <Part head="Done, and the owner not told yet" lines={untold} figures={figures} />
        <Lately over="done" lines={done} figures={figures} />
        <Lately over="calledOff" lines={calledOff} figures={figures} />
      </div>
    </>
  )
}

export function jobsRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/jobs', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.jobs()])
    const title = view.due.length === 0 ? 'Jobs' : `Jobs (${view.due.length})`
    const frame = { title, place: 'Jobs', demo: options.demo, shopName: shop.name } as const
    const figures = figuresOf(shop)
    const over = (Object.keys(OVER) as Over[]).find((one) => one === c.req.query('all'))
    if (over === undefined) return page(c, frame, <JobsBody view={view} figures={figures} />)
    const shown = { over, lines: view[over], at: askedOf(c).page, figures }
    return page(c, { ...frame, title: OVER[over] }, <AllOver {...shown} />)
  })
}
