import type { Drive, M2Socket } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { CITED } from './sources.ts'
import { b550, holding, pcieDrive, small, smalls, socket } from './storageParts.ts'

const next = small('new')

/** M2_1 is taken and turns nothing off; M2_2 turns off the last two of so many ports. */
const turnsOff = [socket('M2_1'), socket('M2_2', { sataPortsOff: ['SATA_5', 'SATA_6'] })]
const lone = [socket('M2_1', { sataPortsOff: ['SATA_3', 'SATA_4'] })]
const m2Into = (
  sockets: readonly M2Socket[],
  sataPorts: number,
  fitted: readonly Drive[],
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: holding(b550(sockets, { sataPorts }), fitted),
  add: [pcieDrive('new')],
  source: CITED.m2Sharing,
})
const old = pcieDrive('old')

export const storagePortsOff = chapter('storage', 'storage', [
  {
    ...m2Into(turnsOff, 6, [old]),
    id: 'storage-ports-off-no-drive',
    says: 'The socket turns off two ports that nobody uses.',
    tricky: true,
    verdict: 'fits',
    reason: '6 ports less 2, no SATA drive',
  },
  {
    ...m2Into(turnsOff, 6, [old, ...smalls(1)]),
    id: 'storage-ports-off-one-drive',
    says: 'One SATA drive may hang on a port that goes dead: its cable moves.',
    verdict: 'fits after work',
    reason: '6 ports less 2 leave 4 for 1 drive',
  },
  {
    ...m2Into(turnsOff, 6, [old, ...smalls(4)]),
    id: 'storage-ports-off-four-drives',
    says: 'Four SATA drives have just enough ports left.',
    verdict: 'fits after work',
    reason: '6 ports less 2 leave 4 for 4 drives',
  },
  {
    ...m2Into(turnsOff, 6, [old, ...smalls(5)]),
    id: 'storage-ports-off-five-drives',
    says: 'A socket is free and a port is free, and together they are one too many.',
    tricky: true,
    verdict: 'does not fit',
    reason: '6 ports less 2 leave 4 for 5 drives',
  },
  {
    ...m2Into(lone, 4, smalls(4)),
    id: 'storage-ports-off-full-board',
    says: 'Four SATA drives on four ports: the M.2 drive would turn two of them off.',
    tricky: true,
    verdict: 'does not fit',
    reason: '4 ports less 2 leave 2 for 4 drives',
  },
  {
    ...m2Into([turnsOff[1] ?? socket('M2_2'), socket('M2_1')], 6, smalls(5)),
    id: 'storage-ports-off-other-socket',
    says: 'The other free socket turns nothing off, so the drive goes there.',
    tricky: true,
    verdict: 'fits',
    reason: 'M2_1 leaves all 6 ports for 5 drives',
  },
  {
    ...m2Into(lone, 4, [old, ...smalls(2)]),
    add: [next],
    id: 'storage-ports-off-by-the-fitted-drive',
    says: 'Two of four ports look free and are dead, because the M.2 drive turned them off.',
    tricky: true,
    verdict: 'does not fit',
    reason: '4 ports less 2 turned off less 2 drives leave 0',
  },
  {
    ...m2Into(lone, 4, [old, ...smalls(1)]),
    add: [next],
    id: 'storage-ports-off-one-left',
    says: 'Beside the M.2 drive one live port is left.',
    verdict: 'fits',
    reason: '4 ports less 2 turned off less 1 drive leave 1',
  },
  {
    ...m2Into(lone, 4, [old, ...smalls(2)]),
    add: [next],
    out: ['DRIVE old'],
    id: 'storage-ports-back-on',
    says: 'The M.2 drive goes, and its two ports come back.',
    tricky: true,
    verdict: 'fits',
    reason: '4 ports less 2 drives leave 2',
  },
])
