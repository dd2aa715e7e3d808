import fc from 'fast-check'
import { z } from 'zod'

type Schema = {
  readonly $ref?: string
  readonly type?: string | readonly string[]
  readonly enum?: readonly unknown[]
  readonly const?: unknown
  readonly properties?: Readonly<Record<string, Schema>>
  readonly required?: readonly string[]
  readonly items?: Schema
  readonly anyOf?: readonly Schema[]
  readonly oneOf?: readonly Schema[]
  readonly allOf?: readonly Schema[]
  readonly minimum?: number
  readonly maximum?: number
  readonly minLength?: number
  readonly maxLength?: number
  readonly example?: unknown
}

/** As much of an OpenAPI description (3.1) as is drawn from. */
export type Described = {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>
  readonly components?: { readonly schemas?: Readonly<Record<string, Schema>> }
}
type Operation = {
  readonly operationId?: string
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly schema?: Schema }[]
  readonly requestBody?: { readonly content?: Readonly<Record<string, { readonly schema?: Schema }>> }
}

export const readDescription = (json: unknown): Described =>
  z.custom<Described>((v) => typeof v === 'object' && v !== null && 'paths' in v).parse(json)

const DEEP = 5

/** Values as a schema describes them; one in eight is of another kind, which the API must refuse. */
export function valuesFor(schema: Schema | undefined, all: Described, depth = 0): fc.Arbitrary<unknown> {
  const right = rightValue(schema, all, depth)
  return fc.oneof(
    { weight: 7, arbitrary: right },
    { weight: 1, arbitrary: fc.oneof(fc.jsonValue({ maxDepth: 2 }), ODD) },
  )
}

const ODD = fc.constantFrom<unknown>(
  ...[
    null,
    '',
    ' ',
    -1,
    1e308,
    0.1,
    2 ** 53,
    true,
    [],
    {},
    [[]],
    { constructor: 1 },
    'a'.repeat(3000),
    '\u0000',
    '\ud800',
  ],
)

function rightValue(schema: Schema | undefined, all: Described, depth: number): fc.Arbitrary<unknown> {
  if (schema === undefined || depth > DEEP) return fc.jsonValue({ maxDepth: 1 })
  if (schema.$ref !== undefined)
    return rightValue(all.components?.schemas?.[schema.$ref.split('/').at(-1) ?? ''], all, depth + 1)
  if (schema.const !== undefined) return fc.constant(schema.const)
  if (schema.enum !== undefined && schema.enum.length > 0) return fc.constantFrom(...schema.enum)
  const ways = schema.anyOf ?? schema.oneOf
  if (ways !== undefined && ways.length > 0)
    return fc.oneof(...ways.map((one) => valuesFor(one, all, depth + 1)))
  if (schema.allOf !== undefined)
    return fc
      .tuple(...schema.allOf.map((one) => rightValue(one, all, depth + 1)))
      .map((parts) => Object.assign({}, ...parts.filter((p) => typeof p === 'object')))
  const example = schema.example === undefined ? [] : [fc.constant(schema.example)]
  const type = Array.isArray(schema.type) ? schema.type[0] : schema.type
  switch (type) {
    case 'string':
      return fc.oneof(fc.string({ maxLength: 60, unit: 'grapheme' }), fc.constantFrom(...KNOWN), ...example)
    case 'integer':
      return fc.integer({ min: schema.minimum ?? -5, max: schema.maximum ?? 100_000 })
    case 'number':
      return fc.oneof(fc.integer({ min: 0, max: 500 }), fc.double())
    case 'boolean':
      return fc.boolean()
    case 'array':
      return fc.array(valuesFor(schema.items, all, depth + 1), { maxLength: 4 })
    default: {
      const properties = Object.entries(schema.properties ?? {})
      const model = Object.fromEntries(
        properties.map(([name, one]) => [name, valuesFor(one, all, depth + 1)]),
      )
      const must = properties.map(([name]) => name).filter((name) => schema.required?.includes(name))
      return fc.record(model, { requiredKeys: must, noNullPrototype: true })
    }
  }
}

/** Keys and words of the invented shop, so that some asks reach further than the first look. */
const KNOWN = [
  ...[
    'M-0207',
    'M-0201',
    'Q-0301',
    'Q-0302',
    'S-605',
    'CRD-GIMLET4',
    'saffron',
    'cellar',
    '1080-high',
    'i5-10400F',
  ],
  ...['2026-11-02', '2x8 GB DDR4-3200', 'measured', 'H410 board', 'x@example.com'],
] as const

/** Each operation with what is drawn for it. */
export const operationsOf = (all: Described) =>
  Object.entries(all.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => {
      const body = operation.requestBody?.content?.['application/json']?.schema
      const given = (where: string) => (operation.parameters ?? []).filter((p) => p.in === where)
      return {
        ...{ method: method.toUpperCase(), path },
        query: given('query').map(({ name, schema }) => [name, valuesFor(schema, all)] as const),
        body: body === undefined ? undefined : valuesFor(body, all),
      }
    }),
  )
