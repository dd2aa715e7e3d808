import type { Missing } from '../../core/fit/finding.ts'
import type { LimitKey } from '../../core/limits/limit.ts'
import type { Option } from '../../core/ranking/option.ts'
import { wantedWords } from '../askOwner.ts'
import { fill } from '../say.ts'
import { type Context, optionWords, wantedParts, worstOf } from './context.ts'

/** Parts that missing facts decide about, named in the second sentence. */
const DECIDED_MOST = 3

/** Published figures of board, chipset and processor: the shop looks them up and asks nobody to. */
const LOOKED_UP: ReadonlySet<LimitKey> = new Set([
  'socket',
  'chipset',
  'family',
  'generationSupport',
  'firmwareNeeded',
  'processorPowerW',
  'memoryMaxGB',
  'memoryListedMaxGB',
  'memoryPerSlotMaxGB',
  'controllerRateMts',
  'boardRateMts',
  'memoryOverclock',
  'slotPcieGen',
  'slotLanes',
  'slotLanesShared',
  'largeBar',
  'processorPcieGen',
  'processorPcieLanes',
])

/** Something that an owner can see, read or measure at home; data sheets and published tables are the shop's. */
export const isOwners = (missing: Missing): boolean =>
  'limit' in missing ? !LOOKED_UP.has(missing.limit) : missing.partId === missing.spec

/** Read off the running system, its settings, the back of the machine or a list: nothing is opened for it. */
const OUTSIDE: ReadonlySet<LimitKey> = new Set([
  'firmware',
  'firmwareAllowList',
  'systemLicence',
  'diskEncrypted',
  'trustModule',
  'secureStart',
  'systemBits',
  'memoryRunsMts',
  'memoryProfileOn',
  'displayPluggedInto',
  'displaySocket',
  'driversClean',
  'systemFresh',
  'systemOnFastestDrive',
  'coolingLoad',
  'processorMaxC',
])

/** The machine has to be opened to find it out. */
export const isInside = (missing: Missing): boolean =>
  'limit' in missing && isOwners(missing) && !OUTSIDE.has(missing.limit)

const keyOf = (m: Missing): string => ('limit' in m ? m.limit : `${m.partId} `)

/** What an option is missing, each thing once. A figure of a data sheet is one thing a part. */
function missingOf(options: readonly Option[]): readonly Missing[] {
  const all = options.flatMap((o) => worstOf(o.findings).flatMap((f) => f.missing))
  return [...new Map(all.map((m) => [keyOf(m), m])).values()]
}

/** What the owner's words name comes first, then what is of a kind that they ask for. */
export function namedBefore(ctx: Context, partIds: readonly string[]): number {
  const { asking } = ctx
  const places = partIds.map((id) => asking.partIds.indexOf(id)).filter((at) => at >= 0)
  if (places.length > 0) return Math.min(...places)
  const isAsked = partIds.some((id) => asking.kinds.has(ctx.part(id)?.kind ?? 'fan'))
  return asking.partIds.length + (isAsked ? 0 : 1)
}

const namedFirst = (ctx: Context, options: readonly Option[]): readonly Option[] => {
  const place = (o: Option) =>
    namedBefore(
      ctx,
      wantedParts(o).map(({ id }) => id),
    )
  return options.toSorted((a, b) => place(a) - place(b))
}

/**
 * Options that missing facts decide, those of one name together: the chosen one, else the first of each of three facts;
 * where all wait for one fact, the first three. What the owner named leads.
 */
function undecided(ctx: Context): readonly (readonly Option[])[] {
  const { pick, answer } = ctx
  if (pick !== undefined) return [[pick]]
  const byFact = new Map<string, Map<string, Option[]>>()
  for (const option of namedFirst(ctx, answer.ranking.needsAFact)) {
    const fact = missingOf([option]).map(keyOf).sort().join('+')
    const name = optionWords(ctx, option)
    const byName = byFact.get(fact) ?? new Map<string, Option[]>()
    byFact.set(fact, byName.set(name, [...(byName.get(name) ?? []), option]))
  }
  const facts = [...byFact.values()].map((byName) => [...byName.values()])
  const [only, ...others] = facts
  const named = others.length === 0 ? (only ?? []) : facts.flatMap((options) => options.slice(0, 1))
  return named.slice(0, DECIDED_MOST)
}

const decidingOf = (ctx: Context): readonly Missing[] => missingOf(undecided(ctx).flat())

/** How many facts decide about the named options. */
export const decidingFacts = (ctx: Context): number => Math.max(1, decidingOf(ctx).length)

/** Facts that decide, as they stand inside a sentence: what the owner can tell, and what the shop looks up. */
export function factNames(ctx: Context): {
  readonly yours: readonly string[]
  readonly ours: readonly string[]
} {
  const missing = decidingOf(ctx)
  const named = (one: Missing): string =>
    'limit' in one
      ? wantedWords(one.limit, ctx.figures.language).what
      : fill(ctx.words.lead.factOf, { part: ctx.partWords(one.partId) })
  const names = (list: readonly Missing[]) => [...new Set(list.map(named))]
  return { yours: names(missing.filter(isOwners)), ours: names(missing.filter((m) => !isOwners(m))) }
}

/** The one limit that decides and that the owner can find out, whatever the shop looks up beside it. */
export function decidingLimit(ctx: Context): LimitKey | undefined {
  const [only, ...others] = decidingOf(ctx).filter(isOwners)
  return only !== undefined && others.length === 0 && 'limit' in only ? only.limit : undefined
}

/** All that waits for the missing facts. */
export const decidedOptions = (ctx: Context): readonly Option[] => undecided(ctx).flat()

/** What is decided, where that is one option alone: its price can be named. */
export function decidedOption(ctx: Context): Option | undefined {
  const [only, ...others] = undecided(ctx).flat()
  return others.length === 0 ? only : undefined
}

/** How many of them the owner can tell; where none, there is nothing to ask for. */
export function asked(ctx: Context): 'all' | 'some' | 'none' {
  const missing = decidingOf(ctx)
  if (missing.every(isOwners)) return 'all'
  return missing.some(isOwners) ? 'some' : 'none'
}

/** Whether anything in the letter asks the owner to look or measure. */
export function asksToLook({ answer }: Context): boolean {
  const { needsAFact, ruledOut } = answer.ranking
  const findings = [...needsAFact, ...ruledOut.filter((r) => r.lacking.length === 0)].flatMap(
    (o) => o.findings,
  )
  return !answer.limits.cardRoomMm.known || findings.some((f) => f.missing.some(isOwners))
}

/**
 * Their names in a list: equal names once, with how many the shelf has of them. Where there are several things, each has
 * its price beside it; of one alone a sentence of its own tells it.
 */
export function decidedWords(ctx: Context): string {
  const named = undecided(ctx)
  const isOne = named.flat().length < 2
  return ctx.list(
    named.flatMap((options) => {
      const [first] = options
      if (first === undefined) return []
      const parts = optionWords(ctx, first)
      const kinds = new Set(
        options.map((o) =>
          wantedParts(o)
            .map((p) => p.id)
            .join('+'),
        ),
      ).size
      if (kinds > 1) return [ctx.some(ctx.words.lead.sameName, kinds, { parts })]
      const { netMinor } = first.price
      // One name with several prices has none of them.
      if (isOne || netMinor <= 0 || options.some(({ price }) => price.netMinor !== netMinor)) return [parts]
      return [fill(ctx.words.lead.decidedEach, { parts, price: ctx.money(netMinor) })]
    }),
  )
}
