import { SOURCES } from '../sources.ts'
import { type ChipsetRow, type Family, gen } from './row.ts'

const AM3: Family = { socket: 'AM3+', family: 'AM3+', memoryTypes: ['DDR3'] }
const FM2: Family = { socket: 'FM2+', family: 'FM2+', memoryTypes: ['DDR3'] }

const common = {
  dimmsPerChannel: 2,
  memoryMaxGB: 32,
  memoryOverclock: true,
  source: SOURCES.amdProcessors,
  confidence: 'seen',
} as const
const am3 = {
  ...AM3,
  ...common,
  slotPcieGen: gen(2),
  supports: { 'FX (AM3+)': 'native' },
  fromMemory: ['memoryOverclock', 'slotPcieGen'],
  note: '220 W processors only on boards that list them (from memory)',
} as const
const fm2 = {
  ...FM2,
  ...common,
  slotPcieGen: gen(3),
  supports: { 'A-series / Athlon X4 (FM2+)': 'native' },
  fromMemory: ['memoryMaxGB', 'memoryOverclock', 'slotPcieGen'],
} as const

export const OLDER_AMD_CHIPSETS: readonly ChipsetRow[] = [
  { ...am3, chipset: '970' },
  { ...am3, chipset: '990X' },
  { ...am3, chipset: '990FX' },
  { ...fm2, chipset: 'A68H', note: 'most boards have two slots' },
  { ...fm2, chipset: 'A88X' },
]
