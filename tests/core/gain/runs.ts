import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import type { ShopPolicy } from '../../../src/core/shop.ts'

/** Invented parts, titles and runs for the tests of gains. */
export const POLICY: ShopPolicy = {
  currency: 'USD',
  supplyShare: 0.8,
  restOfMachineW: 50,
  supplyFullYears: 5,
  supplyLossPctPerYear: 2,
  coolingMarginC: 5,
  smallestGainPct: 5,
  runWindowDays: 400,
  priceValidDays: 14,
}

export const fitted = (processorId: string, cardId: string, rateMts = 3200): Fitted => ({
  processorId,
  cardId,
  memory: { memoryType: 'DDR4', rateMts, channels: 2, totalGB: 16 },
  link: { gen: 3, lanes: 16 },
})

let count = 0

/** A run of the invented title `harbor`; name only what matters. */
export const run = (over: Partial<Run> & Pick<Run, 'fitted' | 'averageFps'>): Run => ({
  id: `R${String(++count).padStart(4, '0')}`,
  at: '2026-03-01T12:00:00Z',
  titleId: 'harbor',
  titleVersion: '1.0',
  settingId: '1080-high',
  ...over,
})

export const day = (n: number): string => new Date(Date.UTC(2026, 0, 1, 12) + n * 86_400_000).toISOString()
