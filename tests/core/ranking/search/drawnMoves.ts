import fc from 'fast-check'
import type { Move, Moves } from '../../../../src/core/fit/compiled.ts'
import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { Machine } from '../../../../src/core/machine.ts'
import type { Part, PartKind } from '../../../../src/core/part.ts'
import { board, card, cooler, machine as fitted, kit, processor, supply, tower } from '../../fit/bench.ts'

/*
 * Invented parts around the invented machine of the rule tests, on both sides of the edges of its limits, with gaps; sockets,
 * chipsets and generations are real.
 */
const some = <T>(...values: T[]) => fc.constantFrom(...values)
type Over = Readonly<Record<string, unknown>>
const over = (fields: Readonly<Record<string, readonly unknown[]>>): fc.Arbitrary<Over> =>
  fc
    .record(Object.fromEntries(Object.entries(fields).map(([name, values]) => [name, some(...values)])))
    .map((all) => all as Over)

const like = (part: Part, fields: Readonly<Record<string, readonly unknown[]>>) =>
  over(fields).map((changed) => (id: string) => {
    const all = Object.entries({ ...part, ...changed, id, name: id })
    return Object.fromEntries(all.filter(([, value]) => value !== undefined)) as unknown as Part
  })

const DRAWN: { readonly [K in PartKind]: fc.Arbitrary<(id: string) => Part> } = {
  processor: like(processor, {
    socket: ['LGA1200', 'LGA1200', 'LGA1700'],
    generation: ['10th (Comet Lake)', '11th (Rocket Lake)', '12th (Alder Lake)', undefined],
    limitPowerW: [65, 125, 126, 250, undefined],
    integratedGraphics: [true, false],
  }),
  board: like(board, {
    socket: ['LGA1200', 'LGA1700'],
    chipset: ['H470', 'Z490', 'B660', undefined],
    form: ['ATX', 'microATX', 'Mini-ITX', undefined],
    memoryType: ['DDR4', 'DDR5', undefined],
    memorySlots: [2, 4, undefined],
    processorPowerW: [90, 125, 250, undefined],
    slotPcieGen: [3, 4, undefined],
    slotLanes: [8, 16, undefined],
    sataPorts: [2, 4],
    firmwareByGeneration: [undefined, { '10th (Comet Lake)': '1.00', '11th (Rocket Lake)': '1.60' }],
  }),
  memory: like(kit, {
    memoryType: ['DDR4', 'DDR4', 'DDR5'],
    modules: [1, 2, 4, undefined],
    moduleGB: [8, 16, 64],
    rateMts: [2666, 3200, undefined],
    heightMm: [31.25, 45, undefined],
  }),
  card: like(card, {
    lengthMm: [200, 300, 301, 340, undefined],
    thicknessMm: [40, 60, 90],
    boardPowerW: [75, 120, 250, 450, undefined],
    plugs: [
      { pin6: 0, pin8: 0, pin16: 0 },
      { pin6: 0, pin8: 2, pin16: 0 },
      { pin6: 0, pin8: 0, pin16: 1 },
      undefined,
    ],
    pcieGen: [3, 4, 5],
    pcieLanes: [4, 8, 16],
    wantsLargeBar: [true, undefined],
    bracket: ['full height', 'low profile', undefined],
  }),
  supply: like(supply, {
    form: ['ATX', 'SFX', undefined],
    ratedW: [300, 550, 850],
    rail12VW: [250, 500, 800, undefined],
    processorPlug: ['4-pin', '8-pin', undefined],
    plugs: [{ pin6: 0, pin8: 1, pin16: 0 }, { pin6: 0, pin8: 4, pin16: 1 }, undefined],
    lengthMm: [140, 180, undefined],
    sataPlugs: [1, 4, undefined],
  }),
  case: like(tower, {
    boardForms: [['Mini-ITX'], ['ATX', 'microATX', 'Mini-ITX'], undefined],
    supplyForms: [['ATX'], ['SFX'], ['ATX', 'SFX']],
    cardRoomMm: [220, 300, 400, undefined],
    coolerRoomMm: [140, 160, 170, undefined],
    cardSlots: [2, 4],
    supplyAndCardMm: [undefined, 420],
    radiatorPlaces: [undefined, [{ place: 'front', sizeMm: 240 }]],
    bays25: [0, 2, undefined],
  }),
  cooler: like(cooler, {
    sockets: [['LGA1200'], ['LGA1700'], ['LGA1200', 'LGA1700'], undefined],
    kitSockets: [undefined, ['LGA1700']],
    heightMm: [120, 160, 165, undefined],
    ratedW: [65, 130, 250, undefined],
    memoryRoomMm: [undefined, 35],
    radiatorMm: [undefined, undefined, 240],
  }),
  drive: like(
    { kind: 'drive', id: 'D', name: 'D' },
    {
      form: ['M.2', '2.5-inch', '3.5-inch'],
      interface: ['SATA', 'PCIe', undefined],
      capacityGB: [500, 2000],
      m2Key: ['M', 'B+M', undefined],
      lengthMm: [80, undefined],
    },
  ),
  fan: like({ kind: 'fan', id: 'F', name: 'F' }, { sizeMm: [120, 140] }),
}

