import { SOURCES } from '../sources.ts'
import { type ChipsetRow, doubtful, type Family, gen, MAX_FROM_MEMORY } from './row.ts'

const SERIES_400: Family = { socket: 'LGA1200', family: 'LGA1200-400', memoryTypes: ['DDR4'] }
const SERIES_500: Family = { socket: 'LGA1200', family: 'LGA1200-500', memoryTypes: ['DDR4'] }

/** Intel names H410 and B460 as not compatible with the 11th generation; H470 and Z490 take it with new firmware. */
const excluded = { '10th (Comet Lake)': 'native', '11th (Rocket Lake)': 'not supported' } as const
const updated = { '10th (Comet Lake)': 'native', '11th (Rocket Lake)': 'firmware update' } as const
const both = { '10th (Comet Lake)': 'native', '11th (Rocket Lake)': 'native' } as const

const ONLY_IF_WIRED =
  'with an 11th generation processor gen 4 only where the board wires it, else gen 3: see the board page'
const prepared = {
  '10th (Comet Lake)': gen(3),
  '11th (Rocket Lake)': doubtful(4, ONLY_IF_WIRED, 3),
} as const
const wired = { '10th (Comet Lake)': gen(3), '11th (Rocket Lake)': gen(4) } as const

const v2 = 'some later V2 or V3 boards of this name list the 11th generation: read the board list'
const four = { dimmsPerChannel: 2, memoryMaxGB: 128 } as const
const statement = { source: SOURCES.intelRocketLake, confidence: 'seen' } as const
const pages = { source: SOURCES.intelChipsets, confidence: 'seen' } as const
const maxUnseen = { memoryMaxGB: MAX_FROM_MEMORY } as const

export const LGA1200_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_400,
    ...statement,
    chipset: 'H410',
    dimmsPerChannel: 1,
    memoryMaxGB: 64,
    memoryOverclock: false,
    slotPcieGen: gen(3),
    supports: excluded,
    note: v2,
  },
  {
    ...SERIES_400,
    ...statement,
    ...four,
    chipset: 'B460',
    memoryOverclock: false,
    slotPcieGen: gen(3),
    supports: excluded,
    note: v2,
  },
  {
    ...SERIES_400,
    ...statement,
    ...four,
    chipset: 'H470',
    memoryOverclock: false,
    slotPcieGen: prepared,
    supports: updated,
    fromMemory: ['memoryMaxGB'],
    doubts: maxUnseen,
  },
  {
    ...SERIES_400,
    ...statement,
    ...four,
    chipset: 'Z490',
    memoryOverclock: true,
    slotPcieGen: prepared,
    supports: updated,
  },
  {
    ...SERIES_500,
    ...pages,
    chipset: 'H510',
    dimmsPerChannel: 1,
    memoryMaxGB: 64,
    memoryOverclock: false,
    slotPcieGen: wired,
    supports: both,
  },
  {
    ...SERIES_500,
    ...pages,
    ...four,
    chipset: 'B560',
    memoryOverclock: true,
    slotPcieGen: wired,
    supports: both,
  },
  {
    ...SERIES_500,
    ...pages,
    ...four,
    chipset: 'H570',
    memoryOverclock: true,
    slotPcieGen: wired,
    supports: both,
    fromMemory: ['memoryMaxGB', 'slotPcieGen'],
    doubts: maxUnseen,
  },
  {
    ...SERIES_500,
    ...pages,
    ...four,
    chipset: 'Z590',
    memoryOverclock: true,
    slotPcieGen: wired,
    supports: both,
  },
]
