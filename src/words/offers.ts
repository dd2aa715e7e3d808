import { minorPerMajor } from '../core/currency.ts'
import type { MatchAsk } from '../core/matching/ask.ts'
import type { Certificate } from '../core/matching/certificate.ts'
import type { LeftOut, MatchedOffer, Matching } from '../core/matching/match.ts'
import { VALUE_PARTS } from '../core/matching/pairs.ts'
import type { Part } from '../core/part.ts'
import { OFFERS_EN } from './en/offers.ts'
import type { Figures } from './figures.ts'
import { wordsOf } from './findings.ts'
import { partWords } from './options.ts'
import { type Filling, type Forms, fill, formOf } from './say.ts'

const RULES = new Intl.PluralRules('en')
const W = OFFERS_EN

export type Shown = {
  readonly figures: Figures
  readonly parts: readonly Part[]
  /** The part of a shelf item. */
  readonly partOf: (itemId: string) => string
}

/** The parts of an offer, what it needs behind it. */
export function offerWords(
  { addIds, companionIds }: Pick<MatchedOffer, 'addIds' | 'companionIds'>,
  parts: readonly Part[],
): string {
  const main = addIds.filter((id) => !companionIds.includes(id)).map((id) => partWords(parts, id))
  if (companionIds.length === 0) return main.join(' + ')
  const companions = companionIds.map((id) => partWords(parts, id)).join(' and ')
  return fill(W.result.with, { part: main.join(' + '), companions })
}

/** What counted, in words. */
export const aimWords = ({ aim, percentMinor = 0 }: MatchAsk, figures: Figures): string =>
  fill(W.result.aims[aim], { percent: figures.money(percentMinor, true) })

/** Whether another matching could give more, in words. */
export function certificateWords(
  { holds, faults, pairs, worth, bound }: Certificate,
  figures: Figures,
): string {
  if (holds) return fill(W.result.proved, { pairs: figures.count(pairs) })
  return fill(W.result.notProved, { worth, bound, faults: faults.map((f) => W.result.faults[f]).join(', ') })
}

/** How near to the best the offers are: proved, or by how much they may fall short. */
export function bestWords({ packing, certificate, ask }: Matching, figures: Figures): string {
  if (packing === undefined || !certificate.holds) return certificateWords(certificate, figures)
  const { worth, bound } = packing
  if (worth === bound) return W.result.packedBest
  return fill(W.result.packed, {
    ...{ worth: valueWords(worth, ask, figures), bound: valueWords(bound, ask, figures) },
  })
}

/** A value of the aim as people read it. */
export const valueWords = (value: number, { aim }: MatchAsk, figures: Figures): string =>
  value === 0
    ? W.result.nothing
    : aim === 'gain'
      ? fill(W.result.points, { points: figures.decimal(value / VALUE_PARTS.gain) })
      : figures.money(value, true)

/** Why an offer is this one and no other. */
export const nextWords = ({ next }: MatchedOffer, { figures, parts, partOf }: Shown): string =>
  next === undefined
    ? W.result.alone
    : fill(W.result.next, { part: partWords(parts, partOf(next.itemId)), gain: figures.gainPct(next.pct) })

/** Why a customer gets none, with its figures. */
export function leftWords(left: LeftOut, { figures, parts, partOf }: Shown): string {
  const money = (minor: number | undefined) => (minor === undefined ? '' : figures.money(minor))
  const facts = (left.missing ?? []).map((missing) => wordsOf(missing).label)
  return fill(W.left[left.reason], {
    part: left.itemId === undefined ? '' : partWords(parts, partOf(left.itemId)),
    gain: left.pct === undefined ? '' : figures.gainPct(left.pct),
    beside: left.shortItemId === undefined ? '' : partWords(parts, partOf(left.shortItemId)),
    net: money(left.netMinor),
    ceiling: money(left.ceilingMinor),
    until: left.until === undefined ? '' : figures.date(left.until),
    facts: [...new Set(facts)].join(', '),
  })
}

/** "100 dollars" in the shop's currency. */
export const hundred = (currency: string, figures: Figures): string =>
  figures.money(100 * minorPerMajor(currency))

export const counted = (forms: Forms, n: number, more: Filling = {}): string =>
  fill(formOf(forms, n, RULES), { ...more, n: String(n) })
