import fc from 'fast-check'
import { buildOf, partsOf } from '../../../../src/core/build.ts'
import { judgeChange } from '../../../../src/core/fit/judgeChange.ts'
import type { Part } from '../../../../src/core/part.ts'
import type { RankInput } from '../../../../src/core/ranking/rank.ts'
import { board, card, cooler, kit, machine, policy, processor, supply, tower } from '../../fit/bench.ts'
import { input, item, knowing, question, smoothMax } from '../smallShop.ts'

/*
 * Small invented shops under the real rules: two boards of other sockets with what goes on them, cards too long and too hungry,
 * a case that takes them, kits that run slower than they say. Prices, credits and labour by chance, credits above prices too.
 */
const CLOSE: readonly Part[] = [
  { ...processor, id: 'CPU-1', name: 'CPU-1', limitPowerW: 120, processorClass: 'i5' },
  {
    ...processor,
    id: 'CPU-2',
    name: 'CPU-2',
    socket: 'LGA1700',
    generation: '12th (Alder Lake)',
    limitPowerW: 125,
  },
  {
    ...{
      ...board,
      id: 'BRD-1',
      name: 'BRD-1',
      socket: 'LGA1700',
      chipset: 'B660',
      form: 'microATX' as const,
    },
    ...{ memorySlots: 2, memoryRateMtsMax: 3200, slotPcieGen: 4, slotLanes: 16 },
  },
  { ...kit, id: 'KIT-1', name: 'KIT-1', modules: 2, moduleGB: 16, rateMts: 3200, heightMm: 45 },
  { ...kit, id: 'KIT-2', name: 'KIT-2', modules: 1, moduleGB: 8 },
  { ...card, id: 'CARD-1', name: 'CARD-1', lengthMm: 280, boardPowerW: 160 },
  {
    ...card,
    id: 'CARD-2',
    name: 'CARD-2',
    lengthMm: 340,
    boardPowerW: 300,
    plugs: { pin6: 0, pin8: 3, pin16: 0 },
  },
  {
    ...supply,
    id: 'PSU-1',
    name: 'PSU-1',
    ratedW: 850,
    rail12VW: 840,
    plugs: { pin6: 0, pin8: 4, pin16: 0 },
  },
  { ...supply, id: 'PSU-2', name: 'PSU-2', ratedW: 600, rail12VW: 560, form: 'SFX' as const },
  {
    ...tower,
    id: 'CASE-1',
    name: 'CASE-1',
    boardForms: ['ATX', 'microATX'],
    cardRoomMm: 380,
    coolerRoomMm: 155,
  },
  {
    ...cooler,
    id: 'COOL-1',
    name: 'COOL-1',
    sockets: ['LGA1700'],
    kitSockets: ['LGA1200'],
    heightMm: 158,
    ratedW: 200,
  },
  { ...cooler, id: 'COOL-2', name: 'COOL-2', sockets: ['LGA1200', 'LGA1700'], heightMm: 120, ratedW: 150 },
]

const some = <T>(...values: T[]) => fc.constantFrom(...values)
const sides = (id: string, figures: readonly number[]): number => figures[Number(id.at(-1)) || 0] ?? 12

export const someRealShop: fc.Arbitrary<RankInput> = fc
  .record({
    shelf: fc.subarray([...CLOSE], { minLength: 4, maxLength: 8 }),
    prices: fc.array(some(0, 1500, 4000, 12_000), { minLength: 12, maxLength: 12 }),
    credits: fc.array(
      fc.record({
        partId: some('CPU-OLD', 'CARD-OLD', 'PSU-OLD', 'CASE-OLD', 'COOL-OLD', 'BRD-OLD', 'MEM-OLD'),
        creditMinor: some(500, 9000, 30_000),
      }),
      { maxLength: 4 },
    ),
    labour: fc.array(some(0, 500, 1500), { minLength: 12, maxLength: 12 }),
    profile: some(undefined, 'no' as const, 'yes' as const),
    cpuMs: fc.array(some(6, 8, 10, 14), { minLength: 3, maxLength: 3 }),
    cardMs: fc.array(some(5, 8, 12, 16), { minLength: 3, maxLength: 3 }),
    unrun: some(undefined, undefined, 'CARD-1', 'CPU-2'),
    refreshHz: some(undefined, 75, 144),
  })
  .map(({ shelf, prices, credits, labour, profile, cpuMs, cardMs, unrun, refreshHz }) => {
    const kinds = ['processor', 'board', 'memory', 'card', 'supply', 'case', 'cooler']
    const works = [
      'opening',
      ...kinds.map((kind) => `fit ${kind}`),
      ...['memory profile on', 'remove old modules', 'mounting kit', 'fit bracket', 'firmware update'],
    ]
    const build = buildOf(
      partsOf(machine).map((part) =>
        part.kind === 'board'
          ? { ...part, memoryRateMtsMax: 2666, slotPcieGen: 3, slotLanes: 16, frontHeaders: [] }
          : part,
      ),
    )
    return input({
      machine: {
        ...{ tag: 'M-0001', build },
        claims: profile === undefined ? [] : [{ key: 'memoryProfileOn', value: profile, source: 'entered' }],
      },
      question: question({
        wanted: [
          { titleId: 'winter', settingId: 's', weight: 2 },
          { titleId: 'harbor', settingId: 's', weight: 1 },
        ],
        display: { ...(refreshHz !== undefined && { refreshHz }) },
      }),
      parts: [...CLOSE, ...partsOf(build)],
      shelf: shelf.map((part, i) => item(part.id, prices[i] as number)),
      work: works.map((work, i) => ({ work, minutes: 10, priceMinor: labour[i % labour.length] as number })),
      tradeIns: credits.map((credit, i) => ({ ...credit, at: `2026-01-0${i + 1}T00:00:00Z` })),
      policy,
      model: knowing((titleId, { processorId, cardId, memory }) => {
        if (titleId === 'harbor' && (processorId === unrun || cardId === unrun)) return undefined
        const a =
          sides(processorId, [11, ...cpuMs]) *
          (memory.totalGB < 16 ? 1.2 : 1) *
          (3200 / memory.rateMts) ** 0.2
        return smoothMax(a, sides(cardId, [13, ...cardMs]) * (titleId === 'winter' ? 1.2 : 1))
      }),
      judge: (of, change) => judgeChange(of, change, policy),
    })
  })
