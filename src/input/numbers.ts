import { Refusal } from './refusal.ts'

/**
 * How decimals are written in one file or form. `unclear`: every comma in the file could as well group thousands.
 * `either`: a form field, where one person types one number.
 */
export type DecimalMark = '.' | ',' | 'unclear' | 'either'

/** 1,234 but not 0,234: grouping never begins with a zero. */
const MAY_GROUP = /^-?[1-9]\d{0,2},\d{3}$/

/**
 * The decimal mark of a file, from its cells. Where the comma parts cells it is never a decimal mark. Elsewhere one
 * number such as 59,5 that cannot be a grouped one settles it for the file.
 */
export function decimalMarkOf(delimiter: string, cells: Iterable<string>): DecimalMark {
  if (delimiter === ',') return '.'
  let mark: DecimalMark = '.'
  for (const cell of cells) {
    if (/^-?\d{1,3}(\.\d{3})+,\d+$/.test(cell)) return ','
    if (!/^-?\d+,\d+$/.test(cell)) continue
    if (!MAY_GROUP.test(cell)) return ','
    mark = 'unclear'
  }
  return mark
}

/** The number of a cell such as `59,5 FPS`, `$250` or `EUR 12,50`, for telling how its file writes decimals. */
export const bareOf = (cell: string): string =>
  cell
    .replace(/^(?:\p{Sc}|[A-Z]{3}|\p{L}{2,3}(?= ))\s*(?=\d)/u, '')
    .replace(/(?<=\d)\s*(?:\p{Sc}|%|\p{L}[\p{L}/]*)$/u, '')

/** What stands before `name` at the end of a text, when that is a number's last digit; upper and lower case alike. */
function before(text: string, name: string): string | undefined {
  if (name === '' || !text.toLowerCase().endsWith(name.toLowerCase())) return undefined
  const rest = text.slice(0, -name.length).trimEnd()
  return /\d$/.test(rest) ? rest : undefined
}

function behind(name: string, text: string): string | undefined {
  if (!text.toLowerCase().startsWith(name.toLowerCase())) return undefined
  const rest = text.slice(name.length).trimStart()
  return /^\d/.test(rest) ? rest : undefined
}

/**
 * The number without the unit behind it, when that is the cell's own. Centimetres do for millimetres, and lanes are
 * also written `x16` and `16x`.
 *
 * @returns the number as typed, and the power of ten it is to be raised by
 */
export function withoutUnit(text: string, unit: string): { readonly text: string; readonly power: 0 | 1 } {
  const own = before(text, unit)
  if (own !== undefined) return { text: own, power: 0 }
  const inCm = unit === 'mm' ? before(text, 'cm') : undefined
  if (inCm !== undefined) return { text: inCm, power: 1 }
  const lanes = unit === 'lanes' ? (before(text, 'x') ?? behind('x', text)) : undefined
  return { text: lanes ?? text, power: 0 }
}

/** Tenths of a mm in an inch, exactly, by the international yard and pound agreement of 1959. */
const MM_PER_INCH_TENTHS = 254

/**
 * Inches as a tape tells them, whole, with a decimal mark or with a fraction: `11.5 in`, `11 1/2"`, `3/4 inch`. In mm, to
 * tenths; undefined where no inches are written.
 */
