import { describe, expect, test } from 'vitest'
import { type Change, NO_CHANGE } from '../../../src/core/build.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../../../src/core/limits/catalogue.ts'
import type { Claim, LimitKey } from '../../../src/core/limits/limit.ts'
import { claimsAfter, limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Part } from '../../../src/core/part.ts'
import { board, build, card, claim, ddr4, ddr5, housing, kit, processor, supply } from './machines.ts'

const known = (limits: ReturnType<typeof limitsOf>, key: LimitKey) => {
  const limit = limits[key]
  return limit.known ? limit.value : undefined
}
const doubtOf = (limits: ReturnType<typeof limitsOf>, key: LimitKey) => {
  const limit = limits[key]
  return limit.known ? undefined : limit.doubt
}

describe('from data sheets', () => {
  test('every figure of a board, case and supply becomes the limit of its name', () => {
    const limits = limitsOf(
      build(
        board({
          socket: 'LGA1200',
          chipset: 'B460',
          memoryType: 'DDR4',
          memorySlots: 4,
          memoryMaxGB: 128,
          memoryPerSlotMaxGB: 32,
          memoryRateMtsMax: 2933,
          slotPcieGen: 3,
          slotLanes: 16,
          processorPowerW: 125,
        }),
        housing({ cardRoomMm: 322, coolerRoomMm: 158 }),
        supply({ ratedW: 550, rail12VW: 504, plugs: { pin6: 0, pin8: 2, pin16: 0 } }),
      ),
      [],
    )
    const expected = {
      socket: 'LGA1200',
      chipset: 'B460',
      memoryType: 'DDR4',
      memorySlots: 4,
      memoryMaxGB: 128,
      memoryPerSlotMaxGB: 32,
      boardRateMts: 2933,
      slotPcieGen: 3,
      slotLanes: 16,
      processorPowerW: 125,
      cardRoomMm: 322,
      coolerRoomMm: 158,
      supplyRatedW: 550,
      supply12VW: 504,
      supplyPlugs: { pin6: 0, pin8: 2, pin16: 0 },
    }
    for (const [key, value] of Object.entries(expected)) {
      expect(known(limits, key as LimitKey), key).toEqual(value)
      expect(limits[key as LimitKey]).toMatchObject({ by: { source: 'part' }, conflicts: [] })
    }
  })

  // A small board with two slots and a narrow first slot does not contradict its chipset, it uses less of it.
  test('a board that has less than its chipset allows is not in conflict with it', () => {
    const small = board({ chipset: 'B560', memorySlots: 2, slotLanes: 8, memoryRateMtsMax: 4800 })
    const limits = limitsOf(build(small, processor('10th', 'i5'), ddr4(3200)), [])
    for (const key of ['memorySlots', 'slotLanes', 'boardRateMts'] as const)
      expect(limits[key], key).toMatchObject({ known: true, by: { source: 'part' }, conflicts: [] })
  })

  test('a machine of which nothing is known has no limit', () => {
    const limits = limitsOf(build(), [])
    for (const key of LIMIT_KEYS) expect(limits[key], key).toEqual({ known: false, claims: [] })
  })

  // Common practice of board pages: the total is equal modules in all slots. 64 / 4 = 16.
  test('without its own figure a slot takes its share of the total', () => {
    const limits = limitsOf(build(board({ memoryMaxGB: 64, memorySlots: 4 })), [])
    expect(known(limits, 'memoryPerSlotMaxGB')).toBe(16)
    expect(
      known(limitsOf(build(board({ memoryMaxGB: 64, memorySlots: 3 })), []), 'memoryPerSlotMaxGB'),
    ).toBeUndefined()
    expect(
      known(limitsOf(build(board({ memoryMaxGB: 64, memorySlots: 0 })), []), 'memoryPerSlotMaxGB'),
    ).toBeUndefined()
  })
})

