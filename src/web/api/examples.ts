import { readFileSync } from 'node:fs'
import { z } from 'zod'

/** What the demo shop was asked and what it answered; lists are cut to their first entry. */
const exampleSchema = z.strictObject({
  /** Path with query, below the prefix. */
  ask: z.string(),
  body: z.unknown().optional(),
  answer: z.unknown(),
})
export type Example = z.output<typeof exampleSchema>

export const EXAMPLES_FILE = new URL('../../../fixtures/api-examples.json', import.meta.url)

let read: Readonly<Record<string, Example>> | undefined

/** The example of an endpoint, by its id. Written by `npm run examples`. */
export function exampleOf(id: string): Example | undefined {
  read ??= z.record(z.string(), exampleSchema).parse(JSON.parse(readFileSync(EXAMPLES_FILE, 'utf8')))
  return read[id]
}
