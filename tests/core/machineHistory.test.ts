import { expect, test } from 'vitest'
import type { Claim } from '../../src/core/limits/limit.ts'
import { machineHistory } from '../../src/core/machineHistory.ts'

// A machine sold on 3 March 2026 that got another card in May and newer firmware in June; days are those of UTC here.

const dayOf = (at: string): string => at.slice(0, 10)
const on = (day: string, hour = 12): string => `2026-${day}T${String(hour).padStart(2, '0')}:00:00.000Z`
const SOLD = on('03-03')
const board = { kind: 'board', name: 'Stile H410' } as const
const old = { kind: 'card', name: 'Gimlet 4G' } as const
const fresh = { kind: 'card', name: 'Spokeshave 8G' } as const
const claim = (key: string, value: unknown, at: string | undefined, more: object = {}): Claim =>
  ({ key, value, source: 'read', at, ...more }) as unknown as Claim

const known = {
  soldAt: SOLD,
  stays: [
    { part: board },
    { part: old, fittedAt: on('03-01'), removedAt: on('05-10', 9) },
    { part: fresh, fittedAt: on('05-10', 10) },
  ],
  claims: [
    claim('firmware', '1.40', on('06-01')),
    claim('cardRoomMm', 286, on('03-02'), { source: 'measured' }),
  ],
  past: [{ claim: claim('firmware', '1.20', on('03-02')), endedAt: on('06-01') }],
  jobs: [{ jobId: 'J-1', fittedAt: on('05-10', 10), works: ['firmware update'], kept: [], targetFps: 60 }],
  readAt: [on('03-02'), on('06-01')],
}

test('the newest day first; the day of sale has what left the shop, and what was known by then is no news', () => {
  expect(machineHistory(known, dayOf)).toEqual([
    {
      ...{ day: '2026-06-01', partsIn: [], partsOut: [], jobs: [], isRead: true },
      limits: [{ key: 'firmware', value: '1.40', before: '1.20' }],
    },
    {
      ...{ day: '2026-05-10', partsIn: [fresh], partsOut: [old], limits: [], isRead: false },
      jobs: known.jobs,
    },
    {
      ...{ day: '2026-03-03', partsIn: [], partsOut: [], limits: [], jobs: [], isRead: false },
      sold: [board, old],
    },
  ])
})

test.each([
  ['a hint that is never counted', claim('memoryMaxGB', 256, on('06-02'))],
  [
    'a bound that is no value',
    claim('cardRoomMm', 200, on('06-02'), { source: 'measured', bound: 'at least' }),
  ],
  ['a claim that nobody dated', claim('firmware', '9', undefined)],
])('%s is not told', (_, one) => {
  const days = machineHistory({ ...known, claims: [one], past: [] }, dayOf)
  expect(days.flatMap(({ limits }) => limits)).toEqual([])
})

test('the same value said again is no change; a pinned hint counts', () => {
  const again = { claims: [claim('firmware', '1.20', on('06-01'))], past: known.past }
  expect(machineHistory({ ...known, ...again }, dayOf).flatMap(({ limits }) => limits)).toEqual([])
  const pinned = { claims: [claim('memoryMaxGB', 64, on('06-02'), { pinned: true })], past: [] }
  expect(machineHistory({ ...known, ...pinned }, dayOf).flatMap(({ limits }) => limits)).toEqual([
    { key: 'memoryMaxGB', value: 64 },
  ])
})

test('a machine whose sale nobody dated tells what has a date, and no sale', () => {
  const { soldAt: _, ...undated } = known
  const days = machineHistory(undated, dayOf)
  expect(days.some(({ sold }) => sold !== undefined)).toBe(false)
  expect(days.at(-1)).toMatchObject({ day: '2026-03-01', partsIn: [old] })
})
