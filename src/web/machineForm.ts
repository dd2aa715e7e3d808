import { PART_KINDS, type PartKind } from '../core/part.ts'
import { date, email, line, lines, pathKey, type Reading } from '../input/cells.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { NewMachine } from '../uses/addMachine.ts'
import type { Correction } from '../uses/correctMachine.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { claimOf, type EnterableKey } from './claimForm.ts'
import { type Typed, textOf } from './form.tsx'
import { limitLabel } from './limits.tsx'
import { type FieldReader, fieldReader } from './typed.ts'

/** How many parts of a kind the form has room for. */
export const PLACES_OF: Record<PartKind, number> = {
  processor: 1,
  board: 1,
  memory: 2,
  card: 1,
  supply: 1,
  case: 1,
  cooler: 1,
  drive: 2,
  fan: 2,
}

/** Limits that only hands in the machine can tell, and that decide most questions later. */
export const WORTH_MEASURING: readonly EnterableKey[] = [
  'cardRoomMm',
  'coolerRoomMm',
  'firmware',
  'memoryRunsMts',
  'supplyPlugs',
  'supply12VW',
]

const LABELS: Record<string, string> = {
  tag: 'Tag',
  soldOn: 'Sold on',
  ownerName: 'Owner’s name',
  ownerEmail: 'Owner’s address for mail',
  note: 'Note',
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

/** Words for the fields of this form. Limits need `figures`, because their words do. */
export function machineLabel(field: string, figures?: Figures): string | undefined {
  const part = /^part\.(\w+)\.(\d+)$/.exec(field)
  const kind = PART_KINDS.find((k) => k === part?.[1])
  if (kind !== undefined) {
    const name = capital(KIND_WORDS[kind])
    return PLACES_OF[kind] === 1 ? name : `${name} ${Number(part?.[2]) + 1}`
  }
  return LABELS[field] ?? (figures === undefined ? undefined : limitLabel(field, figures))
}

/** The machine as typed, or everything that is wrong with it. */
export function newMachineOf(typed: Typed, reading: Reading): Result<NewMachine> {
  const reader = fieldReader(typed, reading)
  const tag = reader.need('tag', pathKey, 'Give the tag on the case label, such as M-0042.')
  const facts = factsOf(typed, reader)
  const claims = WORTH_MEASURING.flatMap((limitKey) => claimOf(limitKey, reader) ?? [])
  return reader.problems.length > 0 || tag === undefined
    ? failed(...reader.problems)
    : ok({ tag, ...facts, claims })
}

/** What was written down wrongly, put right. */
export function correctionOf(typed: Typed, reading: Reading): Result<Correction> {
  const reader = fieldReader(typed, reading)
  const facts = factsOf(typed, reader)
  return reader.problems.length > 0 ? failed(...reader.problems) : ok(facts)
}

function factsOf(typed: Typed, { read, problems }: FieldReader): Correction {
  const ownerName = read('ownerName', line())
  const ownerEmail = read('ownerEmail', email)
  if (ownerEmail !== undefined && textOf(typed, 'ownerName') === undefined)
    problems.push({ code: 'missing', field: 'ownerName', next: 'Give the name that goes with the address.' })
  const soldAt = read('soldOn', date)
  const parts = PART_KINDS.flatMap((kind) =>
    Array.from({ length: PLACES_OF[kind] }, (_, n) => ({ kind, name: read(`part.${kind}.${n}`, line()) })),
  ).flatMap(({ kind, name }) => (name === undefined ? [] : [{ kind, name }]))
  const note = read('note', lines())
  return { ownerName, ownerEmail, soldAt, note, parts }
}
