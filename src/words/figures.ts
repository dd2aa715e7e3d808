import type { Customer, Shop } from '../core/answer.ts'
import { minorDigitsOf } from '../core/currency.ts'
import type { Value } from '../core/fit/finding.ts'
import { type Language, languageFor, tagFor } from '../core/language.ts'
import type { LoadPoint } from '../core/limits/limit.ts'
import type { Plugs } from '../core/part.ts'
import { fill } from './say.ts'
import { wordsIn } from './tables.ts'

/**
 * The only place where numbers, units, money and dates become text, for pages and mails alike.
 * A hard space joins a figure and its unit, so they are never parted at a line end; the text part of a mail turns
 * hard spaces back after wrapping.
 */
export type Figures = ReturnType<typeof newFigures>

const HARD_SPACE = '\u00a0'
const MINUS = '\u2212'

/** Suffix of a value's name -> unit as printed. Longest suffix first. */
const UNITS: readonly (readonly [suffix: string, unit: string])[] = [
  ['GBps', 'GB/s'],
  ['Mts', 'MT/s'],
  ['Fps', 'FPS'],
  ['GB', 'GB'],
  ['Mm', 'mm'],
  ['Ms', 'ms'],
  ['Hz', 'Hz'],
  ['Pct', '%'],
  ['KW', 'K/W'],
  ['W', 'W'],
  ['C', '°C'],
]

/** A mean of logarithms makes 71.49999999999997 of runs of 71.5: what is a half up to the last digits is one. */
const LAST_DIGITS = 1e-9
const nudged = (n: number): number => n + LAST_DIGITS * Math.max(1, Math.abs(n))

/**
 * The one rule for whole figures: half up, so 71.5 is told as 72. What compares with a target compares the figure as it
 * is, never the rounded one; see `fpsAgainst` for how it is then told.
 */
export const wholeOf = (n: number): number => Math.floor(nudged(n) + 0.5)

/**
 * Where results lie, outwards to whole frames, so that nothing narrower is told than what was worked out. What is told is
 * the same in letters, on pages and in what a job promises.
 */
export const outwards = (low: number, high: number): { readonly low: number; readonly high: number } => ({
  low: Math.floor(nudged(low)),
  high: Math.ceil(high - LAST_DIGITS * Math.max(1, Math.abs(high))),
})

type Local = Pick<Shop, 'locale' | 'timeZone'> & { readonly policy: { readonly currency: string } }

/**
 * Formatters for what an owner reads: in the language they chose, else in the shop's. A shop whose language has no words
 * here keeps its own way of writing figures.
 */
export function figuresOf(shop: Local, owner: Pick<Customer, 'language'> | undefined): Figures {
  const language = languageFor(shop.locale, owner?.language)
  const locale = owner?.language === undefined ? shop.locale : tagFor(shop.locale, language)
  return figuresFor({ ...shop, locale }, language)
}

/** A round of mails asks for the same formatters a thousand times. */
const made = new Map<string, Figures>()
/** A process serves one shop in few languages; more come only from tests. */
const MADE_MOST = 50

/**
 * Formatters for one shop's locale, currency and time zone. Kept, because Intl objects are dear to make.
 *
 * @param language of the words beside the figures; pages for builders are English
 */
export function figuresFor(shop: Local, language: Language = 'en'): Figures {
  const key = [shop.locale, shop.timeZone, shop.policy.currency, language].join(' ')
  const kept = made.get(key)
  if (kept !== undefined) return kept
  const fresh = newFigures(shop, language)
  if (made.size >= MADE_MOST) made.clear()
  made.set(key, fresh)
  return fresh
}

