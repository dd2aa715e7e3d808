import type { Build } from '../build.ts'
import { hasNoForm, isM2, sataDrives } from '../fit/storage/drives.ts'
import { obstacle, socketsOf } from '../fit/storage/sockets.ts'
import type { Limits } from '../limits/limit.ts'
import type { Drive, M2Socket } from '../part.ts'
import { isCount, known, type PlaceState, places } from './place.ts'

export type M2Place = { readonly state: PlaceState; readonly socket: M2Socket }

export type DriveSlots = {
  /** Sockets for drives as the board's manual lists them; absent = nobody listed them. */
  readonly m2?: readonly M2Place[] | undefined
  /** M.2 drives that are written down. */
  readonly m2Drives: readonly string[]
  /** Ports of the board, taken ones first; where their number is not known, only those in use. */
  readonly sata: readonly SataState[]
  /** Ports of the board; absent = not known. */
  readonly sataTotal?: number | undefined
  readonly sataDrives: readonly string[]
}

/** `off`: dead while an M.2 socket holds a drive. */
export type SataState = PlaceState | 'off'

/**
 * Places for drives. An M.2 drive may sit in any socket that takes it, so a socket is taken only where every way to
 * seat the drives fills it, and free only where none does. A machine in whose book no drive stands has one all the
 * same, and a drive whose form nobody gave may be in any place that takes it.
 */
export function driveSlots(build: Build, limits: Limits): DriveSlots {
  const sockets = socketsOf(build.board)?.filter(({ key }) => key !== 'E')
  const m2 = sockets && m2Places(build.drives, sockets)
  const total = known(limits, 'sataPorts')
  return {
    m2,
    m2Drives: build.drives.filter(isM2).map(({ name }) => name),
    sata: sataPorts(build, m2, isCount(total) ? total : undefined),
    sataTotal: isCount(total) ? total : undefined,
    sataDrives: sataDrives(build).map(({ name }) => name),
  }
}

/** Boards have up to six; beyond this the sets of ways grow too large to look at. */
const SOCKETS_MOST = 12

function m2Places(drives: readonly Drive[], sockets: readonly M2Socket[]): M2Place[] {
  const fit = drives.filter(isM2)
  const ways = sockets.length > SOCKETS_MOST ? undefined : waysToFill(fit, sockets)
  return sockets.map((socket, i) => {
    const isIn = (way: number) => (way & (1 << i)) !== 0
    const mayHold = drives.some((drive) => hasNoForm(drive) && obstacle(drive, socket) === undefined)
    if (drives.length === 0 || ways === undefined) return { state: "can't tell", socket }
    if (ways.every(isIn)) return { state: 'taken', socket }
    return { state: ways.some(isIn) || mayHold ? "can't tell" : 'free', socket }
  })
}

/**
 * Every set of sockets that the drives can fill, one bit a socket. `undefined` where a drive has no socket at all: then
 * what is written down of drives or sockets is wrong, and nothing follows from it.
 */
function waysToFill(drives: readonly Drive[], sockets: readonly M2Socket[]): readonly number[] | undefined {
  let ways: ReadonlySet<number> = new Set([0])
  for (const drive of drives) {
    const next = new Set<number>()
    for (const way of ways)
      for (const [i, socket] of sockets.entries()) {
        const bit = 1 << i
        if ((way & bit) === 0 && obstacle(drive, socket) === undefined) next.add(way | bit)
      }
    if (next.size === 0) return undefined
    ways = next
  }
  return [...ways]
}

function sataPorts(
  build: Build,
  m2: readonly M2Place[] | undefined,
  total: number | undefined,
): readonly SataState[] {
  const used = sataDrives(build).length
  if (total === undefined) return places(used, 'taken')
  const offBy = (state: PlaceState) =>
    new Set(
      m2?.filter((place) => place.state === state).flatMap(({ socket }) => socket.sataPortsOff ?? []) ?? [],
    )
  const surelyOff = offBy('taken')
  const left = total - used - surelyOff.size
  // Ports that nobody can vouch for: a drive without a form, sockets that may hold one, sockets nobody listed.
  const isOpen =
    build.drives.length === 0 || (m2 === undefined && build.drives.some((d) => isM2(d) || hasNoForm(d)))
  if (left < 0) return places(total, "can't tell")
  const mayBeOff = [...offBy("can't tell")].filter((port) => !surelyOff.has(port)).length
  const doubtful = isOpen ? left : mayBeOff + build.drives.filter(hasNoForm).length
  return [
    ...places(used, 'taken'),
    ...Array.from({ length: surelyOff.size }, (): SataState => 'off'),
    ...places(Math.min(left, doubtful), "can't tell"),
    ...places(left - doubtful, 'free'),
  ]
}
