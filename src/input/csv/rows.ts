import Papa from 'papaparse'
import { failed, ok, type Result } from '../../problem.ts'
import { bareCell } from './guard.ts'

export type Delimiter = ',' | ';' | '\t'

/** `line` is where the row begins, counted from 1 as a text editor counts. */
export type TextRow = { readonly line: number; readonly cells: readonly string[] }

/**
 * Splits the text of a CSV file (line ends already `\n`) into rows of trimmed cells, without the apostrophe that our
 * export puts before what looks like a formula; quoting as in RFC 4180, section 2. Rows without any text are left out.
 * The delimiter is the one that the header uses most: names of columns contain none of the three.
 */
export function splitRows(text: string, file: string): Result<{ delimiter: Delimiter; rows: TextRow[] }> {
  const delimiter = delimiterOf(text)
  const { data, errors } = Papa.parse<string[]>(text, { delimiter, newline: '\n' })
  const rows: TextRow[] = []
  const lines: number[] = []
  let line = 1
  for (const cells of data) {
    lines.push(line)
    if (cells.some((cell) => cell.trim() !== ''))
      rows.push({ line, cells: cells.map((cell) => bareCell(cell.trim())) })
    line += 1 + cells.reduce((sum, cell) => sum + cell.split('\n').length - 1, 0)
  }
  const quoting = errors.find((error) => error.type === 'Quotes')
  if (quoting === undefined) return ok({ delimiter, rows })
  return failed({
    code: 'unreadable',
    field: file,
    file,
    line: lines[quoting.row ?? 0] ?? line,
    next: 'A quotation mark is not closed, or text follows it. Close it; inside a quoted cell write it twice ("").',
  })
}

function delimiterOf(text: string): Delimiter {
  const header = text.split('\n').find((line) => line.trim() !== '') ?? ''
  const count = (mark: Delimiter) => header.split(mark).length
  return ([';', '\t'] as const).reduce<Delimiter>(
    (best, mark) => (count(mark) > count(best) ? mark : best),
    ',',
  )
}
