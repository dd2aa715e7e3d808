import type { Claim, LimitKey } from '../core/limits/limit.ts'
import { PART_KINDS, type PartKind } from '../core/part.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { claimOf } from './claimForm.ts'
import { textOf, type Typed } from './form.tsx'
import { limitLabel } from './limits.tsx'
import { collect, dayOf } from './typed.ts'
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
export const WORTH_MEASURING: readonly LimitKey[] = [
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

const TAG = /^[A-Za-z0-9][A-Za-z0-9._-]{0,31}$/
const EMAIL = /^[^\s@<>",;]+@[^\s@<>",;]+\.[^\s@<>",;]+$/

/** The machine as typed, or everything that is wrong with it. */
export function newMachineOf(typed: Typed): Result<NewMachine> {
  const problems: Problem[] = []
  const tag = textOf(typed, 'tag')
  if (tag === undefined || !TAG.test(tag))
    problems.push({
      code: tag === undefined ? 'missing' : 'not allowed',
      field: 'tag',
      got: tag,
      next: 'Write a tag of up to 32 letters, digits, dots, dashes or underscores, such as M-0042.',
    })
  const ownerEmail = textOf(typed, 'ownerEmail')
  if (ownerEmail !== undefined && !EMAIL.test(ownerEmail))
    problems.push({
      code: 'not allowed',
      field: 'ownerEmail',
      got: ownerEmail,
      next: 'is not one mail address. Write it as name@example.org, or leave it empty.',
    })
  const ownerName = textOf(typed, 'ownerName')
  if (ownerEmail !== undefined && ownerName === undefined)
    problems.push({ code: 'missing', field: 'ownerName', next: 'Give the name that goes with the address.' })
  const soldOn = collect(dayOf(typed, 'soldOn'), problems)
  const parts = PART_KINDS.flatMap((kind) =>
    Array.from({ length: PLACES_OF[kind] }, (_, n) => ({ kind, name: textOf(typed, `part.${kind}.${n}`) })),
  ).flatMap(({ kind, name }) => (name === undefined ? [] : [{ kind, name }]))
  const claims: Claim[] = WORTH_MEASURING.flatMap((key) => collect(claimOf(key, typed), problems) ?? [])
  if (problems.length > 0 || tag === undefined) return failed(...problems)
  return ok({ tag, ownerName, ownerEmail, soldOn, note: textOf(typed, 'note'), parts, claims })
}
