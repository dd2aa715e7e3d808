/**
 * Spreadsheet programs take a cell that begins so for a formula (OWASP, CSV Injection: = + - @, tab, carriage return,
 * and their full-width forms; line feed from later editions), also behind spaces.
 */
const FORMULA = /^'*(?:\s*[=+\-@＝＋－＠]|[\t\r\n])/

/** A text with an apostrophe in front where a spreadsheet program would take it for a formula. */
export const guardedCell = (text: string): string => (FORMULA.test(text) ? `'${text}` : text)

/** Takes that apostrophe off again, so that what was exported is imported as it was. */
export const bareCell = (text: string): string =>
  text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text
