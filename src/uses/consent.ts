import {
  type Consent,
  type ConsentKind,
  type ConsentSource,
  mayOffer,
  standingConsent,
} from '../core/consent.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { consentsByCustomer, consentsOf, insertConsents } from '../store/consents.ts'
import { loadCustomer } from '../store/customers.ts'
import type { Db, Store } from '../store/open.ts'
import { stopOffersTo } from '../store/outboxOffers.ts'
import { withdrawalWording } from '../words/consent.ts'

/** What somebody said, beside whose it is and when. */
export type Said = {
  readonly kind: ConsentKind
  readonly source: ConsentSource
  /** The very words that were shown or told. */
  readonly wording: string
  readonly language: string
}

const NO_CUSTOMER: Problem = {
  ...{ code: 'not found', field: 'customer' },
  next: 'There is no such customer. The list of customers shows them all.',
}

/** Keeps a yes. Said again in the same words it is the same yes, with its first date. */
export const giveConsent = (
  store: Store,
  customerId: string,
  said: Said,
  at: string,
): Promise<Result<{ readonly customerId: string }>> => store.write((tx) => give(tx, customerId, said, at))

/** As `giveConsent`, within a transaction. */
export async function give(
  tx: Db,
  customerId: string,
  said: Said,
  at: string,
): Promise<Result<{ readonly customerId: string }>> {
  const customer = await loadCustomer(tx, customerId)
  if (customer === undefined) return failed(NO_CUSTOMER)
  if (customer.erasedAt !== undefined) {
    const next = 'This customer was erased: there is nobody to ask or to write to any more.'
    return failed({ code: 'conflict', field: 'customer', next })
  }
  if (said.wording.trim() === '') {
    const next =
      'Write the words that were agreed to: without them nobody can tell later what the yes was to.'
    return failed({ code: 'missing', field: 'wording', next })
  }
  const stands = await standing(tx, customerId, said.kind, at)
  if (stands?.standing !== 'given' || stands.wording !== said.wording)
    await insertConsents(tx, [{ ...said, customerId, standing: 'given', at }])
  return ok({ customerId })
}

/**
 * Keeps a no: from now on nothing of that kind goes out, and offers that wait to be sent are stopped. Also where no yes was
 * given, because an objection counts too; said again (programs follow links twice) it is the same no.
 */
export const withdrawConsent = (
  store: Store,
  customerId: string,
  said: Pick<Said, 'kind' | 'source'> & Partial<Said>,
  at: string,
): Promise<Result<{ readonly customerId: string }>> => store.write((tx) => withdraw(tx, customerId, said, at))

/** As `withdrawConsent`, within a transaction. */
export async function withdraw(
  tx: Db,
  customerId: string,
  said: Pick<Said, 'kind' | 'source'> & Partial<Said>,
  at: string,
): Promise<Result<{ readonly customerId: string }>> {
  if ((await loadCustomer(tx, customerId)) === undefined) return failed(NO_CUSTOMER)
  if ((await standing(tx, customerId, said.kind, at))?.standing !== 'withdrawn')
    await insertConsents(tx, [{ ...withdrawalWording(), ...said, customerId, standing: 'withdrawn', at }])
  if (said.kind === 'offers') await stopOffersTo(tx, customerId, { event: 'stopped', at, says: 'no consent' })
  return ok({ customerId })
}

const standing = async (db: Db, customerId: string, kind: ConsentKind, at: string) =>
  standingConsent(
    (await consentsOf(db, customerId)).filter((one) => one.kind === kind),
    at,
  )

/** The yes or no to offers that counts for one customer now; undefined: never asked, so no consent. */
export const offersStanding = (db: Db, customerId: string, at: string): Promise<Consent | undefined> =>
  standing(db, customerId, 'offers', at)

/** Whether offers may go to this customer: read it right before sending, a no counts at once. */
export const mayOfferTo = async (db: Db, customerId: string, at: string): Promise<boolean> =>
  mayOffer(await consentsOf(db, customerId), at)

/** Ids of all customers who may get offers at this instant. */
export async function customersWithOffers(db: Db, at: string): Promise<Set<string>> {
  const all = [...(await consentsByCustomer(db))]
  return new Set(all.filter(([, consents]) => mayOffer(consents, at)).map(([id]) => id))
}

/** Every yes and no of one customer, the newest first. */
export const consentHistory = async (db: Db, customerId: string): Promise<Consent[]> =>
  (await consentsOf(db, customerId)).toReversed()
