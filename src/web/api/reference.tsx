import type { Hono } from 'hono'
import type { Web } from '../frame.ts'
import { page } from '../layout.tsx'
import { apiDescription, DESCRIPTION_PATH } from './apiRoutes.ts'
import { ENDPOINTS } from './endpoints.ts'
import { exampleOf } from './examples.ts'
import { API_PREFIX, REFUSED } from './refusals.ts'
import { type Field, fieldsOf, type Schema, typeWords } from './shapes.ts'

type Parameter = {
  readonly name: string
  readonly in: string
  readonly required?: boolean
  readonly schema: Schema
}
type Content = { readonly 'application/json'?: { readonly schema: Schema; readonly example?: unknown } }
type Operation = {
  readonly operationId: string
  readonly summary: string
  readonly tags: readonly string[]
  readonly security: readonly { readonly key: readonly string[] }[]
  readonly parameters?: readonly Parameter[]
  readonly requestBody?: { readonly content: Content }
  readonly responses: Readonly<Record<string, { readonly content: Content }>>
}
type Shown = { readonly method: string; readonly path: string; readonly operation: Operation }

const Type = ({ schema }: { schema: Schema }) => (
  <span class="num">
    {typeWords(schema).map((word) =>
      typeof word === 'string' ? word : <a href={`#shape-${word.shape}`}>{word.shape}</a>,
    )}
  </span>
)

const Fields = ({ fields }: { fields: readonly Field[] }) => (
  <dl class="api-fields">
    {fields.map(({ name, schema, needed }) => (
      <div>
        <dt>
          <code>{name}</code>
          {needed && <small> needed</small>}
        </dt>
        <dd>
          <Type schema={schema} />
          {schema.description !== undefined && <small class="block">{schema.description}</small>}
        </dd>
      </div>
    ))}
  </dl>
)

const pretty = (value: unknown): string => JSON.stringify(value, null, 2)

/** As it is typed in a terminal; the address is that of the demo. */
function curlOf({ method, path, operation }: Shown): string {
  const example = exampleOf(operation.operationId)
  const to = `http://127.0.0.1:8081${API_PREFIX}${example?.ask ?? path.slice(API_PREFIX.length)}`
  const lines = [
    `curl${method === 'get' ? '' : ` -X ${method.toUpperCase()}`} '${to}'`,
    `-H "Authorization: Bearer $KEY"`,
    ...(example?.body === undefined
      ? []
      : [
          `-H 'Content-Type: application/json'`,
          `-d '${JSON.stringify(example.body).replaceAll("'", "'\\''")}'`,
        ]),
  ]
  return lines.join(' \\\n  ')
}

const OperationCard = (shown: Shown) => {
  const { method, path, operation } = shown
  const { operationId, summary, parameters = [], requestBody, responses, security } = operation
  const body = requestBody?.content['application/json']
  const [status = '200', answered] = Object.entries(responses).find(([code]) => code.startsWith('2')) ?? []
  const answer = answered?.content['application/json']
  const fields = parameters.map(({ name, required = false, schema, in: place }) => ({
    ...{ name: place === 'path' ? `{${name}}` : name, needed: required, schema },
  }))
  return (
    <section class="api-one" id={`op-${operationId}`} aria-labelledby={`op-${operationId}-head`}>
      <h3 id={`op-${operationId}-head`}>
        <span class="api-method">{method.toUpperCase()}</span> <code>{path}</code>
      </h3>
      <p>{summary}</p>
      <p class="soft">
        Scope: {security[0]?.key[0]}. Answers {status} with{' '}
        {answer === undefined ? 'nothing' : <Type schema={answer.schema} />}.
      </p>
      {fields.length > 0 && <Fields fields={fields} />}
      {body !== undefined && (
        <p>
          Takes JSON: <Type schema={body.schema} />
        </p>
      )}
      <details>
        <summary>Example of {operationId}</summary>
        <pre class="api-code">{curlOf(shown)}</pre>
        {answer?.example !== undefined && <pre class="api-code">{pretty(answer.example)}</pre>}
      </details>
    </section>
  )
}

