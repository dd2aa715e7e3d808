import type { Consent } from '../core/consent.ts'
import { type Language, languageFor } from '../core/language.ts'
import { partingEnd } from '../core/ownerLink.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { noteAccess } from '../store/accessLog.ts'
import { loadCustomer, setLanguage } from '../store/customers.ts'
import { endEraseRequest, eraseRequestOf, insertEraseRequest } from '../store/eraseRequests.ts'
import type { Db, Store } from '../store/open.ts'
import { holdOffersAbout, releaseOffersAbout } from '../store/outboxOffers.ts'
import { endParting, insertParting } from '../store/partings.ts'
import { consentWording, withdrawalWording } from '../words/consent.ts'
import { give, offersStanding, withdraw } from './consent.ts'
import { type Kept, keptOf } from './customerKept.ts'
import { type CustomerRecord, recordOf } from './customerRecord.ts'
import { behindAnyLink, behindLink, NO_LINK } from './ownerLinks.ts'
import { shopOrNeutral } from './shop.ts'

/** What an owner decides about themselves; absent where nobody wrote down whose the machine is. */
export type OwnerPerson = {
  /** The yes or no to offers that counts; absent: never asked. */
  readonly consent?: Pick<Consent, 'standing' | 'at' | 'wording' | 'language'> | undefined
  /** What a yes would be to, word by word. */
  readonly wording: string
  readonly language: string
  /** Offers can reach them. */
  readonly hasAddress: boolean
  /** When they asked to be erased; absent where they did not. */
  readonly eraseAskedAt?: string | undefined
}

/** Read beside the rest of an owner's page. */
export async function ownerPersonOf(
  db: Db,
  customerId: string | undefined,
  shopName: string,
  language: Language,
  at: string,
): Promise<OwnerPerson | undefined> {
  const customer = customerId === undefined ? undefined : await loadCustomer(db, customerId)
  if (customer === undefined) return undefined
  const said = await offersStanding(db, customer.id, at)
  return {
    ...(said !== undefined && {
      consent: { standing: said.standing, at: said.at, wording: said.wording, language: said.language },
    }),
    ...consentWording('offers', shopName, language),
    hasAddress: customer.email !== undefined,
    eraseAskedAt: (await eraseRequestOf(db, customer.id))?.askedAt,
  }
}

const NOBODY: Problem = {
  ...{ code: 'conflict', field: 'owner' },
  next: 'The shop has not written down whose machine this is. Tell it who you are first.',
}

/** Runs a step of the customer behind a link that holds. */
async function asCustomer<T>(
  tx: Db,
  token: string,
  at: string,
  act: (customerId: string, machineTag: string) => Promise<Result<T>>,
): Promise<Result<T>> {
  const behind = await behindLink(tx, token, at)
  if (!behind.ok) return behind
  const { customerId, machineTag } = behind.value.link
  return customerId === undefined ? failed(NOBODY) : act(customerId, machineTag)
}

