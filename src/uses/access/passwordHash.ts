import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto'

/** What a hash costs: RFC 7914's N (as a power of two), r and p. */
export type Cost = { readonly log2N: number; readonly r: number; readonly p: number }

/** OWASP Password Storage Cheat Sheet, scrypt: N = 2^17, r = 8, p = 1 (128 MiB). */
export const COST: Cost = { log2N: 17, r: 8, p: 1 }

const SALT_BYTES = 16
const KEY_BYTES = 32
/** The work area is 128 · N · r bytes (RFC 7914, section 6); Node refuses what reaches its limit of 32 MiB. */
const MAX_MEMORY_BYTES = 256 * 1024 * 1024

/** How many may wait for their turn; each takes some tenths of a second. */
const WAITING_MAX = 20

let lane: Promise<unknown> = Promise.resolve()
let waiting = 0

/** One hash at a time, because each takes 128 MiB; undefined when too many wait already. */
function inTurn<T>(work: () => Promise<T>): Promise<T> | undefined {
  if (waiting >= WAITING_MAX) return undefined
  waiting++
  const run = lane.then(work).finally(() => {
    waiting--
  })
  lane = run.catch(() => {})
  return run
}

/** The same characters typed on another keyboard count as the same (NIST SP 800-63B, 5.1.1.2: normalize first). */
const bytesOf = (password: string): Buffer => Buffer.from(password.normalize('NFKC'), 'utf8')

const derive = (password: string, salt: Buffer, { log2N, r, p }: Cost): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    const options: ScryptOptions = { N: 2 ** log2N, r, p, maxmem: MAX_MEMORY_BYTES }
    scrypt(bytesOf(password), salt, KEY_BYTES, options, (error, key) =>
      error ? reject(error) : resolve(key),
    )
  })

const written = ({ log2N, r, p }: Cost, salt: Buffer, key: Buffer): string =>
  ['scrypt', log2N, r, p, salt.toString('base64'), key.toString('base64')].join('$')

function read(stored: string): { cost: Cost; salt: Buffer; key: Buffer } | undefined {
  const [kind, log2N, r, p, salt, key] = stored.split('$')
  if (kind !== 'scrypt' || !salt || !key) return undefined
  const cost = { log2N: Number(log2N), r: Number(r), p: Number(p) }
  return { cost, salt: Buffer.from(salt, 'base64'), key: Buffer.from(key, 'base64') }
}

/** What is kept of a password: parameters, salt and key in one text. Undefined when too many wait. */
export function hashPassword(password: string, cost = COST): Promise<string> | undefined {
  return inTurn(async () => {
    const salt = randomBytes(SALT_BYTES)
    return written(cost, salt, await derive(password, salt, cost))
  })
}

/** Nobody's password; it costs what a real one costs. */
const NOBODYS = { salt: Buffer.alloc(SALT_BYTES), key: Buffer.alloc(KEY_BYTES) }

/**
 * Whether the password is the one that was kept. Where nothing was kept it takes the same time and is false. Undefined
 * when too many wait.
 */
export function isPassword(
  password: string,
  stored: string | undefined,
  cost = COST,
): Promise<boolean> | undefined {
  return inTurn(async () => {
    const kept = stored === undefined ? undefined : read(stored)
    const { salt, key } = kept ?? NOBODYS
    const derived = await derive(password, salt, kept?.cost ?? cost)
    return derived.length === key.length && timingSafeEqual(derived, key) && kept !== undefined
  })
}

/** Whether what is kept was made more cheaply than today's; then it is made again at the next sign-in. */
export function isDated(stored: string, cost = COST): boolean {
  const kept = read(stored)?.cost
  return kept === undefined || kept.log2N < cost.log2N || kept.r < cost.r || kept.p < cost.p
}
