import type { Context } from 'hono'
import { READ_AS, UNIT_NAMES } from '../core/frames/rows.ts'
import type { TypedChoice } from '../input/frameLog/choice.ts'
import { guessOfColumn } from '../input/frameLog/guess.ts'
import type { Column } from '../input/frameLog/layout.ts'
import type { FrameLogsView } from '../uses/frameLogs.ts'
import { FRAME_LOG_EN } from '../words/en/frameLog.ts'
import { columnWords, sayChoice } from '../words/frameLog.ts'
import { Select } from './form.tsx'
import { param } from './frame.ts'
import { pathToLogs } from './frameLogs.tsx'

/** The logs that an address names. */
export const logIdsOf = (c: Context): string[] => [
  ...new Set(
    param(c, 'ids')
      .split(',')
      .filter((id) => id !== ''),
  ),
]

const CHOICE_FIELDS = ['column', 'as', 'unit', 'unshown'] as const

/** How the logs are to be read, as the address says. */
export const typedChoiceOf = (c: Context): TypedChoice =>
  Object.fromEntries(
    CHOICE_FIELDS.map((field) => [field, c.req.query(field)]).filter(([, text]) => text !== undefined),
  )

/** A choice as the address says it. */
export const choiceQuery = ({ column, as, unit, unshown }: FrameLogsView['choice']): string =>
  new URLSearchParams({
    column: String(column + 1),
    ...{ as, unit },
    unshown: unshown === undefined ? '' : `${unshown.column + 1}=${unshown.mark}`,
  }).toString()

const SAMPLES_SHOWN = 3
/** Columns that are offered by a link; every one can be picked in the form below. */
const COLUMNS_OFFERED = 8

const columnText = ({ name, sample }: Column, at: number): string =>
  `${columnWords(at, name)}: ${sample.slice(0, SAMPLES_SHOWN).map(String).join(', ')} …`

/** Which column is read and how; another is picked by sending this form, which changes nothing. */
export const HowRead = ({ view, ids }: { view: FrameLogsView; ids: readonly string[] }) => {
  const { choice, logs } = view
  const columns = logs[0]?.layout.columns ?? []
  const typed = new Map(
    [...new URLSearchParams(choiceQuery(choice))].map(([name, value]) => [name, [value]] as const),
  )
  const marked = columns.flatMap(({ marks, name }, at) =>
    at === choice.column
      ? []
      : marks.map((mark) => [`${at + 1}=${mark}`, `“${mark}” in ${columnWords(at, name)}`] as const),
  )
  const form = { typed, problems: [] }
  const others = columns.flatMap((column, at) =>
    column.isNumeric && column.marks.length === 0 && at !== choice.column
      ? [{ column: at, ...guessOfColumn(column) }]
      : [],
  )
  return (
    <>
      {others.length > 0 && (
        <ul class="other-columns">
          {others.slice(0, COLUMNS_OFFERED).map((other) => (
            <li>
              <a href={`${pathToLogs(ids)}?${choiceQuery(other)}`}>{sayChoice(other, columns)}</a>
            </li>
          ))}
        </ul>
      )}
      <form method="get" action={pathToLogs(ids)} class="how-read">
        <Select
          {...form}
          name="column"
          label="Column"
          choices={columns.flatMap((column, at) =>
            column.isNumeric ? [[String(at + 1), columnText(column, at)] as const] : [],
          )}
        />
        <div class="pair">
          <Select
            {...form}
            name="as"
            label="What it holds"
            choices={READ_AS.map((as) => [as, FRAME_LOG_EN.as[as]] as const)}
          />
          <Select
            {...form}
            name="unit"
            label="Unit"
            choices={UNIT_NAMES.map((unit) => [unit, FRAME_LOG_EN.units[unit]] as const)}
          />
        </div>
        {marked.length > 0 && (
          <Select
            {...form}
            name="unshown"
            label="Frames never shown"
            hint="Where the log marks them, say how. They are no frames of their own then."
            choices={[['', FRAME_LOG_EN.everyShown], ...marked]}
          />
        )}
        <p class="actions">
          <button class="button quiet" type="submit">
            Read it so
          </button>
        </p>
      </form>
    </>
  )
}
