import { Ajv2020 } from 'ajv/dist/2020.js'
import formats from 'ajv-formats'
import { apiDescription } from '../../../src/web/api/apiRoutes.ts'
import { API_PREFIX } from '../../../src/web/api/refusals.ts'
import type { JsonSchema } from './fromSchema.ts'

type Parameter = {
  readonly name: string
  readonly in: 'path' | 'query'
  readonly required?: boolean
  readonly schema: JsonSchema
}
type Content = { readonly content: { readonly 'application/json': { readonly schema: JsonSchema } } }
type Described = {
  readonly operationId: string
  readonly security: readonly { readonly key: readonly string[] }[]
  readonly parameters?: readonly Parameter[]
  readonly requestBody?: Content
  readonly responses: Readonly<Record<string, Content>>
}

export type Operation = Described & { readonly method: string; readonly path: string }

export const DOCUMENT = apiDescription()
export const SHAPES = (DOCUMENT.components?.schemas ?? {}) as Readonly<Record<string, JsonSchema>>

/** Every operation of the description; `path` is below the prefix. */
export const OPERATIONS: readonly Operation[] = Object.entries(DOCUMENT.paths ?? {}).flatMap(
  ([path, methods]) =>
    Object.entries(methods as Record<string, Described>).map(([method, described]) => ({
      ...described,
      ...{ method, path: path.slice(API_PREFIX.length) },
    })),
)

/**
 * Ajv (JSON Schema 2020-12, which OpenAPI 3.1 uses) on the description as it is served; `strict` is off because the
 * vocabulary of OpenAPI (`example`, `discriminator`) is none of JSON Schema's.
 */
const ajv = new Ajv2020({ strict: false, allErrors: true })
formats.default(ajv)
ajv.addSchema({ $id: 'api', components: { schemas: SHAPES } })

const compiled = new Map<string, ReturnType<typeof ajv.compile>>()

/** What of an answer is not as the description says; none where all is. */
export function faultsOf(operation: Operation, status: number, body: unknown): string[] {
  const key = operation.responses[String(status)] === undefined ? 'default' : String(status)
  const name = `${operation.operationId} ${key}`
  let check = compiled.get(name)
  if (check === undefined) {
    const schema = operation.responses[key]?.content['application/json'].schema
    if (schema === undefined) return [`${name} is not described`]
    check = ajv.compile(JSON.parse(JSON.stringify(schema).replaceAll('"#/components', '"api#/components')))
    compiled.set(name, check)
  }
  return check(body) ? [] : (check.errors ?? []).map((e) => `${e.instancePath} ${e.message}`)
}

export const operationNamed = (id: string): Operation => {
  const found = OPERATIONS.find((o) => o.operationId === id)
  if (found === undefined) throw new Error(`no operation ${id}`)
  return found
}
