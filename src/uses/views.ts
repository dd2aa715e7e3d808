import { isDeepStrictEqual } from 'node:util'
import type { Answer } from '../core/answer.ts'
import { partsOf } from '../core/build.ts'
import { withVersions } from '../core/gain/age.ts'
import type { Run, Setting, Title } from '../core/gain/run.ts'
import type { QuestionState } from '../core/job/states.ts'
import { asProven } from '../core/limits/fromRuns.ts'
import type { Limits } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import { partFromWords } from '../core/naming/partFromWords.ts'
import { linkHolds } from '../core/ownerLink.ts'
import type { Part } from '../core/part.ts'
import type { ShelfItem } from '../core/shop.ts'
import { dayOf } from '../input/dates.ts'
import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { listAnswers, loadAnswer } from '../store/answers.ts'
import { loadHeld } from '../store/counts.ts'
import { machinesWithPart } from '../store/fitted.ts'
import { type MachineLine, type MachineSearch, searchMachines } from '../store/machineSearch.ts'
import { type LoadedMachine, listTags, loadMachine, nextTag } from '../store/machines.ts'
import { messagesOfQuestion } from '../store/messages.ts'
import type { Db, Store } from '../store/open.ts'
import { linksOfMachine, type OwnerLink } from '../store/ownerLinks.ts'
import { type OwnerReading, waitingReadings } from '../store/ownerReadings.ts'
import { type OwnerRequest, openRequests, requestsOfMachine } from '../store/ownerRequests.ts'
import { partingOfMachine } from '../store/partings.ts'
import { listParts, loadParts } from '../store/parts.ts'
import { type PhotoLine, photosOfMachine } from '../store/photos.ts'
import {
  countQuestions,
  listOpenQuestions,
  type QuestionLine,
  type QuestionSearch,
  questionsOfMachine,
  questionsRemindedUntil,
  searchQuestions,
} from '../store/questionLines.ts'
import { questionStanding } from '../store/questions.ts'
import type { Piece } from '../store/rows.ts'
import { runsOfMachine } from '../store/runs.ts'
import { listShelf, listShelfOfPart, type ShelfLine, type ShelfSearch, searchShelf } from '../store/shelf.ts'
import { listStateChanges, type StateChange } from '../store/stateChanges.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { letterOf } from '../words/answer.ts'
import type { NewPartRead } from './addMachine.ts'
import { type AnswerNow, answerLately, answerWithin, isBeingWorkedOut } from './answerQuestion.ts'
import { editsOfQuestion, type QuestionEdit, whyFixed } from './changeQuestion.ts'
import { type FromOwners, viewFromOwners } from './customerViews.ts'
import { noSuchPart } from './describePart.ts'
import { findTag } from './findMachine.ts'
import { keptFitOf } from './gain/keptFit.ts'
import { ownRuns } from './ownRuns.ts'
import { shopOrNeutral } from './shop.ts'

/** What pages read: loaded in one go, computed nowhere else. Pages never see the store, so its lines are named here. */
export type { MachineLine, MachineSearch, OwnerRequest, PhotoLine, Piece, QuestionLine, QuestionSearch }

/** A part in a machine from when to when. */
export type Stay = LoadedMachine['history'][number]

/** What a ranked answer needs of the shop, and whether it is there. */
export type Ready = {
  /** The shop has said who it is. */
  readonly shop: boolean
  readonly machines: boolean
  /** Titles and settings, both. */
  readonly titles: boolean
  readonly shelf: boolean
  readonly runs: boolean
}

async function readyOf(db: Db): Promise<Ready> {
  const { questions: _, titles, settings, ...held } = await loadHeld(db)
  return { ...held, titles: titles && settings }
}

/** Machines that a form offers; a shop has thousands, and each tag can be typed. */
const MACHINES_OFFERED = 100

