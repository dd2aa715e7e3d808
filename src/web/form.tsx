import type { Child } from 'hono/jsx'
import { withoutTurns } from '../core/direction.ts'
import type { Language } from '../core/language.ts'
import { type Problem, shortGot } from '../problem.ts'
import { fill, formOf } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'

/** What was typed, by field name; a name may come several times. Drawn again as it was when something is wrong. */
export type Typed = ReadonlyMap<string, readonly string[]>

/**
 * Text fields of a posted form, line ends as `\n`: browsers post CRLF (HTML Standard, 4.10.22). Unseen signs that turn
 * the direction of text come along when it is copied from a chat, and are taken out. Files are left out; they are read
 * by the import alone.
 */
export function typedOf(form: FormData): Typed {
  const typed = new Map<string, string[]>()
  for (const [name, value] of form.entries()) {
    if (typeof value !== 'string') continue
    const text = withoutTurns(value.replaceAll(/\r\n?/g, '\n'))
    const values = typed.get(name)
    // Added in place: a field that was sent 60,000 times would be copied as often, and nobody else served meanwhile.
    if (values === undefined) typed.set(name, [text])
    else values.push(text)
  }
  return typed
}

/** The field's text without space around it; undefined when nothing was typed. */
export function textOf(typed: Typed, name: string): string | undefined {
  const text = typed.get(name)?.[0]?.trim()
  return text === undefined || text === '' ? undefined : text
}

/** Id of the input with that name; field names may hold dots. */
export const idOf = (name: string): string => `f-${name.replaceAll(/[^A-Za-z0-9]+/g, '-')}`

export type FieldProps = {
  name: string
  label: string
  typed: Typed
  problems: readonly Problem[]
  hint?: Child | undefined
  type?: 'text' | 'email' | 'date' | 'number' | 'password' | undefined
  inputmode?: 'numeric' | 'decimal' | 'text' | undefined
  list?: string | undefined
  unit?: string | undefined
  required?: boolean | undefined
  rows?: number | undefined
  narrow?: boolean | undefined
  autocomplete?: string | undefined
  language?: Language | undefined
}

const describedBy = (name: string, hint: boolean, wrong: boolean): string | undefined =>
  [hint ? `${idOf(name)}-hint` : '', wrong ? `${idOf(name)}-wrong` : ''].filter(Boolean).join(' ') ||
  undefined

export const problemText = (p: Problem): string =>
  `${p.got === undefined ? '' : `“${shortGot(p.got)}” `}${p.next}`

/** The problems of one field, beside it. */
export const FieldProblems = ({ name, problems }: { name: string; problems: readonly Problem[] }) => {
  const own = problems.filter((p) => p.field === name)
  return own.length === 0 ? null : (
    <p class="wrong" id={`${idOf(name)}-wrong`}>
      {own.map((p) => problemText(p)).join(' ')}
    </p>
  )
}

/** A labelled input that keeps what was typed and says what is wrong with it. */
export const Field = (props: FieldProps) => {
  const { name, label, typed, problems, hint, rows, unit } = props
  const wrong = problems.some((p) => p.field === name)
  const value = typed.get(name)?.[0] ?? ''
  const shared = {
    id: idOf(name),
    name,
    'aria-invalid': wrong ? ('true' as const) : undefined,
    'aria-describedby': describedBy(name, hint !== undefined, wrong),
    autocomplete: props.autocomplete ?? 'off',
    'aria-required': props.required ? ('true' as const) : undefined,
  }
  return (
    <div class={wrong ? 'field bad' : 'field'}>
      <label for={idOf(name)}>
        {label}
        {props.required && <span class="soft"> {wordsIn(props.language ?? 'en').form.needed}</span>}
      </label>
      {hint !== undefined && (
        <p class="hint" id={`${idOf(name)}-hint`}>
          {hint}
        </p>
      )}
      {rows !== undefined ? (
        <textarea {...shared} rows={rows}>
          {value}
        </textarea>
      ) : (
        <span class="unit">
          <input
            {...shared}
            type={props.type ?? 'text'}
            inputmode={props.inputmode}
            list={props.list}
            value={value}
            class={props.narrow ? 'narrow' : undefined}
          />
          {unit !== undefined && <span class="soft">{unit}</span>}
        </span>
      )}
      <FieldProblems name={name} problems={problems} />
    </div>
  )
}

export const Select = (props: {
  name: string
  label: string
  typed: Typed
  problems: readonly Problem[]
  choices: readonly (readonly [value: string, text: string])[]
  hint?: Child | undefined
  required?: boolean
}) => {
  const { name, label, typed, problems, choices, hint } = props
  const wrong = problems.some((p) => p.field === name)
  const chosen = typed.get(name)?.[0]
  return (
    <div class={wrong ? 'field bad' : 'field'}>
      <label for={idOf(name)}>
        {label}
        {props.required && <span class="soft"> {wordsIn('en').form.needed}</span>}
      </label>
      {hint !== undefined && (
        <p class="hint" id={`${idOf(name)}-hint`}>
          {hint}
        </p>
      )}
      <select
        id={idOf(name)}
        name={name}
        aria-required={props.required ? 'true' : undefined}
        aria-invalid={wrong ? 'true' : undefined}
        aria-describedby={describedBy(name, hint !== undefined, wrong)}
      >
        {choices.map(([value, text]) => (
          <option value={value} selected={value === chosen}>
            {text}
          </option>
        ))}
      </select>
      <FieldProblems name={name} problems={problems} />
    </div>
  )
}

/** Places that are no column and no field of a form, as a person calls them. */
const PLACE_WORDS: ReadonlyMap<string, string> = new Map([
  ['files', 'The files'],
  ['question', 'The question'],
  ['answer', 'The answer'],
  ['option', 'The option'],
  ['optionId', 'The option'],
  ['job', 'The job'],
  ['machine', 'The machine'],
  ['run', 'The run'],
  ['setting', 'The setting'],
  ['shelf', 'The shelf'],
  ['item', 'The item'],
  ['steps', 'The checklist'],
  ['partInMind', 'The part in mind'],
  ['sale', 'The sale'],
  ['parts', 'The parts'],
  ['prices', 'The prices'],
])

/** Where a problem is that belongs to no field with a label. */
export const placeWords = (field: string): string => PLACE_WORDS.get(field) ?? field

/** Problems at the top of a form, each a way to its field. `labels` turns field names into the words on the page. */
export const ProblemSummary = ({
  problems,
  labels,
  language = 'en',
  kept = wordsIn(language).form.kept,
}: {
  problems: readonly Problem[]
  labels: (field: string) => string | undefined
  language?: Language
  /** What became of what was typed. */
  kept?: string
}) =>
  problems.length === 0 ? null : (
    <section class="summary" role="alert" aria-labelledby="summary-head">
      <h2 id="summary-head">
        {fill(formOf(wordsIn(language).form.wrong, problems.length, new Intl.PluralRules(language)), {
          count: String(problems.length),
        })}
      </h2>
      <p>{kept}</p>
      <ul>
        {problems.map((p) => {
          const label = labels(p.field)
          return (
            <li>
              {label === undefined ? <b>{placeWords(p.field)}</b> : <a href={`#${idOf(p.field)}`}>{label}</a>}
              {`: ${problemText(p)}`}
            </li>
          )
        })}
      </ul>
    </section>
  )

/** What the Enter key presses: browsers take a form's first button, and that must not be "add a row". */
export const FirstSubmit = ({ value }: { value: string }) => (
  <button hidden type="submit" name="do" value={value}>
    Save
  </button>
)
