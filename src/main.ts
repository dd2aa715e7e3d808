import { mkdtemp, rm } from 'node:fs/promises'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { createAdaptorServer } from '@hono/node-server'
import type { Terminal } from './cli/command.ts'
import { runCommand } from './cli/commands.ts'
import { shopFilesIn } from './cli/import.ts'
import { faultLines } from './fault.ts'
import { EXIT, sayProblem } from './problem.ts'
import type { Settings } from './settings.ts'
import { readSettings } from './settings.ts'
import { problemOf } from './store/errors.ts'
import type { Store } from './store/open.ts'
import { openStore } from './store/open.ts'
import { accessOf } from './uses/access/accessOf.ts'
import { type FirstCode, openFirstCode } from './uses/access/firstCode.ts'
import { isNewShop } from './uses/access/welcome.ts'
import { addMachine } from './uses/addMachine.ts'
import { askOwner, withdrawRequest } from './uses/askOwner.ts'
import { changeOwner } from './uses/changeOwner.ts'
import { changeQuestion } from './uses/changeQuestion.ts'
import { correctMachine } from './uses/correctMachine.ts'
import { describePart } from './uses/describePart.ts'
import { exportTable } from './uses/exportShop.ts'
import {
  bringBackFindable,
  removeFindable,
  saveFindable,
  viewFindable,
  viewOneFindable,
} from './uses/findable.ts'
import { frameLogsOf } from './uses/frameLogs.ts'
import { keptFitOf } from './uses/gain/keptFit.ts'
import { paceOfMachine } from './uses/gain/machinePace.ts'
import { whyOfAnswer, whyOfQuestion } from './uses/gain/whyNumber.ts'
import { viewHunt } from './uses/hunt.ts'
import { importShop } from './uses/importShop.ts'
import { agreeJob } from './uses/jobs/agreeJob.ts'
import { bookJob } from './uses/jobs/bookJob.ts'
import { finishJob, markTold, settleJob } from './uses/jobs/closeJob.ts'
import { finishFitting } from './uses/jobs/finishFitting.ts'
import { jobLinesOfQuestion, viewJob, viewJobs, viewMachineBook } from './uses/jobs/jobViews.ts'
import { callOff, missedJob, putOffJob, remindJob, startJob } from './uses/jobs/moveJob.ts'
import { decidePartOut } from './uses/jobs/partOut.ts'
import { recordRun } from './uses/jobs/recordRun.ts'
import { reportAtHome } from './uses/jobs/reportAtHome.ts'
import { tickStep } from './uses/jobs/tickStep.ts'
import { viewToAgree } from './uses/jobs/toAgree.ts'
import { viewModelCard } from './uses/measure/modelCard.ts'
import { viewNextRuns } from './uses/measure/nextRuns.ts'
import { viewPromises } from './uses/measure/promises.ts'
import { takeBackWidth, takeWidth } from './uses/measure/width.ts'
import { holdsLink, makeOwnerLink, takeLinksBack } from './uses/ownerLinks.ts'
import {
  askFromOwnerPage,
  limitFromOwner,
  photoFromOwner,
  reportFromOwner,
  viewOwnerPage,
} from './uses/ownerPage.ts'
import { describePartInMind, nameRecord, sayModel } from './uses/partInMind.ts'
import { addPhoto, viewPhoto } from './uses/photos.ts'
import { callOffQuestion, remindOfQuestion, takeUpQuestion } from './uses/questionState.ts'
import { lastRead, viewReading } from './uses/readTable.ts'
import { acceptReading } from './uses/readTableAccept.ts'
import { recordLimit } from './uses/recordLimit.ts'
import { bringBackRun, editRun, takeOutRun } from './uses/runs/changeRun.ts'
import { askAgain, lookedAt, remarksOn, viewOdd } from './uses/runs/oddRuns.ts'
import { recordSheet } from './uses/runs/recordRuns.ts'
import { viewRunSheet } from './uses/runs/runSheet.ts'
import { viewRun, viewRuns, viewTitle, viewTitles } from './uses/runs/runViews.ts'
import { saveSetting, saveTitle } from './uses/runs/titles.ts'
import { sellUsesOf } from './uses/sellUses.ts'
import { formLedTo, rememberForm } from './uses/sentForms.ts'
import { sheetUsesOf } from './uses/sheetUses.ts'
import { viewShelfItem } from './uses/shelfItem.ts'
import { describeShop, shopOrNeutral } from './uses/shop.ts'
import { takeQuestion } from './uses/takeQuestion.ts'
import * as views from './uses/views.ts'
import { viewWhyNot } from './uses/whyNot.ts'
import { editMessage, messageEml, prepareMessage, toldOwner, viewMessage } from './uses/writeMessage.ts'
import { createApp } from './web/app.ts'
import type { FindableUses } from './web/findableUses.ts'
import type { Fault, WebOptions } from './web/frame.ts'
import { isLoopback, isOneOf } from './web/hosts.ts'
import type { JobUses } from './web/jobUses.ts'
import type { RunUses } from './web/runUses.ts'
import type { OwnerUses, WebUses } from './web/webUses.ts'

