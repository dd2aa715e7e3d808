import type { Claim } from '../../../../src/core/limits/limit.ts'
import type {
  Board,
  Case,
  Cooler,
  Drive,
  Fan,
  GraphicsCard,
  MemoryKit,
  MemoryType,
  Part,
  PartKind,
  Plugs,
  Processor,
  Supply,
} from '../../../../src/core/part.ts'

// Invented models. Every figure a data sheet has is given, so that only the point of a case decides.

const SOCKET_OF: readonly (readonly [start: RegExp, socket: string])[] = [
  [/^(4th|5th)/, 'LGA1150'],
  [/^(6th|7th|8th|9th)/, 'LGA1151'],
  [/^(10th|11th)/, 'LGA1200'],
  [/^(12th|13th|14th)/, 'LGA1700'],
  [/^Core Ultra/, 'LGA1851'],
  [/^Ryzen (7000|8000G|9000)/, 'AM5'],
  [/^(Ryzen|Athlon)/, 'AM4'],
]

const socketOf = (generation: string): string | undefined =>
  SOCKET_OF.find(([start]) => start.test(generation))?.[1]

/** AM4 processors without G have no graphics unit; all others here have one unless a case says otherwise. */
const hasUnit = (generation: string): boolean =>
  !['Ryzen 1000 (Zen)', 'Ryzen 2000 (Zen+)', 'Ryzen 3000 (Zen 2)', 'Ryzen 5000 (Zen 3)'].includes(generation)

export const cpu = (generation: string, processorClass: string, figures?: Partial<Processor>): Processor => ({
  id: `CPU ${generation} ${processorClass}`,
  name: `invented ${generation} ${processorClass}`,
  kind: 'processor',
  socket: socketOf(generation),
  generation,
  processorClass,
  cores: 6,
  limitPowerW: 88,
  integratedGraphics: hasUnit(generation),
  ...figures,
})

type Sheet = [
  socket: string,
  type: MemoryType,
  slots: number,
  maxGB: number,
  perSlotGB: number,
  rate: number,
  gen: number,
]

/** Data sheet of an invented board on each chipset: what boards of that class usually list. */
const SHEETS: Readonly<Record<string, Sheet>> = {
  H81: ['LGA1150', 'DDR3', 2, 16, 8, 1600, 2],
  Z97: ['LGA1150', 'DDR3', 4, 32, 8, 2400, 3],
  H110: ['LGA1151', 'DDR4', 2, 32, 16, 2400, 3],
  Z170: ['LGA1151', 'DDR4', 4, 64, 16, 3200, 3],
  B250: ['LGA1151', 'DDR4', 4, 64, 16, 2400, 3],
  H310: ['LGA1151', 'DDR4', 2, 32, 16, 2666, 3],
  B360: ['LGA1151', 'DDR4', 4, 128, 32, 2666, 3],
  B365: ['LGA1151', 'DDR4', 4, 128, 32, 2666, 3],
  Z370: ['LGA1151', 'DDR4', 4, 64, 16, 4000, 3],
  Z390: ['LGA1151', 'DDR4', 4, 128, 32, 4000, 3],
  H410: ['LGA1200', 'DDR4', 2, 64, 32, 2933, 3],
  B460: ['LGA1200', 'DDR4', 4, 128, 32, 2933, 3],
  H470: ['LGA1200', 'DDR4', 4, 128, 32, 2933, 3],
  Z490: ['LGA1200', 'DDR4', 4, 128, 32, 4600, 4],
  H510: ['LGA1200', 'DDR4', 2, 64, 32, 3200, 4],
  B560: ['LGA1200', 'DDR4', 4, 128, 32, 4600, 4],
  H610: ['LGA1700', 'DDR4', 2, 64, 32, 3200, 4],
  B660: ['LGA1700', 'DDR5', 4, 128, 32, 6000, 5],
  Z690: ['LGA1700', 'DDR5', 4, 192, 48, 6400, 5],
  B760: ['LGA1700', 'DDR5', 4, 192, 48, 7000, 5],
  Z790: ['LGA1700', 'DDR5', 4, 192, 48, 7200, 5],
  H810: ['LGA1851', 'DDR5', 2, 128, 64, 6400, 5],
  B860: ['LGA1851', 'DDR5', 4, 256, 64, 8000, 5],
  A320: ['AM4', 'DDR4', 2, 64, 32, 3200, 3],
  B350: ['AM4', 'DDR4', 4, 64, 16, 3200, 3],
  B450: ['AM4', 'DDR4', 4, 128, 32, 3600, 3],
  A520: ['AM4', 'DDR4', 2, 64, 32, 4400, 3],
  B550: ['AM4', 'DDR4', 4, 128, 32, 4400, 4],
  X570: ['AM4', 'DDR4', 4, 128, 32, 4400, 4],
  A620: ['AM5', 'DDR5', 2, 96, 48, 6400, 4],
  B650: ['AM5', 'DDR5', 4, 192, 48, 6400, 4],
  B850: ['AM5', 'DDR5', 4, 192, 48, 8000, 5],
  B840: ['AM5', 'DDR5', 4, 192, 48, 8000, 4],
}

