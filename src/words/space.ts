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
  { space, inputs }: Answer,
  figures: Figures,
  naming: SpaceNaming,
):
  | { readonly head: string; readonly rows: readonly SpaceSaid[]; readonly notes: readonly string[] }
  | undefined {
  if (space === undefined) return undefined
  const w = wordsIn(figures.language).space
  const lists = new Intl.ListFormat(figures.lang, { type: 'conjunction' })
  const { spaceGB } = inputs.question
  const asked = spaceGB === undefined ? undefined : sizeIn(figures, spaceGB)
  const large = space.filter(({ size }) => size !== 'too small')
  const small = space.filter(({ size }) => size === 'too small').map(({ partId }) => naming.part(partId))
  return {
    head: w.head,
    rows: large.map((row) => rowSaid(row, figures, naming, asked)),
    notes: [
      large.length > 0 ? w.noFrames : asked === undefined ? w.none : fill(w.noneLarge, { asked }),
      ...(small.length === 0 ? [] : [fill(w.leftOut, { asked: asked ?? '', parts: lists.format(small) })]),
    ],
  }
}

/** A size with a hard space before its unit. */
const sizeIn = (figures: Figures, gb: number): string =>
  fill(wordsIn(figures.language).space.size, { gb: figures.number(gb) }).replaceAll(' GB', '\u00a0GB')

function rowSaid(row: SpaceRow, figures: Figures, naming: SpaceNaming, asked: string | undefined): SpaceSaid {
  const w = wordsIn(figures.language).space
  const { findings, capacityGB, price, minorPerGB, besidePick, size } = row
  const verdict = size === "can't tell" && price !== undefined ? "can't tell" : row.verdict
  const values = {
    part: naming.part(row.partId),
    gb: sizeIn(figures, capacityGB ?? 0),
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
        ...(size === "can't tell" && asked !== undefined ? [fill(w.sizeUntold, { asked })] : []),
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
