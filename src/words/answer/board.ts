import type { Finding } from '../../core/fit/finding.ts'
import { WISHES } from '../../core/question.ts'
import type { Option } from '../../core/ranking/option.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { fill, oneLine } from '../say.ts'
import { type Context, worstOf } from './context.ts'
import type { Item, Letter } from './letter.ts'
import { limitRows } from './limitRows.ts'

/** Parts named for each verdict; the rest is counted in one sentence. */
const EACH_MOST = 4

type Row = {
  readonly key: string
  readonly verdict: Verdict
  readonly what: string
  readonly says: readonly string[]
}

/**
 * What the board can take, takes after work, may take once a fact is known, and cannot take: best to worst, one
 * reason each. Parts of the pick and of the other roads are told there already.
 */
export function boardOf(ctx: Context, told: readonly Option[]): Letter['board'] {
  const { words, answer } = ctx
  const w = words.board
  const toldIds = new Set(told.flatMap((o) => o.change.add.map((p) => p.id)))
  const parts = bestFor([...optionRows(ctx), ...ruledOutRows(ctx)]).filter((r) => !toldIds.has(r.key))
  const missing = new Set(
    [
      ...answer.ranking.needsAFact.flatMap((o) => o.findings),
      ...answer.ranking.ruledOut.flatMap((r) => r.findings),
    ]
      .flatMap((f) => f.missing)
      .flatMap((m) => ('limit' in m ? [m.limit] : [])),
  )
  const rows = [...limitRows(ctx, missing), ...parts].sort(
    (a, b) => rankOfVerdict(a.verdict) - rankOfVerdict(b.verdict),
  )
  const perVerdict = new Map<Verdict, number>()
  const items: Item[] = []
  for (const row of rows) {
    const before = perVerdict.get(row.verdict) ?? 0
    if (before >= EACH_MOST || !ctx.gloss.hasRoom(row.says)) continue
    perVerdict.set(row.verdict, before + 1)
    items.push({ ...ctx.verdict(row.verdict), what: row.what, says: row.says.map((s) => ctx.gloss.add(s)) })
  }
  const left = rows.length - items.length
  if (items.length === 0) return undefined
  return {
    head: w.head,
    items,
    more: [...(left > 0 ? [ctx.some(w.more, left)] : []), ...wishesOf(ctx)],
  }
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
      const [worst] = worstOf(findings)
      if (worst === undefined) return []
      return [
        { key: part.id, verdict: worst.verdict, what: ctx.partWords(part.id), says: ctx.finding(worst) },
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
      const more = others.length > 0 ? [ctx.some(ctx.words.pick.moreReasons, others.length)] : []
      const says = [...(first ? ctx.finding(first) : []), ...more, ...lacking]
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
