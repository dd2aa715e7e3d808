import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { Board, Case, Drive, Part, Processor, Supply } from '../../../../src/core/part.ts'
import { FRONT, PLACES } from './caseParts.ts'
import { board, card, chassis, coolerOf, cpu, fan, kit, labelYear, plugs, supply } from './parts.ts'
import { pcieDrive, socket } from './storageParts.ts'

// Machines for a whole change: every fact that anybody could ask for is given, so that only the point decides.

export const i5of6 = cpu('6th (Skylake)', 'i5', { limitPowerW: 81 })
export const i5of7 = cpu('7th (Kaby Lake)', 'i5', { limitPowerW: 81 })
export const i7of9 = cpu('9th (Coffee Lake Refresh)', 'i7', { limitPowerW: 119 })
export const i5of10 = cpu('10th (Comet Lake)', 'i5', { limitPowerW: 134 })
export const i7of10 = cpu('10th (Comet Lake)', 'i7', { limitPowerW: 224 })
export const i5of12 = cpu('12th (Alder Lake)', 'i5', { limitPowerW: 117 })
export const i7of12 = cpu('12th (Alder Lake)', 'i7', { limitPowerW: 180 })
export const zen2 = cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5')
export const zen3 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
export const zen4 = cpu('Ryzen 7000 (Zen 4)', 'Ryzen 5')

export const D4 = kit('DDR4', 2, 8, 2133, { heightMm: 31.25, ranks: 1 })
export const D5 = kit('DDR5', 2, 16, 4800, { heightMm: 31.25, ranks: 1 })

/** Two M.2 sockets gen 3 x4 (the second for SATA too), four SATA ports, the usual headers, unless told otherwise. */
export const whole = (chipset: string, figures?: Partial<Board>): Board =>
  board(chipset, {
    m2Sockets: [socket('M2_1'), socket('M2_2', { sata: true })],
    sataPorts: 4,
    frontHeaders: FRONT,
    largeBar: true,
    ...figures,
  })

export const wholeCase = (id: string, figures?: Partial<Case>): Case =>
  chassis(id, {
    bays25: 2,
    bays35: 2,
    fanPlaces: PLACES,
    radiatorPlaces: [],
    frontPlugs: FRONT,
    cardBracket: 'full height',
    supplyRoomMm: 200,
    ...figures,
  })

/** 850 W, 840 W on 12 V: 672 W count. */
export const wholeSupply = (figures?: Partial<Supply>): Supply =>
  supply('old', {
    processorPlug: '8-pin',
    sataPlugs: 4,
    designVersion: 'ATX 3.0',
    plugs: plugs(0, 4, 1),
    pin16W: 600,
    cardCables: 4,
    ...figures,
  })

/** Gen 3 x16, 150 W. */
export const wholeCard = card('old', { bracket: 'full height', videoSockets: ['DisplayPort', 'HDMI'] })
export const wholeCooler = coolerOf('old')
export const wholeDrive: Drive = pcieDrive('old')

/** The two facts about the system; pinned, because the builder looked. */
export const licence = (value: 'moves' | 'tied to the board' | 'none'): Claim => ({
  key: 'systemLicence',
  value,
  source: 'entered',
  pinned: true,
})
export const encrypted = (value: 'yes' | 'no'): Claim => ({
  key: 'diskEncrypted',
  value,
  source: 'entered',
  pinned: true,
})

/** No licence at stake and nothing encrypted; the supply is two years old. */
export const KNOWN: readonly Claim[] = [
  licence('none'),
  encrypted('no'),
  labelYear(2024),
  { key: 'displaySocket', value: 'DisplayPort', source: 'entered', pinned: true },
  { key: 'systemBits', value: 64, source: 'entered', pinned: true },
]

/** A complete machine; a given part takes the place of those of its kind. */
export function wholeMachine(main: Board, processor: Processor, ...given: readonly Part[]): readonly Part[] {
  const rest: readonly Part[] = [
    main.memoryType === 'DDR5' ? D5 : D4,
    wholeCard,
    wholeSupply(),
    wholeCase('old'),
    wholeCooler,
    wholeDrive,
    fan('rear'),
  ]
  const kinds = new Set(given.map((p) => p.kind))
  return [main, processor, ...given, ...rest.filter((p) => !kinds.has(p.kind))]
}
