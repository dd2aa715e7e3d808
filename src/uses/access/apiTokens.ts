import { failed, ok, type Result } from '../../problem.ts'
import { noteAccess } from '../../store/accessLog.ts'
import { loadAccount } from '../../store/accounts.ts'
import {
  type ApiToken,
  insertToken,
  listTokens,
  liveToken,
  loadToken,
  revokeToken,
  touchToken,
} from '../../store/apiTokens.ts'
import type { Store } from '../../store/open.ts'
import { tidyName } from './accountName.ts'
import { hashOf, newSecret } from './secrets.ts'

/** How a key begins, so that one is known as such when it turns up where it should not be. */
const START = 'sft_'
const KEY = /^sft_[A-Za-z0-9_-]{43}$/

const NAME_MAX = 60
/** When a key was last used is written down no more often than this. */
const TOUCH_MS = 15 * 60_000

export type TokenLine = Pick<ApiToken, 'name' | 'scope' | 'people' | 'createdAt' | 'usedAt' | 'revokedAt'> & {
  readonly id: string
}

export async function viewTokens(store: Store): Promise<TokenLine[]> {
  return (await listTokens(store.db)).map(({ id, name, scope, people, createdAt, usedAt, revokedAt }) => ({
    ...{ id: String(id), name, scope, people, createdAt, usedAt, revokedAt },
  }))
}

/** Makes a key for a program. It is given out this once. */
export async function makeToken(
  store: Store,
  given: Pick<ApiToken, 'name' | 'scope' | 'people'> & { readonly accountId: string },
  at: string,
): Promise<Result<{ readonly name: string; readonly token: string }>> {
  const name = tidyName(given.name)
  const allowed = `1 to ${NAME_MAX} characters, without control characters`
  if (name === '')
    return failed({ code: 'missing', field: 'name', allowed, next: 'Say which program this is for.' })
  if ([...name].length > NAME_MAX || /[\p{Cc}\p{Cf}]/u.test(name))
    return failed({
      code: 'not allowed',
      field: 'name',
      got: given.name,
      allowed,
      next: `A name has ${allowed}.`,
    })
  const token = `${START}${newSecret()}`
  const { scope, people } = given
  await store.write(async (tx) => {
    const accountId = Number(given.accountId)
    await insertToken(tx, { name, scope, people, tokenHash: hashOf(token), createdAt: at, accountId })
    const by = (await loadAccount(tx, accountId))?.name
    await noteAccess(tx, { at, what: 'key made', by, about: name })
  })
  return ok({ name, token })
}

/** What a key that holds is good for. */
export type TokenScope = ApiToken['scope'] | 'people'

/** The program behind a key that holds; undefined for any other. */
export async function tokenOf(
  store: Store,
  token: string,
  at: string,
): Promise<{ readonly name: string; readonly scopes: readonly TokenScope[] } | undefined> {
  const found = KEY.test(token) ? await liveToken(store.db, hashOf(token)) : undefined
  if (found === undefined) return undefined
  const stale = found.usedAt === undefined || Date.parse(at) - Date.parse(found.usedAt) > TOUCH_MS
  // A program is not refused because the database is held at this moment; its next question writes it down.
  if (stale) await store.write((tx) => touchToken(tx, found.id, at)).catch(() => {})
  const scopes: readonly TokenScope[] = found.scope === 'write' ? ['read', 'write'] : ['read']
  return { name: found.name, scopes: found.people ? [...scopes, 'people'] : scopes }
}

/** Takes a key back: it works no more. */
export async function takeTokenBack(
  store: Store,
  id: string,
  at: string,
  by: string,
): Promise<Result<{ readonly name: string }>> {
  return store.write(async (tx) => {
    const token = /^\d{1,15}$/.test(id) ? await loadToken(tx, Number(id)) : undefined
    if (token === undefined) {
      const next = 'There is no such key. The list of keys shows them all.'
      return failed({ code: 'not found', field: 'key', got: id, next })
    }
    if (token.revokedAt !== undefined) return ok({ name: token.name })
    await revokeToken(tx, token.id, at)
    await noteAccess(tx, { at, what: 'key taken back', by, about: token.name })
    return ok({ name: token.name })
  })
}
