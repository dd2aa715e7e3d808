import { Readable } from 'node:stream'
import type { Hono } from 'hono'
import type { FrameLogsView, ReadLog } from '../uses/frameLogs.ts'
import type { Figures } from '../words/figures.ts'
import {
  sayChoice,
  sayDoubts,
  sayFigures,
  sayLength,
  sayRows,
  sayTogether,
  sayTooFew,
  sayWhy,
} from '../words/frameLog.ts'
import { figuresOf, param, type Web } from './frame.ts'
import { choiceQuery, HowRead, logIdsOf, typedChoiceOf } from './frameLogChoice.tsx'
import { LogLine, pathToLogs } from './frameLogs.tsx'
import { page } from './layout.tsx'
import { FrameHistogram, FramePlot } from './pictures/frameTimes.tsx'
import { problemPage } from './problem.tsx'

type Props = { view: FrameLogsView; figures: Figures }

const FigureTable = ({ log, figures }: { log: ReadLog; figures: Figures }) => {
  const found = log.study?.figures
  if (found === undefined) return null
  return (
    <>
      <table class="figures">
        <caption class="soft">{sayLength(found, figures)}</caption>
        <tbody>
          {sayFigures(found, figures).map(({ key, name, means, says }) => (
            <tr
              class={
                key === 'averageFps' || key === 'low1Fps' || key === 'low1MeanFps' ? 'main-figure' : undefined
              }
            >
              <th scope="row">
                {name} <small class="block">{means}</small>
              </th>
              <td class="right num">{says}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {sayTooFew(found, figures).map((line) => (
        <p class="soft">{line}</p>
      ))}
    </>
  )
}

const LogSection = (props: Props & { log: ReadLog; isOnly: boolean }) => {
  const { log, view, figures, isOnly } = props
  const { study } = log
  if (study === undefined) return null
  const { id, name, runIds } = log.log
  return (
    <section class="log" aria-label={name}>
      {!isOnly && <h2>{name}</h2>}
      {sayDoubts(study, view.choice, figures).map((doubt) => (
        <p class="doubt" role="note">
          {doubt}
        </p>
      ))}
      <div class="halves">
        <div>
          {study.figures !== undefined && (
            <>
              <FramePlot found={study.figures} figures={figures} />
              <FrameHistogram found={study.figures} figures={figures} />
            </>
          )}
        </div>
        <div>
          <FigureTable log={log} figures={figures} />
          <h3>Rows</h3>
          <ul class="rows-told">
            {sayRows(study.rows, view.choice.as, figures).map((line) => (
              <li>{line}</li>
            ))}
          </ul>
          <p>
            <a href={`${pathToLogs([id])}/original`} download={name}>
              The file as it came
            </a>
            {` (${figures.bytes(log.log.size)}; kept in ${figures.bytes(log.log.keptBytes)})`}
          </p>
          {runIds.length > 0 ? (
            <p>
              Saved as{' '}
              {runIds.map((runId, i) => (
                <>
                  {i > 0 && ', '}
                  <a href={`/runs/${encodeURIComponent(runId)}`}>{runId}</a>
                </>
              ))}
              .
            </p>
          ) : (
            <form method="post" action={`${pathToLogs([id])}/forget`}>
              <button class="button quiet" type="submit">
                Forget this log
              </button>
            </form>
          )}
        </div>
      </div>
    </section>
  )
}

const OTHERS_SHOWN = 12

/** Other captures of the same, to be read together with these. */
const Repeats = ({ view, ids, figures }: Props & { ids: readonly string[] }) => {
  if (view.others.length === 0) return null
  return (
    <details class="fold">
      <summary>Add another capture of the same title and setting</summary>
      <ul class="ruled">
        {view.others.slice(0, OTHERS_SHOWN).map((log) => (
          <li>
            <a class="row-link" href={`${pathToLogs([...ids, log.id])}?${choiceQuery(view.choice)}`}>
              <LogLine log={log} figures={figures} />
            </a>
          </li>
        ))}
      </ul>
    </details>
  )
}

const Study = ({ view, figures }: Props) => {
  const { logs, choice, guess } = view
  const ids = logs.map(({ log }) => log.id)
  const columns = logs[0]?.layout.columns ?? []
  const isGuess = choiceQuery(choice) === choiceQuery(guess.choice)
  const found = logs.flatMap(({ study }) => study?.figures ?? [])
  const together = sayTogether(found, figures)
  return (
    <article class="card form wide">
      <p class="line">
        <a href="/runs/log">Frame-time logs</a>
      </p>
      <h1>{logs.map(({ log }) => log.name).join(', ')}</h1>
      <p>
        <b>{sayChoice(choice, columns)}.</b> {isGuess ? `This is a guess. ${sayWhy(guess.why, columns)}` : ''}
        {!isGuess && (
          <>
            {' '}
            The figures’ shape says{' '}
            <a href={`${pathToLogs(ids)}?${choiceQuery(guess.choice)}`}>another way</a>.
          </>
        )}
      </p>
      <details
        class="fold"
        open={
          found.length < logs.length ||
          logs.some(({ study }) => study !== undefined && sayDoubts(study, choice, figures).length > 0)
        }
      >
        <summary>Another column or unit</summary>
        <HowRead view={view} ids={ids} />
      </details>
      {together !== undefined && <p>{together}</p>}
      {logs.map((log) => (
        <LogSection view={view} figures={figures} log={log} isOnly={logs.length === 1} />
      ))}
      {found.length === logs.length && (
        <p class="actions">
          <a class="button" href={`${pathToLogs(ids)}/save?${choiceQuery(choice)}`}>
            {logs.length === 1 ? 'Save this as a run' : `Save these as ${logs.length} runs`}
          </a>
        </p>
      )}
      <Repeats view={view} ids={ids} figures={figures} />
    </article>
  )
}

const StillReading = ({ view, figures, share }: Props & { share: number }) => (
  <article class="card form slim">
    <h1>{view.logs.map(({ log }) => log.name).join(', ')}</h1>
    <p role="status">
      <label>
        Reading {figures.named('Pct', 100 * share)} <progress value={share.toFixed(3)} max="1"></progress>
      </label>
    </p>
    <p class="soft">
      This page looks again by itself.{' '}
      <a href={`${pathToLogs(view.logs.map(({ log }) => log.id))}?${choiceQuery(view.choice)}`}>Look now</a>
    </p>
  </article>
)

const REFRESH_SECONDS = 2

/** What a log says, before anything is saved; opened again from the list or from a run. */
export function frameLogRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/runs/log/:ids', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.readFrameLogs(logIdsOf(c), typedChoiceOf(c))])
    if (!view.ok) return problemPage(c, web, view.problems, 'Runs')
    const { share, logs } = view.value
    const figures = figuresOf(shop)
    const frame = { place: 'Runs', demo: options.demo, shopName: shop.name } as const
    if (share !== undefined) {
      // HTML Standard, 7.5 ("Refresh" header): works without a script, and nothing that was typed is lost.
      c.header('Refresh', String(REFRESH_SECONDS))
      return page(
        c,
        { title: 'Reading', ...frame },
        <StillReading view={view.value} figures={figures} share={share} />,
      )
    }
    const title = logs.map(({ log }) => log.name).join(', ')
    return page(c, { title, ...frame }, <Study view={view.value} figures={figures} />)
  })

  app.get('/runs/log/:ids/original', async (c) => {
    const log = await uses.originalFrameLog(param(c, 'ids'))
    if (!log.ok) return problemPage(c, web, log.problems, 'Runs')
    const { name, size, bytes } = log.value
    // As a file and never as a page of ours, whatever is in it; the name by RFC 6266, 4.3 and RFC 8187.
    const fallback = name.replaceAll(/[^A-Za-z0-9._ -]/g, '_')
    const star = encodeURIComponent(name).replaceAll(
      /['()*]/g,
      (sign) => `%${sign.charCodeAt(0).toString(16)}`,
    )
    c.header('Content-Type', 'text/csv')
    c.header('Content-Disposition', `attachment; filename="${fallback}"; filename*=UTF-8''${star}`)
    c.header('Content-Length', String(size))
    return c.body(Readable.toWeb(Readable.from(bytes)) as ReadableStream)
  })

  app.post('/runs/log/:ids/forget', async (c) => {
    const gone = await uses.forgetFrameLog(param(c, 'ids'))
    return gone.ok ? c.redirect('/runs/log', 303) : problemPage(c, web, gone.problems, 'Runs')
  })
}
