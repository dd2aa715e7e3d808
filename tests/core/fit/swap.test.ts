import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import type { Finding, RuleId } from '../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Claim, LimitValues } from '../../../src/core/limits/limit.ts'
import type {
  Board,
  Case,
  Cooler,
  Drive,
  Fan,
  GraphicsCard,
  M2Socket,
  MemoryKit,
  Part,
  Processor,
  Supply,
} from '../../../src/core/part.ts'
import { change, policy } from './bench.ts'
import { ON_A_NEW_BOARD } from './swapRules.ts'

// A whole machine whose board and processor are changed while everything else stays. Parts are invented; sockets,
// chipsets, generations and rates are those of Intel's and AMD's product pages.

const processor: Processor = {
  ...{ kind: 'processor', id: 'CPU-OLD', name: 'Old processor', socket: 'LGA1200', cores: 6 },
  ...{ generation: '10th (Comet Lake)', processorClass: 'i5', limitPowerW: 134, integratedGraphics: false },
}
const board: Board = {
  ...{
    kind: 'board',
    id: 'BRD-OLD',
    name: 'Old board',
    socket: 'LGA1200',
    chipset: 'H470',
    form: 'microATX',
  },
  ...{ memoryType: 'DDR4', memorySlots: 4, memoryMaxGB: 128, memoryPerSlotMaxGB: 32, processorPowerW: 150 },
  ...{ slotPcieGen: 3, slotLanes: 16, sataPorts: 4, frontHeaders: ['USB 2.0', 'HD audio'] },
  m2Sockets: [{ name: 'M2_1', key: 'M', lengthsMm: [80], pcieGen: 3, lanes: 4, sata: true }],
}
const kit: MemoryKit = {
  ...{ kind: 'memory', id: 'MEM-A', name: 'First kit', memoryType: 'DDR4', form: 'DIMM' },
  ...{ modules: 2, moduleGB: 8, rateMts: 3200, ranks: 1 },
}
const card: GraphicsCard = {
  ...{ kind: 'card', id: 'CARD', name: 'Old card', lengthMm: 200, thicknessMm: 40, memoryGB: 8 },
  ...{ boardPowerW: 130, plugs: { pin6: 0, pin8: 1, pin16: 0 }, pcieGen: 4, pcieLanes: 8 },
  wantsLargeBar: true,
}
const supply: Supply = {
  ...{ kind: 'supply', id: 'PSU', name: 'Old supply', form: 'ATX', ratedW: 650, rail12VW: 624 },
  ...{ plugs: { pin6: 0, pin8: 2, pin16: 0 }, processorPlug: '4-pin', sataPlugs: 4, lengthMm: 140 },
}
const tower: Case = {
  ...{ kind: 'case', id: 'CASE', name: 'Old case', cardRoomMm: 300, coolerRoomMm: 160, cardSlots: 4 },
  ...{ boardForms: ['microATX', 'Mini-ITX'], supplyForms: ['ATX'], bays25: 2, bays35: 2 },
  ...{ frontPlugs: ['USB 2.0', 'HD audio'], fanPlaces: [{ place: 'front', sizeMm: 120, count: 2 }] },
}
const cooler: Cooler = {
  ...{ kind: 'cooler', id: 'COOL', name: 'Old cooler', sockets: ['LGA1200', 'LGA1700'], heightMm: 150 },
  ratedW: 250,
}
const fan: Fan = { kind: 'fan', id: 'FAN', name: 'Old fan', sizeMm: 120 }
const flat: Drive = {
  ...{ kind: 'drive', id: 'DRV-M2', name: 'Flat drive', form: 'M.2', capacityGB: 500, interface: 'PCIe' },
  ...{ m2Key: 'M', lengthMm: 80, pcieGen: 3, pcieLanes: 4 },
}
const disk: Drive = {
  ...{ kind: 'drive', id: 'DRV-SATA', name: 'Small drive', form: '2.5-inch', capacityGB: 1000 },
  interface: 'SATA',
}
const kept: readonly Part[] = [kit, card, supply, tower, cooler, fan, flat, disk]

