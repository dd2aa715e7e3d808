/** A piece of the description as the reference page reads it (OpenAPI 3.1: JSON Schema 2020-12). */
export type Schema = {
  readonly $ref?: string
  readonly type?: string | readonly string[]
  readonly description?: string
  readonly enum?: readonly unknown[]
  readonly format?: string
  readonly items?: Schema
  readonly properties?: Readonly<Record<string, Schema>>
  readonly required?: readonly string[]
  readonly additionalProperties?: boolean | Schema
  readonly oneOf?: readonly Schema[]
  readonly anyOf?: readonly Schema[]
  readonly allOf?: readonly Schema[]
  readonly minimum?: number
  readonly maximum?: number
  readonly exclusiveMinimum?: number
  readonly example?: unknown
}

export type Field = {
  readonly name: string
  readonly schema: Schema
  readonly needed: boolean
}

/** A word of a type: text, or the name of a shape to go to. */
export type Word = string | { readonly shape: string }

const ENUM_SHOWN = 12

export const shapeName = ($ref: string): string => $ref.split('/').at(-1) ?? $ref

/** What a field holds, in words. */
export function typeWords(schema: Schema): Word[] {
  if (schema.$ref !== undefined) return [{ shape: shapeName(schema.$ref) }]
  const [only] = schema.allOf ?? []
  if (only !== undefined) return typeWords(only)
  const ways = schema.oneOf ?? schema.anyOf
  if (ways !== undefined) return ways.flatMap((way, n) => [...(n > 0 ? [' or '] : []), ...typeWords(way)])
  if (schema.enum !== undefined) return [enumWords(schema.enum)]
  if (schema.type === 'array') return ['list of ', ...typeWords(schema.items ?? {})]
  if (typeof schema.additionalProperties === 'object')
    return ['object of ', ...typeWords(schema.additionalProperties)]
  const items = schema.properties?.items?.items
  if (items !== undefined) return ['items, a list of ', ...typeWords(items), ', with total, limit, offset']
  if (schema.type === 'object') return [objectWords(schema)]
  return [plainType(schema)]
}

function enumWords(values: readonly unknown[]): string {
  const shown = values.slice(0, ENUM_SHOWN).map((value) => JSON.stringify(value))
  const more = values.length - shown.length
  return `${shown.join(' | ')}${more > 0 ? ` and ${more} more` : ''}`
}

const objectWords = ({ properties = {}, required = [] }: Schema): string =>
  `{ ${Object.keys(properties)
    .map((name) => (required.includes(name) ? name : `${name}?`))
    .join(', ')} }`

function plainType({ type, format, minimum, maximum, exclusiveMinimum }: Schema): string {
  const name =
    format === 'date-time' ? 'instant' : Array.isArray(type) ? type.join(' or ') : (type ?? 'anything')
  const least = minimum ?? (exclusiveMinimum === undefined ? undefined : `more than ${exclusiveMinimum}`)
  const most = maximum === undefined || maximum >= Number.MAX_SAFE_INTEGER ? undefined : maximum
  if (least === undefined || Number(least) <= Number.MIN_SAFE_INTEGER)
    return `${name}${most === undefined ? '' : ` up to ${most}`}`
  return `${name} ${typeof least === 'string' ? least : `from ${least}`}${most === undefined ? '' : ` to ${most}`}`
}

export const fieldsOf = ({ properties = {}, required = [] }: Schema): Field[] =>
  Object.entries(properties).map(([name, schema]) => ({ name, schema, needed: required.includes(name) }))
