import { expect, test } from 'vitest'
import { saleSums } from '../../src/core/sale/sums.ts'
import { ok } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import { machine, shop } from './cannedShop.ts'
import { cannedUses } from './cannedUses.ts'
import { ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

/** The page of a sale whose work table says $25 for fitting, with these amounts written down. */
async function pageWith(amounts: { priceMinor?: number; otherCostMinor?: number }) {
  const { uses } = cannedUses()
  const { tag } = machine
  const sold = await uses.sale(tag)
  if (!sold.ok || sold.value.view === undefined) throw new Error('no canned sale')
  const { priceMinor: _, otherCostMinor: __, ...sale } = sold.value.view.sale
  const view = {
    ...sold.value.view,
    fittingMinor: 2_500,
    sale: { ...sale, ...amounts },
    sums: saleSums({ costs: [10_000], ...amounts }, shop.policy),
  }
  const own = cannedUses({ uses: { sale: async () => ok({ tag, view }) } })
  const answer = await createApp(own.uses, { demo: false, ...asOwner }).request(`${ORIGIN}/sell/${tag}`)
  const html = await answer.text()
  return {
    text: html.replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' '),
    field: /<input[^>]*name="otherCostMinor"[^>]*>/.exec(html)?.[0] ?? '',
  }
}

// 649 less parts of 100; with fitting counted 25 less.
test('fitting by the work table is said as it stands: put in, left empty, or overruled', async () => {
  const proposed = await pageWith({})
  expect(proposed.field).toContain('value="25.00"')
  expect(proposed.text).toContain('It is put in here for you and counts once you save.')
  expect(proposed.text).not.toContain('No other costs are counted here')

  const empty = await pageWith({ priceMinor: 64_900 })
  expect(empty.field).not.toContain('value="25')
  expect(empty.text).toContain('This field is empty, so it is not counted.')
  expect(empty.text).toContain('No other costs are counted here; fitting these parts is $25.00')
  expect(empty.text).toContain('$549.00')

  const filled = await pageWith({ priceMinor: 64_900, otherCostMinor: 3_000 })
  expect(filled.field).toContain('value="30.00"')
  expect(filled.text).toContain('What stands here counts')
  expect(filled.text).not.toContain('No other costs are counted here')
  expect(filled.text).toContain('$519.00')
})