/** A board that takes everything of the machine. */
const newBoard: Board = {
  ...{
    kind: 'board',
    id: 'BRD-NEW',
    name: 'New board',
    socket: 'LGA1700',
    chipset: 'B660',
    form: 'microATX',
  },
  ...{ memoryType: 'DDR4', memorySlots: 4, memoryMaxGB: 128, memoryPerSlotMaxGB: 32, processorPowerW: 250 },
  ...{ memoryRateMtsMax: 4600, slotPcieGen: 4, slotLanes: 16, largeBar: true, sataPorts: 4 },
  ...{ frontHeaders: ['USB 2.0', 'HD audio'], firmwareByGeneration: { '12th (Alder Lake)': '1.00' } },
  m2Sockets: [{ name: 'M2_1', key: 'M', lengthsMm: [80], pcieGen: 4, lanes: 4, sata: false }],
}
/** An M.2 socket that takes lanes from the card and a SATA port from the board. */
const taking: M2Socket = {
  ...{ name: 'M2_1', key: 'M', lengthsMm: [80], pcieGen: 4, lanes: 4, sata: false },
  ...{ sharesSlot: true, sataPortsOff: ['SATA_4'] },
}
const newProcessor: Processor = {
  ...{ kind: 'processor', id: 'CPU-NEW', name: 'New processor', socket: 'LGA1700', cores: 6 },
  ...{ generation: '12th (Alder Lake)', processorClass: 'i5', limitPowerW: 150, integratedGraphics: false },
}

type Ask = {
  readonly parts?: readonly Part[]
  readonly add?: readonly Part[]
  readonly out?: readonly string[]
  readonly work?: readonly string[]
  readonly claims?: readonly Claim[]
}
const judged = ({ parts = kept, add = [newBoard, newProcessor], out, work, claims = [] }: Ask) =>
  judgeChange(
    { tag: 'M-0001', build: buildOf([processor, board, ...parts]), claims, at: '2026-11-25T12:00:00.000Z' },
    change(add, out ?? [], work ?? []),
    policy,
  )
const found = (rule: RuleId, ask: Ask): Finding | undefined =>
  judged(ask).findings.find((f) => f.rule === rule)
const instead = (part: Part): readonly Part[] => kept.map((k) => (k.kind === part.kind ? part : k))
const said = <K extends keyof LimitValues>(key: K, value: LimitValues[K]): Claim =>
  ({ key, value, source: 'measured' }) as Claim

/**
 * Changes that give every rule something to say where it looks at the board at all: two kits, a card of few lanes, a
 * hungry processor, a case of a brand, an update in the job, a board whose slot shares lanes.
 */
const everything = (): ReadonlySet<RuleId> => {
  const hungry = { ...newProcessor, limitPowerW: 241 }
  const sharing: Board = { ...newBoard, slotLanesShared: 4, processorPowerW: 260, m2Sockets: [taking] }
  const second = { ...kit, id: 'MEM-B', name: 'Second kit' }
  const brand = [said('brandCase', 'yes')]
  const bare = kept.filter((p) => p.kind !== 'card')
  const asks: readonly Ask[] = [
    { add: [sharing, hungry], parts: [...kept, second] },
    { claims: brand },
    { add: [sharing, hungry], claims: [said('coolingLoad', { loadC: 75, roomC: 30, powerW: 65 })] },
    { work: ['firmware update'] },
    { parts: bare },
    { add: [sharing, hungry], parts: kept.filter((p) => p.kind !== 'drive') },
    { parts: instead({ ...kit, rateMts: 3600 }) },
  ]
  return new Set(asks.flatMap((ask) => judged(ask).findings.map((f) => f.rule)))
}

