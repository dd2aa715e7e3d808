import type { Answer } from '../core/answer.ts'
import { minorPerMajor } from '../core/currency.ts'
import type { Grade } from '../core/gain/gain.ts'
import type { Fallen, Save, WaitFor } from '../core/ranking/later.ts'
import type { Option } from '../core/ranking/option.ts'
import type { Figures } from './figures.ts'
import { referenceOf } from './options.ts'
import { fill } from './say.ts'
import { wordsIn } from './tables.ts'

/** One way not to buy today. `wins`: it is what the shop advises; then `lead` says so in front of everything. */
export type LaterSaid = {
  readonly kind: 'wait' | 'save'
  readonly wins: boolean
  readonly what: string
  readonly says: readonly string[]
  readonly lead?: string | undefined
}

/** How things are called: a part by its id, and the parts of an option. */
export type Naming = { readonly part: (id: string) => string; readonly option: (option: Option) => string }

/** Parts that are waited for; more would be a wish list. */
const WAITS_MOST = 2
const STOPS_MOST = 3

/** What is said for waiting and for saving, in the language of the figures. Answers kept before have nothing of it. */
export function sayLater(answer: Answer, figures: Figures, naming: Naming): LaterSaid[] {
  const { wait, save } = answer.later ?? {}
  const waits = wait?.for.slice(0, WAITS_MOST) ?? []
  return [
    ...waits.map((one, i) => waitSaid(one, i === 0 && wait?.wins === true, figures, naming)),
    ...(wait?.fallen ?? []).map((one) => fallenSaid(one, figures, naming)),
    ...(save === undefined ? [] : [saveSaid(save, answer, figures, naming)]),
  ]
}

const gradeIn = (figures: Figures, grade: Grade): string =>
  wordsIn(figures.language).answer.grades[grade].word

const rangeIn = (figures: Figures, lowMinor: number, highMinor: number): string =>
  lowMinor === highMinor
    ? figures.money(lowMinor)
    : fill(wordsIn(figures.language).later.range, {
        low: figures.money(lowMinor),
        high: figures.money(highMinor),
      })

function waitSaid(
  { findable, partId, priceMinor, option, needs, isOld, fellFrom }: WaitFor,
  wins: boolean,
  figures: Figures,
  naming: Naming,
): LaterSaid {
  const w = wordsIn(figures.language).later.wait
  const { lowMinor, highMinor, at } = findable
  const seen = { range: rangeIn(figures, lowMinor, highMinor), date: figures.date(at) }
  const { useful } = option
  const gain = useful && {
    pct: figures.gainPct(useful.pct),
    net: figures.money(option.price.netMinor),
    grade: gradeIn(figures, useful.grade),
  }
  return {
    ...{ kind: 'wait', wins, what: fill(w.what, { part: naming.part(partId) }) },
    says: [
      fill(needs === 'a find' ? w.find : w.cheaper, seen),
      ...(isOld ? [w.old] : []),
      ...(fellFrom === undefined
        ? []
        : [
            fill(w.fell, {
              range: rangeIn(figures, fellFrom.lowMinor, fellFrom.highMinor),
              date: figures.date(fellFrom.at),
            }),
          ]),
      priceMinor === undefined ? w.anyPrice : fill(w.buyBelow, { price: figures.money(priceMinor) }),
      ...(gain === undefined ? [] : [fill(priceMinor === undefined ? w.gainOnly : w.gain, gain)]),
      ...(priceMinor === undefined ? [] : backSaid(option, figures)),
    ],
    ...(wins && { lead: w.lead }),
  }
}

/** A price with what is paid for old parts taken off holds only where they stay here. */
const backSaid = ({ price }: Option, figures: Figures): string[] =>
  price.lines.some(({ what }) => what === 'trade-in') ? [wordsIn(figures.language).later.back] : []

function fallenSaid({ partId, from, to }: Fallen, figures: Figures, naming: Naming): LaterSaid {
  const w = wordsIn(figures.language).later.fallen
  return {
    ...{ kind: 'wait', wins: false, what: fill(w.what, { part: naming.part(partId) }) },
    says: [
      fill(w.says, {
        ...{ from: figures.money(from.priceMinor), fromDate: figures.date(from.at) },
        ...{ to: figures.money(to.priceMinor), toDate: figures.date(to.at) },
      }),
    ],
  }
}

function saveSaid(save: Save, answer: Answer, figures: Figures, naming: Naming): LaterSaid {
  const w = wordsIn(figures.language).later.save
  const { platform, upgrade, state, runIds, stops } = save
  const lists = new Intl.ListFormat(figures.lang, { type: 'conjunction' })
  const stopped = [...new Set(stops.map(({ partId }) => partId))].slice(0, STOPS_MOST).map(naming.part)
  const ends = stopped.length === 0 ? [] : [fill(w.stops, { parts: lists.format(stopped) })]
  if (platform === undefined) return { kind: 'save', wins: false, what: w.noneWhat, says: [...ends, w.none] }
  const money = referenceOf(answer)
  const valuesOf = (option: Option) => ({
    parts: naming.option(option),
    pct: figures.gainPct(option.useful?.pct ?? 0),
    net: figures.money(option.price.netMinor),
    per: perIn(figures, option, money, answer.inputs.shop.policy.currency),
    money: figures.money(money),
    grade: gradeIn(figures, option.useful?.grade ?? 'no number'),
    runs: runIds.length === 0 ? w.noRuns : fill(w.runs, { ids: lists.format(runIds) }),
    missing: figures.money(save.missingMinor ?? 0),
  })
  const of = valuesOf(platform)
  const wins = state === 'wins'
  return {
    ...{ kind: 'save', wins, what: fill(w.what, of) },
    says: [
      fill(w.missing, of),
      ...backSaid(platform, figures),
      fill(w.gain, of),
      upgrade === undefined ? w.nothing : fill(w.upgrade, valuesOf(upgrade)),
      ...ends,
      ...(state === "can't tell" ? [w.untold] : state === 'loses' ? [w.loses] : []),
    ],
    ...(wins && { lead: w.lead }),
  }
}

/** The gain in percent for that amount. */
const perIn = (figures: Figures, { pctPer100 }: Option, money: number, currency: string): string =>
  pctPer100 === undefined ? '–' : figures.gainPct((pctPer100 * money) / (100 * minorPerMajor(currency)))