export function board(chipset: string, figures?: Partial<Board>): Board {
  const sheet = SHEETS[chipset]
  if (sheet === undefined) throw new Error(`no invented board on ${chipset}`)
  const [socket, memoryType, memorySlots, memoryMaxGB, memoryPerSlotMaxGB, memoryRateMtsMax, slotPcieGen] =
    sheet
  const figuresOfSheet = {
    socket,
    memoryType,
    memorySlots,
    memoryMaxGB,
    memoryPerSlotMaxGB,
    memoryRateMtsMax,
  }
  return {
    id: `BOARD ${chipset}`,
    name: `invented ${chipset} board`,
    kind: 'board',
    chipset,
    form: 'microATX',
    ...figuresOfSheet,
    slotPcieGen,
    slotLanes: 16,
    processorPowerW: 300,
    ...figures,
  }
}

export const kit = (
  memoryType: MemoryType,
  modules: number,
  moduleGB: number,
  rateMts: number,
  figures?: Partial<MemoryKit>,
): MemoryKit => ({
  id: `MEM ${memoryType} ${modules}x${moduleGB} ${rateMts}`,
  name: `invented ${memoryType} ${modules} x ${moduleGB} GB ${rateMts}`,
  kind: 'memory',
  memoryType,
  form: 'DIMM',
  modules,
  moduleGB,
  rateMts,
  ...figures,
})

export const plugs = (pin6: number, pin8: number, pin16: number): Plugs => ({ pin6, pin8, pin16 })

/** Gen 3 x16, 240 x 40 mm, 150 W over one 8-pin plug, unless told otherwise. */
export const card = (id: string, figures?: Partial<GraphicsCard>): GraphicsCard => ({
  id: `CARD ${id}`,
  name: `invented card ${id}`,
  kind: 'card',
  lengthMm: 240,
  thicknessMm: 40,
  memoryGB: 8,
  boardPowerW: 150,
  plugs: plugs(0, 1, 0),
  pcieGen: 3,
  pcieLanes: 16,
  ...figures,
})

export const supply = (id: string, figures?: Partial<Supply>): Supply => ({
  id: `SUPPLY ${id}`,
  name: `invented supply ${id}`,
  kind: 'supply',
  form: 'ATX',
  ratedW: 850,
  rail12VW: 840,
  plugs: plugs(0, 4, 1),
  lengthMm: 150,
  ...figures,
})

export const chassis = (id: string, figures?: Partial<Case>): Case => ({
  id: `CASE ${id}`,
  name: `invented case ${id}`,
  kind: 'case',
  boardForms: ['ATX', 'microATX', 'Mini-ITX'],
  supplyForms: ['ATX'],
  cardRoomMm: 400,
  coolerRoomMm: 170,
  cardSlots: 7,
  ...figures,
})

export const fan = (id: string): Fan => ({
  id: `FAN ${id}`,
  name: `invented fan ${id}`,
  kind: 'fan',
  sizeMm: 120,
})

export const drive: Drive = {
  id: 'DRIVE',
  name: 'invented drive',
  kind: 'drive',
  form: 'M.2',
  capacityGB: 1000,
}

const cooler: Cooler = {
  id: 'COOLER',
  name: 'invented cooler',
  kind: 'cooler',
  sockets: ['LGA1150', 'LGA1151', 'LGA1200', 'LGA1700', 'LGA1851', 'AM4', 'AM5'],
  heightMm: 150,
  ratedW: 260,
}

const MODEST_MTS: Readonly<Record<MemoryType, number>> = { DDR3: 1333, DDR3L: 1333, DDR4: 2133, DDR5: 3600 }

/** A complete machine: the given parts, and for every kind they lack one that decides nothing. */
export function machine(main: Board, ...given: readonly Part[]): readonly Part[] {
  const type = main.memoryType ?? 'DDR4'
  const rest: readonly Part[] = [
    kit(type, 2, 8, MODEST_MTS[type]),
    card('old'),
    supply('old'),
    chassis('old'),
    cooler,
    drive,
  ]
  const kinds = new Set<PartKind>(given.map((p) => p.kind))
  return [main, ...given, ...rest.filter((p) => !kinds.has(p.kind))]
}

/** The same parts without those of one kind. */
export const without = (kind: PartKind, parts: readonly Part[]): readonly Part[] =>
  parts.filter((p) => p.kind !== kind)

/** The machine's own firmware table names this version. */
export const firmware = (value: string): Claim => ({ key: 'firmware', value, source: 'read' })

/** Free length for a card by tape. */
export const tape = (value: number): Claim => ({ key: 'cardRoomMm', value, source: 'measured' })

/** An air cooler for every socket, 150 mm high, rated 260 W, that overhangs nothing, unless told otherwise. */
export const coolerOf = (id: string, figures?: Partial<Cooler>): Cooler => ({
  ...cooler,
  id: `COOLER ${id}`,
  name: `invented cooler ${id}`,
  ...figures,
})

/** Under sustained load: the processor's temperature, the air of the room, and what the processor drew. */
export const loadPoint = (loadC: number, roomC: number, powerW: number): Claim => ({
  key: 'coolingLoad',
  value: { loadC, roomC, powerW },
  source: 'measured',
})

/** The year on the label of the supply. */
export const labelYear = (value: number): Claim => ({ key: 'supplyYear', value, source: 'measured' })
