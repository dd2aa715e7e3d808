import type { Answer, AnswerInputs, Shop } from '../core/answer.ts'
import { recordOf } from '../core/asked/inMind.ts'
import { partsOf } from '../core/build.ts'
import type { Part } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import type { FoundWithPrices } from '../core/ranking/later.ts'
import { withStepsBelow } from '../core/ranking/lowered.ts'
import type { SoundReading } from '../core/ranking/quiet.ts'
import { RANKING_VERSION } from '../core/ranking/rank.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { listFindable, listSeenPrices } from '../store/findable.ts'
import { loadMachine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { listParts, loadParts } from '../store/parts.ts'
import { askerOf, loadQuestion } from '../store/questions.ts'
import { hottestRoomC } from '../store/roomTemperature.ts'
import { runsOfMachine, runsOfTitles } from '../store/runs.ts'
import { listShelf, listShelfPrices } from '../store/shelf.ts'
import { soundReadings } from '../store/sound.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { warrantiesOf } from '../store/warranties.ts'
import { listTradeIns, listWork } from '../store/work.ts'
import { computedAnswer, isUnderWay } from './answers/computedAnswers.ts'
import { type FitProgress, keptFitOf } from './gain/keptFit.ts'
import { ownRuns } from './ownRuns.ts'
import { shopOrNeutral } from './shop.ts'

/**
 * An answer as things stand now. `fitting`: the gain model was not fitted in time, so what nobody measured has no
 * number yet; such an answer is for a look, and is not kept.
 */
export type AnswerNow = { readonly answer: Answer; readonly fitting?: FitProgress | undefined }

/**
 * Computes the answer to a question as things stand now; stores nothing. `at` is now, ISO 8601 UTC.
 * An unknown question is a problem with code `not found`; a gain model that is not fitted within `waitMs` one with code
 * `busy`, and so is a large shelf that is not ranked by then. Without `waitMs` it waits until all is done.
 */
export const answerQuestion = async (
  store: Store,
  questionId: string,
  at: string,
  waitMs?: number,
): Promise<Result<Answer>> => whole(await answerAsOf(store, questionId, at, waitMs, 0))

/** The same for a look: where nothing has changed since, the answer that was computed some minutes ago. */
export const answerLately = async (
  store: Store,
  questionId: string,
  at: string,
  waitMs?: number,
): Promise<Result<Answer>> => whole(await answerAsOf(store, questionId, at, waitMs, LOOK_AGE_MS))

const LOOK_AGE_MS = 10 * 60_000

function whole(now: Result<AnswerNow>): Result<Answer> {
  if (!now.ok) return now
  const { answer, fitting } = now.value
  return fitting === undefined ? ok(answer) : failed(beingFitted(fitting))
}

/** The same, but for a fit that is not done within `waitMs` it gives what is known without it. */
export const answerWithin = (
  store: Store,
  questionId: string,
  at: string,
  waitMs?: number,
): Promise<Result<AnswerNow>> => answerAsOf(store, questionId, at, waitMs, LOOK_AGE_MS)

/** `ageMs`: how old an answer from the same inputs may be. */
async function answerAsOf(
  store: Store,
  questionId: string,
  at: string,
  waitMs: number | undefined,
  ageMs: number,
): Promise<Result<AnswerNow>> {
  const loaded = await inputsFor(store, questionId, at, waitMs)
  if (!loaded.ok) return loaded
  const { inputs, fitting } = loaded.value
  const answer = await computedAnswer(store, inputs, at, ageMs, waitMs)
  return isUnderWay(answer) ? failed(beingRanked(answer.underWay.parts)) : ok({ answer, fitting })
}

/** Nothing was done, because numbers are still being worked out. */
export const beingFitted = ({ runs }: FitProgress): Problem => ({
  code: 'busy',
  field: 'gain',
  next: `The gain model is being fitted to ${runs} runs, so the numbers are not there yet. Nothing was kept. Ask again in some seconds.`,
})

/** A shelf of many parts takes seconds. */
const beingRanked = (parts: number): Problem => ({
  code: 'busy',
  field: 'ranking',
  next: `The shelf has ${parts} different parts, and every way to put them into this machine is being gone through. Nothing was kept. Ask again in some seconds.`,
})

/** Whether one of these is what stands in the way. */
export const isBeingWorkedOut = (problems: readonly Problem[]): boolean =>
  problems.some(({ code, field }) => code === 'busy' && (field === 'gain' || field === 'ranking'))

/** It is the shelf, not the gain model. */
export const isBeingRanked = (problems: readonly Problem[]): boolean =>
  problems.some(({ code, field }) => code === 'busy' && field === 'ranking')

type Loaded = { readonly inputs: AnswerInputs; readonly fitting?: FitProgress | undefined }

/**
 * Everything as it stands at the instant `at`, for the snapshot: ages count to it. `also` are parts that are neither on
 * the shelf nor in the machine and are to be ranked as well.
 */
export async function inputsFor(
  store: Store,
  questionId: string,
  at: string,
  waitMs: number | undefined,
  also: readonly Part[] = [],
): Promise<Result<Loaded>> {
  const { db } = store
  const question = await loadQuestion(db, questionId)
  const loaded = question && (await loadMachine(db, question.machineTag))
  if (question === undefined || loaded === undefined) {
    const next = 'There is no such question. The list of questions shows them all, the waiting ones first.'
    return failed({ code: 'not found', field: 'question', got: questionId, next })
  }
  const settings = await listSettings(db)
  const settingIds = withStepsBelow(new Set(question.wanted.map((w) => w.settingId)), settings)
  const runs = await runsOfTitles(
    db,
    question.wanted.map((w) => w.titleId),
  )
  const ofSettings = runs.filter((run) => settingIds.has(run.settingId))
  const shelf = await listShelf(db)
  const named = new Map(
    [...partsOf(loaded.machine.build), ...shelf.map((s) => s.part), ...also].map((p) => [p.id, p]),
  )
  if (question.partInMind !== undefined) {
    const record = recordOf(question.partInMind, await listParts(db))
    if (record !== undefined) named.set(record.id, record)
  }
  const inRuns = ofSettings.flatMap((run) => [run.fitted.processorId, run.fitted.cardId])
  for (const part of await loadParts(
    db,
    [...new Set(inRuns)].filter((id) => !named.has(id)),
  )) {
    named.set(part.id, part)
  }
  const found = await foundNow(store)
  const told = [...named.values(), ...found.map(({ part }) => part)]
  const { fitting, ...gain } = await gainFor(store, question, told, at, waitMs)
  const here = new Set(shelf.map(({ item }) => item.id))
  const inputs: AnswerInputs = {
    ...gain,
    ranking: RANKING_VERSION,
    shop: inItsRoom(await shopOrNeutral(db), await hottestRoomC(db)),
    customer: (await askerOf(db, questionId)) ?? loaded.owner,
    machine: { ...loaded.machine, at },
    question,
    parts: [...named.values()],
    shelf: shelf.map((s) => s.item),
    work: await listWork(db),
    tradeIns: await listTradeIns(db),
    titles: await listTitles(db),
    settings,
    runs: ofSettings,
    ownRuns: ownRuns(loaded, await runsOfMachine(db, loaded.machine.tag)),
    found,
    itemPrices: (await listShelfPrices(db)).filter(({ itemId }) => here.has(itemId)),
    warranties: await warrantiesOf(db, loaded.machine.tag),
    ...(question.wishes.includes('quiet') && { sounds: await soundsFor(store, question, named) }),
  }
  return ok({ inputs, fitting })
}

/** What could be bought, with every range that it was seen for. */
async function foundNow({ db }: Store): Promise<FoundWithPrices[]> {
  const seen = await listSeenPrices(db)
  return (await listFindable(db)).map(({ findable, part }) => ({
    ...{ findable, part, seen: seen.filter(({ findableId }) => findableId === findable.id) },
  }))
}

/** Readings of the machine itself, and of what stands on the shelf. */
async function soundsFor(
  { db }: Store,
  { machineTag }: Question,
  parts: ReadonlyMap<string, Part>,
): Promise<SoundReading[]> {
  const bears = ({ machineTag: tag, partIds }: SoundReading) =>
    tag === machineTag || partIds.some((id) => parts.has(id))
  return (await soundReadings(db)).filter(bears)
}

/** The piece of the shop's gain model that the question needs; without titles it needs none. */
async function gainFor(
  store: Store,
  { wanted }: Question,
  parts: readonly Part[],
  at: string,
  waitMs: number | undefined,
): Promise<Pick<AnswerInputs, 'gain' | 'gainFailed'> & Pick<AnswerNow, 'fitting'>> {
  if (wanted.length === 0) return {}
  const partIds = parts.filter(({ kind }) => kind === 'processor' || kind === 'card').map(({ id }) => id)
  const of = { wanted: wanted.map(({ titleId, settingId }) => ({ titleId, settingId })), partIds }
  const gain = await keptFitOf(store).excerpt(of, at, waitMs)
  if (gain.state === 'told') return { gain: gain.told }
  return gain.state === 'failed' ? { gainFailed: true } : { fitting: gain.progress }
}

/** The shop with the room temperature that counts: the set one, else the hottest it recorded. */
export const inItsRoom = (shop: Shop, hottestC: number | undefined): Shop =>
  shop.policy.roomC !== undefined || hottestC === undefined
    ? shop
    : { ...shop, policy: { ...shop.policy, roomC: hottestC } }
