import type { Context, Hono } from 'hono'
import type { Reversal } from '../core/gain/odd/odd.ts'
import { date } from '../input/cells.ts'
import { dayOf } from '../input/dates.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { RunView } from '../uses/runs/runViews.ts'
import { ODD_EN } from '../words/en/odd.ts'
import { RUN_EN } from '../words/en/runs.ts'
import { lowsOf, sayAsItRan, sayAverage, sayCapped, sayOld } from '../words/runs.ts'
import { capital } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { RunEditForm, typedFromRun } from './runEdit.tsx'
import { editFrom } from './runForm.ts'
import { OddRun, type OddState, oddStateOf, Reversals } from './runOdd.tsx'
import { ageIn, heldOf, PartLink, pathToRun, type RunContext, RunTable } from './runTable.tsx'
import { settingName, titleName } from './settingText.ts'
import { fieldReader } from './typed.ts'

type Shown = { view: RunView; context: RunContext }

/** Everything the run carries, and nothing that nobody noted. */
const Facts = ({ view, context }: Shown) => {
  const { run } = view
  const { figures } = context
  const celsius = (c: number | undefined) => (c === undefined ? undefined : figures.named('roomC', c))
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['Setting', settingName(context.settings, run.settingId)],
    ['Version', run.titleVersion],
    ['Scene', run.scene],
    ['Driver', run.driverVersion],
    ['As it ran', sayAsItRan(run.fitted, figures)],
    ['Large window', run.fitted.largeBar === undefined ? 'nobody looked' : undefined],
    ['Room', celsius(run.roomC)],
    ['Processor under load', celsius(run.processorLoadC)],
    ['Card under load', celsius(run.cardLoadC)],
    [
      'Noise at one metre',
      run.noiseDba === undefined ? undefined : `${figures.decimal(run.noiseDba)}\u00a0dB(A)`,
    ],
    ['Note', run.note],
  ]
  return (
    <dl class="limits">
      <div>
        <dt>Processor and card</dt>
        <dd>
          <PartLink parts={context.parts} id={run.fitted.processorId} from={pathToRun(run.id)} /> ·{' '}
          <PartLink parts={context.parts} id={run.fitted.cardId} from={pathToRun(run.id)} />
        </dd>
      </div>
      {rows.flatMap(([label, value]) =>
        value === undefined
          ? []
          : [
              <div>
                <dt>{label}</dt>
                <dd>{value}</dd>
              </div>,
            ],
      )}
    </dl>
  )
}

const FigureRows = ({ view, context }: Shown) => {
  const { run } = view
  const { figures } = context
  const held = heldOf(run, context)
  const capped = sayCapped(run, held, figures)
  return (
    <dl class="run-figures">
      <div>
        <dt>Average</dt>
        <dd class="num">{sayAverage(run, held, figures)}</dd>
        <dd class="soft">{capped ?? 'frames divided by seconds'}</dd>
      </div>
      {lowsOf(run, figures).map(({ name, means, says }) => (
        <div>
          <dt>{name}</dt>
          <dd class="num">{says}</dd>
          <dd class="soft">{means}</dd>
        </div>
      ))}
    </dl>
  )
}

type RunProps = Shown & { saved: string | undefined; state: OddState; reversals: readonly Reversal[] }

const Run = ({ view, context, saved, state, reversals }: RunProps) => {
  const { run, takenOutAt, repeats } = view
  const { figures, policy } = context
  const old = sayOld(ageIn(run, context), policy, figures)
  return (
    <article class="card">
      <p class="line">
        {run.machineTag === undefined ? <b>{RUN_EN.bench}</b> : <Tag tag={run.machineTag} />}
        <span class="soft">
          <span class="num">{run.id}</span>, {figures.date(run.at)}
        </span>
      </p>
      <h1>{titleName(context.titles, run.titleId)}</h1>
      {saved !== undefined && (
        <div class="done" role="status">
          <p>
            <b>{RUN_EN.saved[saved === 'back' || saved === 'undone' ? saved : 'saved']}</b>
          </p>
          {saved === '1' && (
            <form method="post" action={`${pathToRun(run.id)}/undo`}>
              <button class="button quiet" type="submit">
                {RUN_EN.undo}
              </button>
            </form>
          )}
        </div>
      )}
      {takenOutAt !== undefined && (
        <section class="kept" role="status">
          <p>
            <b>Taken out on {figures.date(takenOutAt)}.</b> Nothing counts it any more. Answers that were kept
            before stay as they were said.
          </p>
          <form method="post" action={`${pathToRun(run.id)}/bring-back`}>
            <button class="button" type="submit">
              Bring it back
            </button>
          </form>
        </section>
      )}
      {old !== undefined && (
        <p>
          <b>{capital(old, 'en')}.</b> {RUN_EN.oldHint}
        </p>
      )}
      <FigureRows view={view} context={context} />
      {takenOutAt === undefined && <OddRun view={view} context={context} />}
      {takenOutAt === undefined && state !== 'told' && <p class="soft">{ODD_EN.ofOne[state]}</p>}
      <Reversals view={view} context={context} reversals={reversals} />
      {run.logId !== undefined && (
        <p>
          <a href={`/runs/log/${encodeURIComponent(run.logId)}`}>Open its frame-time log</a>
        </p>
      )}
      <h2>How it was made</h2>
      <Facts view={view} context={context} />
      {takenOutAt === undefined && (
        <div class="line run-acts">
          <a class="button quiet" href={`${pathToRun(run.id)}/correct`}>
            Correct it
          </a>
          <form method="post" action={`${pathToRun(run.id)}/take-out`}>
            <button class="button quiet" type="submit">
              Take it out
            </button>
          </form>
          <span class="soft">It can be brought back.</span>
        </div>
      )}
      <h2>The same parts, title and setting</h2>
      {repeats.length === 0 ? (
        <p class="soft">No other run. A repeat tells whether this one was spoilt.</p>
      ) : (
        <RunTable runs={repeats} context={context} from={pathToRun(run.id)} />
      )}
      <p>
        <a href="/runs">All runs</a>
        {run.machineTag !== undefined && (
          <>
            {' · '}
            <a href={pathTo('machines', run.machineTag)}>The machine</a>
          </>
        )}
      </p>
    </article>
  )
}

