import type { Wanted } from '../core/question.ts'
import { ok, type Result } from '../problem.ts'
import type { Db } from '../store/open.ts'
import { runsOfMachine } from '../store/runs.ts'
import { countRunsBySetting } from '../store/titles.ts'
import { oneMachineMeant } from './findMachine.ts'

/** Titles, each at one setting, that a question can begin with. */
export type TitlesTested = {
  readonly tag: string
  readonly wanted: readonly Pick<Wanted, 'titleId' | 'settingId'>[]
  /** Whose runs they are from: the machine's own, or the whole shop's where it has none. */
  readonly of: 'machine' | 'shop'
}

/**
 * The titles a machine was tested in, the newest run first, each at the setting of its newest run; for a machine without a run
 * those the shop runs most often, each at its usual setting. At most `most`. A problem of `machineTag` where no one machine is meant.
 */
export async function titlesTested(db: Db, typed: string, most: number): Promise<Result<TitlesTested>> {
  const machine = await oneMachineMeant(db, typed)
  if (!machine.ok) return machine
  const { tag } = machine.value
  const own = (await runsOfMachine(db, tag)).reverse()
  const from = own.length > 0 ? own : await countRunsBySetting(db)
  const settingOf = new Map<string, string>()
  for (const { titleId, settingId } of from)
    if (!settingOf.has(titleId) && settingOf.size < most) settingOf.set(titleId, settingId)
  const wanted = [...settingOf].map(([titleId, settingId]) => ({ titleId, settingId }))
  return ok({ tag, wanted, of: own.length > 0 ? 'machine' : 'shop' })
}
