import { writeFileSync } from 'node:fs'
import { ENDPOINTS } from '../../../src/web/api/endpoints.ts'
import { EXAMPLES_FILE } from '../../../src/web/api/examples.ts'
import { openDemoApi } from './demoApi.ts'
import { EXAMPLE_ASKS } from './exampleAsks.ts'

/** Asks the demo shop for the examples of the reference page again: `npm run examples`. */

/** Lists cut to their first entry: an example shows the form, not the shop. */
function cut(value: unknown): unknown {
  if (Array.isArray(value)) return value.slice(0, typeof value[0] === 'object' ? 1 : 3).map(cut)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, cut(inner)]))
}

const api = await openDemoApi()
const examples: Record<string, unknown> = {}
const reads = ENDPOINTS.filter((e) => e.method === 'get')
for (const { id, method } of [...reads, ...ENDPOINTS.filter((e) => e.method !== 'get')]) {
  const example = EXAMPLE_ASKS[id]
  if (example === undefined) continue
  const { status, json, text } = await api.ask(method, example.ask, example.body)
  if (status >= 300) throw new Error(`${id}: ${text}`)
  examples[id] = { ...example, answer: cut(json) }
}
await api.close()
writeFileSync(EXAMPLES_FILE, `${JSON.stringify(examples, null, 2)}\n`)
