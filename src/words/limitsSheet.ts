import type { Finding } from '../core/fit/finding.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { PartKind } from '../core/part.ts'
import type {
  Free,
  FreePlace,
  LimitsSheet,
  Measured,
  NextKind,
  NextPart,
  SupplyLoad,
} from '../core/sheet/sheet.ts'
import type { Verdict } from '../core/verdict.ts'
import { sayCaution } from './cautions.ts'
import type { Figures } from './figures.ts'
import { type FindingLookup, sayFinding, wordsOf } from './findings.ts'
import { customerLabel, sayLimit } from './limits.ts'
import { KIND_WORDS, workWords } from './options.ts'
import { capital, curly, fill, formOf, oneLine } from './say.ts'
import { settingText } from './settings.ts'
import { wordsIn } from './tables.ts'

/** The limits sheet in words, ready for page, print and mail. Nothing in it is computed again. */
export type SheetSaid = {
  readonly title: string
  readonly tag: string
  readonly about: readonly string[]
  readonly inside: Rows
  readonly measured: {
    readonly head: string
    readonly says: string
    readonly columns: readonly [string, string, string]
    readonly rows: readonly MeasuredSaid[]
  }
  readonly next: { readonly head: string; readonly says: string; readonly kinds: readonly NextSaid[] }
  readonly never: {
    readonly head: string
    readonly groups: readonly {
      readonly head: string
      readonly rows: readonly string[]
      readonly end: string
    }[]
  }
  readonly free: Rows
  readonly supply: {
    readonly head: string
    readonly says: readonly string[]
    /** Shares of the longer of load and what is counted on; absent where it is not known. */
    readonly bar?: { readonly load: number; readonly usable: number } | undefined
  }
  readonly warranties: { readonly head: string; readonly rows: readonly string[] }
  readonly unknown: {
    readonly head: string
    readonly says: string
    readonly rows: readonly { readonly label: string; readonly text: string }[]
  }
  readonly cautions: { readonly head: string; readonly rows: readonly string[] }
  readonly foot: string
}

type Rows = {
  readonly head: string
  readonly rows: readonly { readonly label: string; readonly text: string }[]
}

export type MeasuredSaid = {
  readonly game: string
  readonly setting: string
  readonly average: string
  readonly low: string
  readonly note?: string | undefined
}

export type NextSaid = {
  readonly head: string
  readonly bounds: readonly { readonly label: string; readonly value: string }[]
  readonly best: readonly {
    readonly verdict: Verdict
    /** The verdict in words, with what it asks for. */
    readonly says: string
    /** What goes in and what it gains, beside the verdict. */
    readonly gains: string
    /** All of it as one sentence. */
    readonly text: string
    readonly why: readonly string[]
  }[]
  readonly says: readonly string[]
}

const wordsFor = ({ language }: Figures) => wordsIn(language).sheet

/** Says a sheet; `shop` is who made it. */
export function saySheet(
  sheet: LimitsSheet,
  shop: { readonly name: string; readonly contact: string },
  figures: Figures,
): SheetSaid {
  const w = wordsFor(figures)
  const { limits: limitWords } = wordsIn(figures.language)
  const lookup: FindingLookup = { partName: (id) => id, minutes: () => undefined }
  return {
    title: w.title,
    tag: sheet.tag,
    about: [
      fill(w.about, { date: figures.date(sheet.at) }),
      ...(sheet.soldAt === undefined ? [] : [fill(w.sold, { date: figures.date(sheet.soldAt) })]),
    ],
    inside: insideSaid(sheet, figures),
    measured: {
      head: w.measured.head,
      says: sheet.measured.length === 0 ? w.measured.none : w.measured.says,
      columns: [w.measured.game, w.measured.average, w.measured.low],
      rows: sheet.measured.map((m) => measuredSaid(m, figures)),
    },
    next: {
      head: w.next.head,
      says: sheet.measured.length === 0 ? w.next.unranked : w.next.says,
      kinds: sheet.next.map((kind) => nextSaid(kind, sheet, figures, lookup)),
    },
    never: { head: w.never.head, groups: neverSaid(sheet, figures) },
    free: { head: w.free.head, rows: sheet.free.map((free) => freeSaid(free, figures)) },
    supply: supplySaid(sheet.supply, figures),
    warranties: {
      head: w.warranties.head,
      rows:
        sheet.warranties.length === 0
          ? [w.warranties.none]
          : sheet.warranties.map(({ partName, until, givenBy, endsWith }) =>
              [
                fill(w.warranties.row, {
                  part: oneLine(partName),
                  date: figures.date(until),
                  giver: w.warranties.givers[givenBy],
                }),
                ...(endsWith === undefined ? [] : [fill(w.warranties.ends, { what: oneLine(endsWith) })]),
              ].join(' '),
            ),
    },
    unknown: {
      head: w.unknown.head,
      says: w.unknown.says,
      rows: sheet.unknown.map((key) => ({
        label: curly(customerLabel(key, figures.language)),
        text: curly(limitWords[key].findOut),
      })),
    },
    cautions: {
      head: w.cautions,
      rows: sheet.cautions.map((id) => curly(sayCaution(id, figures.language).short)),
    },
    foot:
      shop.contact === ''
        ? fill(w.footBare, { shop: oneLine(shop.name) })
        : fill(w.foot, { shop: oneLine(shop.name), contact: oneLine(shop.contact) }),
  }
}