/** Shapes that come in kinds: what tells them apart, then the fields of each. */
const Ways = ({ name, ways }: { name: string; ways: readonly Schema[] }) => (
  <>
    {ways.map((way, n) => {
      const [mark] = Object.values(way.properties ?? {}).flatMap((p) => (p.enum?.length === 1 ? p.enum : []))
      return (
        <details>
          <summary>
            {name}: {mark === undefined ? `way ${n + 1}` : String(mark)}
          </summary>
          <Fields fields={fieldsOf(way)} />
        </details>
      )
    })}
  </>
)

const Shape = ({ name, schema }: { name: string; schema: Schema }) => {
  const ways = schema.oneOf ?? schema.anyOf
  return (
    <section class="api-one" id={`shape-${name}`} aria-labelledby={`shape-${name}-head`}>
      <h3 id={`shape-${name}-head`}>
        <code>{name}</code>
      </h3>
      {ways === undefined ? <Fields fields={fieldsOf(schema)} /> : <Ways name={name} ways={ways} />}
    </section>
  )
}

const Reference = () => {
  const document = apiDescription()
  const shown = Object.entries(document.paths ?? {}).flatMap(([path, methods]) =>
    Object.entries(methods as Record<string, Operation>).map(([method, operation]) => ({
      ...{ method, path, operation },
    })),
  )
  const shapes = Object.entries((document.components?.schemas ?? {}) as Record<string, Schema>)
  return (
    <article class="card api">
      <h1>For programs</h1>
      <p>{document.info.description}</p>
      <p>
        {ENDPOINTS.length} ways to ask, described by <a href={DESCRIPTION_PATH}>an OpenAPI 3.1 document</a>.
        Send a key as <code>Authorization: Bearer KEY</code>; the owner makes keys under Settings. The demo
        shop takes any key.
      </p>
      <p>
        Every error is <code>{'{ "problems": [{ "code", "field", "got", "allowed", "next" }] }'}</code>:{' '}
        <code>next</code> is a whole sentence that says what to do. Examples are from the demo shop; their
        lists are cut to the first entry.
      </p>
      <nav aria-label="On this page">
        <ul class="api-toc">
          {(document.tags ?? []).map(({ name }) => (
            <li>
              <a href={`#group-${name.replaceAll(' ', '-')}`}>{name}</a>
            </li>
          ))}
          <li>
            <a href="#group-refusals">Refusals</a>
          </li>
          <li>
            <a href="#group-shapes">Shapes</a>
          </li>
        </ul>
      </nav>
      {(document.tags ?? []).map(({ name }) => (
        <section aria-labelledby={`group-${name.replaceAll(' ', '-')}`}>
          <h2 id={`group-${name.replaceAll(' ', '-')}`}>{name}</h2>
          {shown
            .filter(({ operation }) => operation.tags.includes(name))
            .map((one) => (
              <OperationCard {...one} />
            ))}
        </section>
      ))}
      <section aria-labelledby="group-refusals">
        <h2 id="group-refusals">Refusals</h2>
        <dl class="api-fields">
          {Object.entries(REFUSED).map(([status, { says, headers = {} }]) => (
            <div>
              <dt>
                <code>{status}</code>
              </dt>
              <dd>
                {says}
                {Object.keys(headers).length > 0 && (
                  <small class="block">With {Object.keys(headers).join(', ')}.</small>
                )}
              </dd>
            </div>
          ))}
        </dl>
      </section>
      <section aria-labelledby="group-shapes">
        <h2 id="group-shapes">Shapes</h2>
        {shapes.map(([name, schema]) => (
          <Shape name={name} schema={schema} />
        ))}
      </section>
    </article>
  )
}

/** The reference, drawn from the document that is served: no script, nothing from elsewhere. */
export function referenceRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/api', async (c) => {
    const shop = await uses.shop()
    return page(c, { title: 'For programs', demo: options.demo, shopName: shop.name }, <Reference />)
  })
}
