import { PART_KINDS, type PartKind } from '../core/part.ts'
import { date, email, key, line, lines, type Reading } from '../input/cells.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { claimOf, type EnterableKey } from './claimForm.ts'
import { type Typed, textOf } from './form.tsx'
import { limitLabel } from './limits.tsx'
import { fieldReader } from './typed.ts'
import type { NewMachine } from './webUses.ts'

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

/** `YYYY-MM-DD` */
const DAY_LENGTH = 10

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
  const { read, need, problems } = reader
  const tag = need('tag', key, 'Give the tag on the case label, such as M-0042.')
  const ownerName = read('ownerName', line())
  const ownerEmail = read('ownerEmail', email)
  if (ownerEmail !== undefined && textOf(typed, 'ownerName') === undefined)
    problems.push({ code: 'missing', field: 'ownerName', next: 'Give the name that goes with the address.' })
  const soldOn =
    read('soldOn', date) === undefined ? undefined : textOf(typed, 'soldOn')?.slice(0, DAY_LENGTH)
  const parts = PART_KINDS.flatMap((kind) =>
    Array.from({ length: PLACES_OF[kind] }, (_, n) => ({ kind, name: read(`part.${kind}.${n}`, line()) })),
  ).flatMap(({ kind, name }) => (name === undefined ? [] : [{ kind, name }]))
  const claims = WORTH_MEASURING.flatMap((limitKey) => claimOf(limitKey, reader) ?? [])
  const note = read('note', lines())
  if (problems.length > 0 || tag === undefined) return failed(...problems)
  return ok({ tag, ownerName, ownerEmail, soldOn, note, parts, claims })
}
