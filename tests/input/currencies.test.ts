import { expect, test } from 'vitest'
import { minorDigitsOf } from '../../src/core/currency.ts'
import { readShopFolder } from '../../src/input/shopFolder.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { filesOf, NOTHING_KNOWN, SMALL_SHOP } from './smallShop.ts'

/** The small shop in that currency, with 12 major units as its every price. */
function inCurrency(currency: string) {
  const tables = Object.fromEntries(
    Object.entries(SMALL_SHOP).map(([name, [header = [], ...rows]]) => [
      name,
      [
        header,
        ...rows.map((row) =>
          row.map((cell, at) => {
            if (header[at] === 'currency') return currency
            return ['price', 'credit', 'budget'].includes(header[at] ?? '') && cell !== '' ? '12' : cell
          }),
        ),
      ],
    ]),
  )
  const read = readShopFolder(filesOf(tables), NOTHING_KNOWN)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

test('what is written as 12 in a table is printed as 12, in every currency', () => {
  const wrong = Intl.supportedValuesOf('currency').flatMap((currency) => {
    const { shelf, work, tradeIns, questions } = inCurrency(currency)
    const amounts = [
      ...shelf.map(({ value }) => value.priceMinor),
      ...work.map(({ value }) => value.priceMinor),
      ...tradeIns.map(({ value }) => value.creditMinor),
      ...questions.flatMap(({ value }) => value.budgetMinor ?? []),
    ]
    expect(amounts.length).toBeGreaterThan(3)
    const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency } })
    const twelve = 12 * 10 ** minorDigitsOf(currency)
    const printed = [...new Set(amounts.map((minor) => /\d[\d.,]*/.exec(figures.money(minor))?.[0]))]
    return amounts.every((minor) => minor === twelve) && printed.join() === '12'
      ? []
      : [[currency, ...printed]]
  })
  expect(wrong).toEqual([])
})