const CLAIMS: readonly Claim[] = [
  { key: 'cardRoomMm', value: 320, source: 'measured' },
  { key: 'coolerRoomMm', value: 150, source: 'measured' },
  { key: 'firmware', value: '1.20', source: 'entered' },
  { key: 'frontFanFitted', value: 'yes', source: 'entered' },
  { key: 'frontFanFitted', value: 'no', source: 'entered' },
  { key: 'memoryRunsMts', value: 2400, source: 'read' },
  { key: 'memoryProfileOn', value: 'no', source: 'entered' },
  { key: 'brandCase', value: 'yes', source: 'entered' },
  { key: 'brandBoard', value: 'yes', source: 'entered' },
  { key: 'diskEncrypted', value: 'yes', source: 'entered' },
  { key: 'systemBits', value: 32, source: 'entered' },
  { key: 'supplyYear', value: 2012, source: 'entered' },
]

const NOTHING: Move = { add: [], removeIds: [], work: [] }
const adds = (parts: readonly Part[]): Move[] => [
  NOTHING,
  ...parts.map((part) => ({ add: [part], removeIds: [], work: [] })),
]

/** A machine, and two moves or three in every dimension. */
export const someMoves: fc.Arbitrary<{ readonly machine: Machine; readonly moves: Moves }> = fc
  .record({
    parts: fc.record(
      Object.fromEntries(
        Object.entries(DRAWN).map(([kind, one]) => [
          kind,
          fc
            .array(one, { minLength: 1, maxLength: 2 })
            .map((makers) => makers.map((make, i) => make(`${kind}-${i + 1}`))),
        ]),
      ) as { [K in PartKind]: fc.Arbitrary<Part[]> },
    ),
    claims: fc.subarray([...CLAIMS]),
    at: some(undefined, '2026-05-01T12:00:00Z'),
  })
  .map(({ parts, claims, at }) => ({
    machine: { tag: 'M-1', build: fitted, claims, ...(at !== undefined && { at }) },
    moves: {
      ...{ board: adds(parts.board), processor: adds(parts.processor), card: adds(parts.card) },
      ...{ case: adds(parts.case), cooler: adds(parts.cooler), supply: adds(parts.supply) },
      ...{ drive: adds(parts.drive), fan: adds(parts.fan) },
      memory: [
        ...adds(parts.memory),
        ...parts.memory.map((part) => ({
          add: [part],
          removeIds: fitted.memory.map(({ id }) => id),
          work: ['remove old modules'],
        })),
      ],
      work: [
        NOTHING,
        { add: [], removeIds: [], work: ['memory profile on'] },
        { add: [], removeIds: [], work: ['firmware update', 'fan in front'] },
      ],
    },
  }))
