import { randomUUID } from 'node:crypto'
import { createRoute, OpenAPIHono } from '@hono/zod-openapi'
import type { Context, Hono, MiddlewareHandler } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { z } from 'zod'
import { problemsOfIssues } from '../../input/issues.ts'
import { patternOf } from '../access/pattern.ts'
import { triesWithin } from '../access/tries.ts'
import { mayKnowPeople, nameOf, who } from '../access/who.ts'
import type { Web } from '../frame.ts'
import { type Endpoint, GROUPS, problemsSchema } from './endpoint.ts'
import { ENDPOINTS } from './endpoints.ts'
import { exampleOf } from './examples.ts'
import {
  API_PREFIX,
  answerProblems,
  isProgram,
  REFUSED,
  refuseContentType,
  refuseElsewhereSent,
  refuseHaste,
  refuseTooSlow,
  refuseUnreadable,
} from './refusals.ts'
import { withoutPeople } from './withoutPeople.ts'

export const DESCRIPTION_PATH = `${API_PREFIX}/openapi.json`

/** Shop policy: what one key, or one account in a browser, may ask. */
export const RATE = { requests: 300, spanMs: 60_000 }

/** The API under its prefix, made from the same list that describes it. Who may ask what is decided before. */
export function apiRoutes(app: Hono, web: Web): void {
  const api = new OpenAPIHono({ defaultHook: refuseWrong })
  api.onError((error, c) => answerError(c, web, error))
  const rate = withinRate(web)
  api.use(`${API_PREFIX}/*`, rate)
  // Tables too: each that is taken is a line in the access log, so a key that asks without end would fill it.
  app.use('/export/*', (c, next) => (isProgram(c) ? rate(c, next) : next()))
  const description = describedBy(api)
  api.get(DESCRIPTION_PATH, (c) => c.json(description()))
  for (const endpoint of ENDPOINTS) addRoute(api, web, endpoint)
  app.route('/', api)
}

type Hook = { readonly success: boolean; readonly data?: unknown; readonly error?: z.core.$ZodError }

/** Everything that is wrong with what was sent, each with the value that was there. */
function refuseWrong(result: Hook, c: Context): Response | undefined {
  if (result.success || result.error === undefined) return undefined
  return answerProblems(
    c,
    problemsOfIssues(
      result.error.issues.map((issue) => withInput(issue, result.data)),
      'body',
    ),
  )
}

/** The validator hands on what was sent and not where each issue looked. */
function withInput(issue: z.core.$ZodIssue, data: unknown): z.core.$ZodIssue {
  const input = issue.path.reduce<unknown>(
    (value, step) => (typeof value === 'object' && value !== null ? Reflect.get(value, step) : undefined),
    data,
  )
  const inner =
    issue.code === 'invalid_union'
      ? { errors: issue.errors.map((way) => way.map((one) => withInput(one, input))) }
      : {}
  return { ...issue, ...inner, input } as z.core.$ZodIssue
}

function addRoute(api: OpenAPIHono, web: Web, endpoint: Endpoint): void {
  const { params, query, body, status = 200, run } = endpoint
  // The list is of many types; each endpoint's own are checked where it is written.
  const asked: {
    params: never
    query: never
    body: never
  } = { params: undefined, query: undefined, body: undefined } as never
  const blind: Web = { ...web, uses: withoutPeople(web.uses) }
  const handler = async (c: Context) => {
    const valid = (where: string): never =>
      (c.req as { valid(target: string): unknown }).valid(where) as never
    const given = {
      ...asked,
      ...(params && { params: valid('param') }),
      ...(query && { query: valid('query') }),
      ...(body && { body: valid('json') }),
      by: nameOf(who(c)),
    }
    const result = await run(mayKnowPeople(who(c)) ? web : blind, given)
    return result.ok ? c.json(result.value, status) : answerProblems(c, result.problems)
  }
  api.openapi(routeOf(endpoint), handler as never)
}

