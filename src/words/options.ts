import type { Answer } from '../core/answer.ts'
import { minorPerMajor } from '../core/currency.ts'
import type { Part } from '../core/part.ts'
import { heldBackBy } from '../core/ranking/heldBack.ts'
import type { CheckFirst, Option, RuledOut } from '../core/ranking/option.ts'
import { referenceMinor } from '../core/ranking/reference.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import type { Figures } from './figures.ts'

/** What a part is, in one word, behind its name where the name alone does not tell. */
export const KIND_WORDS: Record<Part['kind'], string> = {
  processor: 'processor',
  board: 'board',
  memory: 'memory kit',
  card: 'graphics card',
  supply: 'supply',
  case: 'case',
  cooler: 'cooler',
  drive: 'drive',
  fan: 'fan',
}

/** Works whose name in the shop's table is not plain enough beside a part's name. */
const WORK_WORDS: Readonly<Record<string, string>> = {
  'display into card': 'display plugged into the card',
  'drive cloned': 'system cloned to the faster drive',
  'fit bracket': 'bracket',
}

/** Name and kind of a part, such as "Tern 8 graphics card"; an id nobody knows any more stays an id. */
export function partWords(parts: readonly Part[], id: string): string {
  const part = parts.find((p) => p.id === id)
  return part === undefined ? id : nameAndKind(part)
}

function nameAndKind({ name, kind }: Part): string {
  const word = KIND_WORDS[kind]
  return name.toLowerCase().endsWith(word) ? name : `${name} ${word}`
}

/** Work that belongs to a part going in: said behind that part's name, not as a thing of its own. */
const SAID_BEHIND: Partial<Record<string, { kind: Part['kind']; words: string }>> = {
  'remove old modules': { kind: 'memory', words: 'in place of the old modules' },
}

/** The name of an option: what goes in, the wanted parts first, then what they need. */
export function optionWords(option: Option, parts: readonly Part[]): string {
  const needed = new Set(option.companionPartIds)
  const { add, work } = option.change
  const behind = (kind: Part['kind']) =>
    work.flatMap((w) => (SAID_BEHIND[w]?.kind === kind ? [SAID_BEHIND[w].words] : []))
  // One that the shop has no record of is in no list: its name stands in the change.
  const said = (part: Part) => nameAndKind(parts.find(({ id }) => id === part.id) ?? part)
  const named = (part: Part) => [said(part), ...behind(part.kind)].join(' ')
  const main = add.filter((p) => !needed.has(p.id)).map(named)
  const companions = add.filter((p) => needed.has(p.id)).map(named)
  const kinds = new Set(add.map((p) => p.kind))
  const alone = work.filter((w) => !kinds.has(SAID_BEHIND[w]?.kind ?? 'fan'))
  const what = [...main, ...alone.map(workWords)].join(' + ') || 'nothing'
  return companions.length === 0 ? what : `${what}, with ${companions.join(' and ')}`
}

/** The net price; a work that nobody priced is named, because its 0 is not its price. */
export function priceWords({ price }: Option, figures: Figures): string {
  const { netMinor, costsNothing, unpriced } = price
  if (unpriced.length === 0) return costsNothing ? 'costs nothing' : figures.money(netMinor)
  const missing = unpriced.map(workWords).join(', ')
  return netMinor === 0 ? `not priced: ${missing}` : `${figures.money(netMinor)}, not priced: ${missing}`
}

/** A work as a builder reads it; one that the shop named itself stays as it is. */
export const workWords = (work: string): string => WORK_WORDS[work] ?? work

/** What to look at before a work is worth proposing, and how. */
export const checkWords = ({ limits }: CheckFirst): string[] =>
  limits.map((key) => `${LIMIT_WORDS[key].label}: ${LIMIT_WORDS[key].findOut}`)

/** The shelf's own words on a ruled-out item: a wish, a companion the shelf lacks, or nothing beyond its findings. */
export function lackingWords(ruledOut: RuledOut): string | undefined {
  if (ruledOut.wish !== undefined) return `The owner asked: ${ruledOut.wish}.`
  if (ruledOut.lacking.length > 0) return `The shelf has no fitting ${ruledOut.lacking.join(' or ')} for it.`
  return undefined
}

/** The amount that an answer tells gains for: near what a part costs on its shelf, or work where nothing stands there. */
export function referenceOf({ inputs }: Answer): number {
  const { shelf, work, shop } = inputs
  const prices = (shelf.length > 0 ? shelf : work).map(({ priceMinor }) => priceMinor)
  return referenceMinor(prices, shop.policy.currency)
}

/** The gain in percent for that amount; undefined where an option has no number or costs nothing. */
export function gainForReference({ pctPer100 }: Option, answer: Answer): number | undefined {
  if (pctPer100 === undefined) return undefined
  return (pctPer100 * referenceOf(answer)) / (100 * minorPerMajor(answer.inputs.shop.policy.currency))
}

/** How its number is known. One that was measured where nothing held the processor back is not plainly measured. */
export function gradeWords(option: Option): string {
  const grade = option.useful?.grade ?? 'no number'
  return grade === 'measured' && heldBackBy(option).length > 0 ? 'measured on another machine' : grade
}

/** The marks an option carries in a list: which of the picks it is. */
export function pickWords(option: Option, answer: Answer): string[] {
  const { bestPerMoneyId, bestInBudgetId, cheapestToTargetId } = answer.ranking
  return [
    option.id === bestPerMoneyId ? 'most for the money' : undefined,
    option.id === bestInBudgetId ? 'most within the budget' : undefined,
    option.id === cheapestToTargetId ? 'cheapest to the target' : undefined,
  ].filter((w) => w !== undefined)
}

/** "+28% (25 to 31)": the useful gain with its interval, low first; a dash when no title has a number. */
export function usefulWords(option: Option, figures: Figures): string {
  const { useful } = option
  if (useful === undefined) return '–'
  return `${figures.gainPct(useful.pct)} (${figures.number(Math.floor(useful.pctLow))} to ${figures.number(Math.ceil(useful.pctHigh))})`
}
