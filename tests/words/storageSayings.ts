import type { Build } from '../../src/core/build.ts'
import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import type { Case, Drive, Fan, M2Socket, Part } from '../../src/core/part.ts'
import { board, card, tower } from '../core/fit/bench.ts'

type Ask = {
  readonly add?: readonly Part[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
  readonly had?: Partial<Build>
}

const flat: Drive = {
  ...{ kind: 'drive', id: 'DRV-NEW', name: 'New drive', form: 'M.2', interface: 'PCIe' },
  ...{ m2Key: 'M', lengthMm: 80, pcieGen: 3, pcieLanes: 4 },
}
const small: Drive = { kind: 'drive', id: 'DRV-S', name: 'Small drive', form: '2.5-inch', interface: 'SATA' }
const large: Drive = { ...small, id: 'DRV-L', name: 'Large drive', form: '3.5-inch' }
const fan: Fan = { kind: 'fan', id: 'FAN-NEW', name: 'New fan', sizeMm: 120 }
const on = (socket: Partial<M2Socket>): Partial<Build> => ({
  drives: [small],
  board: {
    ...board,
    m2Sockets: [{ name: 'M2_1', key: 'M', lengthsMm: [80], pcieGen: 3, lanes: 4, sata: false, ...socket }],
  },
})
const inCase = (figures: Partial<Case>): Part => ({
  ...tower,
  id: 'CASE-NEW',
  ...{ frontPlugs: ['USB 2.0', 'USB-C (key A)'], fanPlaces: [{ place: 'rear', sizeMm: 120, count: 1 }] },
  ...figures,
})
const withHeaders: Partial<Build> = { board: { ...board, frontHeaders: ['USB 2.0', 'HD audio'] } }

/** Changes on which a rule reads its limits. */
export const STORAGE_ASKS: Readonly<Record<string, Ask>> = { storage: { add: [small] } }

/** The owner's sentences about drives, fans, front panel and the room of a card without its fan. */
export const STORAGE_SAYINGS: readonly (readonly [RuleId, Finding['verdict'], Ask, owner: string])[] = [
  ['storage.m2', 'fits', { add: [flat], had: on({}) }, "The drive goes into your board's M.2 slot M2_1."],
  [
    'storage.m2',
    'does not fit',
    { add: [flat], had: on({ key: 'B' }) },
    "The drive's notch does not match an M.2 slot of your board.",
  ],
  [
    'storage.m2',
    'does not fit',
    { add: [flat], had: on({ lengthsMm: [60] }) },
    'No M.2 slot that takes the drive has a screw for its length.',
  ],
  [
    'storage.m2',
    'does not fit',
    { add: [{ ...flat, interface: 'SATA' }], had: on({}) },
    'It plugs in, and your board does not see it: the slot is not wired for such a drive.',
  ],
  [
    'storage.m2',
    'does not fit',
    { add: [flat], had: { ...on({}), drives: [{ ...flat, id: 'DRV-OLD' }] } },
    'Every M.2 slot that would take the drive is in use.',
  ],
  [
    'storage.m2',
    'does not fit',
    { add: [flat], had: on({ key: 'E' }) },
    'Your board has no M.2 slot for a drive.',
  ],
  [
    'storage.link',
    'fits',
    { add: [flat], had: on({}) },
    'The slot gives the drive all the data road it has: 3.9 GB/s.',
  ],
  [
    'storage.link',
    'fits slower',
    { add: [flat], had: on({ lanes: 2 }) },
    'The drive works at 2 GB/s; it could do 3.9 GB/s.',
  ],
  [
    'storage.sharing',
    'fits',
    { add: [flat], had: { ...on({ sataPortsOff: ['SATA5'] }), drives: [] } },
    'In slot M2_1 the drive takes nothing that your machine uses.',
  ],
  [
    'storage.sharing',
    'fits slower',
    { add: [flat], had: on({ sharesSlot: true }), at: { slotLanesShared: 8 } },
    'A drive in slot M2_1 takes lanes from the graphics card: 8 of 16 are left.',
  ],
  [
    'storage.sharing',
    'fits after work',
    { add: [flat], had: on({ sataPortsOff: ['SATA5', 'SATA6'] }) },
    'When slot M2_1 is used, these SATA ports go dead: SATA5, SATA6.',
  ],
  [
    'storage.sharing',
    'does not fit',
    { add: [flat], had: on({ sataPortsOff: ['SATA5', 'SATA6'] }), at: { sataPorts: 2 } },
    'When slot M2_1 is used, 0 SATA ports stay alive, and your machine needs 1.',
  ],
  ['storage.ports', 'fits', { add: [small] }, 'There is a SATA port for each drive: 1 of 4 are then in use.'],
  [
    'storage.ports',
    'does not fit',
    { add: [small], at: { sataPorts: 0 } },
    'It needs 1 SATA port in all, and your board has 0.',
  ],
  [
    'storage.power',
    'fits',
    { add: [small] },
    'Your supply has a power plug for each drive: 1 of 4 are then in use.',
  ],
  [
    'storage.power',
    'fits after work',
    { add: [small], at: { sataPlugs: 0 } },
    'Your drives need 1 power plug, and your supply has 0.',
  ],
  ['storage.bays', 'fits', { add: [large] }, 'Your case has a place for each drive.'],
  [
    'storage.bays',
    'fits after work',
    { add: [small], at: { bays25: 0 } },
    'The places for small drives are in use, and a large one is free.',
  ],
  [
    'storage.bays',
    'does not fit',
    { add: [large], at: { bays35: 0 } },
    'Your case has no free place for a drive of that size.',
  ],
  [
    'case.fans',
    'fits',
    { add: [inCase({})], had: { fans: [fan] } },
    'The case has a place for each fan: 1 × 120 mm.',
  ],
  [
    'case.fans',
    'does not fit',
    { add: [inCase({ fanPlaces: [] })], had: { fans: [fan] } },
    'The case has no place for each of these fans: 1 × 120 mm.',
  ],
  [
    'case.frontPanel',
    'fits',
    { add: [inCase({ frontPlugs: ['USB 2.0'] })], had: withHeaders },
    'The board has a header for each plug of the front panel.',
  ],
  [
    'case.frontPanel',
    'fits slower',
    { add: [inCase({})], had: withHeaders },
    'It works, and this stays dead at the front: USB-C (key A).',
  ],
  [
    'graphics.length',
    'fits after work',
    { add: [{ ...card, id: 'CARD-NEW', lengthMm: 315 }] },
    'It is 315 mm long; your case has 300 mm, and 325 mm without the front fan.',
  ],
]
