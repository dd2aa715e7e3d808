import { SOURCES } from '../sources.ts'
import { type ChipsetRow, doubtful, type Family, gen } from './row.ts'

const SERIES_600: Family = { socket: 'AM5', family: 'AM5-600', memoryTypes: ['DDR5'] }
const SERIES_800: Family = { socket: 'AM5', family: 'AM5-800', memoryTypes: ['DDR5'] }

const supports600 = {
  'Ryzen 7000 (Zen 4)': 'native',
  'Ryzen 8000G (Phoenix)': 'firmware update',
  'Ryzen 9000 (Zen 5)': 'firmware update',
} as const
const supports800 = {
  'Ryzen 7000 (Zen 4)': 'native',
  'Ryzen 8000G (Phoenix)': 'native',
  'Ryzen 9000 (Zen 5)': 'native',
} as const

/** The E chipsets and X870 require gen 5 in the graphics slot; a Ryzen 8000G offers gen 4 itself. */
const gen5 = {
  'Ryzen 7000 (Zen 4)': gen(5),
  'Ryzen 9000 (Zen 5)': gen(5),
  'Ryzen 8000G (Phoenix)': gen(4),
} as const
const rarely5 = gen(4, 'gen 4 is the least a board must wire; gen 5 is rare')
const often5 = gen(4, 'gen 4 is the least a board must wire; many wire gen 5')

/** 192 GB (4 x 48) needs firmware of 2023; 256 GB only where the board page says so. */
const common = {
  dimmsPerChannel: 2,
  memoryMaxGB: 192,
  memoryOverclock: true,
  source: SOURCES.amdAm5,
  confidence: 'seen',
} as const

export const AM5_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_600,
    ...common,
    chipset: 'A620',
    slotPcieGen: gen(4),
    supports: supports600,
    note: 'made for 65 W processors; stronger ones only as the board list says',
  },
  { ...SERIES_600, ...common, chipset: 'B650', slotPcieGen: rarely5, supports: supports600 },
  { ...SERIES_600, ...common, chipset: 'B650E', slotPcieGen: gen5, supports: supports600 },
  { ...SERIES_600, ...common, chipset: 'X670', slotPcieGen: rarely5, supports: supports600 },
  { ...SERIES_600, ...common, chipset: 'X670E', slotPcieGen: gen5, supports: supports600 },
  {
    ...SERIES_800,
    ...common,
    chipset: 'B840',
    slotPcieGen: doubtful(4, 'printed as gen 3 and as gen 4 for this chipset: see the board page', 3),
    supports: supports800,
    fromMemory: ['dimmsPerChannel'],
  },
  { ...SERIES_800, ...common, chipset: 'B850', slotPcieGen: often5, supports: supports800 },
  { ...SERIES_800, ...common, chipset: 'X870', slotPcieGen: gen5, supports: supports800 },
  { ...SERIES_800, ...common, chipset: 'X870E', slotPcieGen: gen5, supports: supports800 },
]
