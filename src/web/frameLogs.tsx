import type { Context, Hono } from 'hono'
import type { Problem } from '../problem.ts'
import { failed, STATUS_OF } from '../problem.ts'
import type { FrameLogLine } from '../uses/frameLogs.ts'
import type { Figures } from '../words/figures.ts'
import { ProblemSummary } from './form.tsx'
import { figuresOf, type Web } from './frame.ts'
import { LOG_FIELD, receiveLogs } from './frameLogUpload.ts'
import { page } from './layout.tsx'

/** Address of logs that are read together. */
export const pathToLogs = (ids: readonly string[]): string =>
  `/runs/log/${ids.map(encodeURIComponent).join(',')}`

/** A log's name, when it came and how long it is; below it the runs that were saved from it. */
export const LogLine = ({ log, figures }: { log: FrameLogLine; figures: Figures }) => (
  <>
    <b>{log.name}</b>
    <small class="block">
      {`${figures.shortDate(log.addedAt)}, ${figures.bytes(log.size)}`}
      {log.runIds.length > 0 && `; saved as ${log.runIds.join(', ')}`}
    </small>
  </>
)

const Kept = ({ logs, figures }: { logs: readonly FrameLogLine[]; figures: Figures }) => (
  <section>
    <h2>Kept logs</h2>
    <ul class="ruled">
      {logs.map((log) => (
        <li>
          <a class="row-link" href={pathToLogs([log.id])}>
            <LogLine log={log} figures={figures} />
          </a>
        </li>
      ))}
    </ul>
  </section>
)

type State = { readonly logs: readonly FrameLogLine[]; readonly problems: readonly Problem[] }

const LogsBody = ({ logs, problems, figures }: State & { figures: Figures }) => (
  <article class="card form">
    <h1>Read a frame-time log</h1>
    <ProblemSummary
      problems={problems}
      labels={(field) => (field === LOG_FIELD ? 'Frame-time log' : undefined)}
      kept="Choose the file again."
    />
    <form method="post" action="/runs/log" enctype="multipart/form-data" data-sending="log-sending">
      <div class={problems.length > 0 ? 'field bad' : 'field'}>
        <label for="f-logs">CSV file, one frame a row</label>
        <p class="hint" id="f-logs-hint">
          Whatever program wrote it. Several captures of one title and setting are read together as repeats.
          You see the figures, and how they were read, before anything is saved.
        </p>
        <input
          id="f-logs"
          name={LOG_FIELD}
          type="file"
          accept=".csv,.txt,.tsv,.log,text/csv,text/plain,text/tab-separated-values"
          multiple
          aria-describedby="f-logs-hint"
          data-lists="f-logs-chosen"
        />
        <p id="f-logs-chosen" class="soft" role="status"></p>
      </div>
      <p class="actions">
        <button class="button" type="submit">
          Read the log
        </button>
      </p>
      <p id="log-sending" role="status" hidden>
        <label>
          Sending. A long log takes a while; your browser says how far it is. <progress></progress>
        </label>
      </p>
      <p class="soft">
        The same in a terminal: <code>npx stillfits frames FILE</code>
      </p>
    </form>
    {logs.length > 0 && <Kept logs={logs} figures={figures} />}
    <p>
      <a href="/runs">All runs</a>
    </p>
  </article>
)

/** The way in: choose a file, or open one that is kept. */
export function frameLogsRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (c: Context, problems: readonly Problem[]) => {
    const [shop, logs] = await Promise.all([uses.shop(), uses.frameLogs()])
    const first = problems[0]
    return page(
      c,
      { title: 'Read a frame-time log', place: 'Runs', demo: options.demo, shopName: shop.name },
      <LogsBody logs={logs} problems={problems} figures={figuresOf(shop)} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/runs/log', (c) => show(c, []))

  app.post('/runs/log', async (c) => {
    const kept = await receiveLogs(c, uses.addFrameLog)
    if (!kept.ok)
      return show(
        c,
        kept.problems.map((problem) => ({ ...problem, field: LOG_FIELD })),
      )
    const opened = await uses.readFrameLogs(kept.value, {})
    // What is no log at all is told here, and not kept.
    if (!opened.ok && opened.problems.some(({ code }) => code === 'unreadable')) {
      for (const id of kept.value) await uses.forgetFrameLog(id)
      const problems = opened.problems.map(({ file, ...problem }) => ({
        ...problem,
        field: LOG_FIELD,
        got: file,
      }))
      return show(c, failed(...problems).problems)
    }
    return c.redirect(pathToLogs(kept.value), 303)
  })
}
