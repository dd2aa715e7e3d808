/** Day 0 is when the shop began to measure; it has kept at it for three years. */
const START = Date.UTC(2023, 5, 1)
const DAY_MS = 86_400_000
export const SHOP_DAYS = 3 * 365

export const isoOfDay = (day: number): string => new Date(START + Math.round(day * DAY_MS)).toISOString()
export const dayOfIso = (at: string): number => (Date.parse(at) - START) / DAY_MS
