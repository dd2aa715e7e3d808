import { type Consent, type ConsentSource, mayOffer } from '../core/consent.ts'
import type { Language } from '../core/language.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { noteAccess } from '../store/accessLog.ts'
import { consentsOfThese } from '../store/consents.ts'
import {
  type CustomerSearch,
  customerNames,
  loadCustomer,
  searchCustomers,
  setLanguage,
} from '../store/customers.ts'
import { endEraseRequest, eraseRequestOf, openEraseRequests } from '../store/eraseRequests.ts'
import type { Db, Store } from '../store/open.ts'
import { releaseOffersAbout } from '../store/outboxOffers.ts'
import { waitingReadings } from '../store/ownerReadings.ts'
import { endParting, openPartings } from '../store/partings.ts'
import type { Piece } from '../store/rows.ts'
import { consentWording } from '../words/consent.ts'
import { giveConsent, offersStanding, withdrawConsent } from './consent.ts'
import { eraseCustomer, type Kept, keptOf } from './customerKept.ts'
import { type CustomerRecord, recordOf } from './customerRecord.ts'
import { findTag } from './findMachine.ts'
import { type KeepReminders, remindAfter, viewKeepReminders } from './keepReminders.ts'
import { draftOptedOut } from './outbox/draftOptedOut.ts'
import { shopOrNeutral } from './shop.ts'

/** One customer in the list. */
export type CustomerLine = {
  readonly id: string
  readonly name: string
  /** Tags of the machines that are theirs now. */
  readonly machines: readonly string[]
  readonly offers: boolean
  readonly erasedAt?: string | undefined
  readonly eraseAskedAt?: string | undefined
}

/** What owners said on their pages, and the shop has to do something about. */
export type FromOwners = {
  /** They have the machine no more; who has it is to be written down. */
  readonly partings: readonly {
    readonly tag: string
    readonly name?: string | undefined
    readonly saidAt: string
  }[]
  /** They want to be erased. */
  readonly erases: readonly { readonly customerId: string; readonly name: string; readonly askedAt: string }[]
  /** They sent their machine's own table. */
  readonly readings: readonly {
    readonly id: string
    readonly tag: string
    readonly name?: string | undefined
    readonly at: string
  }[]
}

/** Undefined where nothing waits. */
export async function viewFromOwners(db: Db): Promise<FromOwners | undefined> {
  const [partings, erases] = [await openPartings(db), await openEraseRequests(db)]
  const readings = await waitingReadings(db)
  if (partings.length + erases.length + readings.length === 0) return undefined
  const ids = [...partings, ...erases, ...readings].flatMap(({ customerId }) => customerId ?? [])
  const names = await customerNames(db, ids)
  const nameOf = (customerId: string | undefined) =>
    customerId === undefined ? undefined : names.get(customerId)
  return {
    partings: partings.map(({ machineTag, customerId, saidAt }) => ({
      ...{ tag: machineTag, saidAt },
      name: nameOf(customerId),
    })),
    erases: erases.map(({ customerId, askedAt }) => ({
      ...{ customerId, askedAt },
      name: names.get(customerId) ?? customerId,
    })),
    readings: readings.map(({ id, machineTag, customerId, at }) => ({
      ...{ id, tag: machineTag, at },
      name: nameOf(customerId),
    })),
  }
}

/** One piece of the customers by name, those who were erased last. */
export async function viewCustomers(
  { db }: Store,
  search: CustomerSearch,
  at: string,
): Promise<Piece<CustomerLine>> {
  const { lines, total } = await searchCustomers(db, search)
  const consents = await consentsOfThese(
    db,
    lines.map(({ id }) => id),
  )
  const erases = new Map((await openEraseRequests(db)).map((one) => [one.customerId, one.askedAt]))
  return {
    lines: lines.map(({ id, name, erasedAt, machines }) => ({
      ...{ id, name, erasedAt, machines, eraseAskedAt: erases.get(id) },
      offers: mayOffer(consents.get(id) ?? [], at),
    })),
    total,
  }
}

/** One customer: all that is kept, whether offers may go there, and what a yes would be to. */
export type CustomerView = {
  readonly record: CustomerRecord
  readonly offers?: Consent | undefined
  readonly wording: string
  readonly language: string
}

export async function viewCustomer({ db }: Store, id: string, at: string): Promise<Result<CustomerView>> {
  const record = await recordOf(db, id, { photos: 'without bytes' })
  if (!record.ok) return record
  const { name } = await shopOrNeutral(db)
  return ok({
    record: record.value,
    offers: await offersStanding(db, id, at),
    ...consentWording('offers', name),
  })
}

