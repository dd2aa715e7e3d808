import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { linkGBps } from '../../../src/core/facts/links.ts'
import { fittedOf, linkAsItRuns, memoryAsItRuns } from '../../../src/core/limits/asItRuns.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import { board, build, card, claim, ddr4, ddr5, processor } from './machines.ts'

const memoryOf = (machine: ReturnType<typeof build>, claims: Parameters<typeof limitsOf>[1] = []) =>
  memoryAsItRuns(machine, limitsOf(machine, claims))
const linkOf = (machine: ReturnType<typeof build>) => linkAsItRuns(machine, limitsOf(machine, []))

describe('memory as it runs', () => {
  // Intel product pages: 10th i5 and below 2666, i7 and i9 2933; H410 and B460 allow no more. AMD product pages:
  // Ryzen 7000 5200 with two modules and 3600 with four. Rest of the rows: min(kit, controller, board) by hand.
  test.each([
    { chipset: 'H410', gen: '10th', cls: 'i5', kits: [ddr4(3200)], mts: 2666, why: 'the controller decides' },
    { chipset: 'B460', gen: '10th', cls: 'i5', kits: [ddr4(3200)], mts: 2666, why: 'the controller decides' },
    {
      chipset: 'H410',
      gen: '10th',
      cls: 'i7',
      kits: [ddr4(3200)],
      mts: 2933,
      why: 'the next class is faster',
    },
    {
      chipset: 'B460',
      gen: '10th',
      cls: 'i7',
      kits: [ddr4(3200)],
      mts: 2933,
      why: 'the next class is faster',
    },
    {
      chipset: 'B460',
      gen: '10th',
      cls: 'i7',
      kits: [ddr4(2400)],
      mts: 2400,
      why: 'a slow kit is not sped up',
    },
    {
      chipset: 'B460',
      gen: '10th',
      cls: 'i7',
      kits: [ddr4(3200), ddr4(2666)],
      mts: 2666,
      why: 'the slowest kit decides',
    },
    { chipset: 'B650', gen: 'Ryzen 7000', cls: undefined, kits: [ddr5(5200)], mts: 5200, why: 'two modules' },
    {
      chipset: 'B650',
      gen: 'Ryzen 7000',
      cls: undefined,
      kits: [ddr5(5200), ddr5(5200)],
      mts: 3600,
      why: 'four modules',
    },
    {
      chipset: 'B650',
      gen: 'Ryzen 7000',
      cls: undefined,
      kits: [ddr5(6000)],
      mts: 5200,
      why: 'no profile is counted on',
    },
  ])('$why: $chipset, $gen $cls runs at $mts MT/s', ({ chipset, gen, cls, kits, mts }) => {
    expect(memoryOf(build(board({ chipset }), processor(gen, cls), ...kits))?.rateMts).toBe(mts)
  })

  test("the board's own lower rate decides", () => {
    const slow = board({ chipset: 'B460', memoryRateMtsMax: 2400 })
    expect(memoryOf(build(slow, processor('10th', 'i7'), ddr4(3200)))?.rateMts).toBe(2400)
    const fast = board({ chipset: 'Z490', memoryRateMtsMax: 5000 })
    expect(memoryOf(build(fast, processor('10th', 'i7'), ddr4(3600)))?.rateMts).toBe(2933)
  })

  // Worked example: DDR4-3200 on H410 with a 10th i5 moves 21.3 GB/s a module, 42.7 on two channels.
  test('H410 with a 10th i5 moves 42.7 GB/s', () => {
    const runs = memoryOf(build(board({ chipset: 'H410' }), processor('10th', 'i5'), ddr4(3200)))
    expect(runs).toEqual({ memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 })
    const moduleGBps = ((runs?.rateMts ?? 0) * 8) / 1000 // 8 bytes a transfer
    expect(moduleGBps).toBeCloseTo(21.3, 1)
    expect((runs?.channels ?? 0) * moduleGBps).toBeCloseTo(42.7, 1)
  })

  // Common practice: modules fill the channels in turn.
  test.each([
    [[ddr4(3200, { modules: 1, moduleGB: 16 })], 1, 16],
    [[ddr4(3200, { modules: 2, moduleGB: 8 })], 2, 16],
    [[ddr4(3200, { modules: 1, moduleGB: 8 }), ddr4(3200, { modules: 1, moduleGB: 16 })], 2, 24],
    [[ddr4(3200, { modules: 4, moduleGB: 8 })], 2, 32],
  ])('%#: %i channels, %i GB', (kits, channels, totalGB) => {
    const machine = build(board({ chipset: 'B460' }), processor('10th', 'i5'), ...kits)
    expect(memoryOf(machine)).toMatchObject({ channels, totalGB })
  })

  test('the rate that was read replaces the computed one, even where none could be computed', () => {
    const read = [claim('memoryRunsMts', 3200, 'read')]
    expect(
      memoryOf(build(board({ chipset: 'B560' }), processor('10th', 'i5'), ddr4(3200)), read)?.rateMts,
    ).toBe(3200)
    expect(memoryOf(build(ddr4(undefined)), read)?.rateMts).toBe(3200)
  })

  test.each([
    ['no memory', []],
    ['a kit without a rate', [ddr4(undefined)]],
    ['a kit without a size', [ddr4(3200, { moduleGB: undefined })]],
    ['a kit without a count', [ddr4(3200, { modules: undefined })]],
    ['a kit without a type', [ddr4(3200, { memoryType: undefined })]],
    ['kits of two types', [ddr4(3200), ddr5(5200)]],
    ['a rate that is not a number', [ddr4(Number.NaN)]],
    ['a size that is not a number', [ddr4(3200, { moduleGB: Number.NaN })]],
    ['a size without end', [ddr4(3200, { moduleGB: Number.POSITIVE_INFINITY })]],
    ['no modules', [ddr4(3200, { modules: 0 })]],
  ])('unknown: %s', (_, kits) => {
    expect(memoryOf(build(board({ chipset: 'B460' }), processor('10th', 'i5'), ...kits))).toBeUndefined()
  })

  test.each([
    ['board', build(processor('10th', 'i5'), ddr4(3200))],
    ['processor', build(board({ chipset: 'B460' }), ddr4(3200))],
    ['class', build(board({ chipset: 'B460' }), processor('10th'), ddr4(3200))],
  ])('unknown: no %s', (_, machine) => {
    expect(memoryOf(machine)).toBeUndefined()
  })

  test('law: never above a kit or the controller, and equal to one of them', () => {
    const mts = fc.integer({ min: 800, max: 8000 })
    fc.assert(
      fc.property(fc.array(mts, { minLength: 1, maxLength: 2 }), mts, mts, (kits, controller, boardMts) => {
        const machine = build(board({ memoryRateMtsMax: boardMts }), ...kits.map((rate) => ddr4(rate)))
        const runs = memoryOf(machine, [claim('controllerRateMts', controller, 'measured')])
        const rates = [...kits, controller, boardMts]
        expect(rates).toContain(runs?.rateMts)
        for (const rate of rates) expect(runs?.rateMts).toBeLessThanOrEqual(rate)
      }),
    )
  })
})

