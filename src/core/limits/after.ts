import { type Build, type Change, changedKinds } from '../build.ts'
import type { Machine } from '../machine.ts'
import type { Part, PartKind } from '../part.ts'
import { PART_KINDS } from '../part.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from './catalogue.ts'
import type { LimitKey, Limits } from './limit.ts'
import { provenBy } from './proven.ts'
import { claimsAfter, limitsOf } from './resolve.ts'

/**
 * The limits of a machine after a change. A ranking asks for those of thousands of changes that are put together from a
 * few parts, and a limit hangs on few kinds of part, as the catalogue says; so limits that hang on the same kinds are
 * kept together, by the parts of these kinds, for as long as the machine's record is.
 *
 * @param after the build after that change
 */
export function limitsAfter(machine: Machine, change: Change, after: Build): Limits {
  const groupAt = groupsOf(machine, change, after)
  const limits: Partial<Limits> = {}
  for (let g = 0; g < GROUPS.length; g++) Object.assign(limits, groupAt(g))
  return limits as Limits
}

/** The same for one that asks for a few of them: each group is looked up when a limit of it is read, and none can be listed. */
export const limitsOnDemand = (machine: Machine, change: Change, after: Build): Limits =>
  Object.create(ON_DEMAND, { groupAt: { value: groupsOf(machine, change, after) } })

/** The limits of a group by its place, worked out where they are not kept. */
function groupsOf(machine: Machine, change: Change, after: Build): (g: number) => Partial<Limits> {
  const seen = KEPT.get(machine) ?? keptFor(machine)
  const works = change.work.join(' ')
  const marks: Partial<Record<PartKind, string>> = {}
  let whole: Limits | undefined
  return (g) => {
    const { kinds, keys } = GROUPS[g] as Group
    let name = works
    for (const kind of kinds) {
      const mark = marks[kind] ?? markOf(kind, seen, change, after)
      marks[kind] = mark
      name += ` ${mark}`
    }
    const byName = seen.groups[g] as Map<string, Partial<Limits>>
    const known = byName.get(name)
    if (known !== undefined) return known
    whole ??= freshly(machine, change, after)
    const group = pick(whole, keys)
    byName.set(name, group)
    return group
  }
}

/** The same without a memory: what `limitsAfter` must come to. */
export function freshly(machine: Machine, change: Change, after: Build): Limits {
  const changed = changedKinds(change, machine.build)
  return limitsOf(after, [...claimsAfter(machine, change, changed), ...provenBy(machine, change, changed)])
}

type Group = { readonly kinds: readonly PartKind[]; readonly keys: readonly LimitKey[] }

/** Limits by the kinds of part that they hang on. */
const GROUPS: readonly Group[] = (() => {
  const groups = new Map<string, { kinds: readonly PartKind[]; keys: LimitKey[] }>()
  for (const key of LIMIT_KEYS) {
    const { hosts, from = [] } = LIMIT_CATALOGUE[key]
    const kinds = PART_KINDS.filter((kind) => hosts.includes(kind) || from.includes(kind))
    const name = kinds.join(' ')
    const group = groups.get(name) ?? { kinds, keys: [] }
    groups.set(name, group)
    group.keys.push(key)
  }
  return [...groups.values()]
})()

const ON_DEMAND: object = Object.defineProperties(
  {},
  Object.fromEntries(
    GROUPS.flatMap(({ keys }, g) =>
      keys.map((key) => [
        key,
        {
          get(this: { readonly groupAt: (g: number) => Partial<Limits> }) {
            return this.groupAt(g)[key]
          },
        },
      ]),
    ),
  ),
)

type Kept = {
  /** By group: its limits by the parts they hang on. */
  readonly groups: readonly Map<string, Partial<Limits>>[]
  /** Parts by the order in which they were first seen. */
  readonly parts: Map<Part, number>
}
const KEPT = new WeakMap<Machine, Kept>()

function keptFor(machine: Machine): Kept {
  const kept: Kept = { groups: GROUPS.map(() => new Map()), parts: new Map() }
  KEPT.set(machine, kept)
  return kept
}

/** The parts of a kind after the change, and those that it brings, which end claims even where nothing else is new. */
function markOf(kind: PartKind, { parts }: Kept, { add }: Change, after: Build): string {
  const numberOf = (part: Part | undefined): number => {
    if (part === undefined) return -1
    const known = parts.get(part)
    if (known !== undefined) return known
    parts.set(part, parts.size)
    return parts.size - 1
  }
  let mark = ''
  if (kind === 'memory') for (const kit of after.memory) mark += `,${numberOf(kit)}`
  else if (kind === 'drive') for (const drive of after.drives) mark += `,${numberOf(drive)}`
  else if (kind === 'fan') for (const fan of after.fans) mark += `,${numberOf(fan)}`
  else mark = `${numberOf(after[kind])}`
  for (const part of add) if (part.kind === kind) mark += `<${numberOf(part)}`
  return mark
}

function pick(limits: Limits, keys: readonly LimitKey[]): Partial<Limits> {
  const some: Partial<Record<LimitKey, Limits[LimitKey]>> = {}
  for (const key of keys) some[key] = limits[key]
  return some as Partial<Limits>
}
