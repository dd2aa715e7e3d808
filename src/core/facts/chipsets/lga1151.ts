import { SOURCES } from '../sources.ts'
import { type ChipsetRow, type Family, gen, MAX_FROM_MEMORY } from './row.ts'

/** Two families with the same pins that exclude each other: 6th and 7th generation here, 8th and 9th below. */
const SERIES_100: Family = { socket: 'LGA1151', family: 'LGA1151-100', memoryTypes: ['DDR4', 'DDR3L'] }
const SERIES_200: Family = { socket: 'LGA1151', family: 'LGA1151-200', memoryTypes: ['DDR4'] }
const SERIES_300: Family = { socket: 'LGA1151', family: 'LGA1151-300', memoryTypes: ['DDR4'] }

const supports100 = { '6th (Skylake)': 'native', '7th (Kaby Lake)': 'firmware update' } as const
const supports200 = { '6th (Skylake)': 'native', '7th (Kaby Lake)': 'native' } as const
/** Boards sold before October 2018 need newer firmware for the 9th generation (from memory). */
const supports300 = { '8th (Coffee Lake)': 'native', '9th (Coffee Lake Refresh)': 'firmware update' } as const
const supports300Late = { '8th (Coffee Lake)': 'native', '9th (Coffee Lake Refresh)': 'native' } as const

const older = { slotPcieGen: gen(3), source: SOURCES.boardManual100, confidence: 'seen' } as const
const newer = { slotPcieGen: gen(3), source: SOURCES.intel300, confidence: 'seen' } as const
const four64 = { dimmsPerChannel: 2, memoryMaxGB: 64 } as const
/** The figure holds for DDR4; with DDR3L it needs 16 GB modules, of which no board page was seen. */
const fourOfTwo = { ...four64, memoryMaxByTypeGB: { DDR4: 64 } } as const
const four128 = { dimmsPerChannel: 2, memoryMaxGB: 128 } as const
const maxUnseen = { memoryMaxGB: MAX_FROM_MEMORY } as const

export const LGA1151_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_100,
    ...older,
    chipset: 'H110',
    dimmsPerChannel: 1,
    memoryMaxGB: 32,
    memoryMaxByTypeGB: { DDR4: 32 },
    memoryOverclock: false,
    supports: supports100,
  },
  { ...SERIES_100, ...older, ...fourOfTwo, chipset: 'B150', memoryOverclock: false, supports: supports100 },
  { ...SERIES_100, ...older, ...fourOfTwo, chipset: 'H170', memoryOverclock: false, supports: supports100 },
  { ...SERIES_100, ...older, ...fourOfTwo, chipset: 'Z170', memoryOverclock: true, supports: supports100 },
  { ...SERIES_200, ...older, ...four64, chipset: 'B250', memoryOverclock: false, supports: supports200 },
  { ...SERIES_200, ...older, ...four64, chipset: 'H270', memoryOverclock: false, supports: supports200 },
  { ...SERIES_200, ...older, ...four64, chipset: 'Z270', memoryOverclock: true, supports: supports200 },
  {
    ...SERIES_300,
    ...newer,
    chipset: 'H310',
    dimmsPerChannel: 1,
    memoryMaxGB: 64,
    memoryOverclock: false,
    supports: supports300,
    fromMemory: ['supports'],
  },
  {
    ...SERIES_300,
    ...newer,
    ...four128,
    chipset: 'B360',
    memoryOverclock: false,
    supports: supports300,
    fromMemory: ['supports'],
  },
  {
    ...SERIES_300,
    ...newer,
    ...four128,
    chipset: 'B365',
    memoryOverclock: false,
    supports: supports300Late,
    fromMemory: ['memoryMaxGB'],
    doubts: maxUnseen,
  },
  {
    ...SERIES_300,
    ...newer,
    ...four128,
    chipset: 'H370',
    memoryOverclock: false,
    supports: supports300,
    fromMemory: ['memoryMaxGB', 'supports'],
    doubts: maxUnseen,
  },
  {
    ...SERIES_300,
    ...newer,
    ...four128,
    chipset: 'Z370',
    memoryOverclock: true,
    supports: supports300,
    fromMemory: ['memoryMaxGB', 'supports'],
    doubts: maxUnseen,
  },
  {
    ...SERIES_300,
    ...newer,
    ...four128,
    chipset: 'Z390',
    memoryOverclock: true,
    supports: supports300Late,
    note: 'firmware tables of these boards still announce 64 GB: that field is not the published limit',
  },
]