export function mmOfInches(text: string): number | undefined {
  const found =
    /^(?:(\d+(?:[.,]\d+)?)(?:[ -](\d+)\/(\d+))?|(\d+)\/(\d+)) ?(?:in|inch|inches|["″”])\.?$/i.exec(
      text.trim(),
    )
  if (found === null) return undefined
  const [, whole = '0', over, under, bareOver, bareUnder] = found
  const fraction = Number(over ?? bareOver ?? 0) / Number(under ?? bareUnder ?? 1)
  const inches = Number(whole.replace(',', '.')) + fraction
  return Number.isFinite(inches) ? Math.round(inches * MM_PER_INCH_TENTHS) / 10 : undefined
}

/** An amount without the currency before or behind it: its ISO 4217 code or its usual sign. */
export function withoutCurrency(text: string, currency: string): string {
  const names = [currency, signOf(currency)]
  const bare = names.flatMap((name) => before(text, name) ?? behind(name, text) ?? [])
  return bare[0] ?? text
}

/** The usual sign of an ISO 4217 currency, such as `$`; its code where it has none. */
export const signOf = (currency: string): string =>
  new Intl.NumberFormat('en', { style: 'currency', currency, currencyDisplay: 'narrowSymbol' })
    .formatToParts(0)
    .find(({ type }) => type === 'currency')?.value ?? currency

/**
 * A number as plain digits with an optional point, such as `-12.50`; no grouping, no exponent, no unit.
 * `mostDecimals`: how many can be meant, for what a refusal proposes. Text and not a number, so that money never passes through binary fractions.
 */
export function readDecimal(
  text: string,
  mark: DecimalMark,
  mostDecimals = Number.POSITIVE_INFINITY,
): string | Refusal {
  if (text.length > MOST_LETTERS)
    return new Refusal('not a number', `This is not a number of at most ${MOST_LETTERS} digits.`)
  const typed = text.replace(/^\u2212/, '-')
  if (/^-?\d+$/.test(typed)) return typed
  if (/^-?\d+\.\d+$/.test(typed) && mark !== ',') return typed
  if (/^-?\d+,\d+$/.test(typed) && (mark === ',' || (mark === 'either' && !MAY_GROUP.test(typed))))
    return typed.replace(',', '.')
  return new Refusal('not a number', sayWhy(typed, mark, mostDecimals))
}

const MOST_LETTERS = 40

function sayWhy(typed: string, mark: DecimalMark, mostDecimals: number): string {
  const own = mark === ',' ? ',' : '.'
  const other = own === ',' ? '.' : ','
  const bare = typed.replace(/[.,' \u00a0\u202f]/g, '')
  if (!/^-?\d+$/.test(bare)) return 'This is not a number.'
  const headless = /^(-?)([.,])(\d+)$/.exec(typed)
  if (headless) return `Write a digit before the decimal mark: ${headless[1]}0${own}${headless[3]}.`
  if (/^-?\d+[.,]$/.test(typed)) return `Leave out the mark at the end: write ${bare}.`
  const decimal = typed.replace(other, own)
  const marks = typed.replace(/[-\d]/g, '')
  const mayGroup = marks === other && MAY_GROUP.test(typed.replace('.', ','))
  if (mayGroup && mostDecimals < 3) return `Leave out the thousands marks: write ${bare}.`
  if (mayGroup) return `This can be read in two ways: write ${bare} or ${decimal}.`
  if (marks === other)
    return `Decimals are written with a ${own === ',' ? 'comma' : 'point'} here: write ${decimal}.`
  const fraction = /[.,](\d+)$/.exec(typed)?.[1]
  const last = /[.,](?=\d+$)/.exec(typed)?.[0]
  const grouped = fraction !== undefined && marks.indexOf(last ?? '') === marks.length - 1 && marks.length > 1
  const plain = grouped ? `${bare.slice(0, -fraction.length)}${own}${fraction}` : bare
  return `Leave out the thousands marks: write ${plain}.`
}

/**
 * An amount of money as a whole number of minor units. `digits`: how many minor digits the currency has (ISO 4217).
 * More digits are refused, never rounded.
 */
export function readMoney(text: string, mark: DecimalMark, digits: number): number | Refusal {
  const decimal = readDecimal(text, mark, digits)
  if (decimal instanceof Refusal) return decimal
  const [whole = '', fraction = ''] = decimal.split('.')
  if (fraction.length > digits)
    return new Refusal(
      'not allowed',
      digits === 0
        ? 'This currency has no minor units. Write a whole amount.'
        : `This currency has ${digits} digits after the decimal mark, not ${fraction.length}.`,
    )
  const minor = Number(`${whole}${fraction.padEnd(digits, '0')}`)
  return Number.isSafeInteger(minor) ? minor + 0 : new Refusal('not allowed', 'This amount is too large.')
}

/** A number in plain digits with a decimal point, as readDecimal reads it: never with an exponent. */
export function plainNumber(value: number): string {
  const [digits = '', power] = String(value).split('e')
  if (power === undefined) return digits
  const sign = digits.startsWith('-') ? '-' : ''
  const [whole = '', fraction = ''] = digits.replace('-', '').split('.')
  const point = whole.length + Number(power)
  const all = `${whole}${fraction}`
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${all}`
  return `${sign}${all.slice(0, point).padEnd(point, '0')}${all.length > point ? `.${all.slice(point)}` : ''}`
}

/** Minor units as the amount that people write, such as 12950 -> `129.50`. */
export function majorText(minor: number, digits: number): string {
  const text = String(Math.abs(minor)).padStart(digits + 1, '0')
  const amount = digits === 0 ? text : `${text.slice(0, -digits)}.${text.slice(-digits)}`
  return minor < 0 ? `-${amount}` : amount
}
