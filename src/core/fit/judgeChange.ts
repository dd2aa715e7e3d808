import type { Build, Change } from '../build.ts'
import { applyChange } from '../build.ts'
import { limitsAfter } from '../limits/after.ts'
import type { Limits } from '../limits/limit.ts'
import type { Machine } from '../machine.ts'
import type { MemoryKit } from '../part.ts'
import type { ShopPolicy } from '../shop.ts'
import type { Verdict } from '../verdict.ts'
import { worstVerdict } from '../verdict.ts'
import type { Finding } from './finding.ts'
import { judge } from './rule.ts'
import { RULES } from './rules.ts'
import { situationOf } from './situation.ts'

/** What all rules together say about one change: the worst verdict, and the machine as it would then be. */
export type Judged = {
  readonly verdict: Verdict
  readonly findings: Finding[]
  readonly after: Build
  readonly limitsAfter: Limits
}

/**
 * Judges a change on a machine: the build and its limits after the change, then every rule on what the change
 * touches, in the order of RULES. A fault that was there before and that the change does not touch is not reported:
 * the question is what this change does. No finding at all gives `fits`. Never throws on odd data.
 *
 * Where new modules need the slots of the old ones, the machine is judged with the old ones out, and memory.slots asks
 * for that work: `after` is then without them.
 */
export function judgeChange(machine: Machine, change: Change, policy: ShopPolicy): Judged {
  const asked = machineAfter(machine, change)
  const old = modulesInTheWay(machine.build, change, asked)
  const whole = old.length === 0 ? change : { ...change, removeIds: [...change.removeIds, ...old] }
  const { after, limitsAfter } = whole === change ? asked : machineAfter(machine, whole)
  const plain = { before: machine.build, after, change: whole, policy, at: machine.at }
  const situation = situationOf(whole === change ? plain : { ...plain, makesRoom: true })
  const findings: Finding[] = []
  for (const rule of RULES) {
    const finding = judge(rule, situation, limitsAfter)
    if (finding !== undefined) findings.push(finding)
  }
  return { verdict: worstVerdict(findings.map((f) => f.verdict)), findings, after, limitsAfter }
}

type After = Pick<Judged, 'after' | 'limitsAfter'>

/** The build and its limits after a change, as it is asked for. */
export function machineAfter(machine: Machine, change: Change): After {
  const after = applyChange(machine.build, change)
  return { after, limitsAfter: limitsAfter(machine, change, after) }
}

/**
 * Ids of the old kits that must come out because the new modules need their slots: the board stays, its slots are
 * counted and too few for both, and enough for the new ones alone. A second kit of the model that is fitted is no
 * replacement. None where the change fits as it is asked for, or would not fit with the old ones out either.
 */
function modulesInTheWay(before: Build, { add }: Change, { after, limitsAfter }: After): string[] {
  const { memorySlots } = limitsAfter
  const added = add.filter((part) => part.kind === 'memory')
  if (added.length === 0 || !memorySlots.known || before.board?.id !== after.board?.id) return []
  const modules = (kits: readonly MemoryKit[]) =>
    kits.reduce((sum, kit) => sum + (kit.modules ?? Number.NaN), 0)
  const isCrowded = modules(after.memory) > memorySlots.value && modules(added) <= memorySlots.value
  const old = after.memory.filter((kit) => !added.some(({ id }) => id === kit.id))
  const isReplacing = old.length > 0 && old.length + added.length === after.memory.length
  return isCrowded && isReplacing ? old.map(({ id }) => id) : []
}
