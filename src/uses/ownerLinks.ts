import { createHash, randomBytes } from 'node:crypto'
import { linkEnd, linkHolds, partingEnd } from '../core/ownerLink.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { noteAccess } from '../store/accessLog.ts'
import { type LoadedMachine, loadMachine } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { insertLink, loadLink, type OwnerLink, revokeLinks } from '../store/ownerLinks.ts'
import { type Parting, partingOfMachine } from '../store/partings.ts'
import { findTag } from './findMachine.ts'

/** 256 bits: nobody finds one by trying. */
const TOKEN_BYTES = 32
const TOKEN = /^[A-Za-z0-9_-]{43}$/

/**
 * What is kept of a link. A plain hash is enough for something that chance made; it is found by the hash as a key, so
 * how long a look-up takes tells nothing about a link that is nearly right.
 */
const hashOf = (token: string): string => createHash('sha256').update(token).digest('hex')

/**
 * Makes a link to the owner's page of a machine. The token is given out this once: only its hash is kept. It ends by
 * itself, when it is taken back, and when the machine goes to somebody else.
 */
export async function makeOwnerLink(
  store: Store,
  typedTag: string,
  at: string,
  by?: string,
): Promise<Result<{ readonly tag: string; readonly token: string; readonly expiresAt: string }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || loaded === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    const token = randomBytes(TOKEN_BYTES).toString('base64url')
    const expiresAt = linkEnd(at)
    const customerId = loaded.owner?.id
    await insertLink(tx, {
      ...{ tokenHash: hashOf(token), machineTag: tag, createdAt: at, expiresAt },
      ...(customerId !== undefined && { customerId }),
    })
    await noteAccess(tx, { at, what: 'owner link made', by, about: tag })
    return ok({ tag, token, expiresAt })
  })
}

/** Ends every link to the machine's page that still holds. */
export async function takeLinksBack(
  store: Store,
  typedTag: string,
  at: string,
  by?: string,
): Promise<Result<{ readonly tag: string }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    await revokeLinks(tx, tag, at)
    await noteAccess(tx, { at, what: 'owner links taken back', by, about: tag })
    return ok({ tag })
  })
}

/** The same whether nobody made it, it has ended, or it was taken back; what was asked for is not repeated. */
export const NO_LINK: Problem = {
  code: 'not found',
  field: 'link',
  next: 'This link does not lead anywhere. Ask the shop for a new one.',
}

type Behind = {
  readonly link: OwnerLink
  readonly loaded: LoadedMachine
  /** The owner said that the machine is sold: the link shows nothing but that. */
  readonly parting?: Parting | undefined
}

/** The machine behind a link that holds at this instant, for an owner who still has it. */
export async function behindLink(db: Db, token: string, at: string): Promise<Result<Behind>> {
  const behind = await behindAnyLink(db, token, at)
  return behind.ok && behind.value.parting !== undefined ? failed(NO_LINK) : behind
}

/** The same also for an owner who said that the machine is sold, as long as that can be taken back. */
export async function behindAnyLink(db: Db, token: string, at: string): Promise<Result<Behind>> {
  const link = TOKEN.test(token) ? await loadLink(db, hashOf(token)) : undefined
  const loaded = link && (await loadMachine(db, link.machineTag))
  if (link === undefined || loaded === undefined || !linkHolds(link, loaded.owner?.id, at))
    return failed(NO_LINK)
  const parting = await partingOfMachine(db, link.machineTag)
  return parting !== undefined && at >= partingEnd(parting.saidAt)
    ? failed(NO_LINK)
    : ok({ link, loaded, parting })
}

/** Whether a link leads to a machine at this instant. */
export const holdsLink = async ({ db }: Store, token: string, at: string): Promise<boolean> =>
  (await behindAnyLink(db, token, at)).ok
