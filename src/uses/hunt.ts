import type { Part } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import { type Prey, preyOf, type Wanting } from '../core/ranking/hunt.ts'
import { lastChange } from '../store/changes.ts'
import { listFindable } from '../store/findable.ts'
import { gainRevision } from '../store/gainStart.ts'
import type { Store } from '../store/open.ts'
import { listParts } from '../store/parts.ts'
import { listQuestions, type QuestionLine } from '../store/questionLines.ts'
import { listWholeQuestions } from '../store/questions.ts'
import { inputsFor } from './answerQuestion.ts'
import { keptFitOf } from './gain/keptFit.ts'

/** What to hunt for today, worked out over all open questions. */
export type HuntView = {
  readonly prey: readonly Prey[]
  /** The questions that were asked, by id; those without titles have nothing to gain. */
  readonly questions: ReadonlyMap<string, QuestionLine>
  /** Parts that options name. */
  readonly parts: readonly Part[]
  readonly at: string
}

export type HuntProgress = { readonly done: number; readonly of: number }

/** `told` may be older than the last change: it is being worked out anew then (`isStale`). Or how far the first one is. */
export type HuntNow =
  | { readonly state: 'told'; readonly told: HuntView; readonly isStale: boolean }
  | { readonly state: 'under way'; readonly progress: HuntProgress }
  | { readonly state: 'failed' }

/** What was last worked out for a store, and what from. In memory: it is only time that is lost. */
type Kept = {
  told?: HuntView
  basis?: string
  working?: Promise<void>
  progress: HuntProgress
  failed?: string
}
const kept = new WeakMap<Store, Kept>()

/**
 * What was last worked out, at once. Where anything was written since, it is worked out anew beside, in the thread that fits.
 * The first one is waited for, `waitMs` at most; it goes on, and the next one who asks has it. `at` is now.
 */
export async function viewHunt(store: Store, at: string, waitMs: number): Promise<HuntNow> {
  const mine: Kept = kept.get(store) ?? { progress: { done: 0, of: 0 } }
  kept.set(store, mine)
  const basis = await basisOf(store, at)
  if (mine.basis !== basis && mine.failed !== basis) mine.working ??= begin(store, mine, basis, at)
  if (mine.told === undefined && mine.working !== undefined) await within(mine.working, waitMs)
  if (mine.told !== undefined) return { state: 'told', told: mine.told, isStale: mine.basis !== basis }
  return mine.working === undefined ? { state: 'failed' } : { state: 'under way', progress: mine.progress }
}

/** Waits until it is worked out: for tests and terminals. */
export async function huntWorkedOut(store: Store, at: string): Promise<HuntNow> {
  await viewHunt(store, at, 0)
  await kept.get(store)?.working
  return viewHunt(store, at, 0)
}

function begin(store: Store, mine: Kept, basis: string, at: string): Promise<void> {
  mine.progress = { done: 0, of: 0 }
  return hunt(store, at, (progress) => {
    mine.progress = progress
  })
    .then((told) => {
      Object.assign(mine, { told, basis })
    })
    .catch(() => {
      // The thread's faults are noted where they are heard; it is not tried again before something changes.
      mine.failed = basis
    })
    .finally(() => {
      delete mine.working
    })
}

async function hunt(store: Store, at: string, tell: (progress: HuntProgress) => void): Promise<HuntView> {
  const { db } = store
  const fit = keptFitOf(store)
  const found = await listFindable(db)
  const lines = (await listQuestions(db)).filter(isOpen)
  const whole = new Map((await listWholeQuestions(db)).map((question) => [question.id, question]))
  const asked = found.length === 0 ? [] : lines.filter(({ id }) => hasTitles(whole.get(id)))
  const wanting: Wanting[][] = found.map(() => [])
  const also = found.map(({ part }) => part)
  let done = 0
  tell({ done, of: asked.length })
  for (const { id } of asked) {
    const loaded = await inputsFor(store, id, at, undefined, also)
    if (loaded.ok) {
      const told = await fit.wanting(loaded.value.inputs, found, at)
      // A list that leaves somebody out would say of a part that it helps nobody.
      if (told.state !== 'told') throw new Error('the thread could not say what a question would pay')
      for (const [i, one] of told.told.entries()) if (one !== undefined) wanting[i]?.push(one)
    }
    tell({ done: ++done, of: asked.length })
    await breath()
  }
  return {
    prey: preyOf(found, wanting),
    questions: new Map(asked.map((line) => [line.id, line])),
    parts: await listParts(db),
    at,
  }
}

/** Lets others be served. */
const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))

async function within(work: Promise<void>, ms: number): Promise<void> {
  let patience: NodeJS.Timeout | undefined
  const late = new Promise<void>((resolve) => {
    patience = setTimeout(resolve, ms)
  })
  await Promise.race([work, late]).finally(() => clearTimeout(patience))
}

const isOpen = ({ state }: QuestionLine): boolean => state === 'new' || state === 'waiting for the owner'

const hasTitles = (question: Question | undefined): boolean =>
  question?.wanted.some(({ weight }) => weight > 0) === true

/** All that the prices hang on: what was written, what was fitted, and the day, because runs grow old. */
const basisOf = async ({ db }: Store, at: string): Promise<string> =>
  JSON.stringify([at.slice(0, 10), await lastChange(db), await gainRevision(db)])
