import { simpleParser } from 'mailparser'
import { expect, test } from 'vitest'
import { upsertParts } from '../../src/store/parts.ts'
import { saveShop } from '../../src/store/shop.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { sellUsesOf } from '../../src/uses/sellUses.ts'
import { temporaryStore } from '../store/temporaryStore.ts'
import { shop } from '../web/cannedShop.ts'
import { AT, refusals, unwrapped } from './jobs/jobShop.ts'

test('the sheet as a mail: to its buyer, with a link to this machine alone, and with no cost in it', async () => {
  const store = await temporaryStore()
  await store.write(async (tx) => {
    await saveShop(tx, shop)
    await upsertParts(tx, [{ kind: 'processor', id: 'CPU', name: 'Wren 6' }])
  })
  const uses = sellUsesOf(store, () => AT)
  const buyer = { ownerName: 'A. Buyer', ownerEmail: 'buyer@example.com' }
  const brought = [{ kind: 'processor' as const, name: 'Wren 6', costMinor: 7131 }]
  unwrapped(await uses.sellMachine({ tag: 'M-1', taken: [], brought, priceMinor: 71399, ...buyer }))
  unwrapped(await addMachine(store, { tag: 'M-2', parts: [], claims: [] }, AT))
  unwrapped(await uses.startSale('M-2'))

  const { token } = unwrapped(await makeOwnerLink(store, 'M-1', AT))
  const url = `https://ask.example/o/${token}`
  const { fileName, bytes } = unwrapped(await uses.sheetMailEml('m-1', { token, url }))
  expect(fileName).toBe('M-1-limits.eml')
  const mail = await simpleParser(Buffer.from(bytes))
  expect([mail.to].flat().flatMap((to) => to?.value ?? [])).toEqual([
    { name: 'A. Buyer', address: 'buyer@example.com' },
  ])
  expect(mail.from?.value).toEqual([{ name: shop.name, address: shop.email }])
  expect(mail.text).toContain(url)
  expect(mail.text).toContain('Wren 6')
  expect(`${mail.text}${mail.html}`).not.toMatch(/71\.31|713\.99/)

  // A link that somebody else has, or nobody, goes into no mail; a buyer without an address gets none.
  const { token: other } = unwrapped(await makeOwnerLink(store, 'M-2', AT))
  for (const wrong of [other, 'x'.repeat(43), ''])
    expect(refusals(await uses.sheetMailEml('M-1', { token: wrong, url }))).toHaveLength(1)
  expect(refusals(await uses.sheetMailEml('M-2'))[0]).toContain('no e-mail address')
  expect(unwrapped(await uses.sheetMail('M-2')).text).toContain('machine M-2')
  expect(refusals(await uses.sheetMailEml('M-9'))).toHaveLength(1)
})
