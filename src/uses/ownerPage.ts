import type { Shop } from '../core/answer.ts'
import { partsOf } from '../core/build.ts'
import type { Setting, Title } from '../core/gain/run.ts'
import type { Fitter, Job } from '../core/job/job.ts'
import { heldAgainst, runsSince } from '../core/job/promise.ts'
import { isOver, type JobState, type QuestionState, shownState } from '../core/job/states.ts'
import { type Language, languageFor } from '../core/language.ts'
import type { Claim, LimitKey, Limits } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import { type HistoryDay, machineHistory } from '../core/machineHistory.ts'
import type { Part } from '../core/part.ts'
import { type Question, TARGET_FPS_DEFAULT } from '../core/question.ts'
import { dayOf } from '../input/dates.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { loadAnswer } from '../store/answers.ts'
import { jobsOfMachine, stepsOfJobs } from '../store/jobs.ts'
import { type LoadedMachine, pastClaimsOf, upsertClaims } from '../store/machines.ts'
import { messagesOfQuestion } from '../store/messages.ts'
import type { Db, Store } from '../store/open.ts'
import { type OwnerReading, readingsFrom } from '../store/ownerReadings.ts'
import { loadRequest, type OwnerRequest, openRequests } from '../store/ownerRequests.ts'
import { loadParts } from '../store/parts.ts'
import { listPhotosByRequest, photosOfMachine } from '../store/photos.ts'
import { loadQuestion, questionsOfOwner } from '../store/questions.ts'
import { readingDates } from '../store/readings.ts'
import { runsOfMachine } from '../store/runs.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { chatTextOf, type LetterEdits } from '../words/answer.ts'
import { type HomeSheet, homeSheetOf } from '../words/homeSheet.ts'
import { hearWhatArrived, noRequest } from './askOwner.ts'
import { type Reported, reportAtHome } from './jobs/reportAtHome.ts'
import { behindLink } from './ownerLinks.ts'
import { type OwnerPerson, ownerPersonOf } from './ownerPerson.ts'
import { keepPhoto, photoProblem, photosProblem } from './photos.ts'
import { shopOrNeutral } from './shop.ts'
import { keepQuestion, neededFor, unknownTitles } from './takeQuestion.ts'

/** One of the owner's own questions, as the owner sees it. */
export type OwnQuestion = {
  readonly words: string
  readonly askedAt: string
  readonly state: QuestionState | JobState
  /** Who fits the parts of its job; absent before there is one. */
  readonly fittedBy?: Fitter | undefined
  readonly isIn?: boolean | undefined
  /** Pictures that came with it. */
  readonly photos: number
  /** The short text of the newest answer that this owner was told, in the words of then, and when. */
  readonly answerText?: string | undefined
  readonly toldAt?: string | undefined
}

/** A job whose parts this owner fits at home, and has not said to be in: what to do and to mind. */
export type HomeJob = { readonly jobId: string; readonly sheet: HomeSheet }

/** A job of this owner that can be reported on. */
export type OwnJob = {
  readonly jobId: string
  readonly titles: readonly { readonly titleId: string; readonly settingId: string }[]
}

/**
 * What one owner may see: this machine, what was asked of them, and their own questions. Nothing of other customers, of
 * costs, of the shelf, and no note of the shop.
 */
export type OwnerPageView = {
  readonly shop: Pick<Shop, 'name' | 'builder' | 'email' | 'locale' | 'timeZone' | 'policy'>
  readonly tag: string
  readonly fitted: readonly Pick<Part, 'kind' | 'name'>[]
  /** Without notes of claims. */
  readonly limits: Limits
  readonly requests: readonly { readonly id: string; readonly limitKey: LimitKey; readonly photos: number }[]
  readonly questions: readonly OwnQuestion[]
  readonly jobs: readonly OwnJob[]
  readonly home: readonly HomeJob[]
  /** What happened to the machine since it was sold, the newest day first. */
  readonly history: readonly HistoryDay[]
  /** The last firmware table that this owner sent, and what became of it. */
  readonly reading?: Pick<OwnerReading, 'at' | 'takenAt' | 'asideAt'> | undefined
  /** What the page is in. */
  readonly language: Language
  /** What this owner chose to read; absent: nothing, so the shop's own language counts. */
  readonly chosen?: Language | undefined
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly expiresAt: string
  /** What they decide about themselves; absent where nobody wrote down whose the machine is. */
  readonly person?: OwnerPerson | undefined
}

