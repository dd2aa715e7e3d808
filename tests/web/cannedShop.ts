import type { AnswerInputs, Customer, Shop } from '../../src/core/answer.ts'
import { buildOf } from '../../src/core/build.ts'
import { excerptOf, fitModel } from '../../src/core/gain/model/index.ts'
import type { Run, Setting, Title } from '../../src/core/gain/run.ts'
import type { Machine } from '../../src/core/machine.ts'
import type { Part } from '../../src/core/part.ts'
import type { Question } from '../../src/core/question.ts'
import type { ShelfItem, WorkPrice } from '../../src/core/shop.ts'

/**
 * An invented shop with one machine and one question, small enough to read: people, parts, titles, prices and runs
 * are made up for these tests; sockets, chipsets and generations are real, because rules look them up.
 */
export const NOW = '2026-06-12T15:00:00.000Z'

export const shop: Shop = {
  name: 'Larkfield Benchworks',
  address: '2 Weir Lane, Larkfield',
  email: 'bench@example.com',
  builder: 'Odile Marsh',
  locale: 'en-US',
  timeZone: 'America/Chicago',
  policy: {
    currency: 'USD',
    supplyShare: 0.8,
    restOfMachineW: 50,
    supplyFullYears: 5,
    supplyLossPctPerYear: 2,
    coolingMarginC: 5,
    smallestGainPct: 5,
    runWindowDays: 400,
    priceValidDays: 14,
  },
}

export const owner: Customer = { id: 'CU-1', name: 'Imre Vale', email: 'imre.vale@example.org' }

const fitted: Part[] = [
  {
    kind: 'processor',
    id: 'CPU-TEAL6',
    name: 'Teal 6',
    socket: 'AM4',
    generation: 'Ryzen 3000 (Zen 2)',
    cores: 6,
    limitPowerW: 88,
    integratedGraphics: false,
  },
  {
    kind: 'board',
    id: 'BRD-ANVIL',
    name: 'Anvil B450',
    socket: 'AM4',
    chipset: 'B450',
    form: 'microATX',
    memoryType: 'DDR4',
    memorySlots: 4,
    memoryMaxGB: 64,
    memoryPerSlotMaxGB: 16,
    memoryRateMtsMax: 3200,
    slotPcieGen: 3,
    slotLanes: 16,
    processorPowerW: 105,
    firmwareByGeneration: { 'Ryzen 3000 (Zen 2)': '3.20', 'Ryzen 5000 (Zen 3)': '4.60' },
  },
  {
    kind: 'memory',
    id: 'MEM-8',
    name: 'Slate 8 GB stick',
    memoryType: 'DDR4',
    form: 'DIMM',
    modules: 1,
    moduleGB: 8,
    rateMts: 3200,
  },
  {
    kind: 'card',
    id: 'CRD-PEBBLE4',
    name: 'Pebble 4G',
    lengthMm: 200,
    thicknessMm: 38,
    memoryGB: 4,
    boardPowerW: 120,
    plugs: { pin6: 1, pin8: 0, pin16: 0 },
    pcieGen: 3,
    pcieLanes: 16,
  },
  {
    kind: 'supply',
    id: 'SUP-450',
    name: 'Bellows 450',
    form: 'ATX',
    ratedW: 450,
    rail12VW: 420,
    plugs: { pin6: 1, pin8: 1, pin16: 0 },
  },
  {
    kind: 'case',
    id: 'CAS-CRATE',
    name: 'Crate M',
    boardForms: ['microATX', 'Mini-ITX'],
    supplyForms: ['ATX'],
    cardRoomMm: 310,
    cardSlots: 4,
  },
]

const forSale: Part[] = [
  {
    kind: 'card',
    id: 'CRD-FLINT8',
    name: 'Flint 8G',
    lengthMm: 240,
    thicknessMm: 40,
    memoryGB: 8,
    boardPowerW: 132,
    plugs: { pin6: 0, pin8: 1, pin16: 0 },
    pcieGen: 4,
    pcieLanes: 8,
  },
  {
    kind: 'card',
    id: 'CRD-CLIFF16',
    name: 'Cliff 16G',
    lengthMm: 320,
    thicknessMm: 58,
    memoryGB: 16,
    boardPowerW: 300,
    plugs: { pin6: 0, pin8: 3, pin16: 0 },
    pcieGen: 4,
    pcieLanes: 16,
  },
  { kind: 'card', id: 'CRD-SHALE', name: 'Shale 6G', memoryGB: 6, pcieGen: 4, pcieLanes: 16 },
  {
    kind: 'card',
    id: 'CRD-GRIT6',
    name: 'Grit 6G',
    lengthMm: 220,
    thicknessMm: 38,
    memoryGB: 6,
    boardPowerW: 115,
    plugs: { pin6: 0, pin8: 1, pin16: 0 },
    pcieGen: 4,
    pcieLanes: 8,
  },
  {
    kind: 'processor',
    id: 'CPU-HERON8',
    name: 'Heron 8',
    socket: 'AM4',
    generation: 'Ryzen 5000 (Zen 3)',
    cores: 8,
    limitPowerW: 76,
    integratedGraphics: false,
  },
  {
    kind: 'processor',
    id: 'CPU-EGRET6',
    name: 'Egret 6',
    socket: 'AM5',
    generation: 'Ryzen 7000 (Zen 4)',
    cores: 6,
    limitPowerW: 88,
    integratedGraphics: true,
  },
]

export const parts: Part[] = [...fitted, ...forSale]

