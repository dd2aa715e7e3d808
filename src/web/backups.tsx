import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { BackupLine, BackupsView } from '../uses/backups.ts'
import { sayCopyFailure } from '../words/backups.ts'
import { BACKUPS_EN as W } from '../words/en/backups.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { ProblemSummary } from './form.tsx'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'

const DAY_MS = 86_400_000

type WarningProps = { readonly view: BackupsView; readonly at: string; readonly children?: Child }

/** That the last good copy is too old, or that there is none; `children`: where to go from there. */
export const BackupWarning = ({ view, at, children }: WarningProps) => {
  if (view.isOnServer || !view.isOld) return null
  const days = view.lastGoodAt === undefined ? 0 : (Date.parse(at) - Date.parse(view.lastGoodAt)) / DAY_MS
  return (
    <p class="card warn" role="alert">
      <b>{view.lastGoodAt === undefined ? W.never : fill(W.old, { days: String(Math.floor(days)) })}</b>{' '}
      {children ?? W.oldNext}
    </p>
  )
}

const Line = ({ line, figures }: { line: BackupLine; figures: Figures }) => (
  <tr>
    <td>{figures.dateTime(line.at)}</td>
    <td data-label={W.what}>
      {line.failure !== undefined ? (
        <>
          <b>{W.failedHead}</b>
          <small class="block">{sayCopyFailure(line.failure)}</small>
        </>
      ) : (
        <>
          <b>{W.good}</b>
          <small class="block">
            {fill(W.rows, { rows: figures.count(line.rows ?? 0), size: figures.bytes(line.bytes ?? 0) })}
          </small>
        </>
      )}
    </td>
    <td data-label={line.path === undefined ? undefined : W.file}>
      {line.path !== undefined && <code>{line.path}</code>}
      {line.removedAt !== undefined ? (
        <small class="block">{W.removed}</small>
      ) : (
        line.path !== undefined && !line.isThere && <small class="block">{W.gone}</small>
      )}
    </td>
  </tr>
)

type PlannedProps = { readonly view: BackupsView; readonly figures: Figures; readonly isDemo: boolean }

const Planned = ({ view, figures, isDemo }: PlannedProps) => {
  const { plan, folder, nextAt } = view
  const keep = String(plan.keep)
  return (
    <section class="card stack">
      {isDemo ? (
        <p>{W.demo}</p>
      ) : view.isOnServer ? (
        <p>{W.server}</p>
      ) : folder === undefined ? (
        <p>{W.off}</p>
      ) : (
        <>
          <p>{fill(W.schedule, { hour: String(plan.hour).padStart(2, '0'), zone: view.timeZone, keep })}</p>
          <p>
            {fill(W.where, { folder })}
            {nextAt !== undefined && (
              <small class="block">{fill(W.next, { at: figures.dateTime(nextAt) })}</small>
            )}
          </p>
          {view.sameDisk === true && (
            <p>
              <b>{W.sameDisk}</b>
            </p>
          )}
        </>
      )}
      <p class="hint">{W.change}</p>
      <p class="hint">{fill(W.people, { keep })}</p>
      <p class="hint">{W.restore}</p>
    </section>
  )
}

/** Copies of the database: what there is, how old, and one more. */
export function backupRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (c: Context, problems: readonly Problem[], made: boolean) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.backups()])
    const figures = figuresOf(shop)
    const first = problems[0]
    return page(
      c,
      { title: W.title, place: 'Settings', demo: options.demo, shopName: shop.name },
      <div class="stack">
        <div class="head">
          <h1>{W.title}</h1>
          <a href="/settings">Back to the settings</a>
        </div>
        {made && (
          <p class="done" role="status">
            {W.made}
          </p>
        )}
        <ProblemSummary problems={problems} labels={() => W.title} />
        <BackupWarning view={view} at={uses.now()} />
        <p>{W.lead}</p>
        {view.folder !== undefined && (
          <form method="post" action="/settings/backups" class="actions">
            <OnceKey />
            <button class="button" type="submit">
              {W.now}
            </button>
          </form>
        )}
        {view.lines.length === 0 ? (
          <p class="card empty">{W.none}</p>
        ) : (
          <table class="list">
            <thead>
              <tr>
                <th scope="col">{W.when}</th>
                <th scope="col">{W.what}</th>
                <th scope="col">{W.file}</th>
              </tr>
            </thead>
            <tbody>
              {view.lines.map((line) => (
                <Line line={line} figures={figures} />
              ))}
            </tbody>
          </table>
        )}
        <Planned view={view} figures={figures} isDemo={options.demo} />
      </div>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/settings/backups', (c) => show(c, [], c.req.query('made') !== undefined))

  app.post('/settings/backups', async (c) => {
    const made = await uses.backUpNow()
    return made.ok ? c.redirect('/settings/backups?made', 303) : show(c, made.problems, false)
  })
}
