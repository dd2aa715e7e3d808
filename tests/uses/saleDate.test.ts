import { expect, test } from 'vitest'
import { addMachine } from '../../src/uses/addMachine.ts'
import { correctMachine } from '../../src/uses/correctMachine.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { filesOf, SMALL_SHOP, withCell } from '../input/smallShop.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const NOW = '2026-11-25T12:00:00.000Z'

// A machine may be sold before it leaves the shop; more than a year ahead is a slip in the year (our own bound).
test.each([
  ['2027-11-25', true],
  ['2027-11-27', false],
  ['2062-02-03', false],
])('a sale on %s, more than a year ahead: %o', async (day, isTaken) => {
  const store = await temporaryStore()
  expect(await importShop(store, filesOf(SMALL_SHOP), NOW)).toMatchObject({ ok: true })
  const before = await dump(store)
  const soldAt = `${day}T12:00:00.000Z`
  const refused = (field: string) => ({ ok: false, problems: [{ code: 'not allowed', field, got: day }] })
  const machine = { tag: 'M-0002', soldAt, parts: [], claims: [] }
  const correction = { soldAt, parts: [{ kind: 'card', name: 'CARD-B' }] } as const
  const added = await addMachine(store, machine, NOW)
  const corrected = await correctMachine(store, 'M-0001', correction, NOW)
  const { machines = [] } = withCell('machines', 1, 'sold_on', day)
  const imported = await importShop(store, filesOf({ machines }), NOW)
  expect([added.ok, corrected.ok, imported.ok]).toEqual([isTaken, isTaken, isTaken])
  if (isTaken) return
  expect(added).toMatchObject(refused('soldOn'))
  expect(corrected).toMatchObject(refused('soldOn'))
  expect(imported).toMatchObject({
    ok: false,
    problems: [{ ...refused('sold_on').problems[0], file: 'machines.csv', line: 2 }],
  })
  expect(await dump(store)).toEqual(before)
})
