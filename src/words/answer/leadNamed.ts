import { chipsetNamed } from '../../core/facts/chipsets.ts'
import { GENERATION_NAMES, GENERATIONS } from '../../core/facts/generations.ts'
import { WISHES } from '../../core/question.ts'
import type { Option } from '../../core/ranking/option.ts'
import { capital, fill, oneLine } from '../say.ts'
import { type Context, wantedParts, worstOf } from './context.ts'
import { type Case, headGain, type Known, knownGains } from './pick.ts'
import { ratesOf } from './rates.ts'

type Named = { readonly says: readonly string[]; readonly isNotWorth: boolean }

const NOTHING: Named = { says: [], isNotWorth: false }
const saying = (...says: readonly string[]): Named => ({ says, isNotWorth: false })

/** What there is to say of a part of the shelf that the owner's words name, before anything else is proposed. */
export function namedFirst(ctx: Context, kind: Case): Named {
  const { pick, answer, asking } = ctx
  const [id] = asking.partIds
  if (id === undefined || pick?.change.add.some((p) => p.id === id)) return NOTHING
  const w = ctx.words.lead.named
  const { ranked, withoutNumber, needsAFact, ruledOut } = answer.ranking
  const alone = (options: readonly Option[]): Option | undefined =>
    options.find((o) => wantedParts(o).length === 1 && wantedParts(o)[0]?.id === id)
  const values = { part: capital(ctx.partWords(id), ctx.lang) }
  const measured = alone(ranked)
  if (measured !== undefined) return ofMeasured(ctx, measured, values)
  const plain = alone(withoutNumber)
  if (plain !== undefined)
    return saying(fill(w.withoutNumber, { ...values, price: ctx.money(plain.price.netMinor) }))
  const unclear = alone(needsAFact)
  if (unclear !== undefined)
    return kind === 'fact'
      ? NOTHING
      : saying(fill(w.unclear, { ...values, price: ctx.money(unclear.price.netMinor) }))
  const out = ruledOut.find((r) => r.partId === id)
  if (out === undefined) return NOTHING
  const wish = WISHES.find((known) => known === out.wish)
  if (wish !== undefined)
    return saying(fill(w.wish, { ...values, wish: ctx.words.wishes[wish] }), w.outNoFigures)
  const [worst] = worstOf(out.findings)
  const why = worst === undefined ? [] : ctx.finding(worst).slice(0, 1)
  return saying(fill(w.out, { ...values, verdict: ctx.words.verdicts[out.verdict] }), ...why, w.outNoFigures)
}

function ofMeasured(ctx: Context, option: Option, part: { readonly part: string }): Named {
  const w = ctx.words.lead.named
  const { question } = ctx.answer.inputs
  const gain = gainAskedFor(ctx, option)
  if (gain === undefined) return NOTHING
  const values = {
    ...part,
    title: ctx.titleName(gain.titleId),
    ...ratesOf(ctx, gain),
    price: ctx.money(option.price.netMinor),
    budget: ctx.money(question.budgetMinor ?? 0),
  }
  const rise = Math.round(gain.after.averageFps) - Math.round(gain.before.averageFps)
  if (option.worthTheVisit) {
    const above = option.withinBudget || question.budgetMinor === undefined ? [] : [fill(w.above, values)]
    return saying(fill(w.gain, values), ...above)
  }
  const line = rise < 0 ? w.slower : rise === 0 ? w.near : w.notWorth
  return { says: [fill(line, values)], isNotWorth: true }
}

/** The game that the words name, else the one where it is slower, else the one of every first sentence. */
function gainAskedFor({ asking, answer }: Context, { gains }: Option): Known | undefined {
  const known = knownGains(gains)
  return (
    known.find((g) => asking.titleIds.includes(g.titleId)) ??
    known.find((g) => g.afterFpsHigh < g.before.averageFps) ??
    headGain(gains, answer.inputs.question)
  )
}

/** Generations that are counted, such as "10th (Comet Lake)"; others have no plain order. */
const COUNTED = /^\d+th(?= \()/

/**
 * To somebody who asks for a processor: where this board's road ends, when its chipset takes no later generation of
 * the socket, and that the recommended one is no newer.
 */
export function roadEnd(ctx: Context): readonly string[] {
  const { chipset } = ctx.answer.limits
  if (!ctx.asking.kinds.has('processor') || !chipset.known) return []
  const row = chipsetNamed(chipset.value)
  if (row === undefined) return []
  const ofSocket = GENERATION_NAMES.filter((name) => GENERATIONS[name] === row.socket)
  const isOut = (name: (typeof ofSocket)[number]) =>
    (row.supports[name] ?? 'not supported') === 'not supported'
  const last = ofSocket.findLast((name) => !isOut(name))
  const counted = last === undefined ? undefined : COUNTED.exec(last)?.[0]
  if (counted === undefined || last === ofSocket.at(-1)) return []
  const w = ctx.words.lead
  const values = { chipset: oneLine(chipset.value), generation: counted }
  const fitted = ctx.answer.inputs.machine.build.processor
  const own = ctx.pick?.change.add.find((p) => p.kind === 'processor')
  const isSame = own?.kind === 'processor' && own.generation === last && fitted?.generation === last
  return [fill(isSame ? w.roadEndSame : w.roadEnd, values)]
}
