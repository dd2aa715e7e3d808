import type { AnswerInputs } from '../../src/core/answer.ts'
import { buildOf, partsOf } from '../../src/core/build.ts'
import type { Part } from '../../src/core/part.ts'
import { RANKING_VERSION } from '../../src/core/ranking/rank.ts'
import type { ShelfItem } from '../../src/core/shop.ts'
import { inputs, runs } from './cannedShop.ts'
import type { PageState } from './states.ts'

// Questions whose answer is more than a ranking: quiet, wait, save for a new platform, more space. All of it is invented.

const AT = '2026-06-01T17:00:00.000Z'

const withQuestion = (changes: Partial<AnswerInputs['question']>, from: AnswerInputs = whole) => ({
  ...from,
  question: { ...from.question, ...changes },
})

const whole: AnswerInputs = { ...inputs, ranking: RANKING_VERSION, found: [] }

const onShelf = (id: string, partId: string, priceMinor: number): ShelfItem => ({
  ...{ id, partId, priceMinor, condition: 'new', quantity: 1, at: AT },
})

/** One card was measured above what the shop calls quiet, one below it; the processor never. */
export const quiet: AnswerInputs = {
  ...withQuestion({
    words: 'Lantern Coast at 60, but I record my voice: it must stay quiet.',
    wishes: ['quiet'],
  }),
  shop: { ...inputs.shop, policy: { ...inputs.shop.policy, quietDba: 38 } },
  sounds: [
    { runId: 'R-flint-1', at: AT, dba: 36.5, partIds: ['CPU-TEAL6', 'CRD-FLINT8', 'SUP-450', 'CAS-CRATE'] },
    { runId: 'R-flint-2', at: AT, dba: 39, partIds: ['CPU-TEAL6', 'CRD-FLINT8'] },
    { runId: 'R-grit-1', at: AT, dba: 44.5, partIds: ['CPU-TEAL6', 'CRD-GRIT6'] },
  ],
}

const flint = inputs.parts.find(({ id }) => id === 'CRD-FLINT8')
if (flint === undefined) throw new RangeError('the canned shop has no such card')

/** The shelf has no card for this money, and one was seen elsewhere. */
export const wait: AnswerInputs = {
  ...withQuestion({ words: 'Can Lantern Coast get to 60 for about $150?', budgetMinor: 15000 }),
  shelf: inputs.shelf.filter(({ id }) => id === 'S-4' || id === 'S-7'),
  found: [
    {
      findable: {
        ...{
          id: 'F-0001',
          partId: 'CRD-FLINT8',
          condition: 'used tested',
          lowMinor: 15500,
          highMinor: 17500,
        },
        at: AT,
      },
      part: flint,
      seen: [
        { findableId: 'F-0001', lowMinor: 17500, highMinor: 19000, at: '2026-04-20T17:00:00.000Z' },
        { findableId: 'F-0001', lowMinor: 15500, highMinor: 17500, at: AT },
      ],
    },
  ],
}

const FRONT = ['USB 2.0', 'HD audio'] as const

const COOLER: Part = {
  ...{
    kind: 'cooler',
    id: 'COL-REED',
    name: 'Reed 120',
    sockets: ['AM4', 'AM5'],
    heightMm: 140,
    ratedW: 150,
  },
}

/** The machine with a cooler that goes onto either socket, in a case of which all is known. */
const ready = (part: Part): Part =>
  part.kind === 'case' ? { ...part, frontPlugs: [...FRONT], coolerRoomMm: 160 } : part

const platform: readonly Part[] = [
  {
    ...{ kind: 'board', id: 'BRD-SPAN', name: 'Span B650', socket: 'AM5', chipset: 'B650', form: 'microATX' },
    ...{
      memoryType: 'DDR5',
      memorySlots: 4,
      memoryMaxGB: 128,
      memoryPerSlotMaxGB: 32,
      memoryRateMtsMax: 6000,
    },
    ...{ slotPcieGen: 4, slotLanes: 16, processorPowerW: 120 },
    frontHeaders: [...FRONT],
  },
  {
    ...{ kind: 'memory', id: 'MEM-D5', name: 'Chalk 32 GB kit', memoryType: 'DDR5', form: 'DIMM' },
    ...{ modules: 2, moduleGB: 16, rateMts: 5200 },
  },
]

