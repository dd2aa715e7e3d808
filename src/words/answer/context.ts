import { type Answer, partsToldOf } from '../../core/answer.ts'
import type { Finding, RuleId } from '../../core/fit/finding.ts'
import type { Grade } from '../../core/gain/gain.ts'
import type { Minor } from '../../core/money.ts'
import type { Part } from '../../core/part.ts'
import { heldBackBy } from '../../core/ranking/heldBack.ts'
import type { Option } from '../../core/ranking/option.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { type Figures, figuresOf } from '../figures.ts'
import { sayFinding } from '../findings.ts'
import { type Glosser, glosser } from '../gloss.ts'
import { capital, curly, type Filling, type Forms, fill, formOf, oneLine } from '../say.ts'
import { type Tables, wordsIn } from '../tables.ts'
import type { VerdictSaid } from './letter.ts'
import { type Asking, askingOf } from './named.ts'

/** Everything the blocks of one letter share: its words, figures, names, and which glosses were used. */
export type Context = {
  readonly answer: Answer
  readonly pick: Option | undefined
  readonly words: Tables['answer']
  /** All tables in the reader's language. */
  readonly tables: Tables
  readonly lang: string
  readonly figures: Figures
  readonly gloss: Glosser
  readonly money: (minor: Minor) => string
  readonly count: (n: number) => string
  readonly some: (forms: Forms, n: number, values?: Filling) => string
  readonly list: (items: readonly string[]) => string
  readonly part: (id: string) => Part | undefined
  /** Name and kind: "Quarrel 8G graphics card". */
  readonly partWords: (id: string) => string
  readonly titleName: (id: string) => string
  readonly settingWords: (id: string) => string
  readonly shelfItem: (id: string) => ShelfItem | undefined
  readonly verdict: (verdict: Verdict) => VerdictSaid
  /** The owner's sentences on one finding, not yet glossed. */
  readonly finding: (finding: Finding) => readonly string[]
  /** Parts of which it was said already how loud machines with them were: it is said once. */
  readonly soundTold: Set<string>
  /** What the owner's own words name. */
  readonly asking: Asking
  /** A frame rate as it is read; one that is below the target never reads as the target. */
  readonly fpsAt: (fps: number) => string
  readonly rateAt: (fps: number) => string
}

/** True when any amount of the letter has minor digits: then all amounts show them. */
function needsMinorDigits(answer: Answer, minorDigits: number): boolean {
  const { ranking, inputs } = answer
  const options = [...ranking.ranked, ...ranking.withoutNumber, ...ranking.needsAFact]
  const amounts = options.flatMap((o) => [o.price.netMinor, ...o.price.lines.map((l) => l.amountMinor)])
  return [...amounts, inputs.question.budgetMinor ?? 0].some((a) => a % 10 ** minorDigits !== 0)
}

export function contextOf(answer: Answer, pick: Option | undefined): Context {
  const { shop, customer, titles, settings, shelf, work } = answer.inputs
  const figures = figuresOf(shop, customer)
  const tables = wordsIn(figures.language)
  const { answer: words, glosses, askedBy } = tables
  const { lang } = figures
  const rules = new Intl.PluralRules(lang)
  const lists = new Intl.ListFormat(lang, { type: 'conjunction' })
  const exact = needsMinorDigits(answer, figures.minorDigits)
  const partById = new Map(partsToldOf(answer.inputs).map((p) => [p.id, p]))
  const part = (id: string) => partById.get(id) ?? pick?.change.add.find((p) => p.id === id)
  const count = (n: number): string => words.counts[n] ?? figures.number(n)
  const named = (p: Part): string => {
    const name = oneLine(p.name)
    const kind = words.kinds[p.kind]
    return name.toLowerCase().includes(kind.toLowerCase()) ? name : fill(words.named, { name, kind })
  }
  const partWords = (id: string): string => {
    const found = part(id)
    return found === undefined ? oneLine(id) : named(found)
  }
  const settingWords = (id: string): string => {
    const s = settings.find((x) => x.id === id)
    if (s === undefined) return oneLine(id)
    const w = words.setting
    return [
      fill(w.size, {
        width: figures.number(s.widthPx),
        height: figures.number(s.heightPx),
        preset: words.presets[oneLine(s.preset).toLowerCase()] ?? oneLine(s.preset),
      }),
      s.rayTracing ? w.rayTracing : undefined,
      s.upscaler === undefined ? undefined : fill(w.upscaler, { mode: oneLine(s.upscaler) }),
      s.frameGeneration ? w.frameGeneration : undefined,
      s.capFps === undefined ? undefined : fill(w.cap, { fps: figures.fps(s.capFps) }),
      s.lowered === undefined ? undefined : fill(w.lowered, { what: sliderIn(words, s.lowered.what) }),
    ]
      .filter((x) => x !== undefined)
      .join(', ')
  }
  const { targetFps } = answer.inputs.question
  return {
    answer,
    pick,
    asking: askingOf(answer, askedBy),
    rateAt: (fps) => figures.numberAgainst(fps, targetFps),
    fpsAt: (fps) => figures.fpsAgainst(fps, targetFps),
    words,
    tables,
    lang,
    figures,
    gloss: glosser(glosses),
    money: (minor) => figures.money(minor, exact),
    count,
    some: (forms, n, values = {}) =>
      fill(formOf(forms, n, rules), { count: count(n), Count: capital(count(n), lang), ...values }),
    list: (items) => lists.format(items),
    part,
    partWords,
    soundTold: new Set(),
    titleName: (id) => oneLine(titles.find((t) => t.id === id)?.name ?? id),
    settingWords,
    shelfItem: (id) => shelf.find((s) => s.id === id),
    verdict: (verdict) => ({ verdict, word: words.verdicts[verdict] }),
    finding: (f) => {
      const said = sayFinding(f, figures, {
        partName: (id) => oneLine(part(id)?.name ?? id),
        minutes: (w) => work.find((row) => row.work === w)?.minutes,
      })
      return [said.owner, said.next ?? ''].map((s) => curly(oneLine(s))).filter((s) => s !== '')
    },
  }
}

