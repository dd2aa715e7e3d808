import type { Hono } from 'hono'
import type { Run, Setting, Title } from '../core/gain/run.ts'
import type { Part } from '../core/part.ts'
import type { Figures } from '../words/figures.ts'
import { ExportLink } from './exportLink.tsx'
import { figuresOf, pathTo, pathToPart, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { settingName, titleName } from './settingText.ts'

/** A part's name as the way to its figures; a part that nobody knows any more is only named. */
const PartLink = ({ parts, id, from }: { parts: readonly Part[]; id: string; from: string }) => {
  const part = parts.find((p) => p.id === id)
  return part === undefined ? <span>{id}</span> : <a href={pathToPart(id, from)}>{part.name}</a>
}

/** Runs as measured: what was fitted, what was run, what came out. Each row can be pointed at by its run's id. */
export const RunTable = (props: {
  runs: readonly Run[]
  parts: readonly Part[]
  titles: readonly Title[]
  settings: readonly Setting[]
  figures: Figures
  /** The page the table stands on. */
  from: string
}) => {
  const { runs, parts, titles, settings, figures, from } = props
  return (
    <table class="list">
      <thead>
        <tr>
          <th scope="col">Run</th>
          <th scope="col">Title and setting</th>
          <th scope="col">Fitted</th>
          <th scope="col" class="right">
            Average
          </th>
          <th scope="col" class="right">
            1% low
          </th>
        </tr>
      </thead>
      <tbody>
        {runs.map((run) => {
          const { memory, link } = run.fitted
          return (
            <tr id={`run-${run.id}`}>
              <td>
                <span class="num">{run.id}</span>
                <small class="block">
                  {figures.shortDate(run.at)}
                  {', '}
                  {run.machineTag === undefined ? (
                    'test bench'
                  ) : (
                    <a href={pathTo('machines', run.machineTag)}>{run.machineTag}</a>
                  )}
                </small>
              </td>
              <td>
                {titleName(titles, run.titleId)}{' '}
                <small class="block">
                  {settingName(settings, run.settingId)}; version {run.titleVersion}
                </small>
              </td>
              <td>
                <PartLink parts={parts} id={run.fitted.processorId} from={`${from}#run-${run.id}`} /> ·{' '}
                <PartLink parts={parts} id={run.fitted.cardId} from={`${from}#run-${run.id}`} />
                <small class="block">
                  {`${memory.totalGB}\u00a0GB ${memory.memoryType}, ${memory.rateMts}\u00a0MT/s, ${memory.channels} ${memory.channels === 1 ? 'channel' : 'channels'}; link gen ${link.gen} ×${link.lanes}`}
                </small>
                {run.note !== undefined && <small class="block">{run.note}</small>}
              </td>
              <td class="right num" data-label="Average">
                {figures.decimal(run.averageFps)} FPS
              </td>
              <td class="right num" data-label="1% low">
                {run.low1Fps === undefined ? '–' : `${figures.decimal(run.low1Fps)} FPS`}
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

export function runsRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/runs', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.runs()])
    const body = (
      <>
        <div class="head">
          <h1>Runs</h1>
          {view.runs.length > 0 && <ExportLink table="runs" />}
        </div>
        {view.runs.length === 0 ? (
          <p class="card empty">
            No runs yet: every gain will say “no number”. <a href="/import">Import runs.csv</a> with what you
            have measured.
          </p>
        ) : (
          <section class="card">
            <RunTable {...view} figures={figuresOf(shop)} from="/runs" />
          </section>
        )}
      </>
    )
    return page(c, { title: 'Runs', place: 'Runs', demo: options.demo, shopName: shop.name }, body)
  })
}