const at = '2026-06-01T17:00:00.000Z'
export const shelf: ShelfItem[] = [
  {
    id: 'S-1',
    partId: 'CRD-FLINT8',
    condition: 'used',
    quantity: 1,
    priceMinor: 12900,
    warrantyMonths: 6,
    at,
    note: 'one scratch on the shroud',
  },
  { id: 'S-2', partId: 'MEM-8', condition: 'new', quantity: 4, priceMinor: 2150, at },
  { id: 'S-3', partId: 'CPU-HERON8', condition: 'used', quantity: 1, priceMinor: 9400, at },
  { id: 'S-4', partId: 'CRD-CLIFF16', condition: 'open box', quantity: 1, priceMinor: 31000, at },
  { id: 'S-5', partId: 'CRD-SHALE', condition: 'used', quantity: 2, priceMinor: 9900, at },
  { id: 'S-6', partId: 'CRD-GRIT6', condition: 'new', quantity: 1, priceMinor: 11900, at },
  { id: 'S-7', partId: 'CPU-EGRET6', condition: 'new', quantity: 1, priceMinor: 18900, at },
]

const work: WorkPrice[] = [
  { work: 'opening', minutes: 10, priceMinor: 1500 },
  { work: 'fit card', minutes: 10, priceMinor: 800 },
  { work: 'fit memory', minutes: 5, priceMinor: 500 },
  { work: 'fit processor', minutes: 30, priceMinor: 2000 },
  { work: 'firmware update', minutes: 20, priceMinor: 1500 },
  { work: 'pause encryption', minutes: 5, priceMinor: 0 },
]

export const titles: Title[] = [
  { id: 'lantern', name: 'Lantern Coast' },
  { id: 'quarrymen', name: 'The Quarrymen' },
  { id: 'hollow', name: 'Hollow Season' },
]

export const settings: Setting[] = [
  {
    id: '1080-high',
    widthPx: 1920,
    heightPx: 1080,
    preset: 'high',
    rayTracing: false,
    frameGeneration: false,
  },
  {
    id: '1440-ultra',
    widthPx: 2560,
    heightPx: 1440,
    preset: 'ultra',
    rayTracing: true,
    upscaler: 'quality',
    frameGeneration: false,
    capFps: 120,
  },
]

const today = {
  processorId: 'CPU-TEAL6',
  cardId: 'CRD-PEBBLE4',
  memory: { memoryType: 'DDR4', rateMts: 3200, channels: 1, totalGB: 8 },
  link: { gen: 3, lanes: 16 },
} as const
const twoSticks = { ...today.memory, channels: 2, totalGB: 16 }
const flint = { ...today, cardId: 'CRD-FLINT8', link: { gen: 3, lanes: 8 } }

type Frames = readonly [lantern: number, quarrymen: number, hollow: number]

const runsOf = (prefix: string, what: Run['fitted'], frames: Frames, machineTag?: string): Run[] =>
  titles.map((title, i) => ({
    id: `${prefix}-${i + 1}`,
    at: `2026-05-${10 + i}T16:00:00.000Z`,
    fitted: what,
    titleId: title.id,
    titleVersion: '1.4',
    settingId: '1080-high',
    averageFps: frames[i] ?? 0,
    low1Fps: (frames[i] ?? 0) * 0.7,
    ...(machineTag !== undefined && { machineTag }),
  }))

export const runs: Run[] = [
  ...runsOf('R-today', today, [47.2, 88.4, 39.6], 'T-0007'),
  ...runsOf('R-stick', { ...today, memory: twoSticks }, [51.1, 96.3, 42.8]),
  ...runsOf('R-flint', flint, [68.5, 90.1, 59.4]),
  ...runsOf('R-heron', { ...flint, processorId: 'CPU-HERON8' }, [74.8, 121.5, 66.1]),
  ...runsOf('R-both', { ...flint, memory: twoSticks }, [73.9, 98.7, 64.2]),
]

export const machine: Machine = {
  tag: 'T-0007',
  build: buildOf(fitted),
  claims: [
    {
      key: 'cardRoomMm',
      value: 284,
      source: 'measured',
      at: '2025-09-02T17:00:00.000Z',
      note: 'front fan in',
    },
    { key: 'firmware', value: '3.40', source: 'read', at: '2025-09-02T17:00:00.000Z' },
  ],
}

export const question: Question = {
  id: 'Q-0007',
  machineTag: 'T-0007',
  words: 'My evenings are Lantern Coast now. Can it get to 60, for about $180?',
  askedAt: '2026-06-10T15:00:00.000Z',
  wanted: [
    { titleId: 'lantern', settingId: '1080-high', weight: 2 },
    { titleId: 'quarrymen', settingId: '1080-high', weight: 1 },
    { titleId: 'hollow', settingId: '1080-high', weight: 1 },
  ],
  display: { widthPx: 1920, heightPx: 1080, refreshHz: 75 },
  targetFps: 60,
  budgetMinor: 18000,
  wishes: ['keep the case'],
}

export const inputs: AnswerInputs = {
  shop,
  customer: owner,
  machine,
  question,
  parts,
  shelf,
  work,
  tradeIns: [{ partId: 'CRD-PEBBLE4', creditMinor: 2500, at }],
  titles,
  settings,
  runs,
}

/** These inputs with the piece of the gain model that they need, fitted to their own runs. */
export function withModel(from: AnswerInputs): AnswerInputs {
  const { runs, titles, settings, parts, shop } = from
  const fit = fitModel({ runs, titles, settings, parts, policy: shop.policy, at: NOW })
  const wanted = from.question.wanted.map(({ titleId, settingId }) => ({ titleId, settingId }))
  return { ...from, gain: excerptOf(fit, { wanted, partIds: parts.map(({ id }) => id) }) }
}
