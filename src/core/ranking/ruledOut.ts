import type { Judged } from '../fit/judgeChange.ts'
import type { PartKind } from '../part.ts'
import { rankOfVerdict } from '../verdict.ts'
import { type Base, changeOf } from './bases.ts'
import type { Search } from './companions.ts'
import { demandedKinds } from './look.ts'
import type { RuledOut } from './option.ts'
import { COMPANION_KINDS, type Offer, type Unwanted } from './shelf.ts'

/**
 * Why an offer does not go into this machine, told by the least bad of its changes alone (a kit beside the others or
 * instead of them): the better verdict, then fewer findings that give it, then beside. `lacking` are the demanded kinds for which the shelf has nothing that settles
 * the demand without a new misfit; where only the owner's wish keeps such items out, `wish` says so instead.
 */
export function whyRuledOut(bases: readonly Base[], search: Search, unwanted: readonly Unwanted[]): RuledOut {
  const judgements = bases.map((base) => ({ base, judged: search.judge(changeOf(base, [])) }))
  const [first, ...others] = judgements
  const offer = first?.base.offers[0]
  if (first === undefined || offer === undefined) throw new RangeError('nothing to rule out')
  const badness = ({ judged }: typeof first) => {
    const { verdict, findings } = judged
    return rankOfVerdict(verdict) * 1000 + findings.filter((f) => f.verdict === verdict).length
  }
  const { base, judged } = others.reduce(
    (least, next) => (badness(next) < badness(least) ? next : least),
    first,
  )
  const unmet = unmetKinds(base, judged, search)
  const wish = unwanted.find(({ part }) => unmet.includes(part.kind))?.wish
  return {
    shelfItemId: offer.item.id,
    partId: offer.part.id,
    verdict: judged.verdict,
    findings: judged.findings.filter((f) => f.verdict === judged.verdict || f.needs.some((n) => 'part' in n)),
    wish,
    lacking: unmet.filter((kind) => !unwanted.some(({ part }) => part.kind === kind)),
  }
}

/** Kinds that rules demand beside a change and for which the shelf has nothing that would do. */
export const unmetKinds = (base: Base, alone: Judged, search: Search): PartKind[] =>
  demandedKinds(alone).filter((kind) => !canBeMet(kind, base, alone, search))

/** An item that the owner does not want; the verdict is what it would be all the same. */
export function whyUnwanted({ item, part, wish }: Unwanted, search: Search): RuledOut {
  const { verdict } = search.judge({ add: [part], removeIds: [], work: [] })
  return { shelfItemId: item.id, partId: part.id, verdict, findings: [], wish, lacking: [] }
}

/** The shelf has something for the demand. Gainful kinds are bought for their own sake: having one is all that is asked. */
function canBeMet(kind: PartKind, base: Base, alone: Judged, search: Search): boolean {
  if (!COMPANION_KINDS.includes(kind)) return search.kinds.has(kind)
  const offers = search.companions.filter(({ part }) => part.kind === kind)
  return offers.some((companion) => settles(kind, base, companion, alone, search))
}

/** The companion takes the demand away and brings no misfit that was not there. */
function settles(kind: PartKind, base: Base, companion: Offer, alone: Judged, search: Search): boolean {
  const both = search.judge(changeOf(base, [companion]))
  const misfits = (judged: Judged) =>
    judged.findings.filter((f) => f.verdict === 'does not fit').map((f) => f.rule)
  const before = new Set(misfits(alone))
  return !demandedKinds(both).includes(kind) && misfits(both).every((rule) => before.has(rule))
}
