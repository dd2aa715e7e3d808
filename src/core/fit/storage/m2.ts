import type { Drive, M2Socket } from '../../part.ts'
import { rule } from '../rule.ts'
import type { Situation } from '../situation.ts'
import { spec } from '../spec.ts'
import { hasNoForm, hasOtherBoard, newDrives, placesM2, takesOver } from './drives.ts'
import { bareDrives, LANE_LIMITS, type LaneLimits, type Placing, placingsOf, toPlace } from './placing.ts'
import { figuresOf, missingFigures, type Obstacle, obstacle, socketsOf, socketsSpec } from './sockets.ts'

/**
 * M.2 drives: each needs a socket of its own, with a key that takes its notch, a screw at its length and wires for what
 * it speaks. All drives of the machine are placed together, as well as it goes (placing.ts). A socket for wireless cards
 * is none.
 */
export const storageM2 = rule({
  id: 'storage.m2',
  source: {
    kind: 'standard',
    text: "PCI-SIG M.2 Specification, module sizes and mechanical keys; board's manual, wiring of each socket",
  },
  reads: [],
  mayRead: LANE_LIMITS,
  thresholds: ['lengths 30, 42, 60, 80 and 110 mm (PCI-SIG M.2 Specification)'],
  verdicts: ['fits', 'does not fit'],
  applies: (s) =>
    placesM2(s) || newDrives(s).some(hasNoForm) || (hasOtherBoard(s) && s.after.drives.some(hasNoForm)),
  about: (s) =>
    worstOff(placingsOf(s, {}, { likely: false })) ?? toPlace(s)[0] ?? s.after.drives.find(hasNoForm),
  specs: (s) => ({
    forms: s.after.drives.map((drive) => spec(drive, 'drive', 'form')),
    socketList: [socketsSpec(s.after.board)],
    figures: toPlace(s).flatMap(figuresOf),
  }),
  values: (_, lanes, s) => {
    const [first] = placingsOf(s, lanes, { likely: false })
    const sockets = socketsOf(s.after.board) ?? []
    const drive = first && (worstOff([first]) ?? first.fresh[0]?.drive)
    const seat = first?.fresh.find((one) => one.drive === drive)
    return {
      drive: drive?.name,
      driveKey: drive?.m2Key,
      driveMm: drive?.lengthMm,
      speaks: drive?.interface,
      socket: seat?.socket?.name ?? 'none',
      obstacle: drive && first && seat?.socket === undefined ? obstacleOf(drive, sockets) : 'none',
      placing: first?.seats.map((one) => `${one.drive.name}: ${one.socket?.name ?? 'none'}`),
      sockets: sockets.map(({ name }) => name),
      takesOver: takesOver(s),
    }
  },
  doubts: (_, s) => {
    const ways = placingsOf(s, NO_LIMITS, { likely: false }).map((way) => worstOff([way]) === undefined)
    return new Set(ways).size > 1 ? bareDrives(s).flatMap(missingFigures) : []
  },
  verdict: ({ obstacle }) => (obstacle === 'none' ? 'fits' : 'does not fit'),
  cautions: ({ takesOver: over }, verdict) => (verdict !== 'fits' ? [] : over ? ['esd', 'backup'] : ['esd']),
})

const NO_LIMITS: LaneLimits = {}

/** A drive for which no socket is left. */
const worstOff = (ways: readonly Placing[]): Drive | undefined =>
  ways.flatMap(({ seats }) => seats).find(({ socket }) => socket === undefined)?.drive

/** What keeps it out: of all sockets the one that takes it furthest decides. `taken`: one would suit and is in use. */
function obstacleOf(drive: Drive, sockets: readonly M2Socket[]): Obstacle | 'no socket' | 'taken' {
  const met = sockets.filter(({ key }) => key !== 'E').map((socket) => obstacle(drive, socket) ?? 'taken')
  return ORDER.find((one) => met.includes(one)) ?? 'no socket'
}
const ORDER = ['taken', 'interface', 'length', 'key'] as const

/** True when M.2 drives are placed and every one has a socket, however those of today sit. */
export const isSeated = (s: Situation): boolean => {
  if (!placesM2(s) || s.after.drives.some(hasNoForm)) return false
  const ways = placingsOf(s, NO_LIMITS, { likely: false })
  return ways.length > 0 && worstOff(ways) === undefined
}