export function runRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const load = async (c: Context) => {
    const [shop, view, found] = await Promise.all([uses.shop(), uses.run(param(c, 'id')), uses.oddRunsNow()])
    if (!view.ok) return view
    const { state, odd, reversals } = oddStateOf(found)
    const context: RunContext = {
      ...view.value,
      ...{ policy: shop.policy, now: uses.now(), figures: figuresOf(shop), odd },
    }
    return { ok: true, shop, view: view.value, context, state, reversals } as const
  }
  const frame = (title: string, shopName: string) =>
    ({ title, place: 'Runs', demo: options.demo, shopName }) as const

  app.get('/runs/:id', async (c) => {
    const shown = await load(c)
    if (!shown.ok) return problemPage(c, web, shown.problems, 'Runs')
    const { view, context, shop, state, reversals } = shown
    const title = `${view.run.id}, ${titleName(context.titles, view.run.titleId)}`
    return page(
      c,
      frame(title, shop.name),
      <Run view={view} context={context} saved={c.req.query('saved')} state={state} reversals={reversals} />,
    )
  })

  const edit = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const shown = await load(c)
    if (!shown.ok) return problemPage(c, web, shown.problems, 'Runs')
    const { view, context, shop } = shown
    if (view.takenOutAt !== undefined) return c.redirect(pathToRun(view.run.id), 303)
    const first = problems[0]
    return page(
      c,
      frame(`Correct ${view.run.id}`, shop.name),
      <RunEditForm
        view={view}
        context={context}
        typed={typed ?? typedFromRun(view, shop.timeZone)}
        problems={problems}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }
  app.get('/runs/:id/correct', async (c) => {
    // A figure that was probably meant comes filled in; what is saved is what stands in the form.
    const meant = /^\d{1,4}(\.\d)?$/.exec(c.req.query('averageFps') ?? '')?.[0]
    const shown = meant === undefined ? undefined : await load(c)
    if (meant === undefined || !shown?.ok) return edit(c, undefined, [])
    return edit(c, new Map(typedFromRun(shown.view, shown.shop.timeZone)).set('averageFps', [meant]), [])
  })
  app.post('/runs/:id/correct', async (c) => {
    const typed = typedOf(await readForm(c))
    const shown = await load(c)
    if (!shown.ok) return problemPage(c, web, shown.problems, 'Runs')
    const { run } = shown.view
    const reading = readingFor(shown.shop)
    const reader = fieldReader(typed, reading)
    const typedAt = reader.need('day', date, 'Say which day it was made on.')
    const edited = editFrom(reader)
    if (edited === undefined || typedAt === undefined || reader.problems.length > 0)
      return edit(c, typed, reader.problems)
    // A day that was not touched keeps its hour.
    const isSameDay = textOf(typed, 'day') === dayOf(run.at, shown.shop.timeZone)
    const at = isSameDay ? run.at : typedAt
    const saved = await uses.editRun(run.id, { ...edited, at })
    const atDay = (problem: Problem) => (problem.field === 'at' ? { ...problem, field: 'day' } : problem)
    if (!saved.ok) return edit(c, typed, saved.problems.map(atDay))
    return c.redirect(`${pathToRun(saved.value.id)}?saved=1`, 303)
  })

  app.post('/runs/:id/undo', async (c) => {
    const undone = await uses.undoRunEdit(param(c, 'id'))
    if (!undone.ok) return problemPage(c, web, undone.problems, 'Runs')
    return c.redirect(`${pathToRun(undone.value.id)}?saved=undone`, 303)
  })
  app.post('/runs/:id/take-out', async (c) => {
    const gone = await uses.takeOutRun(param(c, 'id'))
    if (!gone.ok) return problemPage(c, web, gone.problems, 'Runs')
    return c.redirect(pathToRun(gone.value.id), 303)
  })
  app.post('/runs/:id/so', async (c) => {
    const looked = await uses.lookedAt(param(c, 'id'), nameOf(who(c)))
    if (!looked.ok) return problemPage(c, web, looked.problems, 'Runs')
    return c.redirect(pathToRun(looked.value.id), 303)
  })
  app.post('/runs/:id/ask-again', async (c) => {
    const asked = await uses.askAgain(param(c, 'id'))
    if (!asked.ok) return problemPage(c, web, asked.problems, 'Runs')
    return c.redirect(pathToRun(asked.value.id), 303)
  })
  app.post('/runs/:id/bring-back', async (c) => {
    const back = await uses.bringBackRun(param(c, 'id'))
    if (!back.ok) return problemPage(c, web, back.problems, 'Runs')
    return c.redirect(`${pathToRun(back.value.id)}?saved=back`, 303)
  })
}