/** A slider of a game, in the words of the letter where they have one for it. */
export const sliderIn = ({ sliders }: Tables['answer'], what: string): string =>
  sliders[oneLine(what).toLowerCase()] ?? oneLine(what)

/** Findings with the worst verdict among these, in the rules' order. */
export function worstOf(findings: readonly Finding[]): readonly Finding[] {
  const worst = Math.max(-1, ...findings.map((f) => rankOfVerdict(f.verdict)))
  return findings.filter((f) => rankOfVerdict(f.verdict) === worst)
}

/** Parts that the owner asked for, without companions; works when there is no part. */
export function optionWords(ctx: Context, option: Option): string {
  const parts = wantedParts(option).map((p) => partWordsOf(ctx, p))
  const works = option.change.work.map((w) => ctx.words.works[w] ?? oneLine(w))
  return ctx.list(parts.length > 0 ? parts : works)
}

/** The parts of an option without those that came in because a rule demanded them; all when all did. */
export function wantedParts({ change, companionPartIds }: Option): readonly Part[] {
  const companions = new Set(companionPartIds)
  const wanted = change.add.filter((p) => !companions.has(p.id))
  return wanted.length > 0 ? wanted : change.add
}

const partWordsOf = (ctx: Context, p: Part): string => {
  const said = ctx.partWords(p.id)
  return said === oneLine(p.id) ? oneLine(p.name) : said
}

/** What these rules say is in the frame rates already: a gain is computed for parts as they then run. */
const COUNTED: ReadonlySet<RuleId> = new Set([
  'graphics.link',
  'graphics.narrow',
  'memory.rate',
  'memory.channels',
])
/** What these rules say is in the frame rates where the run was made on this very machine. */
const COUNTED_HERE: ReadonlySet<RuleId> = new Set([
  'processor.boardPower',
  'graphics.largeBar',
  'cooling.rating',
  'cooling.measured',
])
/** What these rules say next is a way out, and not that a run would have to tell. */
const HAS_WAY_OUT: ReadonlySet<RuleId> = new Set(['cooling.rating', 'cooling.measured'])

/** The owner's sentences on a finding beside an option's figures. */
export function whyOf(ctx: Context, option: Option, finding: Finding): readonly string[] {
  const said = ctx.finding(finding)
  const [owner] = said
  const w = ctx.words.pick
  if (owner === undefined || option.useful === undefined || finding.verdict !== 'fits slower') return said
  if (COUNTED.has(finding.rule)) return [owner, w.counted]
  if (!COUNTED_HERE.has(finding.rule)) return said
  const ends = option.gains.flatMap((g) =>
    g.grade === 'no number' || g.after.onThisMachine ? [] : [g.after],
  )
  const isRun = ends.some(({ runIds }) => runIds.length > 0)
  const where = ends.length === 0 ? w.counted : isRun ? w.elsewhere : w.elsewhereEstimated
  return [...(HAS_WAY_OUT.has(finding.rule) ? said : [owner]), where]
}