describe('board and processor generation', () => {
  // Intel statement on H410 and B460; Intel product pages on the two families of LGA1151; AMD AM4 chipset page.
  test.each([
    ['B460', '10th (Comet Lake)', 'native'],
    ['B460', '11th (Rocket Lake)', 'not supported'],
    ['H470', '11th (Rocket Lake)', 'firmware update'],
    ['Z170', '9th (Coffee Lake Refresh)', 'not supported'],
    ['B350', 'Ryzen 5000 (Zen 3)', 'board by board'],
    ['B650', 'Ryzen 5000 (Zen 3)', 'not supported'],
  ])('%s with %s: %s', (chipset, generation, support) => {
    const limits = limitsOf(build(board({ chipset }), processor(generation)), [])
    expect(known(limits, 'generationSupport')).toBe(support)
  })

  test.each([
    ['an unknown generation', build(board({ chipset: 'B460' }), processor('77th'))],
    ['a processor without a generation', build(board({ chipset: 'B460' }), processor())],
    ['a board without a chipset', build(board({}), processor('10th (Comet Lake)'))],
    ['an unknown chipset', build(board({ chipset: 'B999' }), processor('10th (Comet Lake)'))],
    ['no processor', build(board({ chipset: 'B460' }))],
  ])('%s promises nothing', (_, machine) => {
    expect(limitsOf(machine, []).generationSupport).toEqual({ known: false, claims: [] })
  })

  test('the family comes from the chipset and from nothing else', () => {
    expect(known(limitsOf(build(board({ chipset: 'B365' })), []), 'family')).toBe('LGA1151-300')
    expect(known(limitsOf(build(board({ chipset: 'Z170' })), []), 'family')).toBe('LGA1151-100')
    expect(known(limitsOf(build(board({ socket: 'LGA1151' })), []), 'family')).toBeUndefined()
  })

  // Some later boards named B460 list the 11th generation; the board maker's page wins in both directions.
  test("the board maker's list beats the chipset table, and the table is shown as a conflict", () => {
    const listed = board({ chipset: 'B460', firmwareByGeneration: { '11th (Rocket Lake)': '1.60' } })
    const limits = limitsOf(build(listed, processor('11th (Rocket Lake)', 'i5')), [])
    expect(limits.generationSupport).toMatchObject({
      value: 'firmware update',
      by: { source: 'part' },
      conflicts: [{ source: 'platform', value: 'not supported' }],
    })
    expect(known(limits, 'firmwareNeeded')).toBe('1.60')
  })

  test('a list that names other generations says nothing about this one', () => {
    const listed = board({ chipset: 'B350', firmwareByGeneration: { 'Ryzen 2000 (Zen+)': '3.10' } })
    const limits = limitsOf(build(listed, processor('Ryzen 5000 (Zen 3)')), [])
    expect(known(limits, 'generationSupport')).toBe('board by board')
    expect(limits.firmwareNeeded.known).toBe(false)
  })
})

describe('memory maxima', () => {
  // Intel product pages: 8th generation i3 stops at 64 GB, i5 at 128; 12th generation 128, 13th 192.
  test.each([
    ['B360', '8th', 'i3', 128, 'DDR4', 64, 'part'],
    ['B360', '8th', 'i5', 128, 'DDR4', 128, 'part'],
    ['B360', '8th', 'i5', 32, 'DDR4', 32, 'part'],
    ['B360', '8th', 'i3', undefined, 'DDR4', 64, 'platform'],
    ['B360', '8th', 'i5', undefined, 'DDR4', 128, 'platform'],
    ['B760', '12th', 'i5', undefined, 'DDR5', 128, 'platform'],
    ['B760', '13th', 'i7', undefined, 'DDR5', 192, 'platform'],
    ['B760', '13th', 'i7', undefined, 'DDR4', 128, 'platform'],
    ['B860', 'Core Ultra 200S', 'Ultra 5', undefined, 'DDR5', 192, 'platform'],
  ] as const)(
    '%s, %s %s, board page %s GB, %s: %i GB',
    (chipset, gen, cls, boardGB, memoryType, maxGB, source) => {
      const machine = build(board({ chipset, memoryMaxGB: boardGB, memoryType }), processor(gen, cls))
      expect(limitsOf(machine, []).memoryMaxGB).toMatchObject({ value: maxGB, by: { source }, conflicts: [] })
    },
  )

  // Doubtful points of the published facts: these maxima are from memory, so the board page decides.
  test.each(['B365', 'H370', 'Z370', 'H470', 'H570', 'A520', 'Z890'])('%s promises no maximum', (chipset) => {
    expect(doubtOf(limitsOf(build(board({ chipset })), []), 'memoryMaxGB')).toMatch(/board maker/)
    expect(known(limitsOf(build(board({ chipset, memoryMaxGB: 64 })), []), 'memoryMaxGB')).toBe(64)
  })

  test('a chipset of two memory types says nothing until the type is known', () => {
    const limits = limitsOf(build(board({ chipset: 'B660' })), [])
    expect(limits.memoryMaxGB).toEqual({ known: false, claims: [] })
    expect(limits.memoryType).toEqual({ known: false, claims: [] })
  })

  test('slots are in doubt until somebody counts them', () => {
    const limits = limitsOf(build(board({ chipset: 'A320' })), [])
    expect(doubtOf(limits, 'memorySlots')).toMatch(/at most 4 .* count them/)
    const counted = limitsOf(build(board({ chipset: 'A320' })), [claim('memorySlots', 2, 'measured')])
    expect(known(counted, 'memorySlots')).toBe(2)
  })
})

