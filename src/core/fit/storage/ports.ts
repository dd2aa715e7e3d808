import type { Missing } from '../finding.ts'
import { rule } from '../rule.ts'
import { spec } from '../spec.ts'
import {
  hasNoForm,
  hasOtherBoard,
  isCabled,
  isM2,
  isOnSataPort,
  newDrives,
  sataDrives,
  takesOver,
} from './drives.ts'
import { bareDrives, LANE_LIMITS, placingsOf, toPlace } from './placing.ts'
import { figuresOf, missingFigures, socketsSpec } from './sockets.ts'

/**
 * SATA ports: each drive on a cable needs one that is alive.
 *
 *   drives on SATA <= ports - ports that M.2 drives turn off
 *
 * Where M.2 drives are in the machine, the board's list of sockets tells which ports they turn off.
 */
export const storagePorts = rule({
  id: 'storage.ports',
  source: {
    kind: 'vendor',
    text: "board's manual: number of SATA ports, and those that an M.2 socket turns off",
  },
  reads: ['sataPorts'],
  mayRead: LANE_LIMITS,
  verdicts: ['fits', 'does not fit'],
  applies: (s) => newDrives(s).some(isCabled) || (hasOtherBoard(s) && s.after.drives.some(isCabled)),
  about: (s) => newDrives(s).find(isCabled) ?? s.after.drives.find(isCabled),
  specs: (s) => ({
    forms: s.after.drives.filter(hasNoForm).map((drive) => spec(drive, 'drive', 'form')),
    sockets: s.after.drives.some(isM2) ? [socketsSpec(s.after.board)] : [],
    figures: toPlace(s).flatMap(figuresOf),
  }),
  values: (_, { sataPorts, ...lanes }, s) => {
    const off = s.after.drives.some(isM2) ? placingsOf(s, lanes).map((way) => way.off) : [[]]
    const counts = off.map((ports) => ports.length)
    return {
      sataDrives: sataDrives(s.after).length,
      ports: sataPorts,
      portsOff: off[0],
      offMost: Math.max(...counts),
      offLeast: Math.min(...counts),
      takesOver: takesOver(s) && newDrives(s).some(isOnSataPort),
    }
  },
  doubts: ({ sataDrives: drives, ports, offMost, offLeast }, s) => [
    ...judged(s).flatMap((drive) => noPortFor(drive)),
    ...(drives <= ports - offLeast && drives > ports - offMost ? bareDrives(s).flatMap(missingFigures) : []),
  ],
  verdict: ({ sataDrives: drives, ports, offMost }) => (drives <= ports - offMost ? 'fits' : 'does not fit'),
  cautions: ({ takesOver: over }, verdict) => (verdict !== 'fits' ? [] : over ? ['esd', 'backup'] : ['esd']),
})

const judged = (s: Parameters<typeof newDrives>[0]) =>
  (hasOtherBoard(s) ? s.after.drives : newDrives(s)).filter(isCabled)

/** A 2.5-inch drive that speaks PCIe needs a port of its own kind, of which no list here knows. */
const noPortFor = ({ id, name, interface: speaks }: ReturnType<typeof judged>[number]): Missing[] =>
  speaks === 'PCIe'
    ? [
        {
          spec: 'interface',
          partId: id,
          partName: name,
          doubt: 'a PCIe drive in a bay needs a U.2 port or a card',
        },
      ]
    : []
