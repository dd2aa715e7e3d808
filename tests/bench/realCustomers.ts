import { withShopOf } from '../../src/cli/shopOfFolder.ts'
import type { MatchCustomer, MatchInputs } from '../../src/core/matching/ask.ts'
import { isAsked } from '../../src/core/matching/pairs.ts'
import type { Asking } from '../../src/core/matching/worth.ts'
import { GAIN_KINDS } from '../../src/core/ranking/shelf.ts'
import type { ShelfItem } from '../../src/core/shop.ts'
import { ok } from '../../src/problem.ts'
import { matchCustomers, matchShop } from '../../src/uses/matching/matchInputs.ts'
import { chance } from '../core/ranking/search/drawnSpace.ts'

const AT = '2026-11-24T15:00:00.000Z'

/**
 * For the clock: the demo's machines under the real rules and its fitted gain model, many times over. Each kind of machine differs in a
 * note, so that the rules are asked anew; owners differ in weights and budget. Shelf items are those of the demo at prices of their own.
 */
export async function realCustomers(
  sizes: { readonly customers: number; readonly items: number; readonly kinds: number },
  companions: MatchInputs['ask']['companions'],
): Promise<MatchInputs> {
  const loaded = await withShopOf('fixtures/demo-shop', AT, async (store) => {
    const customers = await matchCustomers(store, AT)
    return ok({ customers, shop: await matchShop(store, customers, AT) })
  })
  if (!loaded.ok) throw new Error('the demo does not load')
  const { shop, customers } = loaded.value
  const asked = customers.flatMap(({ machines }) => machines.filter(isAsked))
  const kindOf = new Map(shop.parts.map(({ id, kind }) => [id, kind]))
  const isGainful = ({ partId }: ShelfItem): boolean => GAIN_KINDS.has(kindOf.get(partId) ?? 'fan')
  const gainful = shop.shelf.filter(isGainful)
  const next = chance(1)
  const items = Array.from({ length: sizes.items }, (_, j): ShelfItem => {
    const base = gainful[j % gainful.length] as ShelfItem
    const priceMinor = Math.round(base.priceMinor * (0.7 + 0.6 * next()))
    return { ...base, id: `S-${j}`, priceMinor, quantity: 1 + Math.floor(next() * 10) }
  })
  return {
    ask: {
      items: items.map(({ id, quantity }) => ({ itemId: id, quantity })),
      ...{ aim: 'gain', overOffer: 1, smallestGainPct: 5, quietDays: 0, companions },
    },
    customers: Array.from({ length: sizes.customers }, (_, i) => {
      const kind = i % sizes.kinds
      return customerOf(i, asked[kind % asked.length] as Asking, Math.floor(kind / asked.length), next)
    }),
    shop: { ...shop, shelf: [...items, ...shop.shelf.filter((item) => !isGainful(item))] },
    at: AT,
  }
}

function customerOf(i: number, of: Asking, note: number, next: () => number): MatchCustomer {
  const { machine, question } = of
  const tag = `M-${i}`
  return {
    ...{ id: `C-${i}`, mayOffer: true, hasEmail: true },
    machines: [
      {
        ...{ ...of, hasOwnRuns: false },
        machine: {
          ...{ ...machine, tag },
          claims: [...machine.claims, { key: 'firmware', value: `note ${note}`, source: 'entered' }],
        },
        question: {
          ...{ ...question, id: `Q-${i}`, machineTag: tag, budgetMinor: 8000 + Math.floor(next() * 52_000) },
          wanted: question.wanted.map((w) => ({ ...w, weight: 0.2 + next() })),
        },
      },
    ],
  }
}
