import { createHash } from 'node:crypto'
import type { Answer, AnswerInputs } from '../../core/answer.ts'
import { computeAnswer } from '../../core/computeAnswer.ts'
import { GAIN_KINDS } from '../../core/ranking/shelf.ts'
import type { Store } from '../../store/open.ts'
import { type AskThread, askThread } from '../threads/askThread.ts'
import type { Asked, Told } from './messages.ts'
import { type UsedLately, usedLately } from './usedLately.ts'

/** How it is with an answer that a thread works out. */
export type UnderWay = { readonly underWay: { readonly parts: number } }

/**
 * The answer to these inputs at this instant. One that was computed lately from equal inputs is given again, as old as it
 * says it is, which is at most `ageMs`: opening an answer, its reasons and its letter one after the other ranks once.
 * Every fact of the inputs counts but the instant itself, so nothing that was written meanwhile is missed.
 *
 * A shelf of many parts is ranked in a thread of its own, so that other pages stay quick. What is not done within `waitMs` goes on
 * there, and the next look finds it; without `waitMs` it waits for the end.
 */
export async function computedAnswer(
  store: Store,
  inputs: AnswerInputs,
  at: string,
  ageMs: number,
  waitMs?: number,
): Promise<Answer | UnderWay> {
  const desk = deskOf(store)
  const key = keyOf(inputs)
  const before = desk.kept.get(key.mark)
  const parts = gainfulParts(inputs)
  const isLarge = parts > MOST_AT_ONCE
  if (before !== undefined && isYoung(before, at, isLarge ? Math.max(ageMs, FOUND_AGAIN_MS) : ageMs)) {
    keep(desk, key, before)
    return before
  }
  if (!isLarge) return keep(desk, key, computeAnswer(inputs, at))
  const working = desk.underWay.get(key.mark) ?? beside(desk, key, inputs, at)
  if (waitMs === undefined) return working
  return (await within(working, waitMs)) ?? { underWay: { parts } }
}

export const isUnderWay = (of: Answer | UnderWay): of is UnderWay => 'underWay' in of

/** Parts that an option can be made of: what a ranking costs grows with their square. */
function gainfulParts({ shelf, parts }: AnswerInputs): number {
  const gainful = new Set(parts.filter(({ kind }) => GAIN_KINDS.has(kind)).map(({ id }) => id))
  return new Set(shelf.filter(({ partId }) => gainful.has(partId)).map(({ partId }) => partId)).size
}

/** So many take some tenths of a second, which is no longer than starting a thread. */
const MOST_AT_ONCE = 40
/** Who is told to ask again finds what was worked out meanwhile, also where nothing older will do. */
const FOUND_AGAIN_MS = 120_000
/** Half an hour: by then something else is wrong. */
const LIMIT_MS = 1_800_000
/** It keeps nothing, and starts again in a second. */
const IDLE_MS = 30_000
/** An answer of a small shop takes about a megabyte; that of a large shelf as much more as its inputs are longer. */
const MOST_KEPT = 16
const MOST_CHARACTERS = 8_000_000

/** The inputs in one mark, so that their text is not held as well, and how long that text is. */
type Key = { readonly mark: string; readonly characters: number }
function keyOf(inputs: AnswerInputs): Key {
  const text = JSON.stringify({ ...inputs, machine: { ...inputs.machine, at: undefined } })
  return { mark: createHash('sha256').update(text).digest('base64'), characters: text.length }
}

type Desk = {
  /** By mark of the inputs. */
  readonly kept: UsedLately<Answer>
  readonly underWay: Map<string, Promise<Answer>>
}
const DESKS = new WeakMap<Store, Desk>()
function deskOf(store: Store): Desk {
  const known = DESKS.get(store)
  if (known !== undefined) return known
  const fresh: Desk = { kept: usedLately(MOST_KEPT, MOST_CHARACTERS), underWay: new Map() }
  DESKS.set(store, fresh)
  return fresh
}

const isYoung = (answer: Answer, at: string, ageMs: number): boolean => {
  const since = Date.parse(at) - Date.parse(answer.at)
  return since >= 0 && since <= ageMs
}

function keep({ kept }: Desk, { mark, characters }: Key, answer: Answer): Answer {
  kept.put(mark, answer, characters)
  return answer
}

let shared: AskThread<Asked, Told> | undefined

function beside(desk: Desk, key: Key, inputs: AnswerInputs, at: string): Promise<Answer> {
  shared ??= askThread<Asked, Told>(new URL('./worker.mjs', import.meta.url), LIMIT_MS, IDLE_MS)
  const working = shared
    .ask({ what: 'answer', inputs, at })
    .then((answer) => keep(desk, key, answer))
    .finally(() => desk.underWay.delete(key.mark))
  desk.underWay.set(key.mark, working)
  // Nobody may be waiting any more when it fails; who asks again is told.
  working.catch(() => {})
  return working
}

/** Undefined where it takes longer. */
async function within<T>(work: Promise<T>, ms: number): Promise<T | undefined> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), ms)
  })
  try {
    return await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
  }
}
