import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { loadCustomer } from '../../store/customers.ts'
import type { Db, Store } from '../../store/open.ts'
import { addMailEvent, mailByToken } from '../../store/outbox.ts'
import { withdraw } from '../consent.ts'
import { shopOrNeutral } from '../shop.ts'

export type OptOutView = {
  readonly shopName: string
  readonly customerId: string
  readonly customerName: string
}

const NOWHERE: Problem = {
  ...{ code: 'not found', field: 'link' },
  next: 'This link leads nowhere. Answer the mail with the word "unsubscribe" instead.',
}

const TOKEN = /^[A-Za-z0-9_-]{43}$/

async function behind(db: Db, token: string) {
  const mail = TOKEN.test(token) ? await mailByToken(db, token) : undefined
  const customer = mail?.customerId === undefined ? undefined : await loadCustomer(db, mail.customerId)
  return mail === undefined || customer === undefined ? undefined : { mail, customer }
}

/** Whose offers a link ends; nothing is changed by looking (programs follow links before people do). */
export async function viewOptOut({ db }: Store, token: string): Promise<Result<OptOutView>> {
  const found = await behind(db, token)
  if (found === undefined) return failed(NOWHERE)
  const { id: customerId, name: customerName } = found.customer
  return ok({ shopName: (await shopOrNeutral(db)).name, customerId, customerName })
}

/** Ends all offers to whoever the mail went to, at once and for what waits too. Twice is once. */
export async function optOut(store: Store, token: string, at: string): Promise<Result<OptOutView>> {
  return store.write(async (tx) => {
    const found = await behind(tx, token)
    if (found === undefined) return failed(NOWHERE)
    const { mail, customer } = found
    const withdrawn = await withdraw(tx, customer.id, { kind: 'offers', source: 'unsubscribe' }, at)
    if (!withdrawn.ok) return withdrawn
    await addMailEvent(tx, mail.id, { event: 'unsubscribed', at })
    const { id: customerId, name: customerName } = customer
    return ok({ shopName: (await shopOrNeutral(tx)).name, customerId, customerName })
  })
}
