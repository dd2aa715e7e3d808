import { copyFile, mkdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { sql } from 'drizzle-orm'
import { faultLines } from '../../../src/fault.ts'
import { problemOf } from '../../../src/store/errors.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { keptFitOf } from '../../../src/uses/gain/keptFit.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { createApp } from '../../../src/web/app.ts'
import { demoFile } from '../../demo/preparedShop.ts'
import { cannedUses, TOKEN } from '../../web/cannedUses.ts'
import { asOwner } from '../../web/signedIn.ts'
import { PAGE_STATES } from '../../web/states.ts'

export const ORIGIN = 'http://stillfits.test'

/** A form as a page shows it, with what stands in it. */
export type Form = {
  readonly action: string
  readonly fields: readonly (readonly [string, string])[]
  readonly isFile: boolean
}

export type World = {
  readonly ask: (path: string, init?: RequestInit) => Promise<Response>
  /** Where the last fault happened; taken when it is read. */
  readonly lastFault: () => string | undefined
  readonly ids: Readonly<Record<string, readonly string[]>>
  readonly forms: readonly Form[]
  readonly close: () => Promise<void>
}

/** The invented shop, signed in as its owner, in a file that is made anew each time; its pages are walked for forms. */
export async function openWorld(
  folder: string,
  gets: readonly string[],
  fill: (path: string, ids: World['ids']) => string,
) {
  await rm(folder, { recursive: true, force: true })
  await mkdir(folder, { recursive: true })
  const file = join(folder, 'shop.db')
  await copyFile(await demoFile(), file)
  const store = await openStore(`file:${file}`)
  let fault: string | undefined
  let at = Date.now()
  const uses = { ...usesOf(store), now: () => new Date(at).toISOString() }
  // Nobody waits for the first fit of the gain model here.
  await keptFitOf(store).fresh(uses.now())
  const link = await uses.makeOwnerLink('M-0207')
  const app = createApp(uses, {
    ...{ demo: false, ...asOwner, problemOf },
    onFault: ({ method, path, error }) => {
      fault = `${method} ${path}\n${faultLines(error)}`
    },
  })
  const ask = async (path: string, init: RequestInit = {}): Promise<Response> => {
    // Limits of how often are tested elsewhere.
    at += 1000
    return app.request(`${ORIGIN}${path}`, {
      ...init,
      headers: { origin: ORIGIN, 'sec-fetch-site': 'same-origin', ...init.headers },
    })
  }
  const ids = { ...(await idsOf(store)), token: link.ok ? [link.value.token] : [] }
  const forms: Form[] = []
  for (const path of gets) {
    const answer = await ask(fill(path, ids))
    if (answer.headers.get('content-type')?.startsWith('text/html'))
      forms.push(...formsIn(await answer.text()))
  }
  const world: World = {
    ...{ ask, ids, forms },
    lastFault: () => {
      const was = fault
      fault = undefined
      return was
    },
    close: () => store.close(),
  }
  return world
}

/** Every form on those pages. */
async function formsOf(ask: World['ask'], paths: readonly string[]): Promise<Form[]> {
  const forms: Form[] = []
  for (const path of paths) {
    const answer = await ask(path)
    if (answer.headers.get('content-type')?.startsWith('text/html'))
      forms.push(...formsIn(await answer.text()))
  }
  return forms
}

/** The same pages and API with uses that keep nothing: every reader of what is sent, forty times as quick. */
export async function openCannedWorld(): Promise<World> {
  let fault: string | undefined
  const { uses } = cannedUses()
  let at = Date.parse(uses.now())
  const app = createApp(
    { ...uses, now: () => new Date(at).toISOString() },
    {
      ...{ demo: false, ...asOwner, problemOf },
      onFault: ({ method, path, error }) => {
        fault = `${method} ${path}\n${faultLines(error)}`
      },
    },
  )
  const ask = async (path: string, init: RequestInit = {}): Promise<Response> => {
    at += 1000
    return app.request(`${ORIGIN}${path}`, {
      ...init,
      headers: { origin: ORIGIN, 'sec-fetch-site': 'same-origin', ...init.headers },
    })
  }
  const shown = PAGE_STATES.filter(({ form, cookie, as, uses: others }) => !form && !cookie && !as && !others)
  const forms = await formsOf(
    ask,
    shown.map(({ path }) => path),
  )
  const ids = {
    tag: ['T-0007', 'M-0207'],
    token: [TOKEN],
    code: ['x'],
    file: ['parts.csv'],
    item: ['S-1'],
    id: ['1', 'Q-1', 'R-1'],
  }
  return {
    ...{ ask, ids, forms },
    lastFault: () => {
      const was = fault
      fault = undefined
      return was
    },
    close: async () => {},
  }
}

/** Keys that routes take, by the name they have there. */
async function idsOf(store: Store): Promise<Record<string, readonly string[]>> {
  const keys = async (table: string, key: string) =>
    (await store.db.all<{ k: unknown }>(sql.raw(`select ${key} as k from ${table} limit 8`))).map(({ k }) =>
      String(k),
    )
  return {
    tag: await keys('machines', 'tag'),
    item: await keys('shelf_items', 'id'),
    code: ['x'],
    file: ['parts.csv', 'machines.csv', 'runs.csv', 'shelf.csv'],
    id: [
      ...(await keys('questions', 'id')),
      ...(await keys('parts', 'id')),
      ...(await keys('customers', 'id')),
      ...(await keys('runs', 'id')),
      ...(await keys('titles', 'id')),
      ...(await keys('findable_parts', 'id')),
      '1',
      '2',
    ],
  }
}

const unescaped = (text: string): string =>
  text
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
const attribute = (tag: string, name: string): string | undefined => {
  const found = new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1]
  return found === undefined ? undefined : unescaped(found)
}

function formsIn(page: string): Form[] {
  return [...page.matchAll(/<form\b([^>]*)>([\s\S]*?)<\/form>/g)].flatMap(([, head = '', inner = '']) => {
    const action = attribute(head, 'action')
    if (action === undefined || attribute(head, 'method') !== 'post') return []
    const fields: (readonly [string, string])[] = []
    for (const [tag] of inner.matchAll(/<(?:input|textarea|select|button)\b[^>]*>/g)) {
      const name = attribute(tag, 'name')
      if (name !== undefined) fields.push([name, attribute(tag, 'value') ?? ''])
    }
    return [{ action, fields, isFile: inner.includes('type="file"') }]
  })
}