/** Pages and sheet say kinds alike in English. */
const kindWord = (kind: PartKind, { language }: Figures): string =>
  language === 'en' ? KIND_WORDS[kind] : wordsIn(language).answer.kinds[kind]

const kindHead = (kind: PartKind, figures: Figures): string =>
  capital(kindWord(kind, figures), figures.language)

const workWord = (work: string, { language }: Figures): string =>
  language === 'en' ? workWords(work) : (wordsIn(language).answer.works[work] ?? work)

function insideSaid({ inside, limits }: LimitsSheet, figures: Figures): Rows {
  const w = wordsFor(figures)
  const rows = inside.map(({ kind, name, count }) => ({
    label: kindHead(kind, figures),
    text: count === 1 ? oneLine(name) : fill(w.count, { n: figures.number(count), name: oneLine(name) }),
  }))
  const { firmware } = limits
  return {
    head: w.inside,
    rows: [
      ...rows,
      ...(firmware.known ? [{ label: w.firmware, text: sayLimit('firmware', firmware, figures).value }] : []),
    ],
  }
}

function measuredSaid(
  { titleName, setting, settingId, averageFps, low1Fps, disagrees }: Measured,
  figures: Figures,
): MeasuredSaid {
  return {
    game: oneLine(titleName),
    setting: oneLine(settingText({ id: settingId, ...setting }, figures.language)),
    average: figures.fps(averageFps),
    low: low1Fps === undefined ? '–' : figures.fps(low1Fps),
    note: disagrees ? wordsFor(figures).measured.again : undefined,
  }
}

const DRIVE_PLACES: readonly FreePlace[] = ['M.2 sockets', 'SATA ports', '2.5-inch bays', '3.5-inch bays']
const isForDrives = ({ what, total }: Free): boolean => total !== undefined && DRIVE_PLACES.includes(what)

function nextSaid(
  { kind, bounds, best, tried, unclear: named = [] }: NextKind,
  sheet: LimitsSheet,
  figures: Figures,
  lookup: FindingLookup,
): NextSaid {
  const { limits, free, measured, supply } = sheet
  const w = wordsFor(figures)
  const plurals = new Intl.PluralRules(figures.language)
  const known = bounds.filter((key) => limits[key].known)
  const goes = tried.fits + tried['fits slower'] + tried['fits after work']
  const unclear = tried["can't tell"]
  const unnamed = unclear - named.length
  const all = goes + unclear + tried['does not fit']
  const { none } = w.next
  const says =
    best.length > 0
      ? []
      : kind === 'drive'
        ? [free.some(isForDrives) ? none.loose : none.looseUnknown]
        : all === 0
          ? [none.notTried]
          : goes === 0
            ? [none.nothing]
            : [measured.length === 0 ? none.notRanked : none.noGain]
  return {
    head: kindHead(kind, figures),
    bounds: known.map((key) => {
      const value = limitValue(key, limits, figures)
      return {
        label: curly(customerLabel(key, figures.language)),
        value: key === 'supply12VW' ? countedOn(value, supply, figures) : value,
      }
    }),
    best: best.map((part) => ({
      verdict: part.verdict,
      says: verdictSaid(part.verdict, part.findings, figures),
      gains: partSaid(part, figures, w.next.gains),
      text: partSaid(part, figures, w.next.best),
      why: [
        ...fpsOf(part, sheet, figures),
        ...saidOnce(part.findings).map((finding) => curly(sayFinding(finding, figures, lookup).owner)),
      ],
    })),
    says: [
      ...says,
      ...named.map(({ name, finding }) =>
        fill(w.next.unclearPart, {
          name: oneLine(name),
          why: curly(sayFinding(finding, figures, lookup).owner),
        }),
      ),
      ...(unnamed === 0
        ? []
        : [fill(formOf(w.next.unclear, unnamed, plurals), { n: figures.number(unnamed) })]),
    ],
  }
}

/** The rating on the supply's label beside what is counted on, where that is less. */
function countedOn(rated: string, supply: SupplyLoad, figures: Figures): string {
  return supply.known && supply.usableW < supply.rated12VW
    ? fill(wordsFor(figures).next.countedOn, { rated, usable: figures.named('W', supply.usableW) })
    : rated
}