const DEMO_FOLDER = fileURLToPath(new URL('../fixtures/demo-shop', import.meta.url))

const SHOP_PORT = 8080
const DEMO_PORT = 8081

/** Runs the program with its arguments; gives the exit code. The only place that knows every part of it. */
export async function main(args: readonly string[]): Promise<number> {
  const settings = readSettings(process.env)
  if (!settings.ok) {
    for (const problem of settings.problems) process.stderr.write(`${sayProblem(problem)}\n`)
    return EXIT.badInput
  }
  // A reader that has seen enough (`| head`) closes its end; that is no fault of anybody's.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(EXIT.done)
    throw error
  })
  let store: Store | undefined
  const terminal: Terminal = {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    readStdin,
    openStore: async () => {
      store ??= await openStore(settings.value.databaseUrl)
      return store
    },
    now,
  }
  try {
    if (args[0] === 'serve' && args.length === 1)
      return await serve(settings.value, await terminal.openStore(), SHOP)
    if (args[0] === 'demo' && args.length === 1) return await demo(settings.value)
    return await runCommand(args, terminal)
  } catch (error) {
    const problem = problemOf(error)
    const text = problem === undefined ? 'Something broke on our side.' : sayProblem(problem)
    process.stderr.write(`${text}\n`)
    if (problem === undefined) process.stderr.write(`${faultLines(error)}\n`)
    const isOurs = problem === undefined || problem.code === 'internal' || problem.code === 'busy'
    return isOurs ? EXIT.fault : EXIT.badInput
  } finally {
    await store?.close()
  }
}

const now = (): string => new Date().toISOString()

async function readStdin(mostBytes = Number.POSITIVE_INFINITY): Promise<string> {
  const chunks: Buffer[] = []
  let length = 0
  for await (const chunk of process.stdin) {
    length += chunks[chunks.push(Buffer.from(chunk)) - 1]?.length ?? 0
    if (length > mostBytes) break
  }
  return Buffer.concat(chunks).toString('utf8')
}

const DEMO_ELSEWHERE =
  'STILLFITS_HOST: The demo has no sign-in, so it is served to this computer alone. Set it to 127.0.0.1 for the demo.'

/** The demo shop, imported by the same path as anybody's, into a file that is gone afterwards. */
async function demo(settings: Settings): Promise<number> {
  if (!isLoopback(settings.host)) {
    process.stderr.write(`${DEMO_ELSEWHERE}\n`)
    return EXIT.badInput
  }
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-demo-'))
  const store = await openStore(`file:${join(folder, 'demo.db')}`)
  try {
    const files = await shopFilesIn(DEMO_FOLDER)
    const imported = files.ok ? await importShop(store, files.value) : files
    if (!imported.ok) throw new Error(imported.problems.map(sayProblem).join('\n'))
    return await serve(settings, store, DEMO)
  } finally {
    await store.close()
    await rm(folder, { recursive: true, force: true })
  }
}

