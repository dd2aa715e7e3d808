import type { Build, Change } from '../build.ts'
import type { Part, PartKind } from '../part.ts'
import type { ShopPolicy } from '../shop.ts'

/** What a rule judges: one machine before and after one change, under the shop's policy. */
export type Situation = {
  readonly before: Build
  readonly after: Build
  readonly change: Change
  readonly policy: ShopPolicy
  /** Set when the old modules must come out first, which the change itself does not say; `after` is without them. */
  readonly makesRoom?: true
}

/**
 * True when the members of one of these kinds differ before and after. Rules judge what a change touches: a fault
 * that was there before and lies elsewhere does not spoil an unrelated change, and taking a part out and putting the
 * same one back is no change.
 */
export const touches = ({ before, after }: Situation, ...kinds: readonly PartKind[]): boolean =>
  kinds.some((kind) =>
    kind === 'memory'
      ? idsOf(before.memory) !== idsOf(after.memory)
      : kind === 'drive'
        ? idsOf(before.drives) !== idsOf(after.drives)
        : kind === 'fan'
          ? idsOf(before.fans) !== idsOf(after.fans)
          : before[kind]?.id !== after[kind]?.id,
  )

/** True when the change itself brings a part of that kind: then asking for another one would never end. */
export const brings = ({ change }: Situation, kind: PartKind): boolean =>
  change.add.some((p) => p.kind === kind)

/** The part of that kind that the change adds, else the first of the given ones. */
export const firstAdded = <P extends Part>({ change }: Situation, parts: readonly P[]): P | undefined =>
  parts.find((p) => change.add.some((added) => added.id === p.id)) ?? parts[0]

const idsOf = (parts: readonly Part[]): string => JSON.stringify(parts.map((p) => p.id).sort())
