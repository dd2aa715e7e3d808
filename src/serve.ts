import { randomUUID } from 'node:crypto'
import { mkdtemp, rm } from 'node:fs/promises'
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createAdaptorServer } from '@hono/node-server'
import { shopFilesIn } from './cli/import.ts'
import { faultLines } from './fault.ts'
import { startBackingUp } from './operate/backingUp.ts'
import { backupSettingsOf } from './operate/commands.ts'
import { watched } from './operate/health.ts'
import { type LogKind, logAnswered, logFault } from './operate/log.ts'
import { createMetrics } from './operate/metrics.ts'
import { EXIT, sayProblem } from './problem.ts'
import { sendingOf, startSending } from './sending.ts'
import type { Settings } from './settings.ts'
import { actingAs, THE_PROGRAM } from './store/changes.ts'
import { problemOf } from './store/errors.ts'
import type { Store } from './store/open.ts'
import { openStore } from './store/open.ts'
import { type FirstCode, openFirstCode } from './uses/access/firstCode.ts'
import { isNewShop } from './uses/access/welcome.ts'
import { type BackupSettings, OFF } from './uses/backups.ts'
import { keptFitOf } from './uses/gain/keptFit.ts'
import { importShop } from './uses/importShop.ts'
import { longWork } from './uses/longWork/loaders.ts'
import { roundWorkOf } from './uses/rounds/roundWork.ts'
import { fitSoon, usesOf } from './usesOf.ts'
import { createApp } from './web/app.ts'
import type { WebOptions } from './web/frame.ts'
import { isLoopback, isOneOf } from './web/hosts.ts'

const DEMO_FOLDER = fileURLToPath(new URL('../fixtures/demo-shop', import.meta.url))

const SHOP_PORT = 8080
const DEMO_PORT = 8081

const now = (): string => new Date().toISOString()

/** The demo shop, imported by the same path as anybody's, into a file that is gone afterwards. For this computer alone. */
export async function serveDemo(settings: Settings): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-demo-'))
  const store = await openStore(`file:${join(folder, 'demo.db')}`)
  try {
    const files = await shopFilesIn(DEMO_FOLDER)
    const imported = files.ok ? await importShop(store, files.value) : files
    if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
    // Nobody in it is real, so its mails are files that go with it, whatever the settings say.
    const mail = { ...settings.mail, smtp: undefined, folder: join(folder, 'mails') }
    return await serve({ ...settings, mail }, store, DEMO)
  } finally {
    await store.close()
    await rm(folder, { recursive: true, force: true })
  }
}

type Served = {
  readonly name: string
  readonly port: number
  readonly options: (settings: Settings) => WebOptions
  readonly backs: (settings: Settings) => BackupSettings
  readonly logs: (settings: Settings) => LogKind
  /** Before anything is served; gives what is said below the address. */
  readonly before: (store: Store) => Promise<{ firstCode?: FirstCode; says?: (origin: string) => string }>
}

const DEMO: Served = {
  ...{ name: 'Demo shop', port: DEMO_PORT, options: (settings) => webOptionsOf(true, settings) },
  // It goes when it ends, so nothing of it is kept.
  backs: ({ backup }) => ({ ...backup, folder: OFF }),
  logs: ({ log = 'faults' }) => log,
  before: async () => ({}),
}

/** A shop without an account gets a one-time code, said here and nowhere else. */
const SHOP: Served = {
  ...{
    name: 'Stillfits',
    port: SHOP_PORT,
    options: (settings) => webOptionsOf(false, { ...settings, log: logOf(settings) }),
  },
  backs: backupSettingsOf,
  logs: (settings) => logOf(settings),
  before: async (store) => {
    if (!(await isNewShop(store))) return {}
    const { code, firstCode } = openFirstCode()
    const says = (origin: string) =>
      `Nobody has an account yet. Open ${origin}/welcome and enter this code: ${code}\nIt holds once, until the program stops.\n`
    return { firstCode, says }
  },
}

/** Your own shop. */
export const serveShop = (settings: Settings, store: Store): Promise<number> => serve(settings, store, SHOP)

