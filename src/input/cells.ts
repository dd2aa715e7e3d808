import { z } from 'zod'
import { withoutTurns } from '../core/direction.ts'
import type { LoadPoint } from '../core/limits/limit.ts'
import { plugsNamed } from '../core/naming/plugs.ts'
import { plain } from '../core/naming/text.ts'
import type { Plugs } from '../core/part.ts'
import { shortGot } from '../problem.ts'
import { didYouMean } from './closest.ts'
import { readDate, writeDate } from './dates.ts'
import {
  type DecimalMark,
  majorText,
  mmOfInches,
  plainNumber,
  readDecimal,
  readMoney,
  withoutCurrency,
  withoutUnit,
} from './numbers.ts'
import { Refusal } from './refusal.ts'

/** What must be known of the file (or form) and the shop to read a text. */
export type Reading = {
  readonly decimalMark: DecimalMark
  readonly currencyDigits: number
  /** ISO 4217 code that may stand beside an amount, as may its sign; without it amounts are bare numbers. */
  readonly currency?: string | undefined
  readonly timeZone: string
}

/** Reads one trimmed, non-empty text. `allowed` says in words what it takes, for messages and hints. */
export type Cell<T> = {
  readonly allowed: string
  readonly read: (text: string, reading: Reading) => T | Refusal
  /** The value as `read` reads it back; absent where that is the plain text of it (see writeCell). */
  write?(value: T, reading: Reading): string
  /** Its decimal commas tell how the file writes numbers. */
  readonly numeric?: boolean
}

/** A value as its cell reads it back. Numbers are bare, with a decimal point. */
export function writeCell<T>(cell: Cell<T>, value: T, reading: Reading): string {
  if (cell.write !== undefined) return cell.write(value, reading)
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  return typeof value === 'number' ? plainNumber(value) : String(value)
}

const refuse = (allowed: string) => new Refusal('not allowed', `Write ${allowed}.`)

/** Text in one line; signs that turn its direction are taken out. */
export const line = (max = 200): Cell<string> => {
  const allowed = `one line of at most ${max} characters`
  return {
    allowed,
    read: (text) => {
      const plainText = withoutTurns(text).trim()
      return plainText !== '' && text.length <= max && !/\p{Cc}/u.test(text) ? plainText : refuse(allowed)
    },
  }
}

/** Text that may have line breaks; signs that turn its direction are taken out. */
export const lines = (max = 4000): Cell<string> => {
  const allowed = `at most ${max} characters`
  return {
    allowed,
    read: (text) => {
      const plainText = withoutTurns(text).trim()
      const isFine = plainText !== '' && text.length <= max && !/[^\P{Cc}\n\t]/u.test(text)
      return isFine ? plainText : refuse(allowed)
    },
  }
}

const KEY_ALLOWED =
  'a short name that begins with a letter or digit and has no spaces, ";" or "@", such as CARD-A, at most 60 characters'

/**
 * The shop's own key of something: it stands in lists (`;`, `@`) and in addresses of pages. Signs that are not seen
 * (Unicode's category C: controls, text directions, zero width) would make two keys look like one.
 */
export const key: Cell<string> = {
  allowed: KEY_ALLOWED,
  read: (text) => (/^[\p{L}\p{N}][^\s;@\p{C}]{0,59}$/u.test(text) ? text : refuse(KEY_ALLOWED)),
}

/** A key of a thing whose page stands beside the page for a new one, such as `/machines/new`. */
export const pathKey: Cell<string> = {
  allowed: KEY_ALLOWED,
  read: (text, reading) =>
    text.toLowerCase() === 'new'
      ? new Refusal('not allowed', 'This is the address of a page of its own. Choose another name.')
      : key.read(text, reading),
}

/** A number within bounds, both included. Its unit may be typed behind it; lengths may be typed in cm or inches too. */
export function number(least: number, most: number, unit = '', whole = false): Cell<number> {
  const what = whole ? 'a whole number' : 'a number'
  const allowed = `${what} from ${least} to ${most}${unit && ` (${unit})`}`
  return {
    allowed,
    numeric: true,
    read: (text, { decimalMark }) => {
      const inMm = unit === 'mm' && !whole ? mmOfInches(text) : undefined
      if (inMm !== undefined) return inMm >= least && inMm <= most ? inMm : refuse(allowed)
      const typed = withoutUnit(text, unit)
      const decimal = readDecimal(typed.text, decimalMark)
      if (decimal instanceof Refusal)
        return new Refusal(decimal.code, `${decimal.next} Allowed is ${allowed}.`)
      if (whole && decimal.includes('.')) return refuse(allowed)
      const value = Number(`${decimal}e${typed.power}`)
      return value >= least && value <= most ? value + 0 : refuse(allowed)
    },
  }
}
export const whole = (least: number, most: number, unit = ''): Cell<number> => number(least, most, unit, true)

