import { SOURCES } from '../sources.ts'
import { type ChipsetRow, doubtful, type Family, gen, MAX_FROM_MEMORY } from './row.ts'

const TWO_TYPES = ['DDR4', 'DDR5'] as const
const SERIES_600: Family = { socket: 'LGA1700', family: 'LGA1700-600', memoryTypes: TWO_TYPES }
const SERIES_700: Family = { socket: 'LGA1700', family: 'LGA1700-700', memoryTypes: TWO_TYPES }
const SERIES_800: Family = { socket: 'LGA1851', family: 'LGA1851-800', memoryTypes: ['DDR5'] }

const supports600 = {
  '12th (Alder Lake)': 'native',
  '13th (Raptor Lake)': 'firmware update',
  '14th (Raptor Lake Refresh)': 'firmware update',
} as const
const supports700 = {
  '12th (Alder Lake)': 'native',
  '13th (Raptor Lake)': 'native',
  '14th (Raptor Lake Refresh)': 'firmware update',
} as const
const supports800 = { 'Core Ultra 200S (Arrow Lake)': 'native' } as const

const pages = { source: SOURCES.intelChipsets, confidence: 'seen' } as const
const slotByBoard = doubtful(5, 'many boards wire the slot as gen 4 only: see the board page', 4)

/**
 * DDR4 boards stay at 128 GB (4 x 32). 192 GB (4 x 48) needs firmware of 2023 and a 13th or 14th generation
 * processor; 256 GB only where the board page says so.
 */
const four = {
  dimmsPerChannel: 2,
  memoryMaxGB: 192,
  memoryMaxByTypeGB: { DDR4: 128, DDR5: 192 },
  slotPcieGen: slotByBoard,
} as const

export const LGA1700_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_600,
    ...pages,
    chipset: 'H610',
    dimmsPerChannel: 1,
    memoryMaxGB: 64,
    memoryOverclock: false,
    slotPcieGen: slotByBoard,
    supports: supports600,
    fromMemory: ['supports'],
  },
  { ...SERIES_600, ...pages, ...four, chipset: 'B660', memoryOverclock: true, supports: supports600 },
  { ...SERIES_600, ...pages, ...four, chipset: 'H670', memoryOverclock: true, supports: supports600 },
  { ...SERIES_600, ...pages, ...four, chipset: 'Z690', memoryOverclock: true, supports: supports600 },
  {
    ...SERIES_700,
    ...pages,
    ...four,
    chipset: 'B760',
    memoryOverclock: true,
    supports: supports700,
    fromMemory: ['supports'],
  },
  {
    ...SERIES_700,
    ...pages,
    ...four,
    chipset: 'H770',
    memoryOverclock: true,
    supports: supports700,
    fromMemory: ['supports'],
  },
  {
    ...SERIES_700,
    ...pages,
    ...four,
    chipset: 'Z790',
    memoryOverclock: true,
    supports: supports700,
    fromMemory: ['supports'],
  },
]

/** The chipset tables say 256 GB, the processor pages 192: the smaller of the two is what may be counted on. */
export const LGA1851_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_800,
    ...pages,
    chipset: 'H810',
    dimmsPerChannel: 1,
    memoryMaxGB: 128,
    memoryOverclock: false,
    slotPcieGen: gen(5),
    supports: supports800,
    fromMemory: ['memoryOverclock'],
  },
  {
    ...SERIES_800,
    ...pages,
    chipset: 'B860',
    dimmsPerChannel: 2,
    memoryMaxGB: 256,
    memoryOverclock: true,
    slotPcieGen: gen(5),
    supports: supports800,
  },
  {
    ...SERIES_800,
    ...pages,
    chipset: 'Z890',
    dimmsPerChannel: 2,
    memoryMaxGB: 256,
    memoryOverclock: true,
    slotPcieGen: gen(5),
    supports: supports800,
    fromMemory: ['memoryMaxGB'],
    doubts: { memoryMaxGB: MAX_FROM_MEMORY },
  },
]