/** From and to in each game that was measured here, with the range and how it is known. */
function fpsOf({ gains }: NextPart, { measured }: LimitsSheet, figures: Figures): readonly string[] {
  const w = wordsFor(figures).next.fps
  return gains.flatMap((gain) => {
    const game = measured.find(({ titleId }) => titleId === gain.titleId)
    if (game === undefined || gain.grade === 'no number' || gain.disagrees) return []
    return [
      fill(gain.grade === 'measured' ? w.measured : w.estimated, {
        title: oneLine(game.titleName),
        before: figures.number(gain.before.averageFps),
        after: figures.fps(gain.after.averageFps),
        ...figures.outwards(gain.afterFpsLow, gain.afterFpsHigh),
      }),
    ]
  })
}

/** The link says with its figures already what a narrow card in an older slot leaves. */
const saidOnce = (findings: readonly Finding[]): readonly Finding[] =>
  findings.filter(
    ({ rule }) => rule !== 'graphics.narrow' || !findings.some((other) => other.rule === 'graphics.link'),
  )

function partSaid(
  { name, verdict, useful, findings }: NextPart,
  figures: Figures,
  lines: { readonly plain: string; readonly estimated: string },
): string {
  if (useful === undefined) return oneLine(name)
  const gain = fill(wordsFor(figures).next.range, {
    gain: figures.gainPct(useful.pct),
    low: figures.number(Math.floor(useful.pctLow)),
    high: figures.number(Math.ceil(useful.pctHigh)),
  })
  const line = useful.grade === 'measured' ? lines.plain : lines.estimated
  return fill(line, { name: oneLine(name), verdict: verdictSaid(verdict, findings, figures), gain })
}

/** The verdict; of one that asks for something, what. */
function verdictSaid(verdict: NextPart['verdict'], findings: readonly Finding[], figures: Figures): string {
  const w = wordsFor(figures)
  if (verdict === 'fits') return w.next.fits
  if (verdict === 'fits slower') return w.next.slower
  const needs = findings.flatMap((finding) => finding.needs)
  const said = needs.map((need) =>
    'work' in need
      ? workWord(need.work, figures)
      : fill(w.next.newPart, { kind: kindWord(need.part, figures) }),
  )
  return fill(w.next.work, { work: [...new Set(said)].join(', ') })
}

function neverSaid({ never, limits }: LimitsSheet, figures: Figures) {
  const w = wordsFor(figures)
  const holders = [...new Set(never.map(({ holder }) => holder))]
  return holders.map((holder) => ({
    head: w.never.of[holder] ?? '',
    rows: never
      .filter((one) => one.holder === holder)
      .flatMap(({ key }) => {
        const line = w.never.rows[key]
        return line === undefined ? [] : [fill(line, { value: limitValue(key, limits, figures) })]
      }),
    end: w.never.holders[holder] ?? '',
  }))
}

const limitValue = (key: LimitKey, limits: LimitsSheet['limits'], figures: Figures): string =>
  sayLimit(key, limits[key], figures).value

function freeSaid({ what, total, used, atMost }: Free, figures: Figures) {
  const w = wordsFor(figures)
  const label = w.free.places[what]
  if (total === undefined)
    return {
      label,
      text:
        what === 'memory slots' && used === 0
          ? w.free.unknownMemory
          : fill(w.free.unknown, { used: figures.number(used) }),
    }
  const free = figures.number(Math.max(0, total - used))
  return { label, text: fill(atMost ? w.free.atMost : w.free.of, { free, total: figures.number(total) }) }
}

function supplySaid(supply: SupplyLoad, figures: Figures): SheetSaid['supply'] {
  const w = wordsFor(figures)
  const { head } = w.supply
  if (!supply.known) {
    const missing = supply.finding?.missing.map((m) => wordsOf(m, figures.language).label) ?? []
    return {
      head,
      says: [
        missing.length === 0 ? w.supply.unknownBare : fill(w.supply.unknown, { missing: missing.join(', ') }),
      ],
    }
  }
  const { loadW, usableW, rated12VW, processorW, cardW, restW } = supply
  const watts = (value: number) => figures.named('W', value)
  const left = usableW - loadW
  const most = Math.max(loadW, usableW)
  return {
    head,
    says: [
      left >= 0 ? fill(w.supply.left, { left: watts(left) }) : fill(w.supply.over, { over: watts(-left) }),
      fill(w.supply.says, {
        ...{ load: watts(loadW), usable: watts(usableW), processor: watts(processorW) },
        ...{ card: watts(cardW), rest: watts(restW), rated: watts(rated12VW) },
      }),
    ],
    ...(most > 0 && { bar: { load: loadW / most, usable: usableW / most } }),
  }
}