function routeOf({
  id,
  method,
  path,
  group,
  says,
  scope,
  params,
  query,
  body,
  status: own,
  answer,
}: Endpoint) {
  const status: 200 | 201 = own ?? 200
  const example = exampleOf(id)
  const request = {
    ...(params && { params: params as never }),
    ...(query && { query: query as never }),
    ...(body && {
      body: {
        required: true,
        content: {
          'application/json': { schema: body, ...(example?.body !== undefined && { example: example.body }) },
        },
      },
    }),
  }
  return createRoute({
    ...{ method, path: `${API_PREFIX}${path}`, operationId: id, tags: [group], summary: says },
    security: [{ key: [scope] }],
    request,
    responses: {
      [status]: {
        description: status === 201 ? 'Kept.' : 'Found.',
        content: { 'application/json': { schema: answer, ...(example && { example: example.answer }) } },
      },
      ...refusalsOf({ hasBody: body !== undefined, isNamed: params !== undefined }),
    },
  })
}

const BODY_ALONE = [400, 413, 415]

/** Everything else that a path may answer; nothing was changed then. */
function refusalsOf({ hasBody, isNamed }: { readonly hasBody: boolean; readonly isNamed: boolean }) {
  const content = { 'application/json': { schema: problemsSchema } }
  const known = Object.entries(REFUSED).filter(([status]) =>
    BODY_ALONE.includes(Number(status)) ? hasBody : status !== '404' || isNamed || hasBody,
  )
  return {
    ...Object.fromEntries(
      known.map(([status, { says, headers = {} }]) => [
        status,
        {
          ...{ description: says, content },
          headers: Object.fromEntries(
            Object.entries(headers).map(([name, description]) => [
              name,
              { description, schema: { type: 'string' as const } },
            ]),
          ),
        },
      ]),
    ),
    default: { description: 'Anything else that stands in the way.', content },
  }
}

export type OpenApiDocument = ReturnType<OpenAPIHono['getOpenAPI31Document']>

/** Made once, when it is first asked for. */
function describedBy(api: OpenAPIHono): () => OpenApiDocument {
  let made: OpenApiDocument | undefined
  api.openAPIRegistry.registerComponent('securitySchemes', 'key', {
    type: 'http',
    scheme: 'bearer',
    description:
      'A key from Settings. One with the scope write may read too. Names and addresses of owners are left out for keys that may not know people.',
  })
  return () => {
    made ??= api.getOpenAPI31Document({
      openapi: '3.1.0',
      info: {
        title: 'Stillfits',
        version: '1',
        description:
          'What a small shop knows of the PCs it sold, for programs. Amounts are whole minor units of the currency of the shop; instants are ISO 8601 in UTC; what is not known is absent.',
      },
      servers: [{ url: '/' }],
      tags: GROUPS.map((name) => ({ name })),
    })
    return made
  }
}

/** The description without an app around it, for the reference page. */
export function apiDescription(): OpenApiDocument {
  const api = new OpenAPIHono()
  const description = describedBy(api)
  for (const endpoint of ENDPOINTS) api.openAPIRegistry.registerPath(routeOf(endpoint) as never)
  return description()
}

function withinRate({ uses }: Web): MiddlewareHandler {
  const tries = triesWithin(RATE.spanMs, RATE.requests, () => Date.parse(uses.now()))
  return async (c, next) => {
    const asker = who(c)
    // What is public is asked without a name.
    const key = asker === undefined ? 'everybody' : `${asker.kind} ${asker.name}`
    const wait = tries.wait(key)
    if (wait > 0) return refuseHaste(c, wait, `${RATE.requests} requests in ${RATE.spanMs / 1000} s`)
    tries.count(key)
    return next()
  }
}

/** What was thrown, as problems: nothing of ours shows but a reference. */
export function answerError(c: Context, web: Web, error: unknown): Response {
  if (error instanceof HTTPException) {
    if (error.status === 403) return refuseElsewhereSent(c)
    if (error.status === 415) return refuseContentType(c)
    if (error.status === 504) return refuseTooSlow(c)
    if (error.status === 400) return refuseUnreadable(c)
  }
  const problem = web.options.problemOf?.(error)
  if (problem !== undefined && problem.code !== 'internal') return answerProblems(c, [problem])
  const reference = randomUUID().slice(0, 8)
  web.options.onFault?.({
    reference,
    requestId: c.get('requestId'),
    method: c.req.method,
    path: patternOf(c)?.path ?? API_PREFIX,
    error,
  })
  const next = `It is our fault, not yours. Its reference is ${reference}; the log has the rest under it.`
  return answerProblems(c, [{ code: 'internal', field: 'request', next }])
}
