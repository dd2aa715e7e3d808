import type { Store } from './store/open.ts'
import { accessOf } from './uses/access/accessOf.ts'
import type { FirstCode } from './uses/access/firstCode.ts'
import { addMachine } from './uses/addMachine.ts'
import { bestLines } from './uses/answers/bestLines.ts'
import { askOwner, withdrawRequest } from './uses/askOwner.ts'
import { type BackupSettings, backupUsesOf, OFF } from './uses/backups.ts'
import { changeOwner } from './uses/changeOwner.ts'
import { changeQuestion } from './uses/changeQuestion.ts'
import { changeUsesOf } from './uses/changes.ts'
import { correctMachine } from './uses/correctMachine.ts'
import { customerUsesOf } from './uses/customerViews.ts'
import { viewDay } from './uses/day.ts'
import { describePart } from './uses/describePart.ts'
import { exportAnyTable } from './uses/exportRecords.ts'
import { findThings } from './uses/findAnything.ts'
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
import { finishJob, markTold, noteMiss, settleJob } from './uses/jobs/closeJob.ts'
import { finishFitting } from './uses/jobs/finishFitting.ts'
import { jobLinesOfQuestion, viewJob, viewJobs, viewMachineBook } from './uses/jobs/jobViews.ts'
import { callOff, missedJob, putOffJob, remindJob, startJob } from './uses/jobs/moveJob.ts'
import { decidePartOut } from './uses/jobs/partOut.ts'
import { recordRun } from './uses/jobs/recordRun.ts'
import { reportAtHome } from './uses/jobs/reportAtHome.ts'
import { tickStep } from './uses/jobs/tickStep.ts'
import { viewToAgree } from './uses/jobs/toAgree.ts'
import { askDemand, callOffDemand, forgetDemand, viewDemand } from './uses/matching/demand.ts'
import {
  askMatching,
  callOffMatching,
  forgetMatching,
  viewMatching,
  viewMatchings,
} from './uses/matching/matching.ts'
import { viewModelCard } from './uses/measure/modelCard.ts'
import { viewNextRuns } from './uses/measure/nextRuns.ts'
import { viewPromises } from './uses/measure/promises.ts'
import { takeBackWidth, takeWidth } from './uses/measure/width.ts'
import { draftOptedOut } from './uses/outbox/draftOptedOut.ts'
import { outboxUsesOf } from './uses/outbox/outboxUses.ts'
import { holdsLink, makeOwnerLink, takeLinksBack } from './uses/ownerLinks.ts'
import {
  askFromOwnerPage,
  limitFromOwner,
  photoFromOwner,
  reportFromOwner,
  viewOwnerPage,
} from './uses/ownerPage.ts'
import * as person from './uses/ownerPerson.ts'
import {
  previewOwnerReading,
  putReadingAside,
  readingFromOwner,
  viewOwnerReading,
} from './uses/ownerReading.ts'
import { describePartInMind, nameRecord, sayModel } from './uses/partInMind.ts'
import { addPhoto, viewPhoto } from './uses/photos.ts'
import { callOffQuestion, remindOfQuestion, takeUpQuestion } from './uses/questionState.ts'
import { askLook, callOffLook, forgetLook, viewLook, viewLooks } from './uses/reach/looks.ts'
import { lastRead, viewReading } from './uses/readTable.ts'
import { acceptReading } from './uses/readTableAccept.ts'
import { recordLimit } from './uses/recordLimit.ts'
import { roundUsesOf } from './uses/rounds/roundUses.ts'
import { bringBackRun, editRun, takeOutRun, undoRunEdit } from './uses/runs/changeRun.ts'
import { askAgain, glanceAtOdd, lookedAt, remarksOn, viewOdd } from './uses/runs/oddRuns.ts'
import { recordSheet } from './uses/runs/recordRuns.ts'
import { viewRunSheet } from './uses/runs/runSheet.ts'
import { viewRun, viewRuns, viewTitle, viewTitles } from './uses/runs/runViews.ts'
import { saveSetting, saveTitle } from './uses/runs/titles.ts'
import { viewMeasured } from './uses/runs/viewMeasured.ts'
import { sellUsesOf } from './uses/sellUses.ts'
import { formLedTo, rememberForm } from './uses/sentForms.ts'
import { sheetUsesOf } from './uses/sheetUses.ts'
import {
  changeShelfItem,
  putOnShelf,
  takeOffShelf,
  undoShelfEdit,
  viewPartsToPut,
} from './uses/shelfEdits.ts'
import { viewShelfItem } from './uses/shelfItem.ts'
import { describeShop, shopOrNeutral } from './uses/shop.ts'
import { takeQuestion } from './uses/takeQuestion.ts'
import { titlesTested } from './uses/titlesTested.ts'
import * as views from './uses/views.ts'
import { viewWhyNot } from './uses/whyNot.ts'
import { saveWorkPrices, undoWorkPrices, viewWorkPrices } from './uses/workPrices.ts'
import { editMessage, messageEml, prepareMessage, toldOwner, viewMessage } from './uses/writeMessage.ts'
import type { FindableUses } from './web/findableUses.ts'
import type { JobUses } from './web/jobUses.ts'
import type { OffersUses } from './web/offersUses.ts'
import type { PlatformsUses } from './web/platformsUses.ts'
import type { RunUses } from './web/runUses.ts'
import type { ShelfUses } from './web/shelfUses.ts'
import type { OwnerUses, WebUses } from './web/webUses.ts'