/** A board that holds a processor to less power leaves its cooler no more than that to carry away. */
function asHeld(findings: readonly Finding[]): readonly Finding[] {
  const held = findings.find((f) => f.rule === 'processor.boardPower' && f.verdict === 'fits slower')
  const heldW = held?.values.boardProcessorW
  if (typeof heldW !== 'number') return findings
  return findings.flatMap((f) => {
    const { coolerRatedW } = f.values
    if (f.rule !== 'cooling.rating' && f.rule !== 'cooling.noMaximum') return [f]
    if (f.verdict !== 'fits slower' || typeof coolerRatedW !== 'number') return [f]
    return coolerRatedW >= heldW ? [] : [{ ...f, values: { ...f.values, processorLimitW: heldW } }]
  })
}

/** Findings worse than "fits", the worst first, in the rules' order within a verdict. */
export const worseThanFits = (findings: readonly Finding[]): readonly Finding[] =>
  asHeld(findings)
    .filter((f) => f.verdict !== 'fits')
    .toSorted((a, b) => rankOfVerdict(b.verdict) - rankOfVerdict(a.verdict))

/**
 * Reasons told for one option: everything worse than "fits", the worst first, each sentence once, what the figures
 * count at the end (where figures stand beside it); what is too much to tell is counted. A card with few lanes is not told twice where its slot's share
 * is told already.
 */
export function reasonsOf(
  ctx: Context,
  option: Option,
  most: number,
  besideFigures = true,
): readonly string[] {
  const worse = worseThanFits(option.findings)
  const saysLink = option.useful !== undefined && worse.some((f) => f.rule === 'graphics.link')
  const reasons = worse.filter((f) => !(saysLink && f.rule === 'graphics.narrow'))
  const { counted, countedRest, elsewhere, elsewhereEstimated } = ctx.words.pick
  const aside = [counted, elsewhere, elsewhereEstimated]
  const told: string[] = []
  let left = 0
  for (const [i, finding] of reasons.entries()) {
    const why = whyOf(ctx, option, finding)
    const said = besideFigures ? why : why.filter((s) => !aside.includes(s))
    if (i >= most || (i > 0 && !ctx.gloss.hasRoom([...told, ...said]))) left++
    else told.push(...said)
  }
  const plain = told.filter((s) => s !== counted)
  const isApart = plain.includes(elsewhere) || plain.includes(elsewhereEstimated)
  const end = told.includes(counted) ? [isApart ? countedRest : counted] : []
  return [...new Set([...plain, ...end]), ...(left > 0 ? [ctx.some(ctx.words.pick.moreReasons, left)] : [])]
}

/** A part as it is sold: its condition stands beside it unless it is new. */
function goodWords(ctx: Context, option: Option, part: Part): string {
  const w = ctx.words.goods
  const item = option.shelfItemIds.map((id) => ctx.shelfItem(id)).find((i) => i?.partId === part.id)
  const isInPlace = part.kind === 'memory' && option.change.removeIds.length > 0
  const name = isInPlace ? fill(w.inPlace, { part: partWordsOf(ctx, part) }) : partWordsOf(ctx, part)
  return item === undefined || item.condition === 'new'
    ? name
    : fill(w.condition, { part: name, condition: ctx.words.conditions[item.condition] })
}

/** Parts that came in because a rule demanded them; none where all did. */
export const companionsOf = (option: Option): readonly Part[] => {
  const wanted = new Set(wantedParts(option))
  return option.change.add.filter((p) => !wanted.has(p))
}

export const goodsOf = (ctx: Context, option: Option, parts: readonly Part[]): string =>
  ctx.list(parts.map((p) => goodWords(ctx, option, p)))

/** The same within a sentence, each with its article where the language has one that changes. */
export const theGoods = (
  ctx: Context,
  option: Option,
  parts: readonly Part[],
  as: keyof Context['words']['the'],
): string => ctx.list(parts.map((p) => fill(ctx.words.the[as][p.kind], { part: goodWords(ctx, option, p) })))

/** What an option's price stands for: every part that goes in with its condition, companions too. */
export function goodsWords(ctx: Context, option: Option): string {
  if (option.change.add.length === 0) return optionWords(ctx, option)
  const parts = goodsOf(ctx, option, wantedParts(option))
  const companions = goodsOf(ctx, option, companionsOf(option))
  return companions === '' ? parts : fill(ctx.words.goods.companions, { parts, companions })
}

/** The grade of an option's number; one measured where nothing held the processor back is not plainly measured. */
export const gradeWord = (ctx: Context, option: Option, grade: Grade): string =>
  grade === 'measured' && heldBackBy(option).length > 0
    ? ctx.words.pick.held.word
    : ctx.words.grades[grade].word
