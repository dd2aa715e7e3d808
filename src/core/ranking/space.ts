import type { Finding } from '../fit/finding.ts'
import type { Minor } from '../money.ts'
import { rankOfVerdict, type Verdict } from '../verdict.ts'
import type { Base } from './bases.ts'
import { complete, type Draft, draftOf } from './companions.ts'
import type { NetPrice, Option, Ranking } from './option.ts'
import type { Desk, RankInput } from './rank.ts'
import { whyRuledOut } from './ruledOut.ts'
import type { Offer } from './shelf.ts'

/** A drive of the shelf in this machine. It moves no frame rate, so it has no place in the ranking. */
export type SpaceRow = {
  readonly shelfItemId: string
  readonly partId: string
  readonly verdict: Verdict
  readonly findings: readonly Finding[]
  /** Absent: nobody wrote down how much goes onto it. */
  readonly capacityGB?: number | undefined
  /** Against what the owner asked for; absent where no size was asked for. A drive of unknown capacity is never taken for large. */
  readonly size?: 'enough' | 'too small' | "can't tell" | undefined
  /** With fitting and whatever work rules ask for; absent where it does not fit. */
  readonly price?: NetPrice | undefined
  /** Net price by capacity, in minor units; not rounded. */
  readonly minorPerGB?: number | undefined
  readonly besidePick?: BesidePick | undefined
}

/** The same drive put in on the same visit as what is recommended. */
export type BesidePick = {
  readonly optionId: string
  readonly verdict: Verdict
  /** What is worse together than each by itself: lanes and ports that both want. */
  readonly findings: readonly Finding[]
  /** What it adds to the price of the pick; work that is done once is paid once. */
  readonly moreMinor: Minor
}

/**
 * What the shelf has for somebody who asks for more space: each drive judged and priced alone and beside the pick. What fits
 * comes first, the cheapest by capacity before all others; then what needs a fact, then what does not fit or is too small. Undefined where
 * nobody asks for space. Cost: two or three judgements a drive.
 */
export function spaceOf(
  input: RankInput,
  desk: Desk,
  { ranked, bestPerMoneyId }: Ranking,
): SpaceRow[] | undefined {
  if (!input.question.wishes.includes('more space')) return undefined
  const pick = ranked.find(({ id }) => id === bestPerMoneyId)
  return desk.offers
    .filter(({ part }) => part.kind === 'drive')
    .map((offer) => rowOf(offer, pick, desk, input.question.spaceGB))
    .sort(
      (a, b) =>
        rankOfVerdict(groupOf(a)) - rankOfVerdict(groupOf(b)) ||
        (a.minorPerGB ?? Number.MAX_VALUE) - (b.minorPerGB ?? Number.MAX_VALUE) ||
        (a.shelfItemId < b.shelfItemId ? -1 : 1),
    )
}

/** Whatever goes in is one group: work and price are in the net. What is too small is of no use, whether it goes in or not. */
function groupOf({ verdict, price, size }: SpaceRow): Verdict {
  if (size === 'too small') return 'does not fit'
  if (price === undefined) return verdict
  return size === "can't tell" ? "can't tell" : verdict === "can't tell" ? verdict : 'fits'
}

const sizeOf = (capacityGB: number | undefined, askedGB: number): SpaceRow['size'] =>
  capacityGB === undefined ? "can't tell" : capacityGB < askedGB ? 'too small' : 'enough'

const baseOf = (offers: readonly Offer[], of: Partial<Base> = {}): Base => ({
  ...{ offers, removeIds: [], chosen: [], work: [], ...of },
})

function rowOf(offer: Offer, pick: Option | undefined, desk: Desk, askedGB: number | undefined): SpaceRow {
  const { item, part } = offer
  const capacityGB = part.kind === 'drive' ? part.capacityGB : undefined
  const row = {
    ...{ shelfItemId: item.id, partId: part.id },
    ...(capacityGB !== undefined && { capacityGB }),
    ...(askedGB !== undefined && { size: sizeOf(capacityGB, askedGB) }),
  }
  const base = baseOf([offer])
  const { fitting, unclear } = complete(base, desk.search)
  const draft = fitting ?? unclear
  if (draft === undefined) {
    const { verdict, findings } = whyRuledOut([base], desk.search, desk.unwanted)
    return { ...row, verdict, findings }
  }
  const beside = pick && besideOf(draft, pick, desk)
  return {
    ...row,
    ...{ verdict: draft.judged.verdict, findings: draft.judged.findings, price: draft.price },
    ...(capacityGB !== undefined && capacityGB > 0 && { minorPerGB: draft.price.netMinor / capacityGB }),
    ...(beside && { besidePick: beside }),
  }
}

function besideOf(drive: Draft, pick: Option, { offers, search }: Desk): BesidePick | undefined {
  const byItem = new Map(offers.map((offer) => [offer.item.id, offer]))
  const own = pick.shelfItemIds.flatMap((id) => byItem.get(id) ?? [])
  if (own.length !== pick.shelfItemIds.length) return undefined
  const { removeIds, work } = pick.change
  const all = [...own, ...drive.base.offers, ...drive.companions]
  const base = baseOf(all, { removeIds, work })
  const judged = search.judge({ add: all.map(({ part }) => part), removeIds, work })
  const both = draftOf(base, [], judged, search)
  const before = [...pick.findings, ...drive.judged.findings]
  const worst = (rule: Finding['rule']) =>
    Math.max(-1, ...before.filter((f) => f.rule === rule).map((f) => rankOfVerdict(f.verdict)))
  return {
    ...{ optionId: pick.id, verdict: judged.verdict },
    findings: judged.findings.filter((f) => f.verdict !== 'fits' && rankOfVerdict(f.verdict) > worst(f.rule)),
    moreMinor: both.price.netMinor - pick.price.netMinor,
  }
}
