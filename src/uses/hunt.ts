import { createHash } from 'node:crypto'
import { rankInputOf } from '../core/computeAnswer.ts'
import type { Part } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import { type Prey, preyOf, type Wanting, wantingOf } from '../core/ranking/hunt.ts'
import { dayOf } from '../input/dates.ts'
import { listFindable } from '../store/findable.ts'
import { listFitted } from '../store/fitted.ts'
import { gainRevision } from '../store/gainStart.ts'
import { listClaims } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { listParts } from '../store/parts.ts'
import { listQuestions, type QuestionLine } from '../store/questionLines.ts'
import { listWholeQuestions } from '../store/questions.ts'
import { listShelf } from '../store/shelf.ts'
import { listTradeIns, listWork } from '../store/work.ts'
import { inputsFor } from './answerQuestion.ts'
import { shopOrNeutral } from './shop.ts'

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

/** `told`; or how far it is, where it is not done in time. */
export type HuntNow =
  | { readonly state: 'told'; readonly told: HuntView }
  | { readonly state: 'under way'; readonly progress: HuntProgress }

type Running = {
  readonly key: string
  readonly result: Promise<HuntView>
  progress: HuntProgress
  told?: HuntView
}

/** The last one of each store, with the mark of what it was worked out from. In memory: it is only time that is lost. */
const lastOf = new WeakMap<Store, Running>()

/**
 * What to hunt for as things stand now; worked out in pieces, so that others are served meanwhile, and kept until
 * anything it hangs on changes. Waits for `waitMs` at most; it goes on, and the next one who asks has it. `at` is now.
 */
export async function viewHunt(store: Store, at: string, waitMs?: number): Promise<HuntNow> {
  const key = await markOf(store, at)
  const running = lastOf.get(store)?.key === key ? (lastOf.get(store) as Running) : start(store, key, at)
  const patience =
    waitMs === undefined
      ? running.result
      : Promise.race([
          running.result,
          new Promise<undefined>((resolve) => setTimeout(resolve, waitMs, undefined)),
        ])
  await patience
  return running.told === undefined
    ? { state: 'under way', progress: running.progress }
    : { state: 'told', told: running.told }
}

function start(store: Store, key: string, at: string): Running {
  const running: { -readonly [K in keyof Running]: Running[K] } = {
    ...{ key, progress: { done: 0, of: 0 } },
    result: Promise.resolve().then(() =>
      hunt(store, at, (progress) => {
        running.progress = progress
      }),
    ),
  }
  running.result
    .then((told) => {
      running.told = told
    })
    .catch(() => {
      // Whoever waits for it hears of the fault; the next one starts anew.
      if (lastOf.get(store) === running) lastOf.delete(store)
    })
  lastOf.set(store, running)
  return running
}

async function hunt(store: Store, at: string, tell: (progress: HuntProgress) => void): Promise<HuntView> {
  const { db } = store
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
      let i = 0
      for (const one of wantingOf(rankInputOf(loaded.value.inputs), found)) {
        if (one !== undefined) wanting[i]?.push(one)
        i++
        await breath()
      }
    }
    tell({ done: ++done, of: asked.length })
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

const isOpen = ({ state }: QuestionLine): boolean => state === 'new' || state === 'waiting for the owner'

const hasTitles = (question: Question | undefined): boolean =>
  question?.wanted.some(({ weight }) => weight > 0) === true

/** A mark of everything that the prices hang on; another day counts too, because runs grow old. */
async function markOf({ db }: Store, at: string): Promise<string> {
  const shop = await shopOrNeutral(db)
  const all = [
    ...[dayOf(at, shop.timeZone), shop, await gainRevision(db), await listQuestions(db)],
    ...[await listWholeQuestions(db), await listShelf(db), await listFindable(db), await listWork(db)],
    ...[await listTradeIns(db), await listClaims(db), await listFitted(db), await listParts(db)],
  ]
  return createHash('sha256').update(JSON.stringify(all)).digest('hex')
}
