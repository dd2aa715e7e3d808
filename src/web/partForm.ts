import type { FanPlace, M2Socket, Part, RadiatorPlace } from '../core/part.ts'
import { type Cell, firmwareList, line, type Reading, yesNo } from '../input/cells.ts'
import { nominalProblem } from '../input/parts.ts'
import { fanPlacesText, m2Sockets, m2SocketsText, radiatorPlacesText } from '../input/places.ts'
import { PART_TABLES } from '../input/tables/parts.ts'
import { failed, ok, type Result } from '../problem.ts'
import { SPEC_WORDS, type SpecWords } from '../words/en/specs.ts'
import { capital, curly } from '../words/say.ts'
import { type Typed, textOf } from './form.tsx'
import { fieldReader } from './typed.ts'

/** A figure of a part's table as a form asks for it. */
export type PartFigure = {
  /** Name of the part's field, such as `lengthMm`; the form's field is `figure.lengthMm`. */
  readonly field: string
  readonly label: string
  readonly hint: string
  readonly isYesNo: boolean
  /** Pairs need room. */
  readonly isLong: boolean
  readonly cell: Cell<unknown>
}

/** Labels of the questions' words that say something else than the figure alone. */
const LABELS: Readonly<Record<string, string>> = { ranks: 'ranks of one module' }

const WORDS: Readonly<Record<string, SpecWords | undefined>> = SPEC_WORDS

/** A figure inside a sentence, such as "length". */
export const figureLabel = (field: string): string =>
  curly((LABELS[field] ?? WORDS[field]?.label ?? field).replace(/^its /, ''))

/** What a cell takes, behind where the figure is found when that is more than "on the data sheet". */
function hintOf(field: string, allowed: string): string {
  const words = LABELS[field] === undefined ? WORDS[field] : undefined
  const says = capital(`${allowed}.`, 'en')
  const findOut = words?.findOut
  return findOut === undefined || findOut.startsWith('Its data sheet gives') ? says : `${findOut} ${says}`
}

/** All figures of a kind, in the order of its table. */
export function figuresOfKind(kind: Part['kind']): readonly PartFigure[] {
  const columns: Readonly<Record<string, { readonly field: string; readonly cell: Cell<unknown> }>> =
    PART_TABLES[kind].columns
  return Object.values(columns)
    .filter(({ field }) => field !== 'id' && field !== 'name')
    .map(({ field, cell }) => ({
      field,
      label: capital(figureLabel(field), 'en'),
      hint: hintOf(field, cell.allowed),
      isYesNo: cell === yesNo,
      isLong: cell === firmwareList || cell === m2Sockets,
      cell,
    }))
}

/** Words for the fields of this form. */
export const partLabel = (kind: Part['kind'], field: string): string | undefined =>
  field === 'name' ? 'Name' : figuresOfKind(kind).find((figure) => field === `figure.${figure.field}`)?.label

/** Lists of rows: the field's own part type says what each holds. */
const LISTS: Readonly<Record<string, (value: unknown) => string>> = {
  m2Sockets: (value) => m2SocketsText(value as readonly M2Socket[]),
  fanPlaces: (value) => fanPlacesText(value as readonly FanPlace[]),
  radiatorPlaces: (value) => radiatorPlacesText(value as readonly RadiatorPlace[]),
}

/** A figure as its cell reads it back. */
function textOfFigure(field: string, value: unknown): string {
  const written = LISTS[field]?.(value)
  if (written !== undefined) return written
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (Array.isArray(value)) return value.join('; ')
  if (typeof value !== 'object' || value === null) return String(value)
  const entries = Object.entries(value)
  if (!('pin8' in value)) return entries.map(([name, text]) => `${name}=${text}`).join('; ')
  const counts = entries.filter(([, n]) => Number(n) > 0).map(([pins, n]) => `${n}x${pins.slice(3)}-pin`)
  return counts.join(' + ') || 'none'
}

/** The form as the part stands: what is not known is empty. */
export function typedFromPart(part: Part): Typed {
  const values: Readonly<Record<string, unknown>> = part
  const figures = figuresOfKind(part.kind).flatMap(({ field }) =>
    values[field] === undefined ? [] : [[`figure.${field}`, [textOfFigure(field, values[field])]] as const],
  )
  return new Map([['name', [part.name]], ...figures])
}

/** The mark of figures that only the name tells: gone for those that somebody typed over. */
function stillFromName(part: Part, typed: Typed): Pick<Part, 'readFromName'> {
  const before = typedFromPart(part)
  const kept = (part.readFromName ?? []).filter(
    (field) => textOf(typed, `figure.${field}`) === textOf(before, `figure.${field}`),
  )
  return kept.length === 0 ? {} : { readFromName: kept }
}

/** The part as typed, its key and kind kept, or everything that is wrong with it. */
export function describedPart(part: Part, typed: Typed, reading: Reading): Result<Part> {
  const { id, kind } = part
  const reader = fieldReader(typed, reading)
  const name = reader.need('name', line(), 'Give the part a name: maker and model.')
  const figures = figuresOfKind(kind).flatMap(({ field, cell }) => {
    const value = reader.read(`figure.${field}`, cell)
    return value === undefined ? [] : [[field, value] as const]
  })
  if (reader.problems.length > 0 || name === undefined) return failed(...reader.problems)
  // The table of a kind fills that kind's fields, which the compiler does not follow through an object of entries.
  const described = { kind, id, name, ...Object.fromEntries(figures), ...stillFromName(part, typed) } as Part
  const half = nominalProblem(described)
  return half === undefined ? ok(described) : failed({ ...half, field: `figure.${half.field}` })
}
