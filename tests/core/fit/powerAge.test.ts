import { expect, test } from 'vitest'
import { card, limits, policy, says, supply } from './bench.ts'

// Shop policy (default): 80 % of the 12 V rating up to 5 years, then 2 percentage points less for each further year.
// By hand: 90 W processor + card + 50 W rest; the supply of the bench gives 500 W.

const NOW = '2026-11-25T12:00:00.000Z'
const ask = (boardPowerW: number, supplyYear: number, at = NOW) =>
  says('power.load', {
    add: [{ ...card, id: 'CARD-NEW', boardPowerW }],
    limits: limits({ supplyYear }),
    at,
  })

test.each([
  { year: 2026, years: 0, sharePct: 80, usableW: 400 },
  { year: 2021, years: 5, sharePct: 80, usableW: 400 },
  { year: 2020, years: 6, sharePct: 78, usableW: 390 },
  { year: 2019, years: 7, sharePct: 76, usableW: 380 },
  { year: 2006, years: 20, sharePct: 50, usableW: 250 },
  { year: 1980, years: 46, sharePct: 0, usableW: 0 },
])('a supply of $year counts $sharePct %: $usableW W of 500 W', ({ year, years, sharePct, usableW }) => {
  expect(ask(120, year)?.values).toMatchObject({ supplyYears: years, sharePct, usableW })
})

test.each([
  { cardW: 239, loadW: 379, gives: 'fits' },
  { cardW: 240, loadW: 380, gives: 'fits' },
  { cardW: 241, loadW: 381, gives: 'fits after work' },
])('at 7 years $loadW W of 380 W: $gives', ({ cardW, loadW, gives }) => {
  expect(ask(cardW, 2019)).toMatchObject({
    verdict: gives,
    values: { loadW, usableW: 380, ageLossPct: 4 },
    needs: gives === 'fits' ? [] : [{ part: 'supply' }],
  })
})

test('the age counts calendar years to the day of judging', () => {
  expect(ask(120, 2021, '2026-12-31T23:59:59.000Z')?.values).toMatchObject({ supplyYears: 5, sharePct: 80 })
  expect(ask(120, 2021, '2027-01-01T00:00:00.000Z')?.values).toMatchObject({ supplyYears: 6, sharePct: 78 })
})

test('a year that nobody knows, or a day that is not given, counts in full', () => {
  const add = [{ ...card, id: 'CARD-NEW', boardPowerW: 260 }]
  const unknown = says('power.load', { add, limits: limits({}, ['supplyYear']), at: NOW })
  const dayless = says('power.load', { add, limits: limits({ supplyYear: 1990 }) })
  for (const f of [unknown, dayless]) {
    expect(f).toMatchObject({ verdict: 'fits', values: { sharePct: 80, usableW: 400 } })
    expect(f?.values).not.toHaveProperty('supplyYears')
    expect(f?.values).not.toHaveProperty('ageLossPct')
  }
})

test('a year after the day of judging is no age below zero', () => {
  expect(ask(120, 2030)?.values).toMatchObject({ supplyYears: 0, sharePct: 80 })
})

test('years and loss are the shop’s', () => {
  const shop = { ...policy, supplyFullYears: 3, supplyLossPctPerYear: 5 }
  const of = limits({ supplyYear: 2021 })
  const add = [{ ...card, id: 'CARD-NEW' }]
  expect(says('power.load', { add, limits: of, policy: shop, at: NOW })?.values).toMatchObject({
    ...{ supplyYears: 5, sharePct: 70, usableW: 350, ageLossPct: 10 },
  })
})

test('a policy that is no number gives no answer instead of a full share', () => {
  const shop = { ...policy, supplyLossPctPerYear: Number.NaN }
  const add = [{ ...card, id: 'CARD-NEW' }]
  expect(says('power.load', { add, policy: shop, at: NOW })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ spec: 'supplyLossPctPerYear' }] },
  })
})

test('every change that brings a supply says that no cable moves between models', () => {
  const own = { verdict: 'fits', partId: 'PSU-NEW', cautions: ['psu-cables', 'psu-closed'] }
  const next = { ...supply, id: 'PSU-NEW' }
  expect(says('power.newSupply', { add: [next] })).toMatchObject(own)
  expect(says('power.newSupply', { add: [{ ...card, id: 'CARD-NEW' }, next] })).toMatchObject(own)
  // Whatever is not known of it: case.supply then has no cautions to give.
  const bare = { kind: 'supply', id: 'PSU-NEW', name: 'Nothing known' } as const
  expect(says('case.supply', { add: [bare] })).toMatchObject({ verdict: "can't tell", cautions: [] })
  expect(says('power.newSupply', { add: [bare] })).toMatchObject(own)
  expect(says('power.newSupply', { add: [{ ...card, id: 'CARD-NEW' }] })).toBeUndefined()
  expect(says('power.newSupply', { out: [supply.id] })).toBeUndefined()
})