/** A yes to offers, in the words that were on the page. */
export const consentFromOwner = (
  store: Store,
  token: string,
  said: { readonly yes: boolean; readonly wording: string },
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  store.write((tx) =>
    asCustomer(tx, token, at, async (customerId) => {
      const { name, locale } = await shopOrNeutral(tx)
      const shown = consentWording('offers', name, await languageOf(tx, customerId, locale))
      if (!said.yes) {
        const next =
          'Tick the box if you want mails about upgrades. Without it none is sent, and you need to do nothing.'
        return failed({ code: 'missing', field: 'consent', next })
      }
      if (said.wording !== shown.wording) {
        const next = 'These words have changed since you opened the page. Read them again, then tick the box.'
        return failed({ code: 'conflict', field: 'consent', next })
      }
      return give(tx, customerId, { kind: 'offers', source: 'owner page', ...shown }, at)
    }),
  )

/** No more offers, from now on. */
export const withdrawFromOwner = (
  store: Store,
  token: string,
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  store.write((tx) =>
    asCustomer(tx, token, at, async (customerId) => {
      const language = await languageOf(tx, customerId, (await shopOrNeutral(tx)).locale)
      const said = { kind: 'offers', source: 'owner page', ...withdrawalWording(language) } as const
      return withdraw(tx, customerId, said, at)
    }),
  )

const languageOf = async (db: Db, customerId: string, locale: string): Promise<Language> =>
  languageFor(locale, (await loadCustomer(db, customerId))?.language)

/** The page, and the shop's mails, are in that language from now on. */
export const languageFromOwner = (
  store: Store,
  token: string,
  language: Language,
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  store.write((tx) =>
    asCustomer(tx, token, at, async (customerId) => {
      await setLanguage(tx, customerId, language)
      return ok({ customerId })
    }),
  )

/** What a link shows once its owner said that the machine is sold. */
export type PartingView = {
  readonly shop: { readonly name: string; readonly locale: string; readonly timeZone: string }
  readonly language: Language
  /** What this owner chose to read; absent: nothing. */
  readonly chosen?: Language | undefined
  readonly tag: string
  readonly saidAt: string
  /** Until then it can be taken back; then the link ends. */
  readonly until: string
}

export async function viewParting(store: Store, token: string, at: string): Promise<Result<PartingView>> {
  const behind = await behindAnyLink(store.db, token, at)
  if (!behind.ok) return behind
  const { link, loaded, parting } = behind.value
  if (parting === undefined) return failed(NO_LINK)
  const { name, locale, timeZone } = await shopOrNeutral(store.db)
  const { saidAt } = parting
  const chosen = loaded.owner?.language
  return ok({
    ...{ shop: { name, locale, timeZone }, language: languageFor(locale, chosen), chosen },
    ...{ tag: link.machineTag, saidAt, until: partingEnd(saidAt) },
  })
}

/**
 * The owner has the machine no more. The link shows nothing of them from now on, because it may go along with the
 * machine; who has it now, and what becomes of questions that wait, the shop decides.
 */
export const partFromOwner = (
  store: Store,
  token: string,
  at: string,
): Promise<Result<{ readonly tag: string }>> =>
  store.write(async (tx) => {
    const behind = await behindLink(tx, token, at)
    if (!behind.ok) return behind
    const { machineTag, customerId } = behind.value.link
    await insertParting(tx, { machineTag, customerId, saidAt: at })
    await holdOffersAbout(tx, machineTag, partingEnd(at), at)
    return ok({ tag: machineTag })
  })

/** They have it after all. */
export const takePartingBack = (
  store: Store,
  token: string,
  at: string,
): Promise<Result<{ readonly tag: string }>> =>
  store.write(async (tx) => {
    const behind = await behindAnyLink(tx, token, at)
    if (!behind.ok) return behind
    const tag = behind.value.link.machineTag
    await endParting(tx, tag, 'takenBackAt', at)
    await releaseOffersAbout(tx, tag, at)
    return ok({ tag })
  })

/** What would be erased and what is kept, for the one whom it is about. */
export async function viewEraseForOwner(store: Store, token: string, at: string): Promise<Result<Kept>> {
  return asCustomer(store.db, token, at, (customerId) => keptOf(store.db, customerId))
}

/**
 * Asks to be erased. The shop carries it out, because it cannot be undone, a link can get lost, and open work or money
 * may stand against it; offers end at once.
 */
export const askEraseFromOwner = (
  store: Store,
  token: string,
  sure: boolean,
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  store.write((tx) =>
    asCustomer(tx, token, at, async (customerId, machineTag) => {
      if (!sure) {
        const next = 'Tick the box to say that you are sure: once it is carried out nobody can undo it.'
        return failed({ code: 'missing', field: 'sure', next })
      }
      if ((await eraseRequestOf(tx, customerId)) === undefined)
        await insertEraseRequest(tx, { customerId, askedAt: at, source: 'owner page' })
      await noteAccess(tx, { at, what: 'erase asked', about: machineTag })
      return withdraw(tx, customerId, { kind: 'offers', source: 'erase' }, at)
    }),
  )

/** Not to be erased after all; offers stay off until there is a yes again. */
export const takeEraseBack = (
  store: Store,
  token: string,
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  store.write((tx) =>
    asCustomer(tx, token, at, async (customerId, machineTag) => {
      if ((await eraseRequestOf(tx, customerId)) === undefined) return ok({ customerId })
      await endEraseRequest(tx, customerId, 'takenBackAt', at)
      await noteAccess(tx, { at, what: 'erase taken back', about: machineTag })
      return ok({ customerId })
    }),
  )

/** All that is kept of the owner and of this machine; nothing of a machine that the link is not for. */
export const recordForOwner = (store: Store, token: string, at: string): Promise<Result<CustomerRecord>> =>
  asCustomer(store.db, token, at, (customerId, machineTag) => recordOf(store.db, customerId, { machineTag }))