/** A share given in percent: 80 -> 0.8. */
export const percentAsShare: Cell<number> = {
  ...number(1, 100, '%'),
  read: (text, reading) => {
    const percent = number(1, 100, '%').read(text, reading)
    return percent instanceof Refusal ? percent : percent / 100
  },
  // The shortest percentage that is this very share again: 0.29 is 29 %, although 0.29 * 100 is a little less.
  write: (share) => {
    const exact = Array.from({ length: 16 }, (_, digits) => (share * 100).toFixed(digits))
    return exact.find((percent) => Number(percent) / 100 === share) ?? plainNumber(share * 100)
  },
}

/** A rate in percent with two digits at most, as whole hundredths of a percent: 8.25 -> 825. */
export const percentAsBasisPoints: Cell<number> = {
  ...number(0, 100, '%'),
  allowed: 'a percentage from 0 to 100 with two digits behind the point at most, such as 8.25',
  read: (text, reading) => {
    const percent = number(0, 100, '%').read(text, reading)
    if (percent instanceof Refusal) return percent
    const basisPoints = Math.round(percent * 100)
    return basisPoints / 100 === percent
      ? basisPoints
      : refuse('a percentage from 0 to 100 with two digits behind the point at most, such as 8.25')
  },
  write: (basisPoints) => plainNumber(basisPoints / 100),
}

/** What is no amount at all is told with one that is; a refusal that proposes one already stays. */
const asAmount = (minor: number | Refusal): number | Refusal =>
  minor instanceof Refusal && minor.code === 'not a number'
    ? new Refusal(
        minor.code,
        minor.next.replace(/^(This is not a number\.)$/, '$1 Write digits, such as 129.'),
      )
    : minor

/** An amount of zero or more in the shop's currency, as minor units. */
export const money: Cell<number> = {
  allowed: 'an amount in the currency of the shop, such as 129 or 129.50',
  numeric: true,
  read: (text, { decimalMark, currencyDigits, currency }) => {
    const bare = currency === undefined ? text : withoutCurrency(text, currency)
    const minor = asAmount(readMoney(bare, decimalMark, currencyDigits))
    if (minor instanceof Refusal || minor >= 0) return minor
    return new Refusal('not allowed', 'Write an amount of zero or more.')
  },
  write: (minor, { currencyDigits }) => majorText(minor, currencyDigits),
}

/** An amount that may be below zero: what the shop pays instead of the owner. */
export const signedMoney: Cell<number> = {
  allowed: 'an amount in the currency of the shop, below zero when the shop pays, such as 129 or -12.50',
  numeric: true,
  read: (text, { decimalMark, currencyDigits, currency }) =>
    asAmount(
      readMoney(currency === undefined ? text : withoutCurrency(text, currency), decimalMark, currencyDigits),
    ),
  write: (minor, { currencyDigits }) => majorText(minor, currencyDigits),
}

/** `17:30`, also written 9:05. */
export const timeOfDay: Cell<string> = {
  allowed: 'a time of day from 00:00 to 23:59, such as 17:30',
  read: (text) => {
    const [, hour = '', minute = ''] = /^(\d{1,2})[:.](\d{2})$/.exec(text) ?? []
    return hour !== '' && Number(hour) < 24 && Number(minute) < 60
      ? `${hour.padStart(2, '0')}:${minute}`
      : refuse('a time of day from 00:00 to 23:59, such as 17:30')
  },
}

export const date: Cell<string> = {
  allowed: 'a date as year-month-day, such as 2026-03-04',
  read: (text, { timeZone }) => readDate(text, timeZone),
  write: (at, { timeZone }) => writeDate(at, timeZone),
}

export const yesNo: Cell<boolean> = {
  allowed: 'yes or no',
  read: (text) => {
    const word = text.toLowerCase()
    if (['yes', 'true', '1'].includes(word)) return true
    return ['no', 'false', '0'].includes(word) ? false : refuse('yes or no')
  },
}

/** One of a closed list, upper and lower case alike. */
export function oneOf<const W extends string>(words: readonly W[]): Cell<W> {
  const allowed = `one of: ${words.join(', ')}`
  return {
    allowed,
    read: (text) =>
      words.find((word) => word.toLowerCase() === text.toLowerCase()) ??
      new Refusal('unknown name', `Write ${allowed}.${didYouMean(text, words)}`),
  }
}

/** Several, parted by `;`. Empty places are left out. */
export function list<T>(item: Cell<T>): Cell<T[]> {
  return {
    allowed: `${item.allowed}; several with ";" between`,
    read: (text, reading) => {
      const values: T[] = []
      for (const piece of text.split(';').map((p) => p.trim())) {
        if (piece === '') continue
        const value = item.read(piece, reading)
        if (value instanceof Refusal) return new Refusal(value.code, `"${shortGot(piece)}": ${value.next}`)
        values.push(value)
      }
      return values
    },
    // A list that is known to be empty is not an empty cell, which says that nothing is known.
    write: (values, reading) => values.map((value) => writeCell(item, value, reading)).join('; ') || ';',
  }
}

