import Papa from 'papaparse'
import { guardedCell } from './csv/guard.ts'

type Line = {
  readonly at: string
  readonly by?: string | undefined
  readonly kind: string
  readonly record?: string | undefined
  readonly what: string
  readonly fields?: string | undefined
  readonly rows: number
}

/** The log of changes as CSV (RFC 4180); names and keys are the shop's words, so they are guarded. */
export const writeChanges = (lines: readonly Line[]): string =>
  `\ufeff${Papa.unparse(
    {
      fields: ['at', 'by', 'kind', 'key', 'what', 'fields', 'rows'],
      data: lines.map((line) => [
        ...[line.at, guardedCell(line.by ?? ''), line.kind, guardedCell(line.record ?? '')],
        ...[line.what, line.fields ?? '', String(line.rows)],
      ]),
    },
    { newline: '\r\n' },
  )}\r\n`