describe('memory rates', () => {
  // Intel product pages; AMD product pages (rates by modules fitted). The population is the one of the build given.
  test.each([
    ['H410', '10th', 'i5', [ddr4(3200)], 2666],
    ['B460', '10th', 'i7', [ddr4(3200)], 2933],
    ['B650', 'Ryzen 7000', undefined, [ddr5(5200)], 5200],
    ['B650', 'Ryzen 7000', undefined, [ddr5(5200), ddr5(5200)], 3600],
    ['B650', 'Ryzen 7000', undefined, [ddr5(5200), ddr5(5200, { modules: 1 })], 3600],
    ['B650', 'Ryzen 7000', undefined, [ddr5(5200, { modules: 1 })], 5200],
  ] as const)(
    '%s with %s %s: the controller and the board stop at the published rate',
    (chipset, gen, cls, kits, mts) => {
      const limits = limitsOf(build(board({ chipset }), processor(gen, cls), ...kits), [])
      expect(known(limits, 'controllerRateMts')).toBe(mts)
      expect(known(limits, 'boardRateMts')).toBe(mts)
    },
  )

  test('a class that the table needs and does not get gives no rate, and all that agree give one', () => {
    const at = (gen: string, memory: Part) =>
      known(limitsOf(build(board({ chipset: 'B760' }), processor(gen), memory), []), 'controllerRateMts')
    expect(at('10th (Comet Lake)', ddr4(3200))).toBeUndefined()
    expect(at('13th (Raptor Lake)', ddr5(5600))).toBeUndefined()
    expect(at('13th (Raptor Lake)', ddr4(3200))).toBe(3200)
  })

  test('a field figure is shown and never promised', () => {
    const machine = build(board({ chipset: 'B760' }), processor('13th', 'i7'), ddr5(5600), ddr5(5600))
    const limits = limitsOf(machine, [])
    expect(doubtOf(limits, 'controllerRateMts')).toMatch(/no published figure/)
    expect(doubtOf(limits, 'boardRateMts')).toMatch(/no published figure/)
  })

  test('a measured controller rate also frees the board', () => {
    const machine = build(board({ chipset: 'B760' }), processor('13th', 'i7'), ddr5(5600), ddr5(5600))
    const limits = limitsOf(machine, [claim('controllerRateMts', 4000, 'measured')])
    expect(known(limits, 'controllerRateMts')).toBe(4000)
    expect(known(limits, 'boardRateMts')).toBe(4000)
  })

  test('only a chipset that allows it speaks of a profile', () => {
    const note = (chipset: string) => {
      const limit = limitsOf(build(board({ chipset }), processor('10th', 'i5'), ddr4(3200)), []).boardRateMts
      return limit.known ? limit.by.note : undefined
    }
    expect(note('B560')).toMatch(/a profile may run above it, as overclocking/)
    expect(note('B460')).toMatch(/no profile above it/)
  })

  test('the rate of a board without a known chipset is not known', () => {
    const limits = limitsOf(build(board({}), processor('10th', 'i5'), ddr4(3200)), [])
    expect(known(limits, 'controllerRateMts')).toBe(2666)
    expect(limits.boardRateMts.known).toBe(false)
  })

  test.each([
    ['kits of two types', [ddr4(3200), ddr5(5600)]],
    ['kits of two types, the right one first', [ddr5(5600), ddr4(3200)]],
    ['a second kit of unknown count', [ddr5(5200), ddr5(5200, { modules: undefined })]],
    ['a kit that does not say how many modules it has', [ddr5(5200, { modules: undefined })]],
    ['five modules', [ddr5(5200, { modules: 5 })]],
    ['a broken count', [ddr5(5200, { modules: Number.NaN })]],
    ['a type the processor does not drive', [kit({ memoryType: 'DDR3', rateMts: 1600 })]],
    ['no memory', []],
  ])('%s: no rate', (_, kits) => {
    const limits = limitsOf(build(board({ chipset: 'B650' }), processor('Ryzen 7000'), ...kits), [])
    expect(limits.controllerRateMts.known).toBe(false)
  })
})

