import type { Build, Change } from '../../../src/core/build.ts'
import { applyChange, buildOf } from '../../../src/core/build.ts'
import type { Finding, RuleId } from '../../../src/core/fit/finding.ts'
import { judge } from '../../../src/core/fit/rule.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import { type Situation, situationOf } from '../../../src/core/fit/situation.ts'
import type { LimitKey, Limits, LimitValues } from '../../../src/core/limits/limit.ts'
import type {
  Board,
  Case,
  Cooler,
  GraphicsCard,
  MemoryKit,
  Part,
  Processor,
  Supply,
} from '../../../src/core/part.ts'
import type { ShopPolicy } from '../../../src/core/shop.ts'

/** An invented machine for rule tests; sockets, chipset and generations are real. */
export const processor: Processor = {
  ...{ kind: 'processor', id: 'CPU-OLD', name: 'Old processor', socket: 'LGA1200', cores: 4 },
  ...{ generation: '10th (Comet Lake)', processorClass: 'i3', limitPowerW: 90, integratedGraphics: false },
}
export const board: Board = {
  ...{
    kind: 'board',
    id: 'BRD-OLD',
    name: 'Old board',
    socket: 'LGA1200',
    chipset: 'H470',
    form: 'microATX',
  },
  ...{ memoryType: 'DDR4', memorySlots: 4, memoryMaxGB: 128, memoryPerSlotMaxGB: 32, processorPowerW: 125 },
}
export const kit: MemoryKit = {
  ...{ kind: 'memory', id: 'MEM-OLD', name: 'Old kit', memoryType: 'DDR4', form: 'DIMM' },
  ...{ modules: 2, moduleGB: 8, rateMts: 2666 },
}
export const card: GraphicsCard = {
  ...{ kind: 'card', id: 'CARD-OLD', name: 'Old card', lengthMm: 200, thicknessMm: 40, memoryGB: 6 },
  ...{ boardPowerW: 120, plugs: { pin6: 0, pin8: 1, pin16: 0 }, pcieGen: 3, pcieLanes: 16 },
}
export const supply: Supply = {
  ...{ kind: 'supply', id: 'PSU-OLD', name: 'Old supply', form: 'ATX', ratedW: 550, rail12VW: 500 },
  plugs: { pin6: 0, pin8: 2, pin16: 0 },
}
export const tower: Case = {
  ...{ kind: 'case', id: 'CASE-OLD', name: 'Old case', cardRoomMm: 300, coolerRoomMm: 160, cardSlots: 4 },
  ...{ boardForms: ['microATX', 'Mini-ITX'], supplyForms: ['ATX'] },
}
export const cooler: Cooler = {
  ...{ kind: 'cooler', id: 'COOL-OLD', name: 'Old cooler', sockets: ['LGA1200', 'LGA1151'] },
  ...{ heightMm: 150, ratedW: 130 },
}
export const machine: Build = buildOf([processor, board, kit, card, supply, tower, cooler])

export const policy: ShopPolicy = {
  ...{ currency: 'USD', supplyShare: 0.8, restOfMachineW: 50, smallestGainPct: 5 },
  ...{ runWindowDays: 400, priceValidDays: 14 },
  ...{ supplyFullYears: 5, supplyLossPctPerYear: 2, coolingMarginC: 5 },
}

