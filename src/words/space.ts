import type { Answer } from '../core/answer.ts'
import type { Finding } from '../core/fit/finding.ts'
import type { BesidePick, SpaceRow } from '../core/ranking/space.ts'
import type { Verdict } from '../core/verdict.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'
import { wordsIn } from './tables.ts'

export type SpaceSaid = { readonly verdict: Verdict; readonly what: string; readonly says: readonly string[] }

/** How parts are called and findings are said, for whoever reads it. */
export type SpaceNaming = {
  readonly part: (id: string) => string
  readonly finding: (finding: Finding) => readonly string[]
}

const PER_GB = 100

/** Drives for somebody who asks for more space, in the language of the figures; undefined where nobody did. */
export function saySpace(
  { space }: Answer,
  figures: Figures,
  naming: SpaceNaming,
):
  | { readonly head: string; readonly rows: readonly SpaceSaid[]; readonly notes: readonly string[] }
  | undefined {
  if (space === undefined) return undefined
  const w = wordsIn(figures.language).space
  return {
    head: w.head,
    rows: space.map((row) => rowSaid(row, figures, naming)),
    notes: [space.length === 0 ? w.none : w.noFrames],
  }
}

function rowSaid(row: SpaceRow, figures: Figures, naming: SpaceNaming): SpaceSaid {
  const w = wordsIn(figures.language).space
  const { verdict, findings, capacityGB, price, minorPerGB, besidePick } = row
  const values = {
    part: naming.part(row.partId),
    gb: fill(w.size, { gb: figures.number(capacityGB ?? 0) }),
    net: figures.money(price?.netMinor ?? 0),
    per: figures.money(Math.round((minorPerGB ?? 0) * PER_GB)),
  }
  const line = price === undefined ? w.whatOut : minorPerGB === undefined ? w.whatNoSize : w.what
  const reasons = findings.filter((f) => f.verdict !== 'fits').flatMap(naming.finding)
  return {
    ...{ verdict, what: fill(line, values).replace(/(\d) GB/g, '$1\u00a0GB') },
    says: [
      ...new Set([
        ...reasons,
        ...(capacityGB === undefined ? [w.noSize] : []),
        ...(besidePick === undefined ? [] : besideSaid(besidePick, figures, naming)),
      ]),
    ],
  }
}

function besideSaid(
  { verdict, findings, moreMinor }: BesidePick,
  figures: Figures,
  naming: SpaceNaming,
): string[] {
  const w = wordsIn(figures.language).space
  const reasons = findings.flatMap((f) =>
    naming
      .finding(f)
      .slice(0, 1)
      .map((reason) => fill(w.together, { reason })),
  )
  if (verdict === 'does not fit') return [w.besideOut, ...reasons]
  if (verdict === "can't tell") return [w.besideUnclear, ...reasons]
  return [fill(w.beside, { more: figures.money(moreMinor) }), ...reasons]
}
