import type { Part } from '../../core/part.ts'
import { WISHES } from '../../core/question.ts'
import type { Option, RuledOut } from '../../core/ranking/option.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { fill, oneLine } from '../say.ts'
import { priced, pricesOf, type Row, restOf, sameFor } from './boardPrices.ts'
import {
  type Context,
  companionsOf,
  goodsOf,
  reasonsOf,
  theGoods,
  wantedParts,
  worseThanFits,
} from './context.ts'
import { namedBefore } from './facts.ts'
import type { Item, Letter } from './letter.ts'
import { limitRows } from './limitRows.ts'
import { oldPartsOf, tradedKinds } from './oldParts.ts'
import { fpsOf } from './partFps.ts'
import { notWorthOf } from './roads.ts'
import { soundLines, tooLoudLine } from './sound.ts'

/** Parts told for each verdict, reasons of one part, and further parts named for the same reason; the rest is counted. */
const EACH_MOST = 3
const REASONS_MOST = 4
const SAME_MOST = 6
/** Works named that somebody has to look into first. */
const CHECKS_MOST = 2

/** `keys`: the parts of the shelf that it speaks for; none when it is a limit. */
type Told = Row & { readonly keys: readonly string[] }

/**
 * What the board can take, takes after work, may take once a fact is known, and cannot take: best to worst, each with
 * its reasons. Parts of the pick and of the other roads are told there already. What the owner named, and what is of a
 * kind that was asked for, is told first and never left out.
 */
export function boardOf(ctx: Context, elsewhere: readonly Option[]): Letter['board'] {
  const { words, answer } = ctx
  const w = words.board
  const toldIds = new Set(elsewhere.flatMap((o) => o.change.add.map((p) => p.id)))
  const parts = [...optionRows(ctx), ...ruledOutRows(ctx)].filter((r) => !toldIds.has(r.key))
  const missing = new Set(
    [
      ...answer.ranking.needsAFact.flatMap((o) => o.findings),
      ...answer.ranking.ruledOut.flatMap((r) => r.findings),
    ]
      .flatMap((f) => f.missing)
      .flatMap((m) => ('limit' in m ? [m.limit] : [])),
  )
  const place = (row: Row) => namedBefore(ctx, [row.key])
  const sorted = parts.toSorted((a, b) => place(a) - place(b))
  const limits = limitRows(ctx, missing).map((row) => ({ ...row, keys: [] }))
  const rows = chosenOf(ctx, [...limits, ...mergedByKind(ctx, noneOfKinds(ctx), sorted)])
  const told = new Set(rows.flatMap(({ keys }) => keys))
  const rest =
    rows.length === 0
      ? []
      : restOf(
          ctx,
          parts.filter(({ key }) => !told.has(key)),
        )
  const items: Item[] = [...rows, ...rest]
    .toSorted((a, b) => rankOfVerdict(a.verdict) - rankOfVerdict(b.verdict))
    .map((row) => ({
      ...ctx.verdict(row.verdict),
      what: row.key === 'never' ? ctx.gloss.add(row.what) : priced(ctx, row),
      says: row.says.map((s) => ctx.gloss.add(s)),
    }))
  const isNoneOut =
    answer.inputs.shelf.some(({ quantity }) => quantity > 0) && answer.ranking.ruledOut.length === 0
  const more = [
    ...(isNoneOut ? [w.noneOut] : []),
    ...pricesOf(ctx, parts),
    ...wishesOf(ctx),
    ...checkFirstOf(ctx),
  ]
  return items.length === 0 ? undefined : { head: w.head, items, more }
}

/** The rows that there is room for, those of what the owner asked about before all others. */
function chosenOf(ctx: Context, rows: readonly Told[]): readonly Told[] {
  const isAsked = (row: Told) =>
    namedBefore(ctx, [row.key]) <= ctx.asking.partIds.length && row.keys.length > 0
  const asked = rows.filter(isAsked)
  const texts = asked.flatMap((row) => row.says)
  const perVerdict = new Map<Verdict, number>()
  for (const { verdict } of asked) perVerdict.set(verdict, (perVerdict.get(verdict) ?? 0) + 1)
  const chosen = new Set(asked)
  for (const row of rows.filter((r) => !isAsked(r))) {
    const before = perVerdict.get(row.verdict) ?? 0
    if ((row.keys.length > 0 && before >= EACH_MOST) || !ctx.gloss.hasRoom([...texts, ...row.says])) continue
    if (row.keys.length > 0) perVerdict.set(row.verdict, before + 1)
    texts.push(...row.says)
    chosen.add(row)
  }
  return rows.filter((row) => chosen.has(row))
}

