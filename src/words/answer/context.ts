import type { Answer } from '../../core/answer.ts'
import type { Finding, RuleId } from '../../core/fit/finding.ts'
import type { Minor } from '../../core/money.ts'
import type { Part } from '../../core/part.ts'
import type { Option } from '../../core/ranking/option.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { rankOfVerdict, type Verdict } from '../../core/verdict.ts'
import { ANSWER_EN, type AnswerWords, GLOSSES_EN } from '../en/answer.ts'
import { type Figures, figuresFor } from '../figures.ts'
import { sayFinding } from '../findings.ts'
import { type Glosser, glosser } from '../gloss.ts'
import { capital, curly, type Filling, type Forms, fill, formOf, oneLine } from '../say.ts'
import type { VerdictSaid } from './letter.ts'

/** Everything the blocks of one letter share: its words, figures, names, and which glosses were used. */
export type Context = {
  readonly answer: Answer
  readonly pick: Option | undefined
  readonly words: AnswerWords
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
}

/** Tables by language; a language without one reads English, the whole letter. */
const TABLES: Readonly<Record<string, { words: AnswerWords; glosses: typeof GLOSSES_EN }>> = {
  en: { words: ANSWER_EN, glosses: GLOSSES_EN },
}

/** True when any amount of the letter has minor digits: then all amounts show them. */
function needsMinorDigits(answer: Answer, minorDigits: number): boolean {
  const { ranking, inputs } = answer
  const options = [...ranking.ranked, ...ranking.withoutNumber, ...ranking.needsAFact]
  const amounts = options.flatMap((o) => [o.price.netMinor, ...o.price.lines.map((l) => l.amountMinor)])
  return [...amounts, inputs.question.budgetMinor ?? 0].some((a) => a % 10 ** minorDigits !== 0)
}

export function contextOf(answer: Answer, pick: Option | undefined): Context {
  const { shop, parts, titles, settings, shelf, work } = answer.inputs
  const language = new Intl.Locale(shop.locale).language
  const table = TABLES[language]
  const { words, glosses } = table ?? { words: ANSWER_EN, glosses: GLOSSES_EN }
  const lang = table === undefined ? 'en' : shop.locale
  const figures = figuresFor(shop)
  const rules = new Intl.PluralRules(lang)
  const lists = new Intl.ListFormat(lang, { type: 'conjunction' })
  const exact = needsMinorDigits(answer, figures.minorDigits)
  const partById = new Map(parts.map((p) => [p.id, p]))
  const part = (id: string) => partById.get(id) ?? pick?.change.add.find((p) => p.id === id)
  const count = (n: number): string => words.counts[n] ?? figures.number(n)
  const named = (p: Part): string => {
    const name = oneLine(p.name)
    const kind = words.kinds[p.kind]
    return name.toLowerCase().includes(kind.toLowerCase()) ? name : `${name} ${kind}`
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
        preset: oneLine(s.preset),
      }),
      s.rayTracing ? w.rayTracing : undefined,
      s.upscaler === undefined ? undefined : fill(w.upscaler, { mode: oneLine(s.upscaler) }),
      s.frameGeneration ? w.frameGeneration : undefined,
      s.capFps === undefined ? undefined : fill(w.cap, { fps: figures.fps(s.capFps) }),
    ]
      .filter((x) => x !== undefined)
      .join(', ')
  }
  return {
    answer,
    pick,
    words,
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
const COUNTED_HERE: ReadonlySet<RuleId> = new Set(['processor.boardPower', 'graphics.largeBar'])

/** The owner's sentences on a finding beside an option's figures. */
export function whyOf(ctx: Context, option: Option, finding: Finding): readonly string[] {
  const said = ctx.finding(finding)
  const [owner] = said
  const w = ctx.words.pick
  if (owner === undefined || option.useful === undefined || finding.verdict !== 'fits slower') return said
  if (COUNTED.has(finding.rule)) return [owner, w.counted]
  if (!COUNTED_HERE.has(finding.rule)) return said
  const here = option.gains.every((g) => g.grade === 'no number' || g.after.onThisMachine)
  return [owner, here ? w.counted : w.elsewhere]
}

/**
 * Reasons told for one option: those of its worst verdict, each sentence once, what the figures count at the end. A
 * card with few lanes is not told twice where its slot's share is told already.
 */
export function reasonsOf(ctx: Context, option: Option, most: number): readonly string[] {
  const worst = worstOf(option.findings)
  const saysLink = option.useful !== undefined && worst.some((f) => f.rule === 'graphics.link')
  const said = worst
    .filter((f) => !(saysLink && f.rule === 'graphics.narrow'))
    .slice(0, most)
    .map((f) => whyOf(ctx, option, f))
  const kept = said.filter((s, i) => i === 0 || ctx.gloss.hasRoom([...said.slice(0, i).flat(), ...s])).flat()
  const { counted } = ctx.words.pick
  const plain = kept.filter((s) => s !== counted)
  return [...new Set([...plain, ...kept])]
}