describe('a new board and processor with everything else kept', () => {
  test('these rules speak, and the others have a reason not to', () => {
    const speaks = Object.entries(ON_A_NEW_BOARD).filter(([, why]) => why === 'speaks')
    expect([...everything()].sort()).toEqual(speaks.map(([id]) => id).sort())
  })

  test('where all of it suits, the board fits; only the system has to be activated and the encryption paused', () => {
    const { verdict, findings } = judged({ claims: [said('firmware', '9.99')] })
    const firmware = findings.filter((f) => f.verdict === "can't tell")
    expect(firmware.map((f) => f.rule)).toEqual(['processor.firmware'])
    expect(verdict).toBe("can't tell")
    const works = findings.filter((f) => f.verdict === 'fits after work').map((f) => f.rule)
    expect(works).toEqual(['swap.licence', 'swap.encryption'])
  })

  test('the firmware of the new board is not that of the old one, whoever read it', () => {
    for (const source of ['read', 'measured', 'entered'] as const) {
      const claims: Claim[] = [{ key: 'firmware', value: '9.99', source, pinned: true }]
      expect(found('processor.firmware', { claims })).toMatchObject({
        verdict: "can't tell",
        missing: [{ limit: 'firmware' }],
      })
    }
  })
})

describe('what is wrong on the new board, and was not on the old one', () => {
  const other = (changed: Partial<Board>): Ask => ({ add: [{ ...newBoard, ...changed }, newProcessor] })

  // Each: the case, the rule that must speak, its verdict. Sources are those of the rules.
  test.each<[string, RuleId, Finding['verdict'], Ask]>([
    ['memory type', 'memory.generation', 'does not fit', other({ memoryType: 'DDR5' })],
    [
      'memory slots',
      'memory.slots',
      'does not fit',
      { ...other({ memorySlots: 2 }), parts: [...kept, { ...kit, id: 'MEM-B' }] },
    ],
    ['memory in all', 'memory.total', 'does not fit', other({ memoryMaxGB: 8 })],
    ['module size', 'memory.perSlot', "can't tell", other({ memoryPerSlotMaxGB: 4 })],
    [
      'two kits that ran together elsewhere',
      'memory.mixing',
      "can't tell",
      { ...other({}), parts: [...kept, { ...kit, id: 'MEM-B' }] },
    ],
    // Intel, 12th generation datasheet vol. 1: DDR4-3200; the board's page stops lower.
    ['rate', 'memory.rate', 'fits slower', other({ memoryRateMtsMax: 2666 })],
    ['card link', 'graphics.link', 'fits slower', other({ slotPcieGen: 3 })],
    ['card with few lanes', 'graphics.narrow', 'fits slower', other({ slotPcieGen: 3 })],
    ['large window', 'graphics.largeBar', 'fits slower', other({ largeBar: false })],
    [
      'a sharing slot that nobody looked into',
      'graphics.sharing',
      "can't tell",
      { ...other({ slotLanesShared: 4 }), parts: kept.filter((p) => p.kind !== 'drive') },
    ],
    [
      'a drive in the sharing slot',
      'storage.sharing',
      'fits slower',
      other({ slotLanesShared: 4, m2Sockets: [{ ...taking, sataPortsOff: [] }] }),
    ],
    [
      'a SATA port turned off beside a SATA drive',
      'storage.sharing',
      'fits after work',
      other({ slotLanesShared: 4, m2Sockets: [taking] }),
    ],
    ['M.2 drive, no socket', 'storage.m2', 'does not fit', other({ m2Sockets: [] })],
    [
      'M.2 drive, another length',
      'storage.m2',
      'does not fit',
      other({ m2Sockets: [{ ...taking, lengthsMm: [42] }] }),
    ],
    ['M.2 drive, list not known', 'storage.m2', "can't tell", other({ m2Sockets: undefined })],
    [
      'M.2 drive, slower socket',
      'storage.link',
      'fits slower',
      other({ m2Sockets: [{ ...taking, lanes: 2 }] }),
    ],
    ['SATA ports', 'storage.ports', 'does not fit', other({ sataPorts: 0 })],
    ['SATA ports, not counted', 'storage.ports', "can't tell", other({ sataPorts: undefined })],
    [
      'the only SATA port is turned off by the M.2 drive',
      'storage.ports',
      'does not fit',
      other({ sataPorts: 1, m2Sockets: [taking] }),
    ],
    ['front panel', 'case.frontPanel', 'fits slower', other({ frontHeaders: ['USB 2.0'] })],
    ['front panel, not known', 'case.frontPanel', "can't tell", other({ frontHeaders: undefined })],
    ['board power', 'processor.boardPower', 'fits slower', other({ processorPowerW: 125 })],
    // ATX12V design guide: two contacts of 8 A at 12 V carry 192 W.
    [
      '4-pin processor plug',
      'processor.plug',
      'fits after work',
      { add: [newBoard, { ...newProcessor, limitPowerW: 241 }] },
    ],
    [
      'cooler mount',
      'cooling.mount',
      'fits after work',
      { ...other({}), parts: instead({ ...cooler, sockets: ['LGA1200'] }) },
    ],
    ['case form', 'case.board', 'does not fit', other({ form: 'ATX' })],
    ['brand case, posts', 'office.mounting', "can't tell", { claims: [said('brandCase', 'yes')] }],
    ['brand case, main plug', 'office.boardPlug', "can't tell", { claims: [said('brandCase', 'yes')] }],
    [
      'brand case with its own plug',
      'office.boardPlug',
      'fits after work',
      { claims: [said('brandCase', 'yes'), said('supplyBoardPlug', 'own')] },
    ],
    ['no picture', 'processor.picture', 'does not fit', { parts: kept.filter((p) => p.kind !== 'card') }],
    ['socket', 'processor.socket', 'does not fit', { add: [newBoard] }],
  ])('%s: %s %s', (_, rule, verdict, ask) => {
    expect(found(rule, ask)?.verdict).toBe(verdict)
  })

  test('a picture that nobody misses: the board alone is changed, the processor has no graphics, no card is in', () => {
    const same = { ...newBoard, socket: 'LGA1200', chipset: 'H470' }
    const parts = kept.filter((p) => p.kind !== 'card')
    expect(found('processor.picture', { add: [same], parts })?.verdict).toBe('does not fit')
  })
})