type Served = {
  readonly name: string
  readonly port: number
  readonly options: (settings: Settings) => WebOptions
  /** Before anything is served; gives what is said below the address. */
  readonly before: (store: Store) => Promise<{ firstCode?: FirstCode; says?: (origin: string) => string }>
}

const DEMO: Served = {
  ...{ name: 'Demo shop', port: DEMO_PORT, options: (settings) => webOptionsOf(true, settings) },
  before: async () => ({}),
}

/** A shop without an account gets a one-time code, said here and nowhere else. */
const SHOP: Served = {
  ...{ name: 'Stillfits', port: SHOP_PORT, options: (settings) => webOptionsOf(false, settings) },
  before: async (store) => {
    if (!(await isNewShop(store))) return {}
    const { code, firstCode } = openFirstCode()
    const says = (origin: string) =>
      `Nobody has an account yet. Open ${origin}/welcome and enter this code: ${code}\nIt holds once, until the program stops.\n`
    return { firstCode, says }
  },
}

/** Serves the pages until the process is told to stop (SIGINT, SIGTERM). */
async function serve(settings: Settings, store: Store, served: Served): Promise<number> {
  const { host, port = served.port } = settings
  // Before anything is said: whoever reads the address may stop us the next moment.
  const stopped = new Promise<void>((resolve) => {
    process.once('SIGINT', resolve)
    process.once('SIGTERM', resolve)
  })
  const { firstCode, says } = await served.before(store)
  const letGo = keepFitFresh(store)
  const app = createApp(usesOf(store, firstCode), served.options(settings))
  const server = createAdaptorServer({ fetch: app.fetch })
  try {
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen(port, host, resolve)
    })
  } catch (error) {
    process.stderr.write(`${listenProblem(error, host, port)}\n`)
    return EXIT.badInput
  }
  const bound = (server.address() as AddressInfo).port
  const origin = `http://${host.includes(':') ? `[${host}]` : host}:${bound}`
  process.stdout.write(`${served.name} on ${origin}\n`)
  if (says !== undefined) process.stdout.write(says(origin))
  if (!isLoopback(host) && settings.proxies.length === 0) process.stdout.write(`${IN_THE_OPEN}\n`)
  process.stdout.write('Stop with Ctrl+C.\n')
  await stopped
  letGo()
  server.close()
  if ('closeAllConnections' in server) server.closeAllConnections()
  return EXIT.done
}

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

/** Only where and what kind of fault: what was typed and stored does not belong in a log. */
function logFault({ reference, method, path, error }: Fault) {
  process.stderr.write(`${now()} fault ${reference} ${method} ${path}\n${faultLines(error)}\n`)
}

/** What the pages are told besides the uses. */
export const webOptionsOf = (
  demo: boolean,
  { host, hosts, ownerUrl, proxies = [] }: Pick<Settings, 'host' | 'hosts' | 'ownerUrl'> & Partial<Settings>,
): WebOptions => ({
  ...{ demo, onFault: logFault, problemOf, ownerUrl, proxies },
  ...(demo && { everybodyIs: { kind: 'demo', name: 'demo' } }),
  isOurHost: isOneOf(host, ownerUrl === undefined ? hosts : [...hosts, new URL(ownerUrl).hostname]),
})

/** What the page of an owner asks for: nothing else is reachable from it. */
const ownerUsesOf = (store: Store): OwnerUses => ({
  linkHolds: (token) => holdsLink(store, token, now()),
  ownerPage: (token) => viewOwnerPage(store, token, now()),
  ownerAsks: (token, question) => askFromOwnerPage(store, token, question, now()),
  ownerLimit: (token, requestId, claim) => limitFromOwner(store, token, requestId, claim, now()),
  ownerPhoto: (token, requestId, bytes) => photoFromOwner(store, token, requestId, bytes, now()),
  ownerReports: (token, jobId, reported) => reportFromOwner(store, token, jobId, reported, now()),
})

