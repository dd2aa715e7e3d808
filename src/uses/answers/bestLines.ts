import { lastChange } from '../../store/changes.ts'
import { gainRevision } from '../../store/gainStart.ts'
import type { Store } from '../../store/open.ts'
import { inputsFor } from '../answerQuestion.ts'
import { keptFitOf } from '../gain/keptFit.ts'

/** One line of an answer; `isEarlier`: something was written since, and it is not worked out anew yet. */
export type BestLine = { readonly told: string; readonly isEarlier: boolean }

/** The answers to questions that wait, in one line each, as they were last worked out; by question. */
export type BestLines = ReadonlyMap<string, BestLine>

type Kept = {
  /** Each with what it hangs on. */
  readonly lines: Map<string, { readonly line: string; readonly basis: string }>
  working?: Promise<void> | undefined
  /** What could not be worked out, and on what basis: it is not tried again before something changes. */
  readonly failed: Map<string, string>
}
const kept = new WeakMap<Store, Kept>()
function keptOf(store: Store): Kept {
  const known = kept.get(store)
  if (known !== undefined) return known
  const fresh: Kept = { lines: new Map(), failed: new Map() }
  kept.set(store, fresh)
  return fresh
}

/**
 * What was last worked out, at once: nobody waits for it. Where anything was written since, it is worked out anew beside, in the
 * thread that fits, one question after the other in the order given; until then the earlier line stands and says that it is one.
 */
export async function bestLines(store: Store, ids: readonly string[], at: string): Promise<BestLines> {
  const mine = keptOf(store)
  const basis = await basisOf(store, at)
  const open = new Set(ids)
  for (const of of [mine.lines, mine.failed]) for (const id of of.keys()) if (!open.has(id)) of.delete(id)
  const todo = ids.filter((id) => mine.lines.get(id)?.basis !== basis && mine.failed.get(id) !== basis)
  if (todo.length > 0 && mine.working === undefined)
    mine.working = workOut(store, mine, todo, basis, at).finally(() => {
      mine.working = undefined
    })
  return new Map([...mine.lines].map(([id, of]) => [id, { told: of.line, isEarlier: of.basis !== basis }]))
}

/** Waits until they are worked out: for tests and terminals. */
export async function bestLinesWorkedOut(
  store: Store,
  ids: readonly string[],
  at: string,
): Promise<BestLines> {
  await bestLines(store, ids, at)
  await keptOf(store).working
  return bestLines(store, ids, at)
}

/** All that answers hang on: what was written, what was fitted, and the day, for prices grow old. */
const basisOf = async ({ db }: Store, at: string): Promise<string> =>
  JSON.stringify([at.slice(0, 10), await lastChange(db), await gainRevision(db)])

async function workOut(
  store: Store,
  { lines, failed }: Kept,
  ids: readonly string[],
  basis: string,
  at: string,
): Promise<void> {
  for (const id of ids) {
    // One that fails has no line any more: nothing says that the earlier one holds. The thread's faults are noted where they are heard.
    const line = await lineOf(store, id, at).catch(() => undefined)
    if (line === undefined) {
      lines.delete(id)
      failed.set(id, basis)
    } else lines.set(id, { line, basis })
    // Between two questions pages get their turn.
    await new Promise((resolve) => setImmediate(resolve))
  }
}

async function lineOf(store: Store, id: string, at: string): Promise<string | undefined> {
  const loaded = await inputsFor(store, id, at, undefined)
  if (!loaded.ok) return undefined
  const told = await keptFitOf(store).line(loaded.value.inputs, at)
  return told.state === 'told' ? told.told : undefined
}
