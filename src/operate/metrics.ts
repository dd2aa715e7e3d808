import { monitorEventLoopDelay } from 'node:perf_hooks'
import type { Answered } from '../web/frame.ts'

/** What is asked of the database at each look; small counts only. */
export type StoreFigures = {
  readonly mails: ReadonlyMap<string, number>
  readonly lastBackupAt?: string | undefined
  readonly databaseBytes?: number | undefined
}

export type Metrics = {
  readonly asked: () => void
  readonly answered: (answered: Answered) => void
  /** The text exposition of OpenMetrics 1.0. */
  readonly text: (figures: StoreFigures) => string
  readonly stop: () => void
}

/** Seconds; a page is to be there in 0.1. */
const BUCKETS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 30] as const
const NS_PER_S = 1e9

type Route = { readonly counts: number[]; sum: number; count: number; readonly byStatus: Map<number, number> }

/** Escaped as the format wants it (OpenMetrics 1.0, section "ABNF": escaped-string). */
const label = (value: string): string =>
  `"${value.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('\n', '\\n')}"`

/**
 * Counters of this process. Labels are patterns of routes and kinds, so there are as many series as routes and none by a
 * person, a key or a path.
 */
export function createMetrics(): Metrics {
  const routes = new Map<string, Route>()
  let inFlight = 0
  const lag = monitorEventLoopDelay({ resolution: 20 })
  lag.enable()
  const startedS = Date.now() / 1000 - process.uptime()
  return {
    asked: () => {
      inFlight++
    },
    answered: ({ method, path, status, ms }) => {
      inFlight--
      const key = `method=${label(method)},route=${label(path)}`
      const route = routes.get(key) ?? { counts: BUCKETS.map(() => 0), sum: 0, count: 0, byStatus: new Map() }
      routes.set(key, route)
      const seconds = ms / 1000
      for (const [i, upTo] of BUCKETS.entries())
        if (seconds <= upTo) route.counts[i] = (route.counts[i] ?? 0) + 1
      route.sum += seconds
      route.count++
      route.byStatus.set(status, (route.byStatus.get(status) ?? 0) + 1)
    },
    text: ({ mails, lastBackupAt, databaseBytes }) => {
      const lines: string[] = []
      const family = (name: string, type: string, help: string, samples: readonly string[]) =>
        lines.push(`# TYPE ${name} ${type}`, `# HELP ${name} ${help}`, ...samples)
      family(
        'stillfits_http_requests',
        'counter',
        'Requests answered.',
        [...routes].flatMap(([key, { byStatus }]) =>
          [...byStatus].map(
            ([status, n]) => `stillfits_http_requests_total{${key},status=${label(String(status))}} ${n}`,
          ),
        ),
      )
      family(
        'stillfits_http_request_seconds',
        'histogram',
        'Time to answer.',
        [...routes].flatMap(([key, { counts, sum, count }]) => [
          ...BUCKETS.map(
            (upTo, i) => `stillfits_http_request_seconds_bucket{${key},le="${upTo}"} ${counts[i]}`,
          ),
          `stillfits_http_request_seconds_bucket{${key},le="+Inf"} ${count}`,
          `stillfits_http_request_seconds_count{${key}} ${count}`,
          `stillfits_http_request_seconds_sum{${key}} ${sum}`,
        ]),
      )
      const gauge = (name: string, help: string, value: number) =>
        family(name, 'gauge', help, [`${name} ${Number.isFinite(value) ? value : 'NaN'}`])
      gauge('stillfits_http_requests_in_flight', 'Requests being answered.', inFlight)
      const { rss, heapUsed } = process.memoryUsage()
      gauge('process_resident_memory_bytes', 'Memory of the process.', rss)
      gauge('nodejs_heap_used_bytes', 'Memory of objects.', heapUsed)
      gauge('process_start_time_seconds', 'When it started, Unix time.', startedS)
      gauge(
        'nodejs_eventloop_lag_p99_seconds',
        'How late timers are, since the last look.',
        lag.percentile(99) / NS_PER_S,
      )
      lag.reset()
      if (databaseBytes !== undefined)
        gauge('stillfits_database_bytes', 'Size of the database file.', databaseBytes)
      if (lastBackupAt !== undefined)
        gauge(
          'stillfits_last_backup_time_seconds',
          'The last good backup, Unix time.',
          Date.parse(lastBackupAt) / 1000,
        )
      family(
        'stillfits_mails',
        'gauge',
        'Mails of the outbox by state.',
        [...mails].map(([state, n]) => `stillfits_mails{state=${label(state)}} ${n}`),
      )
      return `${lines.join('\n')}\n# EOF\n`
    },
    stop: () => lag.disable(),
  }
}
