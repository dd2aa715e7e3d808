import { MEMORY_TYPES, type Part, type PartKind } from '../core/part.ts'
import type { FittedFields } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import { Field, Select, type Typed } from './form.tsx'
import { FITTED_LABELS } from './runForm.ts'

/** Figures that a run cannot do without. */
export const NEEDED = [
  'processorId',
  'cardId',
  'memoryType',
  'totalGB',
  'rateMts',
  'channels',
  'linkGen',
  'linkLanes',
] as const satisfies readonly (keyof FittedFields)[]

/** Those of them that nobody knows. */
export const unknownOf = (fitted: FittedFields): readonly (typeof NEEDED)[number][] =>
  NEEDED.filter((field) => fitted[field] === undefined)

/** A form's fields as these figures stand. */
export const typedFitted = (fitted: FittedFields): [string, readonly string[]][] =>
  Object.entries(fitted).flatMap(([field, value]): [string, readonly string[]][] =>
    value === undefined
      ? []
      : [[field, [typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value)]]],
  )

type FieldsProps = { parts: readonly Part[]; typed: Typed; problems: readonly Problem[] }

const PartSelect = ({
  name,
  kind,
  parts,
  ...form
}: FieldsProps & { name: 'processorId' | 'cardId'; kind: PartKind }) => (
  <Select
    {...form}
    name={name}
    label={FITTED_LABELS[name]}
    choices={[
      ['', 'choose'],
      ...parts.filter((part) => part.kind === kind).map(({ id, name }) => [id, name] as const),
    ]}
  />
)

type FigureName = Exclude<keyof FittedFields, 'processorId' | 'cardId' | 'memoryType' | 'largeBar'>
const UNITS: Readonly<Record<FigureName, string | undefined>> = {
  totalGB: 'GB',
  rateMts: 'MT/s',
  channels: undefined,
  linkGen: undefined,
  linkLanes: undefined,
  processorLimitW: 'W',
  cardLimitW: 'W',
}

const Figure = ({ name, ...form }: FieldsProps & { name: FigureName }) => (
  <Field
    typed={form.typed}
    problems={form.problems}
    name={name}
    label={FITTED_LABELS[name]}
    unit={UNITS[name]}
    inputmode="decimal"
    narrow
  />
)

/** Every figure of what ran, to be typed over. */
export const FittedFieldset = (props: FieldsProps) => (
  <div class="grid">
    <PartSelect {...props} name="processorId" kind="processor" />
    <PartSelect {...props} name="cardId" kind="card" />
    <Select
      typed={props.typed}
      problems={props.problems}
      name="memoryType"
      label={FITTED_LABELS.memoryType}
      choices={[['', 'choose'], ...MEMORY_TYPES.map((type) => [type, type] as const)]}
    />
    {(['totalGB', 'rateMts', 'channels', 'linkGen', 'linkLanes'] as const).map((name) => (
      <Figure {...props} name={name} />
    ))}
    <Select
      typed={props.typed}
      problems={props.problems}
      name="largeBar"
      label={FITTED_LABELS.largeBar}
      choices={[
        ['', 'nobody looked'],
        ['yes', 'on'],
        ['no', 'off'],
      ]}
    />
    {(['processorLimitW', 'cardLimitW'] as const).map((name) => (
      <Figure {...props} name={name} />
    ))}
  </div>
)