const now = (): string => new Date().toISOString()

/** What the page of an owner asks for: nothing else is reachable from it. */
const ownerUsesOf = (store: Store): OwnerUses => ({
  linkHolds: (token) => holdsLink(store, token, now()),
  ownerPage: (token) => viewOwnerPage(store, token, now()),
  ownerAsks: (token, question, photos) => askFromOwnerPage(store, token, question, now(), photos),
  ownerReadingPreview: (token, table) => previewOwnerReading(store, token, table, now()),
  ownerSendsReading: (token, table) => readingFromOwner(store, token, table, now()),
  ownerReads: (token, language) => person.languageFromOwner(store, token, language, now()),
  ownerLimit: (token, requestId, claim) => limitFromOwner(store, token, requestId, claim, now()),
  ownerPhoto: (token, requestId, bytes) => photoFromOwner(store, token, requestId, bytes, now()),
  ownerReports: (token, jobId, reported) => reportFromOwner(store, token, jobId, reported, now()),
  ownerConsents: (token, said) => person.consentFromOwner(store, token, said, now()),
  ownerWithdraws: async (token) => {
    const done = await person.withdrawFromOwner(store, token, now())
    if (done.ok) await draftOptedOut(store, done.value.customerId, now())
    return done
  },
  ownerParted: (token) => person.viewParting(store, token, now()),
  ownerParts: (token) => person.partFromOwner(store, token, now()),
  ownerTakesPartingBack: (token) => person.takePartingBack(store, token, now()),
  ownerErase: (token) => person.viewEraseForOwner(store, token, now()),
  ownerAsksErase: (token, sure) => person.askEraseFromOwner(store, token, sure, now()),
  ownerTakesEraseBack: (token) => person.takeEraseBack(store, token, now()),
  ownerRecord: (token) => person.recordForOwner(store, token, now()),
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
    noteMiss: (id, notes) => noteMiss(store, id, notes),
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
})

/** What the pages of the shelf ask for beside its list. */
const shelfUsesOf = (store: Store): ShelfUses => ({
  shelfItem: (id) => viewShelfItem(store, id),
  partsToPut: (query) => viewPartsToPut(store, query),
  putOnShelf: (part, typed) => putOnShelf(store, part, typed, now()),
  changeShelfItem: (id, change) => changeShelfItem(store, id, change, now()),
  takeOffShelf: (id, off) => takeOffShelf(store, id, off, now()),
  undoShelfEdit: (id, editId) => undoShelfEdit(store, id, editId, now()),
})

/** What the pages of offers ask for. */
const offersUsesOf = (store: Store): OffersUses => ({
  matchings: () => viewMatchings(store),
  askMatching: (ask) => askMatching(store, ask, now()),
  matching: (id) => viewMatching(store, id),
  callOffMatching: (id) => callOffMatching(store, id, now()),
  forgetMatching: (id) => forgetMatching(store, id),
  askDemand: (query) => askDemand(store, query, now()),
  demand: (id) => viewDemand(store, id),
  callOffDemand: (id) => callOffDemand(store, id, now()),
  forgetDemand: (id) => forgetDemand(store, id),
})

/** What the pages of platforms ask for. */
const platformsUsesOf = (store: Store): PlatformsUses => ({
  looks: () => viewLooks(store),
  askLook: (asked, name) => askLook(store, asked, name, now()),
  look: (id) => viewLook(store, id),
  callOffLook: (id) => callOffLook(store, id, now()),
  forgetLook: (id) => forgetLook(store, id),
})

