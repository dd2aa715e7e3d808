import type { Build, Change } from '../build.ts'
import { PART_KINDS, type Part, type PartKind } from '../part.ts'
import type { ShopPolicy } from '../shop.ts'

/** What a rule judges: one machine before and after one change, under the shop's policy. Made by situationOf. */
export type Situation = {
  readonly before: Build
  readonly after: Build
  readonly change: Change
  readonly policy: ShopPolicy
  /** The day of judging, ISO 8601 UTC; absent = no age is known. */
  readonly at?: string | undefined
  /** The kinds of part whose members differ before and after. */
  readonly touched: ReadonlySet<PartKind>
  /** Ids of the parts that the change itself brings, by kind. */
  readonly brought: ReadonlyMap<PartKind, readonly string[]>
  /** Set when the old modules must come out first, which the change itself does not say; `after` is without them. */
  readonly makesRoom?: true
}

/**
 * True when the members of one of these kinds differ before and after. Rules judge what a change touches: a fault
 * that was there before and lies elsewhere does not spoil an unrelated change, and taking a part out and putting the
 * same one back is no change.
 */
export function touches({ touched }: Situation, ...kinds: readonly PartKind[]): boolean {
  for (const kind of kinds) if (touched.has(kind)) return true
  return false
}

type Plain = Omit<Situation, 'touched' | 'brought'>

export const situationOf = (plain: Plain): Situation => ({
  ...plain,
  brought: broughtBy(plain.change),
  touched: touchedBy(plain),
})

/** Plain loops: a ranking makes some thousand of these. */
function touchedBy(plain: Plain): ReadonlySet<PartKind> {
  const kinds = new Set<PartKind>()
  for (const kind of PART_KINDS) if (differs(kind, plain)) kinds.add(kind)
  return kinds
}

export const differs = (kind: PartKind, { before, after }: Pick<Situation, 'before' | 'after'>): boolean =>
  kind === 'memory'
    ? areOthers(before.memory, after.memory)
    : kind === 'drive'
      ? areOthers(before.drives, after.drives)
      : kind === 'fan'
        ? areOthers(before.fans, after.fans)
        : before[kind]?.id !== after[kind]?.id

/** True when the change itself brings a part of that kind: then asking for another one would never end. */
export const brings = ({ brought }: Situation, kind: PartKind): boolean => brought.has(kind)

/** The first of these parts of one kind that the change adds, else the first of them. */
export function firstAdded<P extends Part>({ brought }: Situation, parts: readonly P[]): P | undefined {
  const [first] = parts
  const ids = first && brought.get(first.kind)
  return ids === undefined ? first : (parts.find(({ id }) => ids.includes(id)) ?? first)
}

/** Ids of the parts that a change brings, by kind. */
export function broughtBy({ add }: Change): ReadonlyMap<PartKind, readonly string[]> {
  const ids = new Map<PartKind, string[]>()
  for (const { kind, id } of add) {
    const list = ids.get(kind)
    if (list === undefined) ids.set(kind, [id])
    else list.push(id)
  }
  return ids
}

/** Other parts, in whatever order; mostly they are the same in the same order. */
function areOthers(before: readonly Part[], after: readonly Part[]): boolean {
  if (before.length !== after.length) return true
  for (let i = 0; i < before.length; i++)
    if (before[i]?.id !== after[i]?.id) return idsOf(before) !== idsOf(after)
  return false
}
const idsOf = (parts: readonly Part[]): string => JSON.stringify(parts.map((p) => p.id).sort())
