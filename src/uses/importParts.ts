import { filledFromName, statedOnly } from '../core/naming/fromName.ts'
import type { Part } from '../core/part.ts'
import { partSchema } from '../input/parts.ts'
import type { ShopData } from '../input/shopFolder.ts'
import { type Plan, planOf } from './importPlan.ts'

/**
 * What an import does to parts. A figure of the row wins; a column that the file does not have leaves what was stated
 * before; what is still missing and stands in the name is read from there.
 */
export const planParts = (rows: ShopData['parts'], stored: readonly Part[]): Plan<Part> =>
  planOf(
    rows,
    stored,
    (part) => part.id,
    (draft, before) => filledFromName(partSchema.parse({ ...(before && statedOnly(before)), ...draft })),
    (draft) => draft.id,
  )

/** A note for each name that several parts of a kind have, at least one of which the rows give. */
export function sameNames(rows: ShopData['parts'], { after }: Plan<Part>): string[] {
  const byName = new Map<string, string[]>()
  const nameOf = (part: Part) => `${part.kind} ${part.name.trim().toLowerCase()}`
  for (const part of after.values()) byName.set(nameOf(part), [...(byName.get(nameOf(part)) ?? []), part.id])
  const named = new Set(rows.map(({ value }) => nameOf(value)))
  return [...named].flatMap((name) => {
    const ids = byName.get(name) ?? []
    return ids.length < 2 ? [] : [`${ids.length} parts have the same name: ${ids.sort().join(' and ')}`]
  })
}
