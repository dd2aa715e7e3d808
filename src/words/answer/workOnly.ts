import { CAUTION_IDS, type CautionId } from '../../core/fit/finding.ts'
import type { Option } from '../../core/ranking/option.ts'
import { opensMachine, workNamed } from '../../core/work/catalogue.ts'
import { cautionsForOpening } from '../cautions.ts'

/** Something is done and nothing goes in or out. */
export const isWorkOnly = (option: Option | undefined): boolean =>
  option !== undefined &&
  option.change.add.length === 0 &&
  option.change.removeIds.length === 0 &&
  option.change.work.length > 0

/** Work that costs nothing: the first thing to try. */
export const isFree = (option: Option | undefined): boolean =>
  isWorkOnly(option) && option?.price.costsNothing === true

/** What an option's works and findings ask for, before what every opening asks for. */
export const cautionsOf = ({ change, findings }: Option): CautionId[] => [
  ...findings.flatMap((f) => f.cautions),
  ...change.work.flatMap((id) => workNamed(id)?.cautions ?? []),
]

/**
 * Cautions for an owner who does the work alone, in the order of the hands; undefined where the shop should do it.
 * `opens` tells whether the machine is opened for it.
 */
export function ownWork(
  option: Option,
): { readonly opens: boolean; readonly cautions: CautionId[] } | undefined {
  const { work } = option.change
  if (work.some((id) => (workNamed(id)?.skill ?? 'shop') === 'shop')) return undefined
  const asked = new Set(cautionsOf(option))
  const opens = work.some(opensMachine)
  return {
    opens,
    cautions: opens ? cautionsForOpening([...asked]) : CAUTION_IDS.filter((id) => asked.has(id)),
  }
}