describe('licence of the system', () => {
  test.each([
    ['moves', 'fits after work', [{ work: 'activate system' }]],
    ['tied to the board', 'fits after work', [{ work: 'new system licence' }]],
    ['none', 'fits', []],
    [undefined, 'fits after work', [{ work: 'activate system' }]],
  ] as const)('%s: %s', (licence, verdict, needs) => {
    const claims = licence === undefined ? [] : [said('systemLicence', licence)]
    expect(found('swap.licence', { claims })).toMatchObject({ verdict, needs })
  })

  test('says that nobody knows, and stays silent while the board stays', () => {
    expect(found('swap.licence', {})?.values).toEqual({ licence: 'not known' })
    expect(found('swap.licence', { add: [{ ...processor, id: 'CPU-TWIN' }] })).toBeUndefined()
    expect(found('swap.licence', { add: [], work: ['firmware update'] })).toBeUndefined()
  })
})

describe('encryption of the drive', () => {
  test.each([
    ['yes', 'fits after work', [{ work: 'pause encryption' }], ['backup', 'recovery-key']],
    [undefined, 'fits after work', [{ work: 'pause encryption' }], ['backup', 'recovery-key']],
    ['no', 'fits', [], []],
  ] as const)(
    '%s: %s before a new board and before a firmware update',
    (encrypted, verdict, needs, cautions) => {
      const claims = encrypted === undefined ? [] : [said('diskEncrypted', encrypted)]
      expect(found('swap.encryption', { claims })).toMatchObject({ verdict, needs, cautions })
      expect(found('swap.encryption', { claims, add: [], work: ['firmware update'] })).toMatchObject({
        ...{ verdict, needs, cautions },
        values: { before: 'firmware update' },
      })
    },
  )

  test('an update that the processor asks for counts, an update that nobody needs does not', () => {
    const newer: Processor = { ...processor, id: 'CPU-11', generation: '11th (Rocket Lake)' }
    const listing = { ...board, firmwareByGeneration: { '11th (Rocket Lake)': '1.60' } }
    const parts = [...kept, listing]
    const ask = (have: string): Ask => ({ parts, add: [newer], claims: [said('firmware', have)] })
    expect(found('swap.encryption', ask('1.20'))?.verdict).toBe('fits after work')
    expect(found('swap.encryption', ask('1.60'))).toBeUndefined()
    expect(found('swap.encryption', { add: [{ ...kit, id: 'MEM-C' }], out: ['MEM-A'] })).toBeUndefined()
  })
})