/** The owner's page behind a link; a link that does not hold is one and the same problem. */
export async function viewOwnerPage(store: Store, token: string, at: string): Promise<Result<OwnerPageView>> {
  const { db } = store
  const behind = await behindLink(db, token, at)
  if (!behind.ok) return behind
  const { link, loaded } = behind.value
  const { tag, build, claims } = loaded.machine
  const { name, builder, email, locale, timeZone, policy } = await shopOrNeutral(db)
  const chosen = loaded.owner?.language
  const language = languageFor(locale, chosen)
  const [sent] = await readingsFrom(db, tag, link.customerId)
  const photos = await listPhotosByRequest(db, tag)
  const jobs = (await jobsOfMachine(db, tag)).filter((job) => job.customerId === link.customerId)
  return ok({
    shop: { name, builder, email, locale, timeZone, policy },
    tag,
    fitted: partsOf(build).map((part) => ({ kind: part.kind, name: part.name })),
    limits: limitsOf(build, claims.map(withoutNote)),
    requests: (await openRequests(db, tag)).filter(onlyOnce).map(({ id, limitKey }) => ({
      ...{ id, limitKey },
      photos: photos.get(id) ?? 0,
    })),
    questions: await ownQuestions(
      db,
      tag,
      link.customerId,
      new Map(jobs.toReversed().map((job) => [job.questionId, job])),
    ),
    jobs: jobs
      .filter((job) => job.fittedAt !== undefined && job.promised.length > 0)
      .map(({ id, promised }) => ({
        jobId: id,
        titles: promised.map(({ titleId, settingId }) => ({ titleId, settingId })),
      })),
    home: await homeJobs(db, tag, jobs, language),
    history: await historyOf(db, loaded, jobs, timeZone),
    reading: sent && { at: sent.at, takenAt: sent.takenAt, asideAt: sent.asideAt },
    ...{ language, chosen },
    titles: await listTitles(db),
    settings: await listSettings(db),
    expiresAt: link.expiresAt,
    person: await ownerPersonOf(db, link.customerId, name, language, at),
  })
}

async function homeJobs(db: Db, tag: string, jobs: readonly Job[], language: Language): Promise<HomeJob[]> {
  const open = jobs.filter((j) => j.fittedBy === 'owner' && j.fittedAt === undefined && !isOver(j.state))
  const stepsOf = await stepsOfJobs(
    db,
    open.map(({ id }) => id),
  )
  const refs = [...stepsOf.values()].flat().map(({ ref }) => ref)
  const parts = await loadParts(db, [...new Set(refs)])
  const partName = (id: string) => parts.find((part) => part.id === id)?.name ?? id
  return open.flatMap(({ id }) => {
    const sheet = homeSheetOf(tag, stepsOf.get(id) ?? [], partName, language)
    return sheet === undefined ? [] : [{ jobId: id, sheet }]
  })
}

/** The machine's own history; of work that was agreed only what this owner agreed to. */
async function historyOf(
  db: Db,
  { machine, history, soldAt }: LoadedMachine,
  own: readonly Job[],
  timeZone: string,
): Promise<HistoryDay[]> {
  const { tag, claims } = machine
  const done = own.filter((job) => job.fittedAt !== undefined && job.state !== 'called off')
  const stepsOf = await stepsOfJobs(
    db,
    done.map(({ id }) => id),
  )
  const runs = await runsOfMachine(db, tag)
  const changes = history.flatMap(({ fittedAt, removedAt }) =>
    [fittedAt, removedAt].filter((at) => at !== undefined),
  )
  const jobs = await Promise.all(
    done.map(async (job) => ({
      jobId: job.id,
      fittedAt: job.fittedAt ?? '',
      works: (stepsOf.get(job.id) ?? []).filter(({ what }) => what === 'work').map(({ ref }) => ref),
      kept: job.promised.map((promised) => heldAgainst(promised, runsSince(job, changes, runs))),
      targetFps: (await loadQuestion(db, job.questionId))?.targetFps ?? TARGET_FPS_DEFAULT,
    })),
  )
  const known = { soldAt, stays: history, claims, past: await pastClaimsOf(db, tag), jobs }
  return machineHistory({ ...known, readAt: await readingDates(db, tag) }, (at) => dayOf(at, timeZone))
}

const withoutNote = ({ note: _, ...claim }: Claim): Claim => claim

/** One limit is asked for once, whoever waits for it. */
const onlyOnce = (request: OwnerRequest, i: number, all: readonly OwnerRequest[]): boolean =>
  all.findIndex(({ limitKey }) => limitKey === request.limitKey) === i

async function ownQuestions(
  db: Db,
  tag: string,
  customerId: string | undefined,
  jobs: ReadonlyMap<string, Job>,
): Promise<OwnQuestion[]> {
  const own = await questionsOfOwner(db, tag, customerId)
  const photos = await photosOfMachine(db, tag)
  return Promise.all(
    own.map(async ({ id, words, askedAt, state }) => {
      const told = await toldOf(db, id)
      // An answer that nobody told yet is none to its owner.
      const heard = state === 'answered' && told === undefined ? 'new' : state
      const job = jobs.get(id)
      return {
        ...{ words, askedAt, state: shownState(heard, job?.state), fittedBy: job?.fittedBy },
        isIn: job?.fittedAt !== undefined,
        photos: photos.filter((photo) => photo.questionId === id && photo.requestId === undefined).length,
        ...told,
      }
    }),
  )
}