function newFigures(shop: Local, language: Language) {
  const { locale, timeZone } = shop
  const words = wordsIn(language).figures
  const texts = new Map(Object.entries(words.texts))
  const { currency } = shop.policy
  /** No sign before a figure that rounds to zero. */
  const signDisplay = 'negative'
  // By ISO 4217, not by what the locale is used to print: an amount of 1050 minor units must not become 1,050.
  const minorDigits = minorDigitsOf(currency)
  const money = new Intl.NumberFormat(locale, {
    style: 'currency',
    currency,
    signDisplay,
    minimumFractionDigits: minorDigits,
    maximumFractionDigits: minorDigits,
  })
  const wholeMoney = new Intl.NumberFormat(locale, {
    style: 'currency',
    currency,
    signDisplay,
    maximumFractionDigits: 0,
  })
  const dates = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone })
  const calendarDates = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' })
  const dayInShop = new Intl.DateTimeFormat('en', {
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    timeZone,
  })
  const dayAndTime = new Intl.DateTimeFormat(locale, {
    weekday: 'short',
    year: 'numeric',
    month: 'long',
    day: 'numeric',
    hour: 'numeric',
    minute: '2-digit',
    timeZone,
  })
  const shortDates = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone })
  const oneDigit = new Intl.NumberFormat(locale, {
    maximumFractionDigits: 1,
    useGrouping: false,
    signDisplay,
  })
  const twoDigits = new Intl.NumberFormat(locale, {
    maximumFractionDigits: 2,
    useGrouping: false,
    signDisplay,
  })
  const whole = new Intl.NumberFormat(locale, { maximumFractionDigits: 0, useGrouping: false, signDisplay })
  const grouped = new Intl.NumberFormat(locale, { maximumFractionDigits: 0, signDisplay })
  const threeFigures = new Intl.NumberFormat(locale, { maximumSignificantDigits: 3, signDisplay })
  const percent = new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 0, signDisplay })
  const rate = new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 2, signDisplay })
  const minutes = new Intl.NumberFormat(locale, { style: 'unit', unit: 'minute', unitDisplay: 'long' })
  /** A true minus sign, wherever the locale puts it. */
  const signs = (text: string) => text.replace('-', MINUS)
  /** Day and month stay on one line, whichever comes first. */
  const held = (format: Intl.DateTimeFormat, at: Date): string => {
    const parts = format.formatToParts(at)
    const between = (i: number) => [parts[i - 1]?.type, parts[i + 1]?.type].sort().join() === 'day,month'
    return parts.map((p, i) => (between(i) ? p.value.replaceAll(' ', HARD_SPACE) : p.value)).join('')
  }

  const plugs = (p: Plugs): string => {
    const list = (
      [
        [words.plugs.pin16, p.pin16],
        [words.plugs.pin8, p.pin8],
        [words.plugs.pin6, p.pin6],
      ] as const
    ).filter(([, n]) => n > 0)
    return list.length === 0
      ? words.noPlugs
      : list.map(([kind, n]) => `${n}${HARD_SPACE}×${HARD_SPACE}${kind}`).join(' + ')
  }

  /** A share of a rating gives tenths of a watt that nobody measures; of K/W and ms the second digit counts. */
  const digitsFor = (unit: string | undefined) =>
    unit === 'W' ? whole : unit === 'K/W' || unit === 'ms' ? twoDigits : oneDigit

  const against = (fps: number, targetFps: number): string =>
    nudged(fps) < targetFps && wholeOf(fps) >= targetFps
      ? oneDigit.format(Math.floor(nudged(fps) * 10) / 10)
      : signs(whole.format(wholeOf(fps)))

  const load = ({ loadC, roomC, powerW }: LoadPoint): string => {
    const degrees = (c: number) => `${signs(oneDigit.format(c))}${HARD_SPACE}°C`
    const power = `${whole.format(powerW)}${HARD_SPACE}W`
    return fill(words.load, { load: degrees(loadC), room: degrees(roomC), power })
  }

  return {
    language,
    /** BCP 47 tag of the words. */
    lang: tagFor(locale, language),
    /** Whole amounts drop the minor digits; pass `exact` where any amount of a list has some. */
    money: (minor: number, exact = false): string =>
      signs(
        (exact || minor % 10 ** minorDigits !== 0 ? money : wholeMoney).format(minor / 10 ** minorDigits),
      ),
    minorDigits,
    date: (at: string): string => held(dates, new Date(at)),
    /** Weekday, date and time of an appointment. */
    dateTime: (at: string): string => held(dayAndTime, new Date(at)),
    /** A calendar day that is no instant, such as `2026-03-04`: "March 4, 2026". */
    day: (day: string): string => held(calendarDates, new Date(`${day}T00:00:00Z`)),
    /** The calendar day in the shop that many days after the instant; clock changes between do not matter. */
    dateAfter: (at: string, days: number): string => {
      const parts = dayInShop.formatToParts(new Date(at))
      const of = (type: Intl.DateTimeFormatPartTypes) => Number(parts.find((p) => p.type === type)?.value)
      return held(calendarDates, new Date(Date.UTC(of('year'), of('month') - 1, of('day') + days)))
    },
    shortDate: (at: string): string => shortDates.format(new Date(at)).replaceAll(' ', HARD_SPACE),
    fps: (fps: number): string => `${whole.format(wholeOf(fps))}${HARD_SPACE}FPS`,
    /** The same beside a target: one that is not reached is never rounded up to it, so 59.6 stays 59.6 where 60 is wanted. */
    fpsAgainst: (fps: number, targetFps: number): string => `${against(fps, targetFps)}${HARD_SPACE}FPS`,
    numberAgainst: (fps: number, targetFps: number): string => against(fps, targetFps),
    /** Both ends of an interval, by `outwards`: "71" and "84". */
    outwards: (low: number, high: number): { readonly low: string; readonly high: string } => {
      const ends = outwards(low, high)
      return { low: signs(whole.format(ends.low)), high: signs(whole.format(ends.high)) }
    },
    /** By tenths, as runs are kept, and never up to a target that is not reached: 59.96 is 59.9 where 60 is wanted. */
    decimalAgainst: (fps: number, targetFps: number): string =>
      nudged(fps) < targetFps && Math.round(fps * 10) / 10 >= targetFps
        ? oneDigit.format(Math.floor(nudged(fps) * 10) / 10)
        : signs(oneDigit.format(fps)),
    /** A bare whole number, as in "from 42 to 63 FPS". */
    number: (n: number): string => signs(whole.format(wholeOf(n))),
    decimal: (n: number): string => signs(oneDigit.format(n)),
    /** How many times as much, to hundredths. */
    times: (n: number): string => signs(twoDigits.format(n)),
    /** How many, up to millions: "2,000,000". */
    count: (n: number): string => signs(grouped.format(n)),
    /** "71.5 s" */
    seconds: (s: number): string => `${signs(oneDigit.format(s))}${HARD_SPACE}s`,
    /** "66.1 MB" of a million bytes each; below one of them "340 kB", from a thousand of them on "81 GB". */
    bytes: (n: number): string =>
      n < 1e6
        ? `${whole.format(Math.ceil(n / 1000))}${HARD_SPACE}kB`
        : n < 1e9
          ? `${oneDigit.format(n / 1e6)}${HARD_SPACE}MB`
          : `${oneDigit.format(n / 1e9)}${HARD_SPACE}GB`,
    /** By three figures, for what may be far too small or large for its unit: "0.0667 FPS". */
    small: (name: string, n: number): string => {
      const unit = UNITS.find(([suffix]) => name.endsWith(suffix))?.[1]
      return [signs(threeFigures.format(n)), unit].filter(Boolean).join(HARD_SPACE)
    },
    /** 28 -> "+28%", with a true minus sign below zero. */
    gainPct: (pct: number): string => {
      const text = percent.format(Math.abs(pct) / 100)
      return Math.round(pct) === 0 ? percent.format(0) : `${pct > 0 ? '+' : MINUS}${text}`
    },
    /** A rate in hundredths of a percent: 825 -> "8.25%". */
    ratePct: (basisPoints: number): string => signs(rate.format(basisPoints / 10_000)),
    plugs,
    /** Formats a rule's value by the unit at the end of its name: `runsMts` 2666 -> "2666 MT/s". */
    named: (name: string, value: Value | LoadPoint): string => {
      if (typeof value === 'string') return texts.get(value) ?? value
      if (typeof value === 'boolean') return value ? words.yes : words.no
      if (typeof value === 'object') {
        if ('pin8' in value) return plugs(value)
        return 'loadC' in value ? load(value) : value.join(', ')
      }
      if (name.endsWith('Minutes')) return minutes.format(value).replaceAll(' ', HARD_SPACE)
      const unit = name.endsWith('Years') ? words.years : UNITS.find(([suffix]) => name.endsWith(suffix))?.[1]
      const figure = signs(digitsFor(unit).format(value))
      return unit === undefined
        ? figure
        : unit === '%'
          ? signs(percent.format(value / 100))
          : `${figure}${HARD_SPACE}${unit}`
    },
  }
}
