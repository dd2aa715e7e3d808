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

export const situationOf = (plain: Omit<Situation, 'touched'>): Situation => ({
  ...plain,
  touched: new Set(PART_KINDS.filter((kind) => differs(kind, plain))),
})

const differs = (kind: PartKind, { before, after }: Omit<Situation, 'touched'>): boolean =>
  kind === 'memory'
    ? idsOf(before.memory) !== idsOf(after.memory)
    : kind === 'drive'
      ? idsOf(before.drives) !== idsOf(after.drives)
      : kind === 'fan'
        ? idsOf(before.fans) !== idsOf(after.fans)
        : before[kind]?.id !== after[kind]?.id

/** True when the change itself brings a part of that kind: then asking for another one would never end. */
export const brings = ({ change }: Situation, kind: PartKind): boolean =>
  change.add.some((p) => p.kind === kind)

/** The part of that kind that the change adds, else the first of the given ones. */
export const firstAdded = <P extends Part>({ change }: Situation, parts: readonly P[]): P | undefined =>
  parts.find((p) => change.add.some((added) => added.id === p.id)) ?? parts[0]

const idsOf = (parts: readonly Part[]): string =>
  parts.length === 0 ? '' : JSON.stringify(parts.map((p) => p.id).sort())
