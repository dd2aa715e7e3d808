import { describe, expect, test } from 'vitest'
import type { Run } from '../../../src/core/gain/run.ts'
import { agreedPrice } from '../../../src/core/job/agreed.ts'
import { creditsFor, type PartOut, settleProposal } from '../../../src/core/job/job.ts'
import { runsSince } from '../../../src/core/job/promise.ts'
import { remindAfter } from '../../../src/core/job/reminders.ts'
import { fitted } from '../gain/runs.ts'

// By hand: a card for 129, opening 15, fitting 8, firmware 15, two old parts for 25 and 5: 137 in all.
const price = {
  lines: [
    { what: 'part', ref: 'CARD', shelfItemId: 'S-1', amountMinor: 12900 },
    { what: 'opening', ref: 'opening', amountMinor: 1500 },
    { what: 'fitting', ref: 'CARD', amountMinor: 800 },
    { what: 'work', ref: 'firmware update', amountMinor: 1500 },
    { what: 'trade-in', ref: 'OLD', amountMinor: -2500 },
    { what: 'trade-in', ref: 'STICK', amountMinor: -500 },
    { what: 'trade-in', ref: 'STICK', amountMinor: -500 },
  ],
  netMinor: 13200,
  ...{ paysForItself: false, costsNothing: false, unpriced: [] },
} as const

describe('the price of a job', () => {
  test('an owner who fits it at home pays for parts, and for the firmware that stays ours: 129 + 15 - 25 - 5 - 5', () => {
    expect(agreedPrice(price, 'shop')).toBe(13200)
    expect(agreedPrice(price, 'owner')).toBe(10900)
    const hands = price.lines.filter(({ what }) => what !== 'work')
    expect(agreedPrice({ ...price, lines: hands }, 'owner')).toBe(9400)
  })

  test('two equal parts that come out are paid for once each', () => {
    expect(creditsFor(price, ['STICK', 'OLD', 'STICK', 'STICK', 'OTHER'])).toEqual([500, 2500, 500, 0, 0])
  })

  test('what is given back is not paid for, what fetched less costs more', () => {
    const out = (id: string, creditMinor: number): PartOut => ({
      id,
      partId: id,
      outcome: 'to test',
      creditMinor,
    })
    expect(settleProposal(13200, price, [out('OLD', 2500), out('STICK', 500), out('STICK', 500)])).toBe(13200)
    expect(settleProposal(13200, price, [out('OLD', 0), out('STICK', 500), out('STICK', 500)])).toBe(15700)
    expect(settleProposal(13200, price, [out('OLD', 3000), out('STICK', 500), out('STICK', 500)])).toBe(12700)
    expect(settleProposal(13200, price, [])).toBe(13200)
  })
})

describe('the runs a promise is held against', () => {
  const run = (at: string, machineTag: string | undefined = 'M-1'): Run => ({
    ...{ id: at, at, machineTag, fitted: fitted('P', 'C'), titleId: 't', titleVersion: '1', settingId: 's' },
    averageFps: 60,
  })
  const job = { machineTag: 'M-1', fittedAt: '2026-03-02' }
  const since = (changes: string[]) =>
    runsSince(job, changes, [
      ...[run('2026-03-01'), run('2026-03-02'), run('2026-03-03'), run('2026-03-09')],
      ...[run('2026-03-04', 'M-2'), { ...run('2026-03-05'), machineTag: undefined }],
    ]).map(({ at }) => at)

  test('are those of this machine since the parts went in', () => {
    expect(since(['2026-01-01', '2026-03-02'])).toEqual(['2026-03-02', '2026-03-03', '2026-03-09'])
  })
  test('end where a part of it changes again', () => {
    expect(since(['2026-03-02', '2026-03-09', '2026-03-20'])).toEqual(['2026-03-02', '2026-03-03'])
  })
  test('are none before anything went in', () => {
    expect(runsSince({ machineTag: 'M-1' }, [], [run('2026-03-02')])).toEqual([])
  })
})

test('a missed date comes up again three days later, a booked one on its day', () => {
  expect(remindAfter('missed', '2026-02-26T12:00:00.000Z')).toBe('2026-03-01T12:00:00.000Z')
  expect(remindAfter('book', '2026-02-26T12:00:00.000Z')).toBeUndefined()
})