/** One line on works that may be worth doing once somebody has looked; those that cost least first. */
function checkFirstOf(ctx: Context): readonly string[] {
  const w = ctx.words.board
  const checks = ctx.answer.ranking.checkFirst.map(({ option }) => option)
  const named = checks
    .toSorted((a, b) => a.price.netMinor - b.price.netMinor)
    .slice(0, CHECKS_MOST)
    .map((option) => {
      const work = option.change.work.map((id) => inside(ctx, ctx.words.works[id] ?? oneLine(id))).join(', ')
      return option.price.costsNothing ? fill(w.checkFree, { work }) : work
    })
  if (named.length === 0) return []
  const left = checks.length - named.length
  return [fill(w.checkFirst, { works: ctx.list(left > 0 ? [...named, ctx.some(w.checkMore, left)] : named) })]
}

/** Inside a sentence, where the language writes nouns small. */
const inside = ({ tables }: Context, text: string): string =>
  tables.askOwner.nounsSmall ? text.charAt(0).toLowerCase() + text.slice(1) : text

/** Kinds that an owner asks for by name. */
const ASKED_KINDS = ['processor', 'memory', 'card'] as const
type AskedKind = (typeof ASKED_KINDS)[number]

/** Kinds of which the shelf has several parts and none fits, whatever the owner wishes; each with these parts. */
function noneOfKinds(ctx: Context): ReadonlyMap<AskedKind, ReadonlySet<string>> {
  const { ranking, inputs } = ctx.answer
  const out = new Set(
    ranking.ruledOut.filter((r) => r.wish === undefined && r.verdict === 'does not fit').map((r) => r.partId),
  )
  const stocked = inputs.shelf.filter((s) => s.quantity > 0).map((s) => s.partId)
  return new Map(
    ASKED_KINDS.map(
      (kind) => [kind, new Set(stocked.filter((id) => ctx.part(id)?.kind === kind))] as const,
    ).filter(([, ids]) => ids.size > 1 && [...ids].every((id) => out.has(id))),
  )
}

/** Of a kind of which nothing fits, one part is told with its reason, and then that no other fits either. */
function mergedByKind(
  ctx: Context,
  none: ReadonlyMap<AskedKind, ReadonlySet<string>>,
  rows: readonly Row[],
): Told[] {
  const whole = [...none].flatMap(([kind, ids]) => {
    const own = rows.filter((r) => ids.has(r.key))
    const [first] = own
    const says = ctx.words.board.noneOfKind[kind]
    return first === undefined
      ? []
      : [{ ...first, says: [...first.says, says], keys: own.map(({ key }) => key) }]
  })
  const told = new Set([...none.values()].flatMap((ids) => [...ids]))
  const others = rows.filter((r) => !told.has(r.key))
  return [...whole, ...mergedBySaying(ctx, others)]
}

/** Parts with the same verdict for the same reason are told once; of many, the first ones are named. */
function mergedBySaying(ctx: Context, rows: readonly Row[]): Told[] {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const key = [row.verdict, ...row.says].join('\n')
    groups.set(key, [...(groups.get(key) ?? []), row])
  }
  return [...groups.values()].flatMap(([first, ...others]) => {
    if (first === undefined) return []
    const same = others.slice(0, SAME_MOST)
    const keys = [first, ...same].map(({ key }) => key)
    return [{ ...first, says: [...first.says, ...sameFor(ctx, same)], keys }]
  })
}

/**
 * Each part as it goes in alone, with the companions it then needs; the better verdict, then the less work, where it
 * goes in in several ways. A part that is listed in no option of its own is told together with the other part of its
 * pair, once for both: what is said of the two is not true of one.
 */
function optionRows(ctx: Context): readonly Row[] {
  const { ranked, withoutNumber, needsAFact } = ctx.answer.ranking
  const options = [...ranked, ...withoutNumber, ...needsAFact].filter((o) => o.change.add.length > 0)
  const ids = new Set(options.flatMap((o) => wantedParts(o).map((p) => p.id)))
  const told = new Set<string>()
  return [...ids].flatMap((id) => {
    const own = options.filter((o) => wantedParts(o).some((p) => p.id === id))
    const alone = own.filter((o) => wantedParts(o).length === 1)
    const [best] = (alone.length > 0 ? alone : own).toSorted(
      (a, b) =>
        rankOfVerdict(a.verdict) - rankOfVerdict(b.verdict) || a.change.work.length - b.change.work.length,
    )
    if (best === undefined || told.has(best.id)) return []
    told.add(best.id)
    const row = rowOf(ctx, best, id)
    return [{ ...row, says: [...row.says, ...soundLines(ctx, best)] }]
  })
}

