import type { Answer } from './answer.ts'
import { type Change, changedKinds } from './build.ts'
import type { Finding } from './fit/finding.ts'
import { type Judged, judgeChange } from './fit/judgeChange.ts'
import { asProven } from './limits/fromRuns.ts'
import type { Limits } from './limits/limit.ts'
import type { Part, PartKind } from './part.ts'

/** What a finding was judged against: the limits with the change made, and the kinds of part that the change touches. */
export type Behind = { readonly limits: Limits; readonly changed: ReadonlySet<PartKind> }

/**
 * The limits behind a finding of an answer. Limits with a change made are not kept with the answer, so the change is
 * judged again from the kept inputs; where that does not give the very same finding (an answer of earlier rules or
 * tables), the limits of that day are not known and there are none.
 *
 * @param changes the changes that the finding may be about, the likeliest first
 */
export function limitsBehind(
  answer: Answer,
  finding: Finding,
  changes: readonly Change[],
): Behind | undefined {
  const wanted = JSON.stringify(finding)
  for (const change of changes) {
    const judged = judgedAgain(answer, change)
    if (!judged.findings.some((f) => f.rule === finding.rule && JSON.stringify(f) === wanted)) continue
    return { limits: judged.limitsAfter, changed: changedKinds(change, answer.inputs.machine.build) }
  }
  return undefined
}

/** An option's change as its rules saw it: without the works that they themselves asked for, and with them. */
export function changesOfOption(change: Change, findings: readonly Finding[]): Change[] {
  const asked = new Set<string>(
    findings.flatMap(({ needs }) => needs.flatMap((need) => ('work' in need ? [need.work] : []))),
  )
  return [{ ...change, work: change.work.filter((work) => !asked.has(work)) }, change]
}

/** A part from the shelf on its own; memory beside the old modules or instead of them. */
export function changesOfPart(part: Part | undefined, { inputs }: Answer): Change[] {
  if (part === undefined) return []
  const beside: Change = { add: [part], removeIds: [], work: [] }
  if (part.kind !== 'memory') return [beside]
  const removeIds = inputs.machine.build.memory.map(({ id }) => id)
  return [beside, { add: [part], removeIds, work: ['remove old modules'] }]
}

/** Each change is judged once an answer, however many findings it has. */
function judgedAgain(answer: Answer, change: Change): Judged {
  const { machine, ownRuns = [], shop } = answer.inputs
  const known = judgedOf.get(answer) ?? new Map<string, Judged>()
  judgedOf.set(answer, known)
  const key = JSON.stringify([change.add.map(({ id }) => id), change.removeIds, change.work])
  const judged = known.get(key) ?? judgeChange(asProven(machine, ownRuns), change, shop.policy)
  known.set(key, judged)
  return judged
}
const judgedOf = new WeakMap<Answer, Map<string, Judged>>()