export type Known = {
  /** The newest; any other is known by its tag as well. */
  readonly machines: readonly MachineLine[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly parts: readonly Part[]
  /** The next free machine tag. */
  readonly nextTag: string
  readonly ready: Ready
}

/** The tag of every machine, to be found in a message. */
export const viewTags = ({ db }: Store): Promise<string[]> => listTags(db)

/** What forms offer to pick from. */
export async function viewKnown({ db }: Store): Promise<Known> {
  return {
    machines: (await searchMachines(db, { most: MACHINES_OFFERED })).lines,
    titles: await listTitles(db),
    settings: await listSettings(db),
    parts: await listParts(db),
    nextTag: await nextTag(db),
    ready: await readyOf(db),
  }
}

/** With its new answer in one line; absent where it is not told here, and while its numbers are worked out. */
export type ResumedLine = QuestionLine & {
  readonly answerLine?: string | undefined
  readonly isBeingFitted?: true | undefined
}

export type QuestionsView = {
  /** Went on because the missing limit came. */
  readonly resumed: readonly ResumedLine[]
  /** To be looked at again by now. */
  readonly due: readonly QuestionLine[]
  readonly waiting: readonly QuestionLine[]
  /** Waiting for something from their owners. */
  readonly asked: readonly QuestionLine[]
  /** Answered, the newest of them; whether a message was sent is not known here. */
  readonly written: readonly QuestionLine[]
  /** How many there are of those that wait for nothing; those that are due again among them. */
  readonly over: { readonly answered: number; readonly calledOff: number }
  /** Nothing at all is known yet: no machine, no shelf, no question. */
  readonly emptyShop: boolean
  readonly ready: Ready
  /** What owners said that the shop has to do something about; absent where there is nothing. */
  readonly fromOwners?: FromOwners | undefined
}

/** Answers are computed for so many resumed questions; the others open one by one. */
const ANSWERED_AT_ONCE = 5
/** Answered questions on the first page; all of them have a list of their own. */
const ANSWERED_SHOWN = 10
const DAY_MS = 86_400_000

const isOpenState = (state: QuestionState): boolean => state === 'new' || state === 'waiting for the owner'
const newestFirst = (a: QuestionLine, b: QuestionLine): number =>
  b.askedAt.localeCompare(a.askedAt) || b.id.localeCompare(a.id)

/** The list waits for no fit: this is for reading what is ready. */
const LIST_WAIT_MS = 200

/** Questions by how far they are: those that wait the oldest first, because they have waited longest. */
export async function viewQuestions(store: Store, at: string): Promise<QuestionsView> {
  const { db } = store
  const { timeZone } = await shopOrNeutral(db)
  const today = dayOf(at, timeZone)
  const open = await listOpenQuestions(db)
  // The shop's day ends within a day of now, wherever it is.
  const tomorrow = new Date(Date.parse(at) + DAY_MS).toISOString()
  const reminded = (await questionsRemindedUntil(db, tomorrow)).filter(({ state }) => !isOpenState(state))
  const lines = [...open, ...reminded].sort(newestFirst)
  const last = await searchQuestions(db, { states: ['answered'], most: ANSWERED_SHOWN })
  const counts = await countQuestions(db)
  const held = await loadHeld(db)
  const of = (state: QuestionLine['state']) => lines.filter((line) => line.state === state)
  const hasCome = ({ state, arrivedLimits }: QuestionLine) => state === 'new' && arrivedLimits.length > 0
  const isDue = ({ remindAt }: QuestionLine) => remindAt !== undefined && dayOf(remindAt, timeZone) <= today
  const resumed = lines.filter(hasCome)
  const due = lines.filter((line) => !hasCome(line) && isDue(line))
  const rest = (state: QuestionLine['state']) => of(state).filter((line) => !isDue(line))
  return {
    resumed: await Promise.all(
      resumed.map((line, i) => (i < ANSWERED_AT_ONCE ? withAnswer(store, line, at) : line)),
    ),
    due: due.reverse(),
    waiting: rest('new')
      .filter((line) => !hasCome(line))
      .reverse(),
    asked: rest('waiting for the owner').reverse(),
    written: last.lines.filter((line) => !isDue(line)),
    over: { answered: counts.answered, calledOff: counts['called off'] },
    fromOwners: await viewFromOwners(db),
    emptyShop: !(held.machines || held.questions || held.shelf || held.runs),
    ready: await readyOf(db),
  }
}

async function withAnswer(store: Store, line: QuestionLine, at: string): Promise<ResumedLine> {
  if (keptFitOf(store).underWay() !== undefined) return { ...line, isBeingFitted: true }
  const answer = await answerLately(store, line.id, at, LIST_WAIT_MS)
  if (answer.ok) return { ...line, answerLine: letterOf(answer.value).lead.answer }
  return isBeingWorkedOut(answer.problems) ? { ...line, isBeingFitted: true } : line
}

export type QuestionView = AnswerNow & {
  /** Kept answers to this question, the newest first. */
  readonly earlier: readonly {
    readonly answerId: string
    readonly at: string
    readonly messageId?: string | undefined
  }[]
  readonly state: QuestionState
  readonly remindAt?: string | undefined
  /** When the machine went to somebody else than who asked. */
  readonly soldOnAt?: string | undefined
  /** Every step it took, the oldest first. */
  readonly steps: readonly StateChange[]
  /** Every change of what it asks, the oldest first. */
  readonly edits: readonly QuestionEdit[]
  /** Why it stays what it is, such as a job it was agreed as; absent while it may be changed. */
  readonly fixed?: Problem | undefined
  /** What was asked of the owner for it. */
  readonly requests: readonly OwnerRequest[]
  /** Pictures that came with it, or with what was asked of the owner for it. */
  readonly photos: readonly PhotoLine[]
}

/** The answer as things stand now, after `waitMs` without the fit if it is not done, and the ones that were kept. */
export async function viewQuestion(
  store: Store,
  questionId: string,
  at: string,
  waitMs?: number,
): Promise<Result<QuestionView>> {
  const now = await answerWithin(store, questionId, at, waitMs)
  if (!now.ok) return now
  const { answer } = now.value
  const messages = await messagesOfQuestion(store.db, questionId)
  const messageOf = new Map(messages.map((m) => [m.answerId, m.id]))
  const earlier = (await listAnswers(store.db, questionId)).map(({ id, at: keptAt }) => ({
    answerId: id,
    at: keptAt,
    messageId: messageOf.get(id),
  }))
  const standing = await questionStanding(store.db, questionId)
  const { tag } = answer.inputs.machine
  return ok({
    ...now.value,
    earlier,
    state: standing?.state ?? 'new',
    remindAt: standing?.remindAt,
    soldOnAt: standing?.soldOnAt,
    steps: await listStateChanges(store.db, 'question', questionId),
    edits: await editsOfQuestion(store.db, answer.inputs.question),
    fixed: await whyFixed(store.db, questionId),
    requests: (await requestsOfMachine(store.db, tag)).filter((r) => r.questionId === questionId),
    photos: (await photosOfMachine(store.db, tag)).filter((photo) => photo.questionId === questionId),
  })
}

export type StoredAnswerView = { readonly answer: Answer; readonly messageId?: string | undefined }

export async function viewAnswer({ db }: Store, answerId: string): Promise<Result<StoredAnswerView>> {
  const saved = await loadAnswer(db, answerId)
  if (saved === undefined) {
    const next = 'There is no such answer. Open its question to see the ones that were kept.'
    return failed({ code: 'not found', field: 'answer', got: answerId, next })
  }
  const messages = await messagesOfQuestion(db, saved.questionId)
  return ok({ answer: saved.answer, messageId: messages.find((m) => m.answerId === answerId)?.id })
}

export const viewMachines = ({ db }: Store, search: MachineSearch): Promise<Piece<MachineLine>> =>
  searchMachines(db, search)

/** One piece of all questions in some states, with how many there are in each. */
export type QuestionList = Piece<QuestionLine> & {
  readonly counts: Readonly<Record<QuestionState, number>>
}

export const viewQuestionList = async ({ db }: Store, search: QuestionSearch): Promise<QuestionList> => ({
  ...(await searchQuestions(db, search)),
  counts: await countQuestions(db),
})

export type MachineView = LoadedMachine & {
  readonly limits: Limits
  /** Fitted parts with figures that only their names say, or with none at all; with what was read. */
  readonly readFromNames: readonly NewPartRead[]
  readonly runs: readonly Run[]
  /** What those runs ran with, lent cards too. */
  readonly ranWith: readonly Part[]
  readonly questions: readonly QuestionLine[]
  /** What its owner is asked for. */
  readonly requests: readonly OwnerRequest[]
  readonly photos: readonly PhotoLine[]
  /** Links to its owner's page that hold. */
  readonly links: readonly Pick<OwnerLink, 'createdAt' | 'expiresAt'>[]
  /** Firmware tables its owner sent, that wait to be looked at. */
  readonly ownerReadings: readonly Pick<OwnerReading, 'id' | 'at'>[]
  /** When its owner said that it is no longer theirs; absent where they did not. */
  readonly partedAt?: string | undefined
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

/** A machine by its tag, whatever its case as typed. */
export async function viewMachine({ db }: Store, typedTag: string, at: string): Promise<Result<MachineView>> {
  const tag = await findTag(db, typedTag)
  const loaded = tag === undefined ? undefined : await loadMachine(db, tag)
  if (loaded === undefined) {
    const next = 'There is no machine with this tag. Tags look like M-0042.'
    return failed({ code: 'not found', field: 'machine', got: typedTag, next })
  }
  const runs = await runsOfMachine(db, loaded.machine.tag)
  const { claims } = asProven(loaded.machine, ownRuns(loaded, runs))
  return ok({
    ...loaded,
    limits: limitsOf(loaded.machine.build, claims),
    readFromNames: partsOf(loaded.machine.build).flatMap(readFromName),
    runs,
    ranWith: await loadParts(db, [
      ...new Set(runs.flatMap(({ fitted }) => [fitted.processorId, fitted.cardId])),
    ]),
    questions: await questionsOfMachine(db, loaded.machine.tag),
    requests: await openRequests(db, loaded.machine.tag),
    photos: await photosOfMachine(db, loaded.machine.tag),
    links: (await linksOfMachine(db, loaded.machine.tag))
      .filter((link) => linkHolds(link, loaded.owner?.id, at))
      .map(({ createdAt, expiresAt }) => ({ createdAt, expiresAt })),
    ownerReadings: (await waitingReadings(db, loaded.machine.tag)).map(({ id, at: sentAt }) => ({
      ...{ id, at: sentAt },
    })),
    partedAt: (await partingOfMachine(db, loaded.machine.tag))?.saidAt,
    titles: (await listTitles(db)).map((title) => withVersions(title, runs)),
    settings: await listSettings(db),
  })
}

/** A part with a data sheet shows what its name filled in; what of the name was left unread says nothing then. */
function readFromName(part: Part): NewPartRead[] {
  const { kind, id, name, readFromName: marked = [] } = part
  const { part: typed, understood, unread } = partFromWords(kind, id, name)
  if (isDeepStrictEqual(typed, part)) return [{ kind, name, understood, unread }]
  return marked.length === 0
    ? []
    : [{ kind, name, understood: understood.filter(({ field }) => marked.includes(field)) }]
}

export type PartView = {
  readonly part: Part
  /** Machines that have it now, by tag; each once, however many of it are inside. */
  readonly fittedIn: readonly string[]
  readonly shelf: readonly ShelfItem[]
}

export async function viewPart({ db }: Store, id: string): Promise<Result<PartView>> {
  const [part] = await loadParts(db, [id])
  if (part === undefined) return failed(noSuchPart(id))
  return ok({
    part,
    fittedIn: (await machinesWithPart(db, id)).sort(BY_TAG.compare),
    shelf: (await listShelfOfPart(db, id)).map(({ item }) => item),
  })
}

/** One for all comparisons: a collator is dear to make, and a part is in thousands of machines. */
const BY_TAG = new Intl.Collator('en', { numeric: true })

/** Items with what is free of them, and the jobs that the rest is put aside for. */
export type ShelfView = { readonly items: readonly ShelfLine[] }

/** One page of the shelf, with where it begins. */
export const viewShelfList = ({ db }: Store, search: ShelfSearch): Promise<ShelfList> =>
  searchShelf(db, search)

export type ShelfList = Awaited<ReturnType<typeof searchShelf>>
export type { ShelfSearch }

export const viewShelf = async ({ db }: Store): Promise<ShelfView> => ({ items: await listShelf(db) })