describe('graphics link', () => {
  // AMD and board makers' pages: 2000G and 3000G x8, 8600G and 8700G x8, 8300G and 8500G x4.
  test.each([
    ['Ryzen 2000G', undefined, 3, 8],
    ['Ryzen 3000G', undefined, 3, 8],
    ['Ryzen 8000G', '8700G', 4, 8],
    ['Ryzen 8000G', '8500G', 4, 4],
    ['Ryzen 7000', undefined, 5, 16],
    ['11th', 'i7', 4, 16],
  ])('%s %s offers generation %i with %i lanes', (gen, cls, pcieGen, lanes) => {
    const limits = limitsOf(build(processor(gen, cls)), [])
    expect(known(limits, 'processorPcieGen')).toBe(pcieGen)
    expect(known(limits, 'processorPcieLanes')).toBe(lanes)
  })

  test('8000G without its class: the generation is known, the lanes are not', () => {
    const limits = limitsOf(build(processor('Ryzen 8000G')), [])
    expect(known(limits, 'processorPcieGen')).toBe(4)
    expect(limits.processorPcieLanes.known).toBe(false)
  })

  test('the lanes of the small Athlons are in doubt', () => {
    const limits = limitsOf(build(processor('Athlon 200GE-3000G')), [])
    expect(doubtOf(limits, 'processorPcieLanes')).toMatch(/half of the machines report eight/)
  })

  test('the board page beats the chipset, and its absence leaves LGA1700 slots and all widths in doubt', () => {
    const bare = limitsOf(build(board({ chipset: 'B760' }), processor('13th', 'i5')), [])
    expect(doubtOf(bare, 'slotPcieGen')).toMatch(/board page/)
    expect(doubtOf(bare, 'slotLanes')).toMatch(/board page/)
    const own = board({ chipset: 'B760', slotPcieGen: 4, slotLanes: 16 })
    expect(limitsOf(build(own, processor('13th', 'i5')), []).slotPcieGen).toMatchObject({
      value: 4,
      conflicts: [],
    })
  })
})

describe('stored claims', () => {
  test('a reading of the maximum is shown as a conflict and not believed', () => {
    const read = claim('memoryMaxGB', 64, 'read')
    const limits = limitsOf(build(board({ chipset: 'Z390', memoryMaxGB: 128 })), [read])
    expect(limits.memoryMaxGB).toMatchObject({ value: 128, conflicts: [read] })
  })

  test('odd data makes a limit unknown and never throws', () => {
    const odd = board({
      chipset: 'B460',
      memorySlots: Number.NaN,
      memoryMaxGB: Number.NaN,
      slotLanes: Number.NaN,
    })
    const limits = limitsOf(build(odd, processor('10th', 'i5'), ddr4(Number.NaN)), [
      claim('cardRoomMm', Number.NaN, 'measured'),
    ])
    for (const key of [
      'memorySlots',
      'memoryMaxGB',
      'slotLanes',
      'memoryPerSlotMaxGB',
      'cardRoomMm',
    ] as const)
      expect(limits[key].known, key).toBe(false)
  })
})