/** What the owner was told last about a question; nothing of what was only written or computed. */
async function toldOf(
  db: Db,
  questionId: string,
): Promise<Pick<OwnQuestion, 'answerText' | 'toldAt'> | undefined> {
  const told = (await messagesOfQuestion(db, questionId)).filter(({ toldAt }) => toldAt !== undefined)
  const [last] = told.sort((one, other) => ((one.toldAt ?? '') < (other.toldAt ?? '') ? 1 : -1))
  if (last === undefined) return undefined
  const saved = last.toldText === undefined ? await loadAnswer(db, last.answerId) : undefined
  const text = last.toldText ?? (saved && chatTextOf(saved.answer, (last.edits ?? {}) as LetterEdits))
  return text === undefined ? undefined : { answerText: text, toldAt: last.toldAt }
}

/** A question of the owner about this machine, with pictures: all of it is kept, or nothing. */
export async function askFromOwnerPage(
  store: Store,
  token: string,
  question: Omit<Question, 'id' | 'askedAt' | 'machineTag' | 'cameBy'>,
  at: string,
  photos: readonly Uint8Array[] = [],
): Promise<Result<{ readonly id: string }>> {
  return store.write(async (tx) => {
    const behind = await behindLink(tx, token, at)
    if (!behind.ok) return behind
    const machineTag = behind.value.link.machineTag
    const whole = { ...question, machineTag, cameBy: 'owner page' as const }
    const wrongPhoto = await photosProblem(tx, machineTag, photos, at)
    const problems = [
      ...[...neededFor(whole), ...(await unknownTitles(tx, whole))],
      ...(wrongPhoto === undefined ? [] : [wrongPhoto]),
    ]
    if (problems.length > 0) return failed(...problems)
    const id = await keepQuestion(tx, whole, at)
    for (const bytes of photos) {
      const kept = await keepPhoto(tx, { machineTag, questionId: id, takenBy: 'owner', bytes, at })
      if (!kept.ok) throw new Error('a picture that nothing speaks against can always be kept')
    }
    return ok({ id })
  })
}

/** The open request of this machine with that id, for an owner who answers it. */
async function requestBehind(
  tx: Db,
  token: string,
  requestId: string,
  at: string,
): Promise<Result<OwnerRequest>> {
  const behind = await behindLink(tx, token, at)
  if (!behind.ok) return behind
  const request = await loadRequest(tx, requestId)
  return request?.state === 'open' && request.machineTag === behind.value.link.machineTag
    ? ok(request)
    : failed(noRequest(''))
}

/** The limit that was asked for, and only that: an owner writes down nothing else about a machine. */
export async function limitFromOwner(
  store: Store,
  token: string,
  requestId: string,
  claim: Claim,
  at: string,
): Promise<Result<{ readonly limitKey: LimitKey }>> {
  return store.write(async (tx) => {
    const found = await requestBehind(tx, token, requestId, at)
    if (!found.ok) return found
    const { machineTag, limitKey } = found.value
    if (claim.key !== limitKey) return failed(noRequest(''))
    await upsertClaims(tx, [{ machineTag, claim: { ...claim, at } }])
    await hearWhatArrived(tx, at, machineTag)
    return ok({ limitKey })
  })
}

/** A photo instead of the figure: the shop reads it and types the limit. */
export async function photoFromOwner(
  store: Store,
  token: string,
  requestId: string,
  bytes: Uint8Array,
  at: string,
): Promise<Result<{ readonly photoId: string }>> {
  const problem = photoProblem(bytes)
  return store.write(async (tx) => {
    const found = await requestBehind(tx, token, requestId, at)
    if (!found.ok) return found
    const { id, machineTag, questionId } = found.value
    if (problem !== undefined) return failed({ ...problem, field: `photo.${id}` })
    if (((await listPhotosByRequest(tx, machineTag)).get(id) ?? 0) >= PHOTOS_A_REQUEST)
      return failed({
        ...{ code: 'not allowed', field: `photo.${id}` },
        next: 'We have several photos for this already. Give us some time to look at them.',
      } satisfies Problem)
    return keepPhoto(tx, { machineTag, requestId: id, questionId, takenBy: 'owner', bytes, at })
  })
}

/** Enough to get one sharp; more would fill the database. */
const PHOTOS_A_REQUEST = 6

/** What the owner measured at home after a job. */
export async function reportFromOwner(
  store: Store,
  token: string,
  jobId: string,
  reported: Reported,
  at: string,
): Promise<Result<{ readonly jobId: string }>> {
  const behind = await behindLink(store.db, token, at)
  if (!behind.ok) return behind
  const { machineTag, customerId } = behind.value.link
  const own = (await jobsOfMachine(store.db, machineTag)).some(
    (job) => job.id === jobId && job.customerId === customerId,
  )
  if (own) return reportAtHome(store, jobId, reported, at)
  const next = 'There is nothing to report on yet.'
  return failed({ code: 'not found', field: 'job', next })
}
