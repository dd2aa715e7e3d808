import { expect, test } from 'vitest'
import { addMachine } from '../../src/uses/addMachine.ts'
import { viewMachineOn } from '../../src/uses/machineOn.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import { temporaryStore } from '../store/temporaryStore.ts'
import { unwrapped } from './jobs/jobShop.ts'

test('a limit that is measured again stays what it was on the days before', async () => {
  const store = await temporaryStore()
  const sold = '2026-02-01T12:00:00.000Z'
  const parts = [{ kind: 'case' as const, name: 'Box' }]
  unwrapped(await addMachine(store, { tag: 'M-1', parts, claims: [], soldAt: sold }, sold))
  const measure = async (value: number, at: string) =>
    unwrapped(await recordLimit(store, 'M-1', { key: 'cardRoomMm', value, source: 'measured' }, at))
  await measure(300, '2026-03-01T15:00:00.000Z')
  await measure(322, '2026-06-01T15:00:00.000Z')
  const on = async (day: string) => {
    const { limits, parts: inside } = unwrapped(await viewMachineOn(store, 'm-1', `${day}T12:00:00.000Z`))
    const { cardRoomMm: room } = limits
    return [inside.map(({ name }) => name), room.known ? room.value : undefined]
  }
  expect(await on('2026-01-31')).toEqual([[], undefined])
  expect(await on('2026-02-01')).toEqual([['Box'], undefined])
  expect(await on('2026-03-01')).toEqual([['Box'], 300])
  expect(await on('2026-05-31')).toEqual([['Box'], 300])
  expect(await on('2026-06-01')).toEqual([['Box'], 322])
})
