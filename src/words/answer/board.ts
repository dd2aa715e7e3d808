import type { Finding } from '../../core/fit/finding.ts'
import { WISHES } from '../../core/question.ts'
import type { Option } from '../../core/ranking/option.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { fill, oneLine } from '../say.ts'
import { type Context, worstOf } from './context.ts'
import type { Item, Letter } from './letter.ts'
import { limitRows } from './limitRows.ts'
import { notWorthOf } from './roads.ts'

/** Reasons told for each verdict, and further parts named for the same reason; the rest is counted. */
const EACH_MOST = 3
const SAME_MOST = 2

type Row = {
  readonly key: string
  readonly verdict: Verdict
  readonly what: string
  readonly says: readonly string[]
}

/** `parts`: how many parts of the shelf it speaks for; none when it is a limit. */
type Told = Row & { readonly parts: number }

/**
 * What the board can take, takes after work, may take once a fact is known, and cannot take: best to worst, one
 * reason each. Parts of the pick and of the other roads are told there already.
 */
export function boardOf(ctx: Context, elsewhere: readonly Option[]): Letter['board'] {
  const { words, answer } = ctx
  const w = words.board
  const toldIds = new Set(elsewhere.flatMap((o) => o.change.add.map((p) => p.id)))
  const parts = bestFor([...optionRows(ctx), ...ruledOutRows(ctx)]).filter((r) => !toldIds.has(r.key))
  const missing = new Set(
    [
      ...answer.ranking.needsAFact.flatMap((o) => o.findings),
      ...answer.ranking.ruledOut.flatMap((r) => r.findings),
    ]
      .flatMap((f) => f.missing)
      .flatMap((m) => ('limit' in m ? [m.limit] : [])),
  )
  const none = noneOfKinds(ctx)
  const limits = limitRows(ctx, missing).map((row) => ({ ...row, parts: 0 }))
  const rows = [...limits, ...mergedByKind(ctx, none, parts)].sort(
    (a, b) => rankOfVerdict(a.verdict) - rankOfVerdict(b.verdict),
  )
  const perVerdict = new Map<Verdict, number>()
  const items: Item[] = []
  let told = 0
  for (const row of rows) {
    const before = perVerdict.get(row.verdict) ?? 0
    if ((row.parts > 0 && before >= EACH_MOST) || !ctx.gloss.hasRoom(row.says)) continue
    if (row.parts > 0) perVerdict.set(row.verdict, before + 1)
    told += row.parts
    items.push({ ...ctx.verdict(row.verdict), what: row.what, says: row.says.map((s) => ctx.gloss.add(s)) })
  }
  if (items.length === 0) return undefined
  const left = parts.length - told
  return {
    head: w.head,
    items,
    more: [...(left > 0 ? [ctx.some(w.more, left)] : []), ...wishesOf(ctx)],
  }
}

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
    return first === undefined ? [] : [{ ...first, says: [...first.says, says], parts: own.length }]
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
    if (same.length === 0) return [{ ...first, parts: 1 }]
    const says = fill(ctx.words.board.sameFor, { parts: ctx.list(same.map((r) => r.what)) })
    return [{ ...first, says: [...first.says, says], parts: 1 + same.length }]
  })
}

/** A part can stand in several options; what counts is the best it can do. */
function bestFor(rows: readonly Row[]): readonly Row[] {
  const best = new Map<string, Row>()
  for (const row of rows) {
    const had = best.get(row.key)
    if (had === undefined || rankOfVerdict(row.verdict) < rankOfVerdict(had.verdict)) best.set(row.key, row)
  }
  return [...best.values()]
}

/** Findings about this part, else all of a change of one part. */
const about = (findings: readonly Finding[], partId: string, alone: boolean): readonly Finding[] => {
  const own = findings.filter((f) => f.partId === partId)
  return alone ? findings : own
}

function optionRows(ctx: Context): readonly Row[] {
  const { ranked, withoutNumber, needsAFact } = ctx.answer.ranking
  return [...ranked, ...withoutNumber, ...needsAFact].flatMap((option) => {
    const companions = new Set(option.companionPartIds)
    const wanted = option.change.add.filter((p) => !companions.has(p.id))
    return wanted.flatMap((part) => {
      const findings = about(option.findings, part.id, wanted.length === 1)
      const all = worstOf(findings)
      const [worst] = all
      if (worst === undefined) return []
      // Everything that is missing is asked for at once.
      const why = worst.verdict === "can't tell" ? all.slice(0, EACH_MOST) : [worst]
      const poor = wanted.length === 1 ? notWorthOf(ctx, option) : []
      return [
        {
          key: part.id,
          verdict: worst.verdict,
          what: ctx.partWords(part.id),
          says: poor.length > 0 ? poor : [...new Set(why.flatMap((f) => ctx.finding(f)))],
        },
      ]
    })
  })
}

function ruledOutRows(ctx: Context): readonly Row[] {
  const w = ctx.words.board
  return ctx.answer.ranking.ruledOut
    .filter((r) => r.wish === undefined)
    .flatMap((r) => {
      const worst = worstOf(r.findings)
      const [first, ...others] = worst
      const lacking =
        r.lacking.length === 0
          ? []
          : [fill(w.lacking, { kinds: ctx.list(r.lacking.map((k) => kindWord(ctx, k))) })]
      // A missing companion says what the other reasons come to; else a second reason stands beside the first.
      const second = lacking.length > 0 ? [] : others.slice(0, 1).flatMap((f) => ctx.finding(f))
      const why = first ? ctx.finding(first) : []
      const says = [...new Set([...(lacking.length > 0 ? why.slice(0, 1) : why), ...second]), ...lacking]
      return says.length === 0
        ? []
        : [{ key: r.partId, verdict: r.verdict, what: ctx.partWords(r.partId), says }]
    })
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
    return known === undefined
      ? fill(w.wishOther, { parts: said })
      : fill(w.wish, { wish: ctx.words.wishes[known], parts: said })
  })
}