function rowOf(ctx: Context, option: Option, partId: string): Row {
  const w = ctx.words.board
  const wanted = wantedParts(option)
  const part = wanted.filter((p) => p.id === partId)
  const others = wanted.filter((p) => p.id !== partId)
  const isAlone = others.length === 0
  const name =
    isAlone && option.change.removeIds.length === 0 ? ctx.partWords(partId) : placed(ctx, option, part)
  const companions = theGoods(ctx, option, companionsOf(option), 'is')
  const withIt = companions === '' ? [] : [fill(w.withIt, { parts: companions })]
  const poor = isAlone ? notWorthOf(ctx, option) : []
  const worse = reasonsOf(ctx, option, REASONS_MOST, false)
  const [first] = option.findings
  const fits = worse.length > 0 || poor.length > 0 || first === undefined ? [] : ctx.finding(first)
  const budgetMinor = ctx.answer.inputs.question.budgetMinor
  const over =
    option.withinBudget || budgetMinor === undefined
      ? []
      : [fill(ctx.words.roads.over, { budget: ctx.money(budgetMinor) })]
  // What is asked for by name is told in every game, also where it is not worth its money.
  const isAsked = ctx.asking.partIds.includes(partId)
  const fps = poor.length > 0 && !isAsked ? [] : fpsOf(ctx, option, poor.join(' '))
  return {
    key: partId,
    netMinor: option.price.netMinor,
    traded: tradedKinds(ctx, option),
    verdict: option.verdict,
    what: isAlone
      ? name
      : fill(ctx.words.goods.together, { part: name, others: goodsOf(ctx, option, others) }),
    short: [...over, ...(poor.length > 0 ? poor.slice(-1) : fps), ...worse.slice(0, 1)],
    says: [
      ...new Set([
        ...over,
        ...poor,
        ...fps,
        ...worse,
        ...fits,
        ...withIt,
        ...oldPartsOf(ctx, option),
        ...sureOf(ctx, option),
      ]),
    ],
  }
}

/** Beside what needs a fact: the way that needs none, with its price. */
function sureOf(ctx: Context, { surely }: Option): readonly string[] {
  if (surely === undefined) return []
  const parts = theGoods(ctx, surely, companionsOf(surely), 'with')
  return [fill(ctx.words.board.sure, { parts, price: ctx.money(surely.price.netMinor) })]
}

/** With where it goes when it takes the place of the old modules. */
const placed = (ctx: Context, option: Option, parts: readonly Part[]): string => {
  const names = ctx.list(parts.map((p) => ctx.partWords(p.id)))
  return option.change.removeIds.length > 0 && parts.some((p) => p.kind === 'memory')
    ? fill(ctx.words.goods.inPlace, { part: names })
    : names
}

function ruledOutRows(ctx: Context): readonly Row[] {
  return ctx.answer.ranking.ruledOut
    .filter((r) => r.wish === undefined)
    .flatMap((r) => {
      const says = whyOut(ctx, r)
      return says.length === 0
        ? []
        : [{ key: r.partId, verdict: r.verdict, what: ctx.partWords(r.partId), says }]
    })
}

/**
 * Why something does not go in: the worst first. A no has no other reasons than its own: what else would have to be done
 * does not matter then. A missing companion says what the reasons that ask for it come to.
 */
function whyOut(ctx: Context, { findings, lacking, verdict }: RuledOut): readonly string[] {
  const w = ctx.words.board
  const isForLacking = (f: (typeof findings)[number]) =>
    f.verdict !== verdict && f.needs.some((n) => 'part' in n && lacking.includes(n.part))
  const isNo = verdict === 'does not fit'
  const reasons = worseThanFits(findings).filter((f) => !isForLacking(f) && (!isNo || f.verdict === verdict))
  const most = lacking.length > 0 ? 1 : 2
  const said = reasons.slice(0, most).map((f) => ctx.finding(f))
  const told = lacking.length > 0 ? said.map((s) => s.slice(0, 1)) : said
  const left = reasons.length - told.length
  const kinds = ctx.list(lacking.map((k) => kindWord(ctx, k)))
  return [
    ...new Set(told.flat()),
    ...(lacking.length > 0 ? [fill(w.lacking, { kinds })] : []),
    ...(left > 0 ? [ctx.some(ctx.words.pick.moreReasons, left)] : []),
  ]
}

const kindWord = (ctx: Context, kind: string): string => {
  const found = Object.entries(ctx.words.kinds).find(([k]) => k === kind)
  return found?.[1] ?? oneLine(kind)
}

/** One sentence a wish: what was left out because the owner said so. */
function wishesOf(ctx: Context): readonly string[] {
  const w = ctx.words.board
  const byWish = new Map<string, Set<string>>()
  for (const r of ctx.answer.ranking.ruledOut) {
    if (r.wish === undefined) continue
    byWish.set(r.wish, (byWish.get(r.wish) ?? new Set()).add(ctx.partWords(r.partId)))
  }
  return [...byWish].map(([wish, parts]) => {
    const known = WISHES.find((k) => k === wish)
    const said = ctx.list([...parts].slice(0, EACH_MOST))
    if (known === undefined) return fill(w.wishOther, { parts: said })
    const why = known === 'quiet' ? tooLoudLine(ctx) : ''
    return `${fill(w.wish, { wish: ctx.words.wishes[known], parts: said })} ${why}`.trim()
  })
}
