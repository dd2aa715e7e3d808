import { SOURCES } from '../sources.ts'
import { type ChipsetRow, type Family, gen } from './row.ts'

const BOTH = ['DDR3', 'DDR3L'] as const
const SERIES_8: Family = { socket: 'LGA1150', family: 'LGA1150-8', memoryTypes: BOTH }
const SERIES_9: Family = { socket: 'LGA1150', family: 'LGA1150-9', memoryTypes: BOTH }

const supports8 = {
  '4th (Haswell)': 'native',
  "4th refresh (Haswell Refresh, Devil's Canyon)": 'firmware update',
  '5th (Broadwell)': 'not supported',
} as const
const supports9 = {
  '4th (Haswell)': 'native',
  "4th refresh (Haswell Refresh, Devil's Canyon)": 'native',
  '5th (Broadwell)': 'firmware update',
} as const

const four = { dimmsPerChannel: 2, memoryMaxGB: 32, slotPcieGen: gen(3) } as const
const seen = { source: SOURCES.intelHaswell, confidence: 'seen' } as const

export const LGA1150_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_8,
    ...seen,
    chipset: 'H81',
    dimmsPerChannel: 1,
    memoryMaxGB: 16,
    memoryOverclock: false,
    slotPcieGen: gen(2),
    supports: supports8,
    fromMemory: ['slotPcieGen'],
  },
  { ...SERIES_8, ...seen, ...four, chipset: 'B85', memoryOverclock: false, supports: supports8 },
  { ...SERIES_8, ...seen, ...four, chipset: 'H87', memoryOverclock: false, supports: supports8 },
  { ...SERIES_8, ...seen, ...four, chipset: 'Q87', memoryOverclock: false, supports: supports8 },
  { ...SERIES_8, ...seen, ...four, chipset: 'Z87', memoryOverclock: true, supports: supports8 },
  { ...SERIES_9, ...seen, ...four, chipset: 'H97', memoryOverclock: false, supports: supports9 },
  { ...SERIES_9, ...seen, ...four, chipset: 'Z97', memoryOverclock: true, supports: supports9 },
]
