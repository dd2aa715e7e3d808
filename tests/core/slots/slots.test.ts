import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Claim } from '../../../src/core/limits/limit.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Drive, M2Socket, Part } from '../../../src/core/part.ts'
import { slotsOf } from '../../../src/core/slots/slots.ts'
import { board, build, card, claim, ddr4, housing, processor, supply } from '../limits/machines.ts'

const drawn = (parts: readonly Part[], claims: readonly Claim[] = []) => {
  const machine = build(...parts)
  return slotsOf(machine, limitsOf(machine, claims))
}

const drive = (spec: Partial<Drive>): Drive =>
  Object.freeze({ kind: 'drive', id: 'DRV', name: 'invented', ...spec })
const m2Sata = drive({ form: 'M.2', interface: 'SATA', m2Key: 'B+M', lengthMm: 80 })
const m2Pcie = drive({ form: 'M.2', interface: 'PCIe', m2Key: 'M', lengthMm: 80, pcieGen: 3, pcieLanes: 4 })
const small = drive({ form: '2.5-inch', interface: 'SATA' })
const nobodyKnows = drive({})

/** PCI-SIG M.2 Specification: key M, lengths by their screws; wiring as a board's manual lists it. */
const socket = (name: string, spec: Partial<M2Socket> = {}): M2Socket => ({
  ...{ name, key: 'M', lengthsMm: [60, 80], pcieGen: 3, lanes: 4, sata: true },
  ...spec,
})

describe('memory slots', () => {
  // Arithmetic by hand: free = slots - modules, and nothing is free while one of the two is not known.
  test.each([
    { slots: 2, kits: [ddr4(3200)], stand: 'taken taken', why: 'a pair fills two slots' },
    { slots: 4, kits: [ddr4(3200)], stand: 'taken taken free free', why: 'a pair leaves two of four' },
    { slots: 4, kits: [ddr4(3200, { modules: 1 })], stand: 'taken free free free', why: 'one module' },
    {
      slots: 4,
      kits: [ddr4(3200), ddr4(3200)],
      stand: 'taken taken taken taken',
      why: 'two pairs fill four',
    },
    {
      slots: undefined,
      kits: [ddr4(3200)],
      stand: 'taken taken',
      why: 'an unknown number of slots: none is free',
    },
    {
      ...{
        slots: 4,
        kits: [ddr4(3200, { modules: undefined })],
        why: 'a kit that does not say holds at least one',
      },
      stand: "taken can't tell can't tell can't tell",
    },
    { slots: 2, kits: [], stand: "can't tell can't tell", why: 'no memory written down is not no memory' },
    {
      slots: 2,
      kits: [ddr4(), ddr4()],
      stand: "can't tell can't tell can't tell can't tell",
      why: 'too many',
    },
  ])('$why', ({ slots, kits, stand }) => {
    const { memory } = drawn([board({ memorySlots: slots }), ...kits])
    expect(memory.slots.map(({ state }) => state).join(' ')).toBe(stand)
    expect(memory.total).toBe(slots)
    expect(memory.tooMany).toBe(slots !== undefined && kits.length * 2 > slots)
  })

  test('what each takes is what the limits say, and nothing where they are silent', () => {
    // Intel product page, H410: two DIMMs, 64 GB; the board's own page beats it: 32 GB, 16 GB a slot.
    const own = board({
      chipset: 'H410',
      memorySlots: 2,
      memoryMaxGB: 32,
      memoryPerSlotMaxGB: 16,
      memoryRateMtsMax: 2933,
    })
    // Intel product pages, 10th generation: i5 2666 MT/s.
    const { memory } = drawn([own, processor('10th', 'i5'), ddr4(3200, { moduleGB: 8 })])
    expect(memory.takes).toEqual({ memoryType: 'DDR4', perSlotMaxGB: 16, maxGB: 32, rateMts: 2666 })
    expect([memory.fittedGB, memory.runsMts]).toEqual([16, 2666])
    expect(drawn([board({})]).memory.takes).toEqual({
      ...{ memoryType: undefined, perSlotMaxGB: undefined, maxGB: undefined, rateMts: undefined },
    })
  })

  test('a reading of slots and a total is a hint and draws none', () => {
    const { memory } = drawn(
      [board({}), ddr4(3200)],
      [claim('memorySlots', 4, 'read'), claim('memoryMaxGB', 32, 'read')],
    )
    expect([memory.total, memory.takes.maxGB, memory.slots.length]).toEqual([undefined, undefined, 2])
  })
})

