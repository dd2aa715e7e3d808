import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { Case, Drive, Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { CITED } from './sources.ts'
import {
  b550,
  bayed,
  holding,
  large,
  m2Sata,
  pcieDrive,
  plugged,
  small,
  smalls,
  socket,
} from './storageParts.ts'

const one = [socket('M2_1', { sata: true })]
const next = small('new')

const ports = (
  sataPorts: number | undefined,
  fitted: readonly Drive[],
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: holding(b550(one, { sataPorts }), fitted),
  add: [next],
  source: CITED.sataPort,
})
const power = (
  source: Partial<Supply>,
  fitted: readonly Drive[],
  ...claims: Claim[]
): Pick<Draft, 'has' | 'add' | 'claims' | 'source'> => ({
  has: holding(b550(one), fitted, undefined, plugged('old', source)),
  add: [next],
  claims,
  source: CITED.sataPower,
})
const room = (
  box: Partial<Case>,
  fitted: readonly Drive[],
  ...add: Drive[]
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: holding(b550(one), fitted, undefined, bayed('old', box)),
  add,
  source: CITED.bays,
})

export const storageSata = chapter('storage', 'storage', [
  {
    ...ports(4, smalls(1)),
    id: 'storage-sata-free',
    says: 'Port, plug and bay are free for a second 2.5-inch drive.',
    verdict: 'fits',
    reason: '4 ports, 6 plugs and 6 bays less 1 drive each',
  },
  {
    ...ports(4, smalls(3)),
    id: 'storage-sata-last-port',
    says: 'The last port is enough.',
    verdict: 'fits',
    reason: '4 ports less 3 drives leave 1',
  },
  {
    ...ports(4, smalls(4)),
    id: 'storage-sata-no-port',
    says: 'Four drives on four ports leave none.',
    verdict: 'does not fit',
    reason: '4 ports less 4 drives leave 0',
  },
  {
    ...ports(4, [...smalls(3), m2Sata('old M.2')]),
    id: 'storage-sata-m2-takes-no-port',
    says: 'The fourth SATA drive sits in an M.2 socket and takes no port.',
    tricky: true,
    verdict: 'fits',
    reason: '4 ports less 3 drives leave 1; the M.2 drive is wired through its socket',
  },
  {
    ...ports(undefined, smalls(1)),
    id: 'storage-sata-ports-unknown',
    says: 'Nobody counted the SATA ports of the board.',
    verdict: "can't tell",
    reason: 'SATA ports of the board not known',
    needs: ['sataPorts'],
  },
  {
    ...ports(undefined, smalls(1)),
    claims: [{ key: 'sataPorts', value: 2, source: 'measured' }],
    id: 'storage-sata-ports-counted',
    says: 'The builder counted two ports, and one is left.',
    verdict: 'fits',
    reason: '2 ports less 1 drive leave 1',
  },
  {
    ...power({ sataPlugs: 3 }, smalls(2)),
    id: 'storage-sata-last-plug',
    says: 'The last power plug is enough.',
    verdict: 'fits',
    reason: '3 plugs less 2 drives leave 1',
  },
  {
    ...power({ sataPlugs: 2 }, smalls(2)),
    id: 'storage-sata-no-plug',
    says: 'Ports are free, and the supply has no plug left: another supply comes with the drive.',
    tricky: true,
    verdict: 'fits after work',
    reason: '2 plugs less 2 drives leave 0',
  },
  {
    ...power({ sataPlugs: 2 }, [...smalls(1), m2Sata('old M.2')]),
    id: 'storage-sata-m2-takes-no-plug',
    says: 'An M.2 SATA drive is fed by its socket and takes no plug.',
    tricky: true,
    verdict: 'fits',
    reason: '2 plugs less 1 drive leave 1',
  },
  {
    ...power({ sataPlugs: undefined }, smalls(1)),
    id: 'storage-sata-plugs-unknown',
    says: 'Nobody counted the SATA plugs of the supply.',
    verdict: "can't tell",
    reason: 'SATA plugs of the supply not known',
    needs: ['sataPlugs'],
  },
  {
    ...power({ sataPlugs: undefined }, smalls(1), { key: 'sataPlugs', value: 2, source: 'measured' }),
    id: 'storage-sata-plugs-counted',
    says: 'The builder counted two plugs in the machine, and one is left.',
    verdict: 'fits',
    reason: '2 plugs less 1 drive leave 1',
  },
  {
    ...room({ bays25: 1, bays35: 0 }, [], next),
    id: 'storage-bay-25-last',
    says: 'The only 2.5-inch bay is free.',
    verdict: 'fits',
    reason: '1 bay for 2.5-inch less 0 drives',
  },
  {
    ...room({ bays25: 1, bays35: 2 }, smalls(1), next),
    id: 'storage-bay-25-in-35',
    says: 'The 2.5-inch bay is taken, and a bracket makes a 3.5-inch bay do.',
    verdict: 'fits after work',
    reason: '1 bay for 2.5-inch less 1 drive; 2 bays for 3.5-inch free, bracket',
  },
  {
    ...room({ bays25: 1, bays35: 0 }, smalls(1), next),
    id: 'storage-bay-25-none',
    says: 'No bay of either size is left.',
    verdict: 'does not fit',
    reason: '1 + 0 bays less 1 drive leave 0',
  },
  {
    ...room({ bays25: 0, bays35: 1 }, [large('old')], next),
    id: 'storage-bay-35-taken',
    says: 'The one 3.5-inch bay that a bracket could use holds a drive.',
    verdict: 'does not fit',
    reason: '0 bays for 2.5-inch, 1 bay for 3.5-inch less 1 drive',
  },
  {
    ...room({ bays25: 2, bays35: 2 }, [large('old')], large('new')),
    id: 'storage-bay-35-last',
    says: 'The last 3.5-inch bay takes the drive.',
    verdict: 'fits',
    reason: '2 bays for 3.5-inch less 1 drive leave 1',
  },
  {
    ...room({ bays25: 3, bays35: 0 }, [], large('new')),
    id: 'storage-bay-35-in-25',
    says: 'Three free 2.5-inch bays do not take a 3.5-inch drive.',
    tricky: true,
    verdict: 'does not fit',
    reason: '101.6 mm wide against 69.85 mm; no bay for 3.5-inch',
  },
  {
    ...room({ bays25: 1, bays35: 1 }, smalls(2), large('new')),
    id: 'storage-bay-35-under-bracket',
    says: 'The second 2.5-inch drive sits in the 3.5-inch bay already.',
    tricky: true,
    verdict: 'does not fit',
    reason: '1 bay for 2.5-inch less 2 drives; the other holds the bay for 3.5-inch',
  },
  {
    ...room({ bays25: 2, bays35: undefined }, [], large('new')),
    id: 'storage-bay-35-unknown',
    says: 'Nobody counted the large bays of the case.',
    verdict: "can't tell",
    reason: '3.5-inch bays of the case not known',
    needs: ['bays35'],
  },
  {
    ...room({ bays25: undefined, bays35: 0 }, [], next),
    id: 'storage-bay-25-unknown',
    says: 'There is no large bay, and nobody counted the small ones.',
    verdict: "can't tell",
    reason: '2.5-inch bays of the case not known',
    needs: ['bays25'],
  },
  {
    ...room({ bays25: 0, bays35: 0 }, [], pcieDrive('new')),
    id: 'storage-bay-m2-needs-none',
    says: 'A case without bays takes an M.2 drive all the same.',
    tricky: true,
    verdict: 'fits',
    reason: 'an M.2 drive lies on the board',
    source: CITED.m2Sizes,
  },
  {
    ...room({ bays25: 0, bays35: 1 }, [large('old')], next),
    out: ['DRIVE old'],
    id: 'storage-bay-35-swapped-for-25',
    says: 'The 3.5-inch drive goes, and its bay takes the 2.5-inch drive with a bracket.',
    verdict: 'fits after work',
    reason: '1 bay for 3.5-inch free after the change, bracket',
  },
  {
    has: holding(
      b550(one),
      smalls(2),
      undefined,
      plugged('old', { sataPlugs: 2 }),
      bayed('old', { bays25: 2, bays35: 0 }),
    ),
    add: [next],
    id: 'storage-sata-no-plug-and-no-bay',
    says: 'Another supply settles the plug and not the bay.',
    verdict: 'does not fit',
    reason: '2 plugs less 2 drives; 2 + 0 bays less 2 drives',
    source: CITED.bays,
  },
])
