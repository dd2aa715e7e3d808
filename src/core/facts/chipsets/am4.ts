import type { Support } from '../../limits/limit.ts'
import type { Generation } from '../generations.ts'
import { SOURCES } from '../sources.ts'
import { type ChipsetRow, type Family, gen, MAX_FROM_MEMORY } from './row.ts'

const SERIES_300: Family = { socket: 'AM4', family: 'AM4-300', memoryTypes: ['DDR4'] }
const SERIES_400: Family = { socket: 'AM4', family: 'AM4-400', memoryTypes: ['DDR4'] }
const SERIES_500: Family = { socket: 'AM4', family: 'AM4-500', memoryTypes: ['DDR4'] }

/** Columns of the support table below, in its order. */
const COLUMNS = [
  'Ryzen 1000 (Zen)',
  'Ryzen 2000 (Zen+)',
  'Ryzen 3000 (Zen 2)',
  'Ryzen 5000 (Zen 3)',
  'A-series / Athlon X4 (Bristol Ridge)',
  'Athlon 200GE-3000G',
  'Ryzen 2000G (Raven Ridge)',
  'Ryzen 3000G (Picasso)',
  'Ryzen 4000G, 4100, 4500 (Zen 2)',
  'Ryzen 5000G, 5500, 5700 (Zen 3)',
] as const satisfies readonly Generation[]

const MARKS: Record<string, Support> = {
  N: 'native',
  F: 'firmware update',
  B: 'board by board',
  '-': 'not supported',
}

/** Reads one line of the support table; throws on a mark or a count that the table does not have. */
function supports(line: string): Partial<Record<Generation, Support>> {
  const marks = line.split(' ')
  if (marks.length !== COLUMNS.length) throw new RangeError(`expected ${COLUMNS.length} marks: ${line}`)
  return Object.fromEntries(
    COLUMNS.map((name, at) => {
      const support = MARKS[marks[at] ?? '']
      if (support === undefined) throw new RangeError(`unknown mark in: ${line}`)
      return [name, support]
    }),
  )
}

/**
 * AMD's chipset page for the older generations, AMD's firmware statements for the newer ones. The 300 series with
 * newer generations is board by board: AMD's chart says no to some that many machines run. Boards of the 500 series
 * are older than Ryzen 5000 and 5000G, and the early ones need newer firmware for them, whatever the chart counts as
 * native (AMD statements of October 2020).
 */
//                       1000 2000 3000 5000 A/X4 Athl 2kG 3kG 4kG 5kG
const A320_TAKES = supports('N F B B N F F F B B')
const B350_TAKES = supports('N F B B N B F F B B')
const B450_TAKES = supports('N N F F B N N F B F')
const A520_TAKES = supports('- - N F - - - - N F')
const X570_TAKES = supports('- N N F - - B N F F')

/** Gen 4 comes from the processor: the ones with graphics, and 4100, 4500, 5500, 5700, have gen 3 only. */
const GEN_4 = Object.fromEntries(
  COLUMNS.map((name) => [name, gen(name === 'Ryzen 3000 (Zen 2)' || name === 'Ryzen 5000 (Zen 3)' ? 4 : 3)]),
)

const common = {
  dimmsPerChannel: 2,
  memoryOverclock: true,
  source: SOURCES.amdAm4,
  confidence: 'seen',
  fromMemory: ['supports'],
} as const
const oneWay = 'newer firmware may drop the oldest processors and cannot always be undone'

export const AM4_CHIPSETS: readonly ChipsetRow[] = [
  {
    ...SERIES_300,
    ...common,
    chipset: 'A320',
    memoryMaxGB: 64,
    slotPcieGen: gen(3),
    supports: A320_TAKES,
    note: `nearly all boards have two slots; ${oneWay}`,
  },
  {
    ...SERIES_300,
    ...common,
    chipset: 'B350',
    memoryMaxGB: 64,
    slotPcieGen: gen(3),
    supports: B350_TAKES,
    note: oneWay,
  },
  {
    ...SERIES_300,
    ...common,
    chipset: 'X370',
    memoryMaxGB: 64,
    slotPcieGen: gen(3),
    supports: B350_TAKES,
    note: oneWay,
  },
  {
    ...SERIES_400,
    ...common,
    chipset: 'B450',
    memoryMaxGB: 128,
    slotPcieGen: gen(3),
    supports: B450_TAKES,
    note: oneWay,
  },
  {
    ...SERIES_400,
    ...common,
    chipset: 'X470',
    memoryMaxGB: 128,
    slotPcieGen: gen(3),
    supports: B450_TAKES,
    note: oneWay,
  },
  {
    ...SERIES_500,
    ...common,
    chipset: 'A520',
    memoryMaxGB: 128,
    slotPcieGen: gen(3),
    supports: A520_TAKES,
    fromMemory: ['supports', 'memoryMaxGB'],
    doubts: { memoryMaxGB: MAX_FROM_MEMORY },
  },
  {
    ...SERIES_500,
    ...common,
    chipset: 'B550',
    memoryMaxGB: 128,
    slotPcieGen: GEN_4,
    supports: A520_TAKES,
  },
  {
    ...SERIES_500,
    ...common,
    chipset: 'X570',
    memoryMaxGB: 128,
    slotPcieGen: GEN_4,
    supports: X570_TAKES,
  },
]
