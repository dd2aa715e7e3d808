import { expect, test } from 'vitest'
import { claimsAsOf } from '../../../src/core/limits/asOf.ts'
import type { Claim } from '../../../src/core/limits/limit.ts'

const room = (value: number, at?: string): Claim => ({
  ...{ key: 'cardRoomMm', value, source: 'measured' },
  ...(at !== undefined && { at }),
})

test('at each instant what had begun and not ended; the day of a change has the new one', () => {
  const past = [
    { claim: room(290), endedAt: '2026-03-01T12:00:00.000Z' },
    { claim: room(300, '2026-03-01T12:00:00.000Z'), endedAt: '2026-06-01T12:00:00.000Z' },
  ]
  const now = [room(320, '2026-06-01T12:00:00.000Z')]
  const values = (at: string) => claimsAsOf(now, past, at).map(({ value }) => value)
  expect(values('2026-02-01T00:00:00.000Z')).toEqual([290])
  expect(values('2026-03-01T12:00:00.000Z')).toEqual([300])
  expect(values('2026-05-31T00:00:00.000Z')).toEqual([300])
  expect(values('2026-06-01T12:00:00.000Z')).toEqual([320])
})

test('what is claimed later was not known before; a claim without a date was there all along', () => {
  const later = [room(320, '2026-06-01T12:00:00.000Z')]
  expect(claimsAsOf(later, [], '2026-05-01T00:00:00.000Z')).toEqual([])
  expect(claimsAsOf([room(310)], [], '1990-01-01T00:00:00.000Z')).toEqual([room(310)])
})