const runUsesOf = (store: Store): RunUses => ({
  runs: (asked) => viewRuns(store, asked, now()),
  measured: (asked) => viewMeasured(store, asked, now()),
  run: (id) => viewRun(store, id, now()),
  runSheet: (asked) => viewRunSheet(store, asked, now()),
  recordRuns: (sheet, day) => recordSheet(store, sheet, day, now()),
  editRun: (id, edit) => editRun(store, id, edit, now()),
  undoRunEdit: (id) => undoRunEdit(store, id, now()),
  takeOutRun: (id) => takeOutRun(store, id, now()),
  oddRuns: () => viewOdd(store, now(), LOOK_WAIT_MS),
  oddRunsNow: () => glanceAtOdd(store, now()),
  paceOfMachine: (tag) => paceOfMachine(store, tag, now(), LOOK_WAIT_MS),
  lookedAt: (id, by) => lookedAt(store, id, by, now()),
  askAgain: (id) => askAgain(store, id),
  remarks: (sheet) => remarksOn(store, { ...sheet, at: now() }, now(), LOOK_WAIT_MS),
  bringBackRun: (id) => bringBackRun(store, id),
  titles: () => viewTitles(store, now()),
  title: (id) => viewTitle(store, id, now()),
  saveTitle: (edit) => saveTitle(store, edit),
  saveSetting: (edit) => saveSetting(store, edit),
})

/** So long a look and a form wait for a fit of the gain model; then they say how far it is. */
const LOOK_WAIT_MS = 500
const SEND_WAIT_MS = 900

/** Starts on the fit, so that it is done when somebody looks. */
export const fitSoon = (store: Store): void =>
  void keptFitOf(store)
    .fresh(now())
    .catch(() => {})

type Outbox = Parameters<typeof outboxUsesOf>[2]

/** Pages without a sender behind them: what is approved waits. */
const NO_SENDER: Outbox = { sending: { going: { by: 'nobody' }, perMinute: 0 }, wake: () => {} }

type Backup = { readonly settings: BackupSettings; readonly holder: string }

/** Pages without settings behind them: no copy is made. */
const NO_BACKUP: Backup = { settings: { folder: OFF, hour: 3, keep: 14, warnDays: 3 }, holder: 'nobody' }

/** What the pages ask for, joined to this store and the clock. */
export function usesOf(
  store: Store,
  firstCode?: FirstCode,
  outbox: Outbox = NO_SENDER,
  backup: Backup = NO_BACKUP,
): WebUses {
  return {
    now,
    ...accessOf(store, { now, firstCode }),
    shop: () => shopOrNeutral(store.db),
    formLedTo: (mark) => formLedTo(store, mark),
    rememberForm: (mark, ledTo) => rememberForm(store, mark, ledTo, now()),
    questions: () => views.viewQuestions(store, now()),
    questionList: (search) => views.viewQuestionList(store, search),
    day: () => viewDay(store, now()),
    known: () => views.viewKnown(store),
    find: (typed, most) => findThings(store, typed, most),
    tags: () => views.viewTags(store),
    bestLines: (ids) => bestLines(store, ids, now()),
    titlesTested: (typed, most) => titlesTested(store.db, typed, most),
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
    machines: (search) => views.viewMachines(store, search),
    machine: (tag) => views.viewMachine(store, tag, now()),
    describeShop: (shop) => describeShop(store, shop),
    addMachine: (machine) => addMachine(store, machine, now()),
    correctMachine: (tag, correction) => correctMachine(store, tag, correction, now()),
    recordLimit: (tag, claim) => recordLimit(store, tag, claim, now()),
    part: (id) => views.viewPart(store, id),
    describePart: (part) => describePart(store, part, now()),
    shelf: () => views.viewShelf(store),
    shelfList: (search) => views.viewShelfList(store, search),
    ...findableUsesOf(store),
    ...shelfUsesOf(store),
    workPrices: () => viewWorkPrices(store),
    saveWorkPrices: (prices, seen) => saveWorkPrices(store, prices, seen, now()),
    undoWorkPrices: (editId) => undoWorkPrices(store, editId, now()),
    ...offersUsesOf(store),
    ...platformsUsesOf(store),
    importFiles: async (files) => {
      const imported = await importShop(store, files, now())
      if (imported.ok) fitSoon(store)
      return imported
    },
    exportTable: (name) => exportAnyTable(store, name),
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
    ...changeUsesOf(store),
    ...backupUsesOf(store, backup.settings, backup.holder, now),
    ...ownerUsesOf(store),
    ...sheetUsesOf(store, now),
    ...sellUsesOf(store, now),
    ...customerUsesOf(store, now),
    ...outboxUsesOf(store, now, outbox),
    ...roundUsesOf(store, now, outbox),
    reading: (tag, table) => viewReading(store, tag, table),
    acceptReading: (tag, table, choices) => acceptReading(store, tag, table, choices, now()),
    ownerReading: (tag, id) => viewOwnerReading(store, tag, id),
    putReadingAside: (tag, id) => putReadingAside(store, tag, id, now()),
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
