/**
 * Spreadsheet programs take a cell that begins so for a formula (OWASP, CSV Injection: = + - @, tab, carriage return,
 * and their full-width forms; line feed from later editions), also behind spaces.
 */
const SIGN = '[=+\\-@＝＋－＠]'
const FORMULA = new RegExp(`^'*(?:\\s*${SIGN}|[\\t\\r\\n])`)

/**
 * Where such a program splits lines at semicolons or tabs, as it does in countries with a decimal comma, quotes within
 * a line hold nothing together, and a cell begins in the middle of a text (OWASP, CSV Injection: separators).
 */
const BEHIND = `([;\\t\\r\\n]\\s*'*)`
const INNER = new RegExp(`${BEHIND}(?=${SIGN})`, 'g')
const GUARDED_INNER = new RegExp(`${BEHIND}'(?=${SIGN})`, 'g')

/** A text with an apostrophe in front of whatever a spreadsheet program would take for a formula. */
export const guardedCell = (text: string): string =>
  (FORMULA.test(text) ? `'${text}` : text).replace(INNER, "$1'")

/** Takes those apostrophes off again, so that what was exported is imported as it was. */
export function bareCell(text: string): string {
  const inner = text.replace(GUARDED_INNER, '$1')
  return inner.startsWith("'") && FORMULA.test(inner) ? inner.slice(1) : inner
}