describe('the graphics link as it runs', () => {
  // Board pages: "the graphics slot runs at x8 while M.2 slot 2 is used".
  test.each([
    { used: 'yes', lanes: 8 },
    { used: 'no', lanes: 16 },
  ] as const)('with a drive in the sharing slot: $used, the card has x$lanes', ({ used, lanes }) => {
    const sharing = board({ chipset: 'B550', slotPcieGen: 4, slotLanes: 16, slotLanesShared: 8 })
    const machine = build(sharing, processor('Ryzen 5000'), card(4, 16))
    const claims = [claim('sharedM2Used', used, 'measured')]
    expect(linkAsItRuns(machine, limitsOf(machine, claims))).toEqual({ gen: 4, lanes })
  })

  test('where nobody knows which slot the drive sits in, only a card that needs no more lanes has a link', () => {
    const sharing = board({ chipset: 'B550', slotPcieGen: 4, slotLanes: 16, slotLanesShared: 8 })
    const link = (lanes: number) => linkOf(build(sharing, processor('Ryzen 5000'), card(4, lanes)))
    expect(link(16)).toBeUndefined()
    expect(link(8)).toEqual({ gen: 4, lanes: 8 })
  })

  // Worked examples from AMD's and board makers' pages: a gen 4 x8 card in B450 has gen 3 x8, in B550 with Ryzen 5000
  // gen 4 x8, in B550 with a 5500 gen 3 x8; an x16 card behind a 2000G has x8; behind an 8500G x4.
  test.each([
    {
      chipset: 'B450',
      gen: 'Ryzen 5000',
      cls: undefined,
      cardGen: 4,
      cardLanes: 8,
      link: [3, 8],
      GBps: 7.877,
    },
    {
      chipset: 'B550',
      gen: 'Ryzen 5000',
      cls: undefined,
      cardGen: 4,
      cardLanes: 8,
      link: [4, 8],
      GBps: 15.754,
    },
    {
      chipset: 'B550',
      gen: 'Ryzen 5000G, 5500, 5700',
      cls: undefined,
      cardGen: 4,
      cardLanes: 8,
      link: [3, 8],
      GBps: 7.877,
    },
    {
      chipset: 'B450',
      gen: 'Ryzen 2000G',
      cls: undefined,
      cardGen: 3,
      cardLanes: 16,
      link: [3, 8],
      GBps: 7.877,
    },
    {
      chipset: 'B650',
      gen: 'Ryzen 8000G',
      cls: '8700G',
      cardGen: 4,
      cardLanes: 16,
      link: [4, 8],
      GBps: 15.754,
    },
    {
      chipset: 'B650',
      gen: 'Ryzen 8000G',
      cls: '8500G',
      cardGen: 4,
      cardLanes: 16,
      link: [4, 4],
      GBps: 7.877,
    },
    {
      chipset: 'X870',
      gen: 'Ryzen 9000',
      cls: undefined,
      cardGen: 5,
      cardLanes: 16,
      link: [5, 16],
      GBps: 63.015,
    },
  ])('$chipset, $gen $cls, card gen $cardGen x$cardLanes: $GBps GB/s', (row) => {
    const machine = build(
      board({ chipset: row.chipset, slotLanes: 16 }),
      processor(row.gen, row.cls),
      card(row.cardGen, row.cardLanes),
    )
    const link = linkOf(machine)
    expect(link).toEqual({ gen: row.link[0], lanes: row.link[1] })
    expect(linkGBps(link?.gen ?? 0, link?.lanes ?? 0)).toBeCloseTo(row.GBps, 3)
  })

  test('the lanes of the slot count too', () => {
    const narrow = board({ chipset: 'B550', slotLanes: 4 })
    expect(linkOf(build(narrow, processor('Ryzen 5000'), card(4, 16)))).toEqual({ gen: 4, lanes: 4 })
  })

  test('a processor of an older generation holds back a newer slot', () => {
    const own = board({ chipset: 'B550', slotPcieGen: 4, slotLanes: 16 })
    expect(linkOf(build(own, processor('Ryzen 5000G, 5500, 5700'), card(4, 8)))).toEqual({ gen: 3, lanes: 8 })
  })

  const whole = board({ chipset: 'B550', slotLanes: 16 })
  test.each([
    ['no card', build(whole, processor('Ryzen 5000'))],
    ['a card without a generation', build(whole, processor('Ryzen 5000'), card(undefined, 16))],
    ['a card without lanes', build(whole, processor('Ryzen 5000'), card(4, undefined))],
    ['a card with broken lanes', build(whole, processor('Ryzen 5000'), card(4, Number.NaN))],
    ['a slot of unknown width', build(board({ chipset: 'B550' }), processor('Ryzen 5000'), card(4, 16))],
    ['a slot of unknown generation', build(board({ slotLanes: 16 }), processor('Ryzen 5000'), card(4, 16))],
    ['no processor', build(board({ chipset: 'B450', slotLanes: 16 }), card(4, 16))],
    [
      'doubtful lanes',
      build(board({ chipset: 'B450', slotLanes: 16 }), processor('Athlon 200GE-3000G'), card(4, 16)),
    ],
  ])('unknown: %s', (_, machine) => {
    expect(linkOf(machine)).toBeUndefined()
  })
})

describe('everything a frame rate depends on', () => {
  const parts = [board({ chipset: 'B550', slotLanes: 16 }), processor('Ryzen 5000'), ddr4(3200), card(4, 16)]

  test('is there when processor, card, memory and link are', () => {
    const machine = build(...parts)
    expect(fittedOf(machine, limitsOf(machine, []))).toEqual({
      processorId: 'PROCESSOR',
      cardId: 'CARD',
      memory: { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
      link: { gen: 4, lanes: 16 },
    })
  })

  test.each(['processor', 'card', 'memory', 'board'])('is unknown without the %s', (kind) => {
    const machine = build(...parts.filter((part) => part.kind !== kind))
    expect(fittedOf(machine, limitsOf(machine, []))).toBeUndefined()
  })
})