const PLUGS_ALLOWED = 'none, or counts such as 1x8-pin + 1x6-pin (kinds: 6-pin, 8-pin, 16-pin)'

export const plugs: Cell<Plugs> = {
  allowed: PLUGS_ALLOWED,
  read: (text) => {
    if (text.toLowerCase() === 'none') return { pin6: 0, pin8: 0, pin16: 0 }
    return plugsNamed(plain(text)) ?? refuse(PLUGS_ALLOWED)
  },
  write: ({ pin6, pin8, pin16 }) => {
    const counts = [`${pin6}x6-pin`, `${pin8}x8-pin`, `${pin16}x16-pin`]
    return counts.filter((count) => !count.startsWith('0x')).join(' + ') || 'none'
  },
}

const LOAD_ALLOWED = 'temperature under load, room and power, such as 75 °C at 30 °C room, 65 W'

/** What a thermometer said under sustained load; the three figures belong to one day, so they are typed as one. */
export const loadPoint: Cell<LoadPoint> = {
  allowed: LOAD_ALLOWED,
  read: (text) => {
    const figures =
      text
        .replaceAll(/(\d),(\d)/g, '$1.$2')
        .match(/\d+(?:\.\d+)?/g)
        ?.map(Number) ?? []
    const [loadC, roomC, powerW] = figures
    if (figures.length !== 3 || loadC === undefined || roomC === undefined || powerW === undefined)
      return refuse(LOAD_ALLOWED)
    if (loadC > 120 || roomC > 60 || powerW < 1 || powerW > 600) return refuse(LOAD_ALLOWED)
    if (loadC > roomC) return { loadC, roomC, powerW }
    return new Refusal('not allowed', 'A loaded processor is warmer than the room. Write the load first.')
  },
  write: ({ loadC, roomC, powerW }) =>
    `${plainNumber(loadC)} °C at ${plainNumber(roomC)} °C room, ${plainNumber(powerW)} W`,
}

export const email: Cell<string> = {
  allowed: 'an e-mail address, such as name@example.com',
  read: (text) =>
    z.email().safeParse(text).success ? text : refuse('an e-mail address, such as name@example.com'),
}

/** Generation of processor -> firmware version: `11th (Rocket Lake)=1.60; ...`. */
export const firmwareList: Cell<Record<string, string>> = {
  allowed: 'pairs such as 11th (Rocket Lake)=1.60, several with ";" between',
  read: (text, reading) => {
    const pair: Cell<readonly [string, string]> = {
      allowed: 'a pair such as 11th (Rocket Lake)=1.60',
      read: (piece) => {
        const [, generation, version] = /^([^=]+?)\s*=\s*([^=\n]+)$/.exec(piece) ?? []
        return generation && version
          ? [generation, version]
          : refuse('a pair such as 11th (Rocket Lake)=1.60')
      },
    }
    const pairs = list(pair).read(text, reading)
    return pairs instanceof Refusal ? pairs : Object.fromEntries(pairs)
  },
  write: (versions) =>
    Object.entries(versions)
      .map(([generation, version]) => `${generation}=${version}`)
      .join('; ') || ';',
}

/** A size of which one side may not be known. */
export type Pixels = { widthPx?: number; heightPx?: number }

const PIXELS_ALLOWED = 'width x height in pixels, such as 1920x1080; "?" for a side that is not known'

/** `1920x1080`, or `1920x?` */
export const pixels: Cell<Pixels> = {
  allowed: PIXELS_ALLOWED,
  read: (text) => {
    const [, w, h] = /^(\d{3,5}|\?)\s*[x×]\s*(\d{3,5}|\?)$/i.exec(text) ?? []
    if (w === undefined || h === undefined || (w === '?' && h === '?')) return refuse(PIXELS_ALLOWED)
    return { ...(w !== '?' && { widthPx: Number(w) }), ...(h !== '?' && { heightPx: Number(h) }) }
  },
  write: ({ widthPx = '?', heightPx = '?' }) => `${widthPx}x${heightPx}`,
}

/** As given where it is one that figures and days are written for. */
export const languageTag: Cell<string> = {
  allowed: 'a language tag (BCP 47), such as en-US',
  read: (text) => {
    try {
      const [tag] = Intl.NumberFormat.supportedLocalesOf(text)
      if (tag !== undefined) return tag
    } catch {
      // Not a tag at all: the same answer as for one that nobody formats.
    }
    return new Refusal('unknown name', 'Write a language tag (BCP 47), such as en-US.')
  },
}