describe('graphics slot', () => {
  test('runs at the lowest of slot, processor and card (PCI Express Base Specification, link training)', () => {
    const { graphics } = drawn(
      [board({ slotPcieGen: 3, slotLanes: 16 }), processor('10th', 'i5'), card(4, 8)],
      [claim('processorPcieGen', 3, 'measured'), claim('processorPcieLanes', 16, 'measured')],
    )
    expect(graphics).toMatchObject({
      state: 'taken',
      built: { gen: 3, lanes: 16 },
      runs: { gen: 3, lanes: 8 },
    })
  })

  test.each([
    { graphics: true, state: 'free', why: 'the processor has graphics, so the machine runs without a card' },
    {
      graphics: false,
      state: "can't tell",
      why: 'without any graphics there is a card that nobody wrote down',
    },
    { graphics: undefined, state: "can't tell", why: 'whether the processor has graphics is not known' },
  ])('$why', ({ graphics: integratedGraphics, state }) => {
    const fitted = {
      ...processor('10th', 'i5'),
      ...(integratedGraphics !== undefined && { integratedGraphics }),
    }
    expect(drawn([board({}), fitted]).graphics.state).toBe(state)
  })
})

describe('M.2 sockets and SATA ports', () => {
  const A = socket('M2_1', { sata: false })
  const B = socket('M2_2')
  // Every seating looked at by hand: a SATA drive goes into B alone, a PCIe drive into either.
  test.each([
    { sockets: [A, B], drives: [m2Sata], stand: 'free taken', why: 'only one socket is wired for SATA' },
    { sockets: [A, B], drives: [m2Pcie], stand: "can't tell can't tell", why: 'either may hold it' },
    { sockets: [A, B], drives: [m2Pcie, m2Sata], stand: 'taken taken', why: 'two drives fill two' },
    { sockets: [A, B], drives: [small], stand: 'free free', why: 'a drive on a cable takes none' },
    { sockets: [A, B], drives: [], stand: "can't tell can't tell", why: 'some drive starts the machine' },
    { sockets: [A, B], drives: [nobodyKnows], stand: "can't tell can't tell", why: 'a drive without a form' },
    {
      sockets: [A],
      drives: [m2Sata],
      stand: "can't tell",
      why: 'a drive that goes into no socket of the list',
    },
    {
      sockets: [socket('W', { key: 'E' })],
      drives: [small],
      stand: '',
      why: 'one for wireless cards is none',
    },
    { sockets: undefined, drives: [m2Pcie], stand: undefined, why: 'nobody listed the sockets' },
  ] as const)('$why', ({ sockets, drives, stand }) => {
    const { m2 } = drawn([board({ m2Sockets: sockets }), ...drives]).drives
    expect(m2?.map(({ state }) => state).join(' ')).toBe(stand)
  })

  // By hand: ports = taken + off + can't tell + free. Which ports a socket turns off: as boards' manuals list it.
  const off = socket('M2_2', { sataPortsOff: ['SATA_5', 'SATA_6'] })
  test.each([
    { ports: 4, sockets: [B], drives: [small], stand: 'taken free free free', why: 'one of four' },
    {
      ports: 4,
      sockets: [A, off],
      drives: [m2Sata, small],
      stand: 'taken off off free',
      why: 'two are dead',
    },
    {
      ports: 4,
      sockets: [A, off],
      drives: [m2Pcie, small],
      stand: "taken can't tell can't tell free",
      why: 'two may be',
    },
    {
      ports: 2,
      sockets: undefined,
      drives: [m2Pcie],
      stand: "can't tell can't tell",
      why: 'no list, an M.2 drive',
    },
    {
      ports: 2,
      sockets: undefined,
      drives: [small],
      stand: 'taken free',
      why: 'no list needed without M.2 drives',
    },
    { ports: 2, sockets: [B], drives: [], stand: "can't tell can't tell", why: 'no drive written down' },
    {
      ports: 2,
      sockets: [B],
      drives: [small, nobodyKnows],
      stand: "taken can't tell",
      why: 'a drive without a form',
    },
    { ports: 1, sockets: [B], drives: [small, small], stand: "can't tell", why: 'more drives than ports' },
    {
      ports: undefined,
      sockets: [B],
      drives: [small],
      stand: 'taken',
      why: 'an unknown number: none is free',
    },
  ])('$why: $ports ports', ({ ports, sockets, drives, stand }) => {
    const { sata } = drawn([board({ sataPorts: ports, m2Sockets: sockets }), ...drives]).drives
    expect(sata.join(' ')).toBe(stand)
  })
})

