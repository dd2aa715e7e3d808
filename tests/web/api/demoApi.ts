import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore } from '../../../src/store/open.ts'
import { keptFitOf } from '../../../src/uses/gain/keptFit.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { API_PREFIX } from '../../../src/web/api/refusals.ts'
import { createApp } from '../../../src/web/app.ts'
import type { WebOptions } from '../../../src/web/frame.ts'
import { demoFile } from '../../demo/preparedShop.ts'
import { asDemo } from '../signedIn.ts'

/** Two days after the last question of the demo. */
export const AT = '2026-11-24T15:00:00.000Z'
export const ORIGIN = 'http://stillfits.test'
/** What a page of ours sends along. */
export const FROM_OURS = { origin: ORIGIN, 'sec-fetch-site': 'same-origin' }

export type Asked = {
  readonly status: number
  readonly headers: Headers
  readonly json: unknown
  readonly text: string
}
export type DemoApi = {
  /** Asks below the prefix; a body goes as JSON. */
  readonly ask: (
    method: string,
    path: string,
    body?: unknown,
    headers?: Record<string, string>,
  ) => Promise<Asked>
  readonly app: ReturnType<typeof createApp>
  readonly uses: ReturnType<typeof usesOf>
  readonly faults: unknown[]
  /** Moves the clock on. */
  readonly wait: (seconds: number) => void
  readonly close: () => Promise<void>
}

/** The demo shop behind its API, at a fixed instant. */
export async function openDemoApi(options: Partial<WebOptions> = asDemo): Promise<DemoApi> {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-api-'))
  await copyFile(await demoFile(AT), join(folder, 'demo.db'))
  const store = await openStore(`file:${join(folder, 'demo.db')}`)
  // On a busy computer the first fit takes longer than a program is let wait; uses have the clock of the day.
  await keptFitOf(store).fresh(new Date().toISOString())
  let now = Date.parse(AT)
  const faults: unknown[] = []
  const uses = { ...usesOf(store), now: () => new Date(now).toISOString() }
  const app = createApp(uses, { demo: false, onFault: (fault) => faults.push(fault), ...options })
  return {
    ...{ app, faults, uses },
    ask: async (method, path, body, headers = FROM_OURS) => {
      const answer = await app.request(`${ORIGIN}${API_PREFIX}${path}`, {
        method: method.toUpperCase(),
        headers: { ...(body !== undefined && { 'content-type': 'application/json' }), ...headers },
        ...(body !== undefined && { body: JSON.stringify(body) }),
      })
      const text = await answer.text()
      const isJson = answer.headers.get('content-type')?.startsWith('application/json') === true
      return {
        status: answer.status,
        headers: answer.headers,
        text,
        json: isJson ? JSON.parse(text) : undefined,
      }
    },
    wait: (seconds) => {
      now += seconds * 1000
    },
    close: async () => {
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