/** Limits of the invented machine, all known. */
export const LIMIT_VALUES: LimitValues = {
  ...{ socket: 'LGA1200', chipset: 'H470', family: '400 series', generationSupport: 'native' },
  ...{ firmware: '1.60', firmwareNeeded: '1.20', processorPowerW: 125, memoryType: 'DDR4', memorySlots: 4 },
  ...{ memoryMaxGB: 128, memoryPerSlotMaxGB: 32, controllerRateMts: 2666, boardRateMts: 2666 },
  ...{ memoryRunsMts: 2666, slotPcieGen: 3, slotLanes: 16, processorPcieGen: 3, processorPcieLanes: 16 },
  ...{
    memoryListedMaxGB: 1,
    memoryOverclock: 'no',
    slotLanesShared: 16,
    sharedM2Used: 'no',
    largeBar: 'yes',
    largeBarOn: 'no',
    processorSetW: 100,
    cardSetW: 100,
  },
  ...{
    cardSlots: 4,
    cardBracket: 'full height',
    processorPlug: '8-pin',
    displaySocket: 'HDMI',
    systemBits: 64,
  },
  ...{ cardRoomMm: 300, coolerRoomMm: 160, supplyRatedW: 550, supply12VW: 500 },
  supplyPlugs: { pin6: 0, pin8: 2, pin16: 0 },
  ...{ memoryProfileOn: 'no', modulesInBothChannels: 'yes', displayPluggedInto: 'card', coolingClean: 'yes' },
  ...{ frontFanFitted: 'yes', driversClean: 'yes', systemFresh: 'yes', systemOnFastestDrive: 'yes' },
  ...{ brandBoard: 'no', brandCase: 'no', boardSupplyPlug: 'ATX 24-pin', supplyBoardPlug: 'ATX 24-pin' },
  ...{ boardShape: 'standard', caseBoardMounting: 'standard', caseSupplyMounting: 'standard' },
  ...{ slotPowerW: 75, firmwareAllowList: 'no', supplyRoomMm: 200 },
  ...{ supplyDesignVersion: 'ATX 3.0', supplyYear: 2025, pin16W: 600, cardCables: 2, sataPlugs: 4 },
  ...{ sataPorts: 4, bays25: 2, bays35: 2, cardRoomFreeMm: 325, supplyAndCardMm: 600 },
  ...{ coolingLoad: { loadC: 75, roomC: 30, powerW: 65 }, processorMaxC: 100, systemLicence: 'moves' },
  ...{ diskEncrypted: 'no', trustModule: '2.0', secureStart: 'yes' },
}

export const LIMIT_KEYS = Object.keys(LIMIT_VALUES) as LimitKey[]

const known = <K extends LimitKey>(key: K, value: LimitValues[K]) => {
  const by = { key, value, source: 'entered' } as const
  return { known: true, value, by, conflicts: [] }
}

/** Limits of the invented machine with some values changed and some not known. */
export function limits(
  changed: Partial<LimitValues> = {},
  unknown: readonly LimitKey[] = [],
  doubt?: string,
): Limits {
  const values = { ...LIMIT_VALUES, ...changed }
  const entries = LIMIT_KEYS.map((key) => [
    key,
    unknown.includes(key) ? { known: false, doubt, claims: [] } : known(key, values[key]),
  ])
  return Object.fromEntries(entries) as Limits
}

export const change = (
  add: readonly Part[],
  removeIds: readonly string[] = [],
  work: readonly string[] = [],
): Change => ({ add, removeIds, work })

export const situation = (c: Change, before: Build = machine, shop: ShopPolicy = policy): Situation =>
  situationOf({ before, after: applyChange(before, c), change: c, policy: shop })

/** What one rule says when these parts go in; `undefined` when the rule is silent. */
export function says(
  id: RuleId,
  ask: {
    add?: readonly Part[]
    out?: readonly string[]
    work?: readonly string[]
    makesRoom?: true | undefined
    before?: Build
    limits?: Limits
    policy?: ShopPolicy
    /** The day of judging. */
    at?: string
  },
): Finding | undefined {
  const rule = RULES.find((r) => r.id === id)
  if (rule === undefined) throw new Error(`no rule ${id}`)
  const plain = situation(
    change(ask.add ?? [], ask.out ?? [], ask.work),
    ask.before ?? machine,
    ask.policy ?? policy,
  )
  const s = ask.at === undefined ? plain : { ...plain, at: ask.at }
  return judge(rule, ask.makesRoom === true ? { ...s, makesRoom: true } : s, ask.limits ?? limits())
}