/** Serves the pages until the process is told to stop (SIGINT, SIGTERM); gives the exit code. */
async function serve(settings: Settings, store: Store, served: Served): Promise<number> {
  const { host, port = served.port } = settings
  const log = logAnswered(served.logs(settings))
  // Before anything is said: whoever reads the address may stop us the next moment.
  const stopped = new Promise<void>((resolve) => {
    process.once('SIGINT', resolve)
    process.once('SIGTERM', resolve)
  })
  const { firstCode, says } = await served.before(store)
  const letGo = keepFitFresh(store)
  const work = longWork(store)
  work.onFault((error) => process.stderr.write(`${now()} fault of long work\n${faultLines(error)}\n`))
  work.goOn(now)
  const sender = startSending(store, settings)
  // Whoever wakes it asked for that alone: what it writes is its own doing.
  const outbox = { sending: sendingOf(settings), wake: () => actingAs(THE_PROGRAM, sender.wake) }
  const rounds = roundWorkOf(store, { now, reach: outbox.sending, mailReady: outbox.wake })
  rounds.onFault((error) => process.stderr.write(`${now()} fault of a round\n${faultLines(error)}\n`))
  // What a stop of the program left goes on.
  rounds.wake()
  const backup = {
    settings: served.backs(settings),
    holder: randomUUID(),
  }
  const backingUp = startBackingUp(store, backup.settings, backup.holder)
  const metrics = createMetrics()
  const app = createApp(usesOf(store, firstCode, outbox, backup), {
    ...served.options(settings),
    ...{ onAsked: metrics.asked },
    onAnswered: (answered) => {
      metrics.answered(answered)
      log(answered)
    },
  })
  let isStopping = false
  const fetch = watched(app.fetch, {
    ...{ store, metrics, holder: backup.holder, isStopping: () => isStopping },
    databasePath: backup.settings.databasePath,
    metricsToken: settings.metricsToken,
  })
  const server = createAdaptorServer({ fetch, serverOptions: SERVER_LIMITS }) as Server
  server.maxConnections = MOST_CONNECTIONS
  try {
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen(port, host, resolve)
    })
  } catch (error) {
    process.stderr.write(`${listenProblem(error, host, port)}\n`)
    await backingUp.stop()
    await sender.stop()
    letGo()
    return EXIT.badInput
  }
  const bound = (server.address() as AddressInfo).port
  const origin = `http://${host.includes(':') ? `[${host}]` : host}:${bound}`
  process.stdout.write(`${served.name} on ${origin}\n`)
  if (says !== undefined) process.stdout.write(says(origin))
  if (!isLoopback(host) && settings.proxies.length === 0) process.stdout.write(`${IN_THE_OPEN}\n`)
  process.stdout.write('Stop with Ctrl+C.\n')
  await stopped
  isStopping = true
  process.once('SIGINT', leaveNow)
  process.once('SIGTERM', leaveNow)
  await finishRequests(server)
  letGo()
  rounds.halt()
  await backingUp.stop()
  await sender.stop()
  work.halt()
  metrics.stop()
  return EXIT.done
}

/** Told twice, it goes at once. */
const leaveNow = (): void => process.exit(EXIT.fault)

/** How long requests that are under way may take once the program is told to stop. */
const FINISH_MS = 10_000

/** Takes no more, ends connections on which nothing is asked, and waits for the answers that are under way. */
async function finishRequests(server: Server): Promise<void> {
  const closed = new Promise<void>((done) => server.close(() => done()))
  server.closeIdleConnections()
  const late = setTimeout(() => server.closeAllConnections(), FINISH_MS)
  await closed
  clearTimeout(late)
}

/**
 * Who sends slowly is not waited for: heads have 10 s, a whole request as long as an import may take to come in. What is
 * more than so many connections at once is closed unread.
 */
const SERVER_LIMITS = {
  ...{
    headersTimeout: 10_000,
    requestTimeout: 180_000,
    keepAliveTimeout: 5000,
    connectionsCheckingInterval: 2000,
  },
} as const
const MOST_CONNECTIONS = 1000

/** Where nobody watches the output, each request has its line. */
const logOf = ({ log }: Pick<Settings, 'log'>): LogKind =>
  log ?? (process.stdout.isTTY ? 'faults' : 'requests')

const HOUR_MS = 3_600_000

/** Fits the gain model before anybody asks, and on each new day; gives what ends that. Only where it failed is logged. */
function keepFitFresh(store: Store): () => void {
  const fit = keptFitOf(store)
  fit.onFault((error) => process.stderr.write(`${now()} fault of the gain fit\n${faultLines(error)}\n`))
  fitSoon(store)
  const nightly = setInterval(fitSoon, HOUR_MS, store)
  return () => clearInterval(nightly)
}

const IN_THE_OPEN =
  'Other computers can reach this without TLS, so passwords can be read on the way. README.md tells how to put a proxy in front.'

function listenProblem(error: unknown, host: string, port: number): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  const variable = 'STILLFITS_PORT'
  if (code === 'EADDRINUSE')
    return `Port ${port} is taken by another program. Stop it, or set ${variable} to another number.`
  if (code === 'EACCES') return `Port ${port} may not be used by you. Set ${variable} to a number above 1023.`
  return `${host}:${port} cannot be listened on (${String(code ?? 'unknown reason')}). Check STILLFITS_HOST and ${variable}.`
}

/** What the pages are told besides the uses. */
export const webOptionsOf = (
  demo: boolean,
  {
    host,
    hosts,
    ownerUrl,
    proxies = [],
    log,
  }: Pick<Settings, 'host' | 'hosts' | 'ownerUrl'> & Partial<Settings>,
): WebOptions => ({
  ...{ demo, onFault: logFault(log ?? 'faults'), problemOf, ownerUrl, proxies },
  ...(demo && { everybodyIs: { kind: 'demo', name: 'demo' } }),
  isOurHost: isOneOf(host, ownerUrl === undefined ? hosts : [...hosts, new URL(ownerUrl).hostname]),
})
