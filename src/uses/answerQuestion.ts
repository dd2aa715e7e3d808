import type { Answer, AnswerInputs, Shop } from '../core/answer.ts'
import { recordOf } from '../core/asked/inMind.ts'
import { partsOf } from '../core/build.ts'
import { computeAnswer } from '../core/computeAnswer.ts'
import type { Part } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import { withStepsBelow } from '../core/ranking/lowered.ts'
import type { Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { loadMachine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { listParts, loadParts } from '../store/parts.ts'
import { askerOf, loadQuestion } from '../store/questions.ts'
import { hottestRoomC } from '../store/roomTemperature.ts'
import { runsOfMachine, runsOfTitles } from '../store/runs.ts'
import { listShelf } from '../store/shelf.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { warrantiesOf } from '../store/warranties.ts'
import { listTradeIns, listWork } from '../store/work.ts'
import { keptFitOf } from './gain/keptFit.ts'
import { ownRuns } from './ownRuns.ts'
import { shopOrNeutral } from './shop.ts'

/**
 * Computes the answer to a question as things stand now; stores nothing. `at` is now, ISO 8601 UTC.
 * An unknown question is a problem with code `not found`.
 */
export async function answerQuestion(store: Store, questionId: string, at: string): Promise<Result<Answer>> {
  const inputs = await loadInputs(store, questionId, at)
  return inputs.ok ? ok(computeAnswer(inputs.value, at)) : inputs
}

/** Everything as it stands at the instant `at`, for the snapshot: ages count to it. */
async function loadInputs(store: Store, questionId: string, at: string): Promise<Result<AnswerInputs>> {
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
  const named = new Map([...partsOf(loaded.machine.build), ...shelf.map((s) => s.part)].map((p) => [p.id, p]))
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
  const gain = await gainFor(store, question, [...named.values()], at)
  return ok({
    ...gain,
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
    warranties: await warrantiesOf(db, loaded.machine.tag),
  })
}

/** The piece of the shop's gain model that the question needs; without titles it needs none. */
async function gainFor(
  store: Store,
  { wanted }: Question,
  parts: readonly Part[],
  at: string,
): Promise<Pick<AnswerInputs, 'gain' | 'gainFailed'>> {
  if (wanted.length === 0) return {}
  const partIds = parts.filter(({ kind }) => kind === 'processor' || kind === 'card').map(({ id }) => id)
  const of = { wanted: wanted.map(({ titleId, settingId }) => ({ titleId, settingId })), partIds }
  const gain = await keptFitOf(store).excerpt(of, at)
  return gain === undefined ? { gainFailed: true } : { gain }
}

/** The shop with the room temperature that counts: the set one, else the hottest it recorded. */
const inItsRoom = (shop: Shop, hottestC: number | undefined): Shop =>
  shop.policy.roomC !== undefined || hottestC === undefined
    ? shop
    : { ...shop, policy: { ...shop.policy, roomC: hottestC } }
