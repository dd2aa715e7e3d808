import { MAILS } from '../../mail/mails.ts'
import { loadCustomer } from '../../store/customers.ts'
import type { Store } from '../../store/open.ts'
import { mailsAbout } from '../../store/outboxLists.ts'
import { figuresOf } from '../../words/figures.ts'
import { offersStanding } from '../consent.ts'
import { shopOrNeutral } from '../shop.ts'
import { mailboxesOf } from '../writeMessage.ts'
import { draftNotice } from './draftNotice.ts'

/**
 * "No more offers" among the drafts, once for each no: it tells an owner that their no arrived, and is no offer. Nothing is
 * drafted where the person has no address or is erased. It is apart from the no itself, which must not wait for a mail.
 */
export async function draftOptedOut(store: Store, customerId: string, at: string): Promise<void> {
  const { db } = store
  const customer = await loadCustomer(db, customerId)
  const said = await offersStanding(db, customerId, at)
  if (customer === undefined || customer.erasedAt !== undefined || said?.standing !== 'withdrawn') return
  const shop = await shopOrNeutral(db)
  if (!mailboxesOf(shop, customer).ok) return
  const there = await mailsAbout(db, 'optedOut', { customerId })
  if (there.some(({ createdAt }) => createdAt >= said.at)) return
  const figures = figuresOf(shop, customer)
  const notice = MAILS.optedOut.says({ shop, customerName: customer.name, at: said.at }, figures)
  await draftNotice(store, { kind: 'optedOut', customer, notice }, { customerId }, { at })
}