describe('supply and room', () => {
  const has = supply({ ratedW: 550, plugs: { pin6: 1, pin8: 2, pin16: 0 } })
  const wants = (pin6: number, pin8: number, pin16 = 0) => ({ ...card(3, 16), plugs: { pin6, pin8, pin16 } })
  // Intel 336521, Tables 5-5 and 5-6; an 8-pin plug serves a 6-pin socket (6+2: common practice).
  test.each([
    { fitted: wants(0, 1), stand: 'free taken free', why: 'an 8-pin socket takes an 8-pin plug' },
    { fitted: wants(1, 1), stand: 'taken taken free', why: 'a 6-pin socket takes a 6-pin plug first' },
    { fitted: wants(2, 0), stand: 'taken taken free', why: 'and an 8-pin plug when that is gone' },
    {
      fitted: wants(0, 3),
      stand: "can't tell can't tell can't tell",
      why: 'more than there are: something is wrong',
    },
    {
      fitted: wants(0, 0, 1),
      stand: "can't tell can't tell can't tell",
      why: 'a 16-pin socket and no such plug',
    },
    { fitted: card(3, 16), stand: "can't tell can't tell can't tell", why: 'a card whose plugs nobody gave' },
  ])('$why', ({ fitted, stand }) => {
    const { plugs } = drawn([has, fitted]).supply
    expect(plugs?.map(({ kind }) => kind)).toEqual(['pin6', 'pin8', 'pin8'])
    expect(plugs?.map(({ state }) => state).join(' ')).toBe(stand)
  })

  test('plugs that nobody counted and a room that nobody measured are not known', () => {
    const { supply: own, room } = drawn([supply({}), { ...card(3, 16), lengthMm: 242, thicknessMm: 40 }])
    expect(own.plugs).toBeUndefined()
    expect(room[0]).toEqual({ what: 'cardRoomMm', atLeastMm: undefined, usedMm: 242 })
  })

  test('a tape measure beats the data sheet of the case', () => {
    const { room } = drawn([housing({ cardRoomMm: 330 })], [claim('cardRoomMm', 322, 'measured')])
    expect(room[0]).toEqual({ what: 'cardRoomMm', roomMm: 322, usedMm: undefined })
  })
})

test('law: whatever is written down, no more is free than places known less parts known', () => {
  const count = fc.option(fc.integer({ min: 0, max: 6 }), { nil: undefined })
  const anyDrive = fc.constantFrom(m2Sata, m2Pcie, small, nobodyKnows)
  const anySocket = fc.constantFrom(
    socket('A', { sata: false }),
    socket('B'),
    socket('C', { lengthsMm: [42] }),
  )
  fc.assert(
    fc.property(
      ...[count, count, count, fc.array(anyDrive, { maxLength: 5 })],
      fc.option(fc.array(anySocket, { maxLength: 4 }), { nil: undefined }),
      (memorySlots, modules, sataPorts, drives, m2Sockets) => {
        const { memory, drives: places } = drawn([
          board({ memorySlots, sataPorts, m2Sockets }),
          ddr4(3200, { modules }),
          ...drives,
        ])
        const free = (states: readonly string[]) => states.filter((state) => state === 'free').length
        const m2 = drives.filter(({ form }) => form === 'M.2').length
        expect(free(memory.slots.map(({ state }) => state))).toBeLessThanOrEqual(
          modules === undefined ? 0 : Math.max(0, (memorySlots ?? 0) - modules),
        )
        expect(free(places.m2?.map(({ state }) => state) ?? [])).toBeLessThanOrEqual(
          Math.max(0, (m2Sockets?.length ?? 0) - m2),
        )
        expect(free(places.sata)).toBeLessThanOrEqual(
          Math.max(0, (sataPorts ?? 0) - drives.filter(({ form }) => form !== 'M.2').length),
        )
      },
    ),
    { numRuns: 300 },
  )
})
