import type { AskedChange, PartAsked } from '../../core/asked/asked.ts'
import type { Finding } from '../../core/fit/finding.ts'
import type { Option } from '../../core/ranking/option.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { fill, oneLine } from '../say.ts'
import { type Context, worstOf } from './context.ts'
import { isOwners } from './facts.ts'
import type { Item, Letter } from './letter.ts'
import type { Known } from './pick.ts'
import { isEstimate } from './rates.ts'

/** What was asked by name, said for pages and letters alike: the answer first, then why, the money, other roads. */
export type AskedSaid = {
  readonly verdict: Verdict
  /** The part, or the change, in words. */
  readonly what: string
  readonly answer: string
  readonly more: readonly string[]
  readonly reasons: { readonly head: string; readonly items: readonly Item[] }
  readonly price?: NonNullable<Letter['price']> | undefined
  /** What else could be done, or what the shelf does for the same money. */
  readonly roads?: { readonly head: string; readonly items: readonly Item[] } | undefined
  readonly subject: string
  readonly preheader: string
  /** How many missing facts the owner could tell; 0 where there are none, or the shop looks them up. */
  readonly asksFor: number
  /** How to say yes to it, where that is not as usual. */
  readonly yes?: string | undefined
  /** The option an owner would say yes to. */
  readonly option?: Option | undefined
}

/** Findings told as reasons beyond the worst ones: enough to see that nothing was forgotten. */
const REASONS_MOST = 6

export const tagOf = ({ answer }: Context) => oneLine(answer.inputs.machine.tag)

/** What the change comes to: with companions where it needs them, else as it was asked for. */
export function standingOf({ verdict, findings, needs, option }: AskedChange): {
  readonly verdict: Verdict
  readonly findings: readonly Finding[]
} {
  if (option !== undefined) return option
  // What needs a part that nobody has does not go in today, whatever else is said of it.
  return needs.length > 0 && rankOfVerdict(verdict) < rankOfVerdict("can't tell")
    ? { verdict: 'does not fit', findings }
    : { verdict, findings }
}

/** As the owner wrote it where the shop has no record of it. */
export const namedPart = (ctx: Context, { part, isKnown }: PartAsked): string =>
  isKnown ? ctx.partWords(part.id) : oneLine(part.name)

/** Today was measured on this machine, and what comes after on another one. */
export const isAfterElsewhere = ({ before, after }: Known): boolean =>
  before.onThisMachine && !after.onThisMachine && !isEstimate(after)

/** Where a gain was measured, when that is not this machine; as the games of a letter say it. */
export function elsewhereOf({ words: { games } }: Context, gain: Known): readonly string[] {
  if (isAfterElsewhere(gain)) return [games.afterElsewhere]
  return gain.before.onThisMachine || isEstimate(gain.before) ? [] : [games.otherMachine]
}

/** The owner's sentences on what decides, and a road where the deciding number gives one. */
export function decisiveOf(ctx: Context, findings: readonly Finding[]): readonly string[] {
  const worst = worstOf(findings)
  if (worst[0] === undefined || worst[0].verdict === 'fits') return []
  const said = worst.slice(0, 2).flatMap((finding) => [...ctx.finding(finding), ...roadOf(ctx, finding)])
  return [...new Set(said)]
}

function roadOf(ctx: Context, { rule, verdict, values }: Finding): readonly string[] {
  const road = ctx.tables.asked.roads[rule]
  if (road === undefined || verdict !== 'does not fit') return []
  const texts = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, ctx.figures.named(name, value)]),
  )
  const holes = [...road.matchAll(/\{(\w+)\}/g)].map(([, name]) => name ?? '')
  return holes.every((name) => texts[name] !== undefined) ? [fill(road, texts)] : []
}

/** How many of the facts that are missing the owner can see, read or measure at home. */
export function factsOfOwner(findings: readonly Finding[], isTheirs = isOwners): number {
  const missing = findings.filter((f) => f.verdict === "can't tell").flatMap((f) => f.missing)
  const keys = missing.filter(isTheirs).map((m) => ('limit' in m ? m.limit : `${m.partId} ${m.spec}`))
  return new Set(keys).size
}

/** Every finding, the worst first; what fits is told as well, so that nobody asks about it. */
export function reasonsOf(ctx: Context, findings: readonly Finding[]): AskedSaid['reasons'] {
  const items = findings
    .toSorted((a, b) => rankOfVerdict(b.verdict) - rankOfVerdict(a.verdict))
    .flatMap((finding): Item[] => {
      const says = ctx.finding(finding)
      return says.length === 0 ? [] : [{ ...ctx.verdict(finding.verdict), what: aboutOf(ctx, finding), says }]
    })
  // Several rules may ask for figures of one part: that is one reason.
  const once = [...new Map(items.map((item) => [JSON.stringify(item), item])).values()]
  return { head: ctx.tables.asked.why, items: once.slice(0, REASONS_MOST) }
}

const aboutOf = (ctx: Context, { partId }: Finding): string => {
  const asked = ctx.answer.asked
  if (partId === undefined) return tagOf(ctx)
  if (asked?.ask === 'can I put this in' && asked.part.id === partId) return namedPart(ctx, asked)
  return ctx.partWords(partId)
}