/** What the pages of jobs ask for, joined likewise. */
function jobUsesOf(store: Store): JobUses {
  return {
    jobs: () => viewJobs(store, now()),
    job: (id) => viewJob(store, id),
    jobsOfQuestion: (id) => jobLinesOfQuestion(store, id),
    machineBook: (tag) => viewMachineBook(store, tag),
    toAgree: (id, optionId, which) => viewToAgree(store, id, optionId, which, now(), LOOK_WAIT_MS),
    agreeJob: (id, optionId, agreement) => agreeJob(store, id, optionId, agreement, now(), SEND_WAIT_MS),
    bookJob: (id, booking) => bookJob(store, id, booking, now()),
    missedJob: (id, because) => missedJob(store, id, because, now()),
    startJob: (id) => startJob(store, id, now()),
    putOffJob: (id, because) => putOffJob(store, id, because, now()),
    callOffJob: (id, because) => callOff(store, id, because, now()),
    remindJob: (id, remindAt) => remindJob(store, id, remindAt),
    tickStep: (id, position, done) => tickStep(store, id, position, done, now()),
    finishFitting: (id, notes) => finishFitting(store, id, notes, now()),
    recordRun: (id, measured) => recordRun(store, id, measured, now()),
    decidePartOut: (id, outId, decision) => decidePartOut(store, id, outId, decision, now()),
    settleJob: (id, settledMinor) => settleJob(store, id, settledMinor, now()),
    markTold: (id, told) => markTold(store, id, told, now()),
    finishJob: (id) => finishJob(store, id, now()),
    reportAtHome: (id, reported) => reportAtHome(store, id, reported, now()),
    changeOwner: (tag, newOwner) => changeOwner(store, tag, newOwner, now()),
  }
}

/** What the pages of prices and of what could be bought ask for. */
const findableUsesOf = (store: Store): FindableUses => ({
  findable: () => viewFindable(store),
  oneFindable: (id) => viewOneFindable(store, id),
  saveFindable: (edit) => saveFindable(store, edit, now()),
  removeFindable: (id) => removeFindable(store, id, now()),
  bringBackFindable: (id) => bringBackFindable(store, id),
  hunt: (waitMs) => viewHunt(store, now(), waitMs),
  whyNot: (id, ask, waitMs) => viewWhyNot(store, id, ask, now(), waitMs),
  shelfItem: (id) => viewShelfItem(store, id),
})

const runUsesOf = (store: Store): RunUses => ({
  runs: () => viewRuns(store),
  run: (id) => viewRun(store, id),
  runSheet: (asked) => viewRunSheet(store, asked, now()),
  recordRuns: (sheet, day) => recordSheet(store, sheet, day, now()),
  editRun: (id, edit) => editRun(store, id, edit, now()),
  takeOutRun: (id) => takeOutRun(store, id, now()),
  oddRuns: () => viewOdd(store, now(), LOOK_WAIT_MS),
  paceOfMachine: (tag) => paceOfMachine(store, tag, now(), LOOK_WAIT_MS),
  lookedAt: (id, by) => lookedAt(store, id, by, now()),
  askAgain: (id) => askAgain(store, id),
  remarks: (sheet) => remarksOn(store, { ...sheet, at: now() }, now(), LOOK_WAIT_MS),
  bringBackRun: (id) => bringBackRun(store, id),
  titles: () => viewTitles(store, now()),
  title: (id) => viewTitle(store, id),
  saveTitle: (edit) => saveTitle(store, edit),
  saveSetting: (edit) => saveSetting(store, edit),
})

/** So long a look and a form wait for a fit of the gain model; then they say how far it is. */
const LOOK_WAIT_MS = 500
const SEND_WAIT_MS = 900

/** Starts on the fit, so that it is done when somebody looks. */
const fitSoon = (store: Store): void =>
  void keptFitOf(store)
    .fresh(now())
    .catch(() => {})