/** All that is kept of one customer, pictures too; that it was given out is noted. */
export const exportCustomer = (
  store: Store,
  id: string,
  at: string,
  by?: string,
): Promise<Result<CustomerRecord & { readonly currency: string; readonly exportedAt: string }>> =>
  store.write(async (tx) => {
    const record = await recordOf(tx, id)
    if (!record.ok) return record
    await noteAccess(tx, { at, what: 'customer exported', by, about: id })
    const { currency } = (await shopOrNeutral(tx)).policy
    return ok({ exportedAt: at, currency, ...record.value })
  })

/** How somebody can tell the shop of a yes or a no. */
export const TOLD_BY = ['in person', 'mail'] as const satisfies readonly ConsentSource[]

/** Mails and what is told them are in that language from now on; undefined: in the shop's own. */
export const setCustomerLanguage = (
  store: Store,
  id: string,
  language: Language | undefined,
): Promise<Result<{ readonly id: string }>> =>
  store.write(async (tx) => {
    const found = await loadCustomer(tx, id)
    if (found === undefined || found.erasedAt !== undefined) {
      const next = 'There is no such customer. The list of customers shows them all.'
      return failed({ code: 'not found', field: 'customer', got: id, next })
    }
    await setLanguage(tx, id, language)
    return ok({ id })
  })

/** A yes that was told to the shop, in the words that were said or read out. */
export const recordConsent = (
  store: Store,
  id: string,
  said: { readonly source: (typeof TOLD_BY)[number]; readonly wording: string },
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  giveConsent(store, id, { kind: 'offers', language: consentWording('offers', '').language, ...said }, at)

/** A no that was told to the shop. */
export const recordObjection = (
  store: Store,
  id: string,
  source: (typeof TOLD_BY)[number],
  at: string,
): Promise<Result<{ readonly customerId: string }>> =>
  withdrawConsent(store, id, { kind: 'offers', source }, at)

/** The owner has the machine after all: told to the shop. */
export const takeBackParting = (
  store: Store,
  typedTag: string,
  at: string,
): Promise<Result<{ readonly tag: string }>> =>
  store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next } satisfies Problem)
    }
    await endParting(tx, tag, 'takenBackAt', at)
    await releaseOffersAbout(tx, tag, at)
    return ok({ tag })
  })

/** They do not want to be erased after all: told to the shop, such as when their link has ended. */
export const takeBackErase = (
  store: Store,
  id: string,
  at: string,
  by?: string,
): Promise<Result<{ readonly id: string }>> =>
  store.write(async (tx) => {
    if ((await eraseRequestOf(tx, id)) === undefined) {
      const next = 'This customer does not ask to be erased. Open the customer’s page.'
      return failed({ code: 'not found', field: 'customer', next } satisfies Problem)
    }
    await endEraseRequest(tx, id, 'takenBackAt', at)
    await noteAccess(tx, { at, what: 'erase taken back', by, about: id })
    return ok({ id })
  })

/** What pages of customers ask for, joined to a store and a clock. */
export const customerUsesOf = (store: Store, now: () => string) => ({
  customers: (search: CustomerSearch): Promise<Piece<CustomerLine>> => viewCustomers(store, search, now()),
  keepReminders: (): Promise<KeepReminders> => viewKeepReminders(store, now()),
  remindAfter: (months: number | undefined): Promise<void> => remindAfter(store, months),
  customer: (id: string) => viewCustomer(store, id, now()),
  exportCustomer: (id: string, by?: string) => exportCustomer(store, id, now(), by),
  /** Fields of its problems: `wording`. */
  setCustomerLanguage: (id: string, language: Language | undefined) =>
    setCustomerLanguage(store, id, language),
  recordConsent: (id: string, said: Parameters<typeof recordConsent>[2]) =>
    recordConsent(store, id, said, now()),
  recordObjection: async (id: string, source: (typeof TOLD_BY)[number]) => {
    const kept = await recordObjection(store, id, source, now())
    if (kept.ok) await draftOptedOut(store, id, now())
    return kept
  },
  customerKept: (id: string): Promise<Result<Kept>> => keptOf(store.db, id),
  /** Fields of its problems: `sure`. */
  eraseCustomer: (id: string, sure: boolean, by?: string) => eraseCustomer(store, id, sure, now(), by),
  takeBackErase: (id: string, by?: string) => takeBackErase(store, id, now(), by),
  takeBackParting: (tag: string) => takeBackParting(store, tag, now()),
})

export type CustomerUses = ReturnType<typeof customerUsesOf>
