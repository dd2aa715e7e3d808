import type { Context, Hono } from 'hono'
import { email, line } from '../input/cells.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { MachineBook } from '../uses/jobs/jobViews.ts'
import type { MachineView } from '../uses/views.ts'
import { CUSTOMER_EN } from '../words/en/customer.ts'
import type { Figures } from '../words/figures.ts'
import { sayWarranty } from '../words/job.ts'
import { fill } from '../words/say.ts'
import { Field, ProblemSummary, type Typed, typedOf } from './form.tsx'
import { param, pathTo, readingFor, type Web } from './frame.ts'
import { jobLabel } from './jobForm.ts'
import { JobLines } from './jobLines.tsx'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { settingName, titleName } from './settingText.ts'
import { fieldReader } from './typed.ts'

const Warranties = ({ view, book, figures, now }: BookProps) => {
  const inside = new Set(view.history.flatMap((s) => (s.removedAt === undefined ? [s.part.id] : [])))
  const nameOf = (id: string) => view.history.find(({ part }) => part.id === id)?.part.name ?? id
  const said = (list: MachineBook['warranties']) => [
    ...new Set(list.map((w) => sayWarranty(w, nameOf(w.partId), figures))),
  ]
  const running = said(book.warranties.filter((w) => inside.has(w.partId) && w.until > now))
  const over = said(book.warranties.filter((w) => !inside.has(w.partId) || w.until <= now))
  if (running.length + over.length === 0) return null
  return (
    <>
      <h2>Warranty</h2>
      {running.length > 0 && (
        <ul>
          {running.map((text) => (
            <li>{text}</li>
          ))}
        </ul>
      )}
      {over.length > 0 && (
        <details>
          <summary>Of parts that came out, or over</summary>
          <ul>
            {over.map((text) => (
              <li>{text}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}

type BookProps = { view: MachineView; book: MachineBook; figures: Figures; now: string }

/** Jobs, warranties, what owners said, and who owned the machine. */
export const MachineBookParts = (props: BookProps) => {
  const { view, book, figures } = props
  const { tag } = view.machine
  return (
    <>
      {book.jobs.length > 0 && (
        <>
          <h2>Its jobs</h2>
          <JobLines lines={book.jobs} onPageOf={tag} figures={figures} />
        </>
      )}
      <Warranties {...props} />
      {book.reports.length > 0 && (
        <>
          <h2>What owners said they measured</h2>
          <p class="soft">Kept apart: no answer counts with it.</p>
          <ul class="ruled">
            {book.reports.map((r) => (
              <li>
                {titleName(view.titles, r.titleId)}: {figures.fps(r.averageFps)}
                <small class="block">
                  {settingName(view.settings, r.settingId)}; {figures.date(r.at)}
                  {r.note !== undefined && `; ${r.note}`}
                </small>
              </li>
            ))}
          </ul>
        </>
      )}
      <h2>Whose it is</h2>
      {book.formerOwners.length > 0 && (
        <ul>
          {book.formerOwners.map(({ id, name = 'an owner nobody wrote down', until }) => (
            <li>
              {id === undefined ? name : <a href={pathTo('customers', id)}>{name}</a>} until{' '}
              {figures.date(until)}
            </li>
          ))}
        </ul>
      )}
      {view.partedAt !== undefined && (
        <div class="nothing">
          <p>
            <b>{fill(CUSTOMER_EN.partedSince, { date: figures.date(view.partedAt) })}</b> {CUSTOMER_EN.parted}
          </p>
          <form method="post" action={`${pathTo('machines', tag)}/parting/back`}>
            <p class="actions">
              <a class="button quiet" href={`${pathTo('machines', tag)}/owner`}>
                {CUSTOMER_EN.writeDown}
              </a>
              <button class="button quiet" type="submit">
                {CUSTOMER_EN.stillTheirs}
              </button>
            </p>
          </form>
        </div>
      )}
      <p>
        {view.owner === undefined ? (
          'The owner is not known'
        ) : (
          <a href={pathTo('customers', view.owner.id)}>{view.owner.name}</a>
        )}{' '}
        now. <a href={`${pathTo('machines', tag)}/owner`}>It was sold on</a>
      </p>
    </>
  )
}

const OwnerForm = (props: { view: MachineView; typed: Typed; problems: readonly Problem[] }) => {
  const { view, typed, problems } = props
  const { tag } = view.machine
  return (
    <article class="card form">
      <p class="line">
        <Tag tag={tag} />
        <span class="soft">{view.owner?.name ?? 'owner not known'}</span>
      </p>
      <h1>{tag} was sold on</h1>
      <ProblemSummary problems={problems} labels={jobLabel} />
      <p>
        <b>Stays with the machine:</b> what is in it, its limits, history, runs, warranties and note.
      </p>
      <p>
        <b>Does not go along:</b> name, address and consent of the owner so far, and the link to its page.
        What was asked so far stays with the one who asked: what is not answered yet is called off, and
        nothing more is asked of the owner so far.
      </p>
      {view.note !== undefined && (
        <p>
          Its note says: “{view.note}”. If that is about a person,{' '}
          <a href={`${pathTo('machines', tag)}/correct`}>take it out first</a>.
        </p>
      )}
      <form method="post" action={`${pathTo('machines', tag)}/owner`}>
        <OnceKey />
        <Field
          name="ownerName"
          label="New owner"
          hint="Empty: not known. No offers go to a new owner before a yes."
          typed={typed}
          problems={problems}
        />
        <Field
          name="ownerEmail"
          label="E-mail of the new owner"
          type="email"
          typed={typed}
          problems={problems}
        />
        <p class="does">
          <button class="button" type="submit">
            Change the owner
          </button>
          <span class="soft">
            The owner so far is kept as a former one, with today’s date. A slip of the pen is put right with
            “Correct what is written here” instead.
          </span>
        </p>
      </form>
      <p>
        <a href={pathTo('machines', tag)}>Back to the machine</a>
      </p>
    </article>
  )
}

export function machineOwnerRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const show = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.machine(param(c, 'tag'))])
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    const first = problems[0]
    const title = `${view.value.machine.tag} was sold on`
    return page(
      c,
      { title, place: 'Machines', demo: options.demo, shopName: shop.name },
      <OwnerForm view={view.value} typed={typed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/machines/:tag/owner', (c) => show(c, new Map(), []))

  app.post('/machines/:tag/owner', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const ownerName = reader.read('ownerName', line())
    const ownerEmail = reader.read('ownerEmail', email)
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    const changed = await uses.changeOwner(param(c, 'tag'), { ownerName, ownerEmail })
    if (!changed.ok) return show(c, typed, changed.problems)
    return c.redirect(pathTo('machines', changed.value.tag), 303)
  })
}