/** What the pages ask for, joined to this store and the clock. */
export function usesOf(store: Store, firstCode?: FirstCode): WebUses {
  return {
    now,
    ...accessOf(store, { now, firstCode }),
    shop: () => shopOrNeutral(store.db),
    formLedTo: (mark) => formLedTo(store, mark),
    rememberForm: (mark, ledTo) => rememberForm(store, mark, ledTo, now()),
    questions: () => views.viewQuestions(store, now()),
    known: () => views.viewKnown(store),
    takeQuestion: (question) => takeQuestion(store, question, now()),
    nameRecord: (id, partId) => nameRecord(store, id, partId, now()),
    describePartInMind: (id, part) => describePartInMind(store, id, part, now()),
    sayModel: (id, said) => sayModel(store, id, said, now()),
    changeQuestion: (id, change, seen) => changeQuestion(store, id, change, now(), seen),
    questionView: (id) => views.viewQuestion(store, id, now(), LOOK_WAIT_MS),
    storedAnswer: (id) => views.viewAnswer(store, id),
    whyOfQuestion: (id, optionId) => whyOfQuestion(store, id, optionId, now(), SEND_WAIT_MS),
    whyOfAnswer: (id, optionId) => whyOfAnswer(store, id, optionId),
    fitUnderWay: (waitMs) => keptFitOf(store).within(waitMs, now()),
    prepareMessage: (id, pickId) => prepareMessage(store, id, pickId, now(), SEND_WAIT_MS),
    message: (id) => viewMessage(store, id),
    saveMessage: (id, edits) => editMessage(store, id, edits, now()),
    messageEml: (id) => messageEml(store, id),
    machines: (query) => views.viewMachines(store, query),
    machine: (tag) => views.viewMachine(store, tag, now()),
    describeShop: (shop) => describeShop(store, shop),
    addMachine: (machine) => addMachine(store, machine, now()),
    correctMachine: (tag, correction) => correctMachine(store, tag, correction, now()),
    recordLimit: (tag, claim) => recordLimit(store, tag, claim, now()),
    part: (id) => views.viewPart(store, id),
    describePart: (part) => describePart(store, part, now()),
    shelf: () => views.viewShelf(store),
    ...findableUsesOf(store),
    importFiles: async (files) => {
      const imported = await importShop(store, files, now())
      if (imported.ok) fitSoon(store)
      return imported
    },
    exportTable: (name) => exportTable(store, name),
    callOffQuestion: (id, because) => callOffQuestion(store, id, because, now()),
    takeUpQuestion: (id) => takeUpQuestion(store, id, now()),
    remindOfQuestion: (id, remindAt) => remindOfQuestion(store, id, remindAt),
    toldOwner: (messageId) => toldOwner(store, messageId, now()),
    askOwner: (request) => askOwner(store, request, now()),
    withdrawRequest: (id) => withdrawRequest(store, id, now()),
    addPhoto: (tag, photo) => addPhoto(store, tag, photo, now()),
    photo: (id) => viewPhoto(store, id),
    makeOwnerLink: (tag, by) => makeOwnerLink(store, tag, now(), by),
    takeLinksBack: (tag, by) => takeLinksBack(store, tag, now(), by),
    ...ownerUsesOf(store),
    ...sheetUsesOf(store, now),
    ...sellUsesOf(store, now),
    reading: (tag, table) => viewReading(store, tag, table),
    acceptReading: (tag, table, choices) => acceptReading(store, tag, table, choices, now()),
    lastRead: (tag) => lastRead(store, tag),
    ...runUsesOf(store),
    ...frameLogsOf(store, now),
    ...jobUsesOf(store),
    nextRuns: () => viewNextRuns(store, now()),
    promises: () => viewPromises(store),
    takeWidth: (seen, by) => takeWidth(store, seen, by, now()),
    takeBackWidth: (id) => takeBackWidth(store, id, now()),
    modelCard: (waitMs) => viewModelCard(store, now(), waitMs),
  }
}
