import { createHash, timingSafeEqual } from 'node:crypto'
import { stat } from 'node:fs/promises'
import { sql } from 'drizzle-orm'
import { lastGood } from '../core/backup.ts'
import { listBackups, takeLease } from '../store/backups.ts'
import { schemaVersionHere } from '../store/databaseCopy.ts'
import type { Store } from '../store/open.ts'
import { countMails } from '../store/outboxLists.ts'
import type { Metrics, StoreFigures } from './metrics.ts'

const now = (): string => new Date().toISOString()

type Fetch = (request: Request, env?: unknown) => Response | Promise<Response>

export type Operated = {
  readonly store: Store
  readonly holder: string
  readonly metrics: Metrics
  readonly databasePath?: string | undefined
  /** Without it there are no metrics to be had. */
  readonly metricsToken?: string | undefined
  readonly isStopping: () => boolean
}

/** A probe asks every few seconds; a write for each would only wear the disk. */
const FRESH_MS = 4000
const WAIT_MS = 2000
/** While an import writes, another write waits; what was seen so long ago still counts then. */
const LAST_SEEN_MS = 180_000

/**
 * Answers what those ask who watch the program, before anything else and under any host name: `/healthz` (it runs),
 * `/readyz` (it can write, and the database is of this version), `/metrics` (with the token alone). None tells of the shop.
 */
export function watched(answer: Fetch, operated: Operated): Fetch {
  const ready = readiness(operated)
  return async (request, env) => {
    const { pathname } = new URL(request.url)
    if (request.method !== 'GET' && request.method !== 'HEAD') return answer(request, env)
    if (pathname === '/healthz') return plain('runs', 200)
    if (pathname === '/readyz') {
      const why = await ready()
      return why === undefined ? plain('ready', 200) : plain(why, 503)
    }
    if (pathname === '/metrics' && mayLook(request, operated.metricsToken))
      return new Response(operated.metrics.text(await figuresOf(operated)), {
        headers: {
          'Content-Type': 'application/openmetrics-text; version=1.0.0; charset=utf-8',
          'Cache-Control': 'no-store',
        },
      })
    return answer(request, env)
  }
}

const plain = (text: string, status: number): Response =>
  new Response(`${text}\n`, {
    status,
    headers: { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' },
  })

const hashOf = (text: string): Buffer => createHash('sha256').update(text).digest()

function mayLook(request: Request, token: string | undefined): boolean {
  const given = /^Bearer (\S+)$/.exec(request.headers.get('authorization') ?? '')?.[1]
  return token !== undefined && given !== undefined && timingSafeEqual(hashOf(given), hashOf(token))
}

/** Undefined: ready; else why not, in a word. */
function readiness({ store, holder, isStopping }: Operated): () => Promise<string | undefined> {
  let seen: { readonly at: number; readonly why: string | undefined } | undefined
  let looking: Promise<void> | undefined
  const look = async () => {
    const why = await canWork(store, holder)
    seen = { at: performance.now(), why }
  }
  return async () => {
    if (isStopping()) return 'stopping'
    const fresh = (ms: number) => seen !== undefined && performance.now() - seen.at < ms
    if (!fresh(FRESH_MS)) {
      looking ??= look().finally(() => {
        looking = undefined
      })
      await Promise.race([looking, new Promise((done) => setTimeout(done, WAIT_MS).unref())])
    }
    return fresh(LAST_SEEN_MS) ? seen?.why : 'the database does not answer'
  }
}

async function canWork(store: Store, holder: string): Promise<string | undefined> {
  try {
    const [row] = await store.db.all<{ n: number }>(sql`select count(*) as n from __drizzle_migrations`)
    if (row?.n !== schemaVersionHere()) return 'the database is of another version'
    const at = now()
    await store.write((tx) => takeLease(tx, 'ready', { id: holder, until: at }, at))
    return undefined
  } catch {
    return 'the database cannot be written'
  }
}

async function figuresOf({ store, databasePath }: Operated): Promise<StoreFigures> {
  const LOOKED_AT = 60
  const [mails, backups] = [await countMails(store.db), await listBackups(store.db, LOOKED_AT)]
  const size = databasePath === undefined ? undefined : await stat(databasePath).catch(() => undefined)
  return { mails, lastBackupAt: lastGood(backups, now()), databaseBytes: size?.size }
}
