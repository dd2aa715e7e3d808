import type { Claim, LimitKey, LimitSource } from '../core/limits/limit.ts'
import { LIMIT_SOURCES } from '../core/limits/limit.ts'
import type { Plugs } from '../core/part.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { textOf, type Typed } from './form.tsx'
import { type NumberRule, wholeOf } from './typed.ts'

type NumberHint = Pick<NumberRule, 'of' | 'min' | 'max' | 'example'>

/** Limits that hands in a machine can find out, with the range that a typed number may lie in. */
export const NUMBER_LIMITS = {
  cardRoomMm: { of: 'a number of millimetres', min: 50, max: 600, example: 322 },
  coolerRoomMm: { of: 'a number of millimetres', min: 20, max: 250, example: 160 },
  supplyRatedW: { of: 'a number of watts', min: 100, max: 3000, example: 550 },
  supply12VW: { of: 'a number of watts', min: 60, max: 3000, example: 500 },
  processorPowerW: { of: 'a number of watts', min: 10, max: 600, example: 95 },
  memoryRunsMts: { of: 'a data rate in MT/s', min: 400, max: 12_000, example: 3200 },
  memorySlots: { of: 'a number of slots', min: 1, max: 16, example: 4 },
  memoryMaxGB: { of: 'a number of GB', min: 1, max: 4096, example: 64 },
  memoryPerSlotMaxGB: { of: 'a number of GB', min: 1, max: 512, example: 32 },
  boardRateMts: { of: 'a data rate in MT/s', min: 400, max: 12_000, example: 2933 },
  slotPcieGen: { of: 'a PCIe generation', min: 1, max: 6, example: 4 },
  slotLanes: { of: 'a number of lanes', min: 1, max: 16, example: 16 },
} as const satisfies Partial<Record<LimitKey, NumberHint>>

type NumberLimit = keyof typeof NUMBER_LIMITS
const isNumberLimit = (key: string): key is NumberLimit => Object.hasOwn(NUMBER_LIMITS, key)

/** Every limit a person can enter on a page; the rest follow from parts and published tables. */
export const ENTERABLE: ReadonlySet<string> = new Set([
  ...Object.keys(NUMBER_LIMITS),
  'firmware',
  'firmwareNeeded',
  'supplyPlugs',
])

/** Who can stand behind a typed value, with the words of the form. */
export const SOURCE_CHOICES = [
  ['measured', 'measured (tape, meter, or seen on it)'],
  ['read', 'read from the machine itself'],
  ['entered', 'typed, without evidence'],
] as const satisfies readonly (readonly [LimitSource, string])[]

const PLUG = /^(\d)\s*[x×]\s*(16|8|6)[- ]?pin$/i

/** `2x 8-pin + 1x 6-pin`, `1 x 16-pin`, `none`. */
export function plugsOf(text: string, field: string): Result<Plugs> {
  if (/^none$/i.test(text)) return ok({ pin6: 0, pin8: 0, pin16: 0 })
  const counts = { pin6: 0, pin8: 0, pin16: 0 }
  for (const piece of text.split('+')) {
    const read = PLUG.exec(piece.trim())
    if (read === null) {
      const allowed = '“none”, or a count and a kind joined by +: 6-pin, 8-pin, 16-pin'
      const next = `is not a list of card plugs. Write ${allowed}, such as 2x 8-pin + 1x 6-pin.`
      return failed({ code: 'not allowed', field, got: text, allowed, next })
    }
    counts[`pin${read[2] as '6' | '8' | '16'}`] += Number(read[1])
  }
  return ok(counts)
}

const isSource = (text: string | undefined): text is LimitSource =>
  LIMIT_SOURCES.some((source) => source === text)

const NOTE_MAX = 200
const TEXT_MAX = 60

function valueOf(key: string, typed: Typed, field: string): Result<Pick<Claim, 'key' | 'value'> | undefined> {
  const text = textOf(typed, field)
  if (text === undefined) return ok(undefined)
  if (isNumberLimit(key)) {
    const number = wholeOf(typed, { field, ...NUMBER_LIMITS[key] })
    if (!number.ok) return number
    return ok(number.value === undefined ? undefined : { key, value: number.value })
  }
  if (key === 'supplyPlugs') {
    const plugs = plugsOf(text, field)
    return plugs.ok ? ok({ key, value: plugs.value }) : plugs
  }
  if (key === 'firmware' || key === 'firmwareNeeded') {
    if (text.length <= TEXT_MAX) return ok({ key, value: text })
    const allowed = `up to ${TEXT_MAX} characters`
    const next = `is too long for a firmware version. Write ${allowed}, such as F12.`
    return failed({ code: 'not allowed', field, got: text, allowed, next })
  }
  const next = 'This limit is not entered by hand: it follows from the parts and the published tables.'
  return failed({ code: 'not allowed', field, next })
}

/**
 * One limit typed in a form whose fields are `limit.<key>`, `source.<key>` and `note.<key>`; undefined when its value
 * was left empty, because an empty limit is unknown and not zero.
 */
export function claimOf(key: string, typed: Typed): Result<Claim | undefined> {
  const value = valueOf(key, typed, `limit.${key}`)
  if (!value.ok) return value
  if (value.value === undefined) return ok(undefined)
  const source = textOf(typed, `source.${key}`)
  const note = textOf(typed, `note.${key}`)
  const problems: Problem[] = []
  if (!isSource(source))
    problems.push({
      code: 'missing',
      field: `source.${key}`,
      got: source,
      next: 'Say who stands behind this value: measured, read or typed.',
    })
  if (note !== undefined && note.length > NOTE_MAX)
    problems.push({
      code: 'not allowed',
      field: `note.${key}`,
      next: `These are ${note.length} characters. Keep the note to ${NOTE_MAX}.`,
    })
  if (problems.length > 0 || !isSource(source)) return failed(...problems)
  // The pair of key and value was checked together just above; the type of a spread forgets that.
  return ok({ ...value.value, source, note } as Claim)
}