describe('claims after a change', () => {
  const fitted = build(
    board({ chipset: 'B460' }),
    processor('10th', 'i5'),
    ddr4(2666),
    card(3, 16),
    supply({}),
    housing({}),
  )
  const stored: Claim[] = LIMIT_KEYS.map((key) =>
    key === 'supplyPlugs'
      ? claim(key, { pin6: 0, pin8: 1, pin16: 0 }, 'measured')
      : ({ key, value: 1, source: 'measured' } as Claim),
  )
  const machine = { tag: 'M-1', build: fitted, claims: stored }
  const adding = (part: Part): Change => ({ ...NO_CHANGE, add: [part] })

  const OF_MODULES: LimitKey[] = [
    ...(['controllerRateMts', 'memoryRunsMts', 'memoryProfileOn', 'modulesInBothChannels'] as const),
  ]
  const NOT_OF_THE_BOARD =
    /^(processorP(cie|lug)|processorMax|pin16|sataPl|bays|disk|systemLicence|supply|card|cooler|display(S)|systemBits|cooling|frontFan|drivers|systemOn|brandCase|case)/

  // Which part a limit hangs on is common practice: the case has the room, the supply the plugs, and so on.
  test.each<[string, Change, LimitKey[]]>([
    ['nothing', NO_CHANGE, []],
    ['a card', adding(card(4, 8)), ['displayPluggedInto', 'driversClean', 'cardSetW']],
    [
      'a supply',
      adding(supply({ id: 'S2' })),
      [
        ...(['supplyRatedW', 'supply12VW', 'supplyPlugs', 'processorPlug', 'supplyBoardPlug'] as const),
        ...(['supplyDesignVersion', 'supplyYear', 'pin16W', 'cardCables', 'sataPlugs'] as const),
      ],
    ],
    [
      'a case',
      adding(housing({ id: 'C2' })),
      [
        ...(['cardRoomMm', 'coolerRoomMm', 'cardSlots', 'cardBracket', 'supplyRoomMm'] as const),
        ...([
          'brandCase',
          'caseBoardMounting',
          'caseSupplyMounting',
          'coolingClean',
          'frontFanFitted',
        ] as const),
        ...(['bays25', 'bays35', 'cardRoomFreeMm', 'supplyAndCardMm', 'coolingLoad'] as const),
      ],
    ],
    [
      'a fan',
      adding({ kind: 'fan', id: 'F', name: 'invented fan' }),
      ['cardRoomMm', 'frontFanFitted', 'coolingLoad'],
    ],
    ['memory', adding(ddr4(3200, { id: 'K2' })), OF_MODULES],
    ['memory taken out', { ...NO_CHANGE, removeIds: ['MEMORY'] }, OF_MODULES],
    [
      'a processor',
      adding({ ...processor('10th', 'i7'), id: 'P2' }),
      [
        'generationSupport',
        'firmwareNeeded',
        ...(['memoryMaxGB', 'memoryListedMaxGB', 'slotLanes', 'largeBar'] as const),
        ...(['largeBarOn', 'processorSetW'] as const),
        'controllerRateMts',
        'boardRateMts',
        'memoryRunsMts',
        'processorPcieGen',
        'processorPcieLanes',
        'processorMaxC',
      ],
    ],
    ['a board', adding(board({ id: 'B2' })), LIMIT_KEYS.filter((key) => !NOT_OF_THE_BOARD.test(key))],
  ])('%s ends exactly the claims about what was there', (_, change, ended) => {
    const left = claimsAfter(machine, change).map((c) => c.key)
    expect([...left, ...ended].sort()).toEqual([...LIMIT_KEYS].sort())
  })

  test('a pin does not outlive its part', () => {
    const pinned = claim('slotPcieGen', 4, 'entered', { pinned: true })
    const after = claimsAfter({ ...machine, claims: [pinned] }, adding(board({ id: 'B2' })))
    expect(after).toEqual([])
    expect(LIMIT_CATALOGUE.slotPcieGen.hosts).toEqual(['board'])
  })
})