const onPlatform = {
  ...{ processorId: 'CPU-EGRET6', cardId: 'CRD-PEBBLE4', link: { gen: 3, lanes: 16 } },
  memory: { memoryType: 'DDR5', rateMts: 5200, channels: 2, totalGB: 32 },
} as const

/** No card on the shelf; a platform above the budget was run and brings most for the money. */
export const save: AnswerInputs = {
  ...withQuestion({ words: 'What would make everything faster? I have $120.', budgetMinor: 12000 }),
  machine: { ...inputs.machine, build: buildOf([...partsOf(inputs.machine.build).map(ready), COOLER]) },
  parts: [...inputs.parts.map(ready), COOLER, ...platform],
  shelf: [
    ...inputs.shelf.filter(({ id }) => id === 'S-7'),
    onShelf('S-20', 'BRD-SPAN', 11900),
    onShelf('S-21', 'MEM-D5', 8900),
  ],
  work: [
    ...inputs.work,
    { work: 'fit board', minutes: 90, priceMinor: 6000 },
    { work: 'remove old modules', minutes: 5, priceMinor: 0 },
    { work: 'activate system', minutes: 10, priceMinor: 0 },
  ],
  runs: [
    ...runs,
    ...runs
      .filter(({ id }) => id.startsWith('R-today'))
      .map(({ machineTag: _, ...run }, i) => ({
        ...{ ...run, id: `R-span-${i + 1}`, fitted: onPlatform },
        averageFps: run.averageFps * 1.6,
      })),
  ],
}

const M2 = { name: 'M2_1', key: 'M', lengthsMm: [42, 60, 80], pcieGen: 3, lanes: 4, sata: true } as const

/** The machine with these places for drives on its board, and two bays in its case. */
const withPlaces = (part: Part): Part =>
  part.kind === 'board'
    ? { ...part, sataPorts: 4, m2Sockets: [M2] }
    : part.kind === 'case'
      ? { ...part, bays25: 2, bays35: 1 }
      : part.kind === 'supply'
        ? { ...part, sataPlugs: 4 }
        : part

const drive = (id: string, name: string, rest: Partial<Extract<Part, { kind: 'drive' }>>): Part => ({
  ...{ kind: 'drive', id, name },
  ...rest,
})

/** Drives that go in, one that does not, and one of which nobody wrote down how much goes onto it. */
export const space: AnswerInputs = {
  ...withQuestion({
    words: 'My drive is full, and Lantern Coast stutters.',
    wishes: ['more space'],
    spaceGB: 1500,
  }),
  machine: { ...inputs.machine, build: buildOf(partsOf(inputs.machine.build).map(withPlaces)) },
  parts: [
    ...inputs.parts.map(withPlaces),
    drive('DRV-S1', 'Trunk 1 TB', { form: '2.5-inch', interface: 'SATA', capacityGB: 1000 }),
    drive('DRV-M2', 'Dart 2 TB', {
      form: 'M.2',
      interface: 'PCIe',
      m2Key: 'M',
      lengthMm: 80,
      pcieGen: 4,
      pcieLanes: 4,
      capacityGB: 2000,
    }),
    drive('DRV-LONG', 'Dart 4 TB', {
      form: 'M.2',
      interface: 'PCIe',
      m2Key: 'M',
      lengthMm: 110,
      pcieGen: 4,
      pcieLanes: 4,
      capacityGB: 4000,
    }),
    drive('DRV-OLD', 'Attic', { form: '2.5-inch', interface: 'SATA' }),
  ],
  shelf: [
    ...inputs.shelf,
    onShelf('S-30', 'DRV-S1', 5900),
    onShelf('S-31', 'DRV-M2', 10900),
    onShelf('S-32', 'DRV-LONG', 21900),
    onShelf('S-33', 'DRV-OLD', 1500),
  ],
  work: [...inputs.work, { work: 'fit drive', minutes: 15, priceMinor: 1000 }],
}

const of = (name: string, from: AnswerInputs): PageState => ({
  name,
  path: '/questions/Q-0007',
  inputs: from,
})

/** Pages and letters of these questions. */
export const LATER_STATES: readonly PageState[] = [
  of('question-quiet', quiet),
  of('question-wait', wait),
  of('question-save', save),
  of('question-space', space),
]
