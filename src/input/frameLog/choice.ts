import { z } from 'zod'
import { READ_AS, UNIT_NAMES } from '../../core/frames/rows.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { type Choice, guessOfColumn } from './guess.ts'
import type { Column, Layout } from './layout.ts'

const COLUMNS_MAX = 10_000

const kept = z.object({
  column: z.int().min(0).max(COLUMNS_MAX),
  as: z.enum(READ_AS),
  unit: z.enum(UNIT_NAMES),
  unshown: z.object({ column: z.int().min(0).max(COLUMNS_MAX), mark: z.string() }).optional(),
}) satisfies z.ZodType<Choice>

/** A choice that was kept as JSON; undefined where it is none (any more). */
export const keptChoice = (json: unknown): Choice | undefined => kept.safeParse(json).data

/** A choice as typed or picked: texts by field. `column` counts from 1, as people do. */
export type TypedChoice = {
  readonly column?: string | undefined
  readonly as?: string | undefined
  readonly unit?: string | undefined
  /** `4=0`: rows with 0 in the fourth column were never shown; '' = every frame was. */
  readonly unshown?: string | undefined
}

/** What was typed, over what is taken where nothing was; of another column than the usual one, over what it looks like. Problems have the names of the fields. */
export function readChoice(
  typed: TypedChoice,
  usual: Choice,
  layout: Pick<Layout, 'columns'>,
): Result<Choice> {
  const problems: Problem[] = []
  const one = <T extends string>(field: 'as' | 'unit', words: readonly T[], otherwise: T): T => {
    const text = typed[field]
    if (text === undefined || text === '') return otherwise
    const found = words.find((word) => word === text.toLowerCase().replace('-', ' '))
    const allowed = `one of: ${words.join(', ')}`
    if (found === undefined)
      problems.push({ code: 'unknown name', field, got: text, allowed, next: `Write ${allowed}.` })
    return found ?? otherwise
  }
  const column = typed.column ? columnNamed(typed.column, layout.columns) : usual.column
  if (column === undefined) problems.push(noColumn('column', typed.column ?? '', layout.columns))
  // Another column has a unit of its own.
  const picked = column === undefined || column === usual.column ? undefined : layout.columns[column]
  const otherwise = picked === undefined ? usual : guessOfColumn(picked)
  const as = one('as', READ_AS, otherwise.as)
  const unit = one('unit', UNIT_NAMES, otherwise.unit)
  const unshown = typed.unshown === undefined ? usual.unshown : unshownOf(typed.unshown, layout.columns)
  if (unshown === 'unclear') problems.push(unclear(typed.unshown ?? ''))
  if (column === undefined || unshown === 'unclear' || problems.length > 0) return failed(...problems)
  return ok({ column, as, unit, ...(unshown !== undefined && { unshown }) })
}

/** Its number, counted from 1, or its name as the log has it. */
function columnNamed(text: string, columns: readonly Column[]): number | undefined {
  const named = columns.findIndex(({ name }) => name === text)
  const number = /^\d{1,5}$/.test(text) ? Number(text) - 1 : -1
  const column = named >= 0 ? named : number
  return columns[column]?.isNumeric ? column : undefined
}

function unshownOf(text: string, columns: readonly Column[]): Choice['unshown'] | 'unclear' {
  if (text === '') return undefined
  const [, number = '', mark = ''] = /^(\d{1,5})=(.*)$/s.exec(text) ?? []
  const column = Number(number) - 1
  return number === '' || columns[column] === undefined ? 'unclear' : { column, mark }
}

export const noColumn = (field: string, got: string, columns: readonly Column[]): Problem => {
  const numbers = columns.flatMap(({ isNumeric }, at) => (isNumeric ? [at + 1] : []))
  const allowed = `a column of figures: ${numbers.join(', ')}`
  return { code: 'not allowed', field, got, allowed, next: `Choose ${allowed}.` }
}

const unclear = (got: string): Problem => ({
  ...{ code: 'not allowed', field: 'unshown', got },
  next: 'Write the number of a column and what stands in it for frames never shown, such as 4=0.',
})
