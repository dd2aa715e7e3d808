import type { MailKind } from '../../../src/core/outbox/mail.ts'
import { upsertCustomers } from '../../../src/store/customers.ts'
import type { Store } from '../../../src/store/open.ts'
import { insertMail, moveMail } from '../../../src/store/outbox.ts'
import { saveShop } from '../../../src/store/shop.ts'
import { bytesOf, newMessageId, newUnsubscribeToken } from '../../../src/uses/outbox/compose.ts'
import { shopOrNeutral } from '../../../src/uses/shop.ts'

export const SHOP = {
  ...{ name: 'Wrenfold Bench', email: 'bench@wrenfold.example', address: '1 Sample Street, Wrenfold' },
}
export const REACH = { ownerUrl: 'https://ask.wrenfold.example' }
export const AT = '2026-11-27T15:00:00.000Z'

export const addressOf = (n: number): string => `c${n}@customers.example`

/** An outbox with so many approved mails, one to each customer, whose words are all different; gives their ids. */
export async function filled(
  store: Store,
  n: number,
  { kind = 'received', body = '', from = 0 }: { kind?: MailKind; body?: string; from?: number } = {},
): Promise<string[]> {
  const mails: { words: Parameters<typeof bytesOf>[0]; bytes: Buffer }[] = []
  for (let i = from; i < from + n; i += 1) {
    const words = {
      ...{ kind, subject: `Mail ${i}`, html: `<p>Mail ${i}</p>${body}`, text: `Mail ${i}\n${body}` },
      ...{ toName: `Customer ${i}`, toAddress: addressOf(i), rfcMessageId: newMessageId(SHOP.email) },
      ...(kind === 'offer' && { unsubscribeToken: newUnsubscribeToken() }),
    }
    mails.push({ words, bytes: Buffer.from(await bytesOf(words, SHOP, REACH, AT)) })
  }
  return store.write(async (tx) => {
    await saveShop(tx, { ...(await shopOrNeutral(tx)), ...SHOP })
    const people = mails.map(({ words }, i) => ({
      ...{ id: `C-${from + i}`, name: words.toName, email: words.toAddress },
    }))
    await upsertCustomers(tx, people)
    const ids: string[] = []
    for (const [i, { words, bytes }] of mails.entries()) {
      const id = await insertMail(tx, { ...words, customerId: `C-${from + i}` }, AT)
      await moveMail(
        tx,
        id,
        'drafted',
        'approved',
        { event: 'approved', at: AT },
        { bytes, approvedAt: AT, dueAt: AT },
      )
      ids.push(id)
    }
    return ids
  })
}
