import fc from 'fast-check'

/** The pieces of JSON Schema 2020-12 that the description uses. */
export type JsonSchema = {
  readonly $ref?: string
  readonly type?: string | readonly string[]
  readonly enum?: readonly unknown[]
  readonly format?: string
  readonly pattern?: string
  readonly items?: JsonSchema
  readonly minItems?: number
  readonly maxItems?: number
  readonly minLength?: number
  readonly maxLength?: number
  readonly minimum?: number
  readonly maximum?: number
  readonly exclusiveMinimum?: number
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly required?: readonly string[]
  readonly additionalProperties?: boolean | JsonSchema
  readonly oneOf?: readonly JsonSchema[]
  readonly anyOf?: readonly JsonSchema[]
  readonly allOf?: readonly JsonSchema[]
}
type Components = Readonly<Record<string, JsonSchema>>

/** Texts that are the kind of thing that breaks programs. */
export const NASTY = [
  '',
  ' ',
  "'; drop table parts; --",
  '<script>alert(1)</script>',
  '../../etc/passwd',
  '\u0000',
  '\ud800',
  '%00',
  '=1+1',
  '__proto__',
  'constructor',
  'x'.repeat(5000),
  '1e309',
  '-0',
  'ß\u202e\ufeff',
]

/** What does not belong there, whatever the schema says. */
export const anything: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(null, true, 0, -1, 1e308, 5e-324, 2 ** 53, [], {}, ...NASTY),
  fc.jsonValue({ maxDepth: 2 }),
)

/** Values as the schema describes them. */
export function valid(schema: JsonSchema, all: Components, depth = 0): fc.Arbitrary<unknown> {
  const below = (s: JsonSchema) => valid(s, all, depth + 1)
  if (schema.$ref !== undefined) return below(all[schema.$ref.split('/').at(-1) ?? ''] ?? {})
  const ways = schema.oneOf ?? schema.anyOf
  if (ways !== undefined) return fc.oneof(...ways.map(below))
  if (schema.allOf !== undefined) return below(Object.assign({}, ...schema.allOf) as JsonSchema)
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum)
  switch (schema.type) {
    case 'string': {
      if (schema.format === 'date-time')
        return fc
          .date({ min: new Date('1995-01-01'), max: new Date('2099-01-01'), noInvalidDate: true })
          .map((d) => d.toISOString())
      const { minLength = 0, maxLength = 30 } = schema
      return fc.string({
        unit: 'grapheme',
        minLength,
        maxLength: Math.max(minLength, Math.min(maxLength, 30)),
      })
    }
    case 'integer': {
      const { minimum = 0, maximum = 200 } = schema
      return fc.integer({ min: Math.max(minimum, -1000), max: Math.min(maximum, 2 ** 31 - 1) })
    }
    case 'number':
      return fc.oneof(
        fc.integer({ min: Math.max(1, schema.minimum ?? 1), max: Math.min(schema.maximum ?? 400, 400) }),
        fc.double({ min: schema.minimum ?? 0.01, max: Math.min(schema.maximum ?? 1e6, 1e6), noNaN: true }),
      )
    case 'boolean':
      return fc.boolean()
    case 'array':
      return fc.array(below(schema.items ?? {}), {
        minLength: schema.minItems ?? 0,
        maxLength: Math.min(schema.maxItems ?? 3, depth > 3 ? 1 : 3),
      })
    case 'object': {
      if (schema.properties === undefined)
        return fc.dictionary(
          fc.string({ minLength: 1, maxLength: 8 }),
          typeof schema.additionalProperties === 'object' ? below(schema.additionalProperties) : fc.string(),
          { maxKeys: 2 },
        )
      const fields = Object.fromEntries(
        Object.entries(schema.properties).map(([name, s]) => [name, below(s)]),
      )
      return fc.record(fields, { requiredKeys: [...(schema.required ?? [])] })
    }
    default:
      return fc.jsonValue({ maxDepth: 1 })
  }
}

/** A value with one thing wrong somewhere: a field gone, of another type, too much, or unknown. */
export const spoiled = (values: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> =>
  fc
    .tuple(values, anything, fc.nat(1000), fc.constantFrom('replace', 'remove', 'add'))
    .map(([value, wrong, at, how]) => {
      const copy: unknown = structuredClone(value)
      const places = placesIn(copy)
      const place = places[at % Math.max(places.length, 1)]
      if (place === undefined) return wrong
      const { holder, name } = place
      if (how === 'remove' && !Array.isArray(holder)) Reflect.deleteProperty(holder, name)
      else if (how === 'add' && !Array.isArray(holder)) Reflect.set(holder, 'noSuchField', wrong)
      else Reflect.set(holder, name, wrong)
      return copy
    })

type Place = { readonly holder: object; readonly name: string }

function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([name, inner]) => [{ holder: value, name }, ...placesIn(inner)])
}
