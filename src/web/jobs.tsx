import type { Hono } from 'hono'
import type { JobLine, JobsView } from '../uses/jobs/jobViews.ts'
import type { Figures } from '../words/figures.ts'
import { figuresOf, type Web } from './frame.ts'
import { JobCards, JobLines } from './jobLines.tsx'
import { page } from './layout.tsx'

const Part = ({ head, lines, figures }: { head: string; lines: readonly JobLine[]; figures: Figures }) =>
  lines.length === 0 ? null : (
    <section class="card">
      <h2>{head}</h2>
      <JobLines lines={lines} figures={figures} />
    </section>
  )

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
        <Part head="Done lately" lines={done} figures={figures} />
        <Part head="Called off" lines={calledOff} figures={figures} />
      </div>
    </>
  )
}

export function jobsRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/jobs', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.jobs()])
    const title = view.due.length === 0 ? 'Jobs' : `Jobs (${view.due.length})`
    const frame = { title, place: 'Jobs', demo: options.demo, shopName: shop.name } as const
    return page(c, frame, <JobsBody view={view} figures={figuresOf(shop)} />)
  })
}
