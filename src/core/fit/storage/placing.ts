import type { Drive, M2Socket } from '../../part.ts'
import type { Situation } from '../situation.ts'
import { hasOtherBoard, isM2, newDrives, placesM2, sataDrives } from './drives.ts'
import { bestSeating, type Seat, type Wish } from './seating.ts'
import { driveGBps, missingFigures, obstacle, socketGBps, socketsOf } from './sockets.ts'

/** Limits that tell what a socket costs the card; all may be missing. */
export type LaneLimits = {
  readonly slotLanesShared?: number | undefined
  readonly slotLanes?: number | undefined
  readonly processorPcieLanes?: number | undefined
}
/** For the list of limits of a rule that places drives. */
export const LANE_LIMITS = ['slotLanesShared', 'slotLanes', 'processorPcieLanes'] as const

/** All M.2 drives of the machine in the sockets of the board, as well as it goes. */
export type Placing = {
  readonly seats: readonly Seat[]
  /** Those of the drives that had to be placed. */
  readonly fresh: readonly Seat[]
  /** SATA ports that are dead beside these drives. */
  readonly off: readonly string[]
  /** Those of them that were alive before. */
  readonly newlyOff: readonly string[]
  /** A drive sits in a socket that takes lanes from the graphics slot. */
  readonly sharesSlot: boolean
  /** And none did before. */
  readonly newlyShares: boolean
  /** What a drive could use, or had before where it stays; `undefined` while that is not known. */
  readonly wantGBps: (drive: Drive) => number | undefined
}

/**
 * The best placing of all M.2 drives after the change: all in, then no SATA port taken from a drive, then no lane taken
 * from the card, then no drive slower. Exact: every way is looked at. On a board that stays, what was already so before
 * counts nothing.
 *
 * Drives that were there before and whose figures nobody gave sit somewhere on a board that stays: then one placing for
 * each way they can sit. None where the board's list or a figure of a drive that has to be placed is not known.
 *
 * @param likely only the ways in which the drives of today sit as well as they can
 */
export function placingsOf(s: Situation, lanes: LaneLimits, { likely = true } = {}): readonly Placing[] {
  const sockets = socketsOf(s.after.board)
  if (sockets === undefined) return []
  // Two drives may be the same record; each gets a seat of its own.
  const fresh = toPlace(s).map((drive) => ({ ...drive }))
  if (fresh.some((drive) => missingFigures(drive).length > 0)) return []
  if (hasOtherBoard(s)) return [placed(s, sockets, lanes, fresh, [], [])]
  const had = s.before.drives.filter(isM2).map((drive) => ({ ...drive }))
  const bare = had.filter((drive) => missingFigures(drive).length > 0)
  const known = had.filter((drive) => !bare.includes(drive))
  const wish = wishOf({ ...s, after: s.before }, sockets, lanes, driveGBps)
  const ways = waysToSit(bare, sockets).map((fixed) => ({
    fixed,
    today: bestSeating(known, sockets, wish, fixed),
  }))
  const least = Math.min(...ways.map(({ today }) => today.harm))
  const kept = likely ? ways.filter(({ today }) => today.harm === least) : ways
  return kept.map(({ fixed, today }) => placed(s, sockets, lanes, fresh, today.seats, fixed))
}

/** The drives that have to be placed: the new ones, or all of them on another board. */
export const toPlace = (s: Situation): readonly Drive[] =>
  (hasOtherBoard(s) ? s.after.drives : newDrives(s)).filter(isM2)

/** Drives of today whose seat on the board nobody can tell, because their figures are not known. */
export const bareDrives = (s: Situation): readonly Drive[] =>
  hasOtherBoard(s) ? [] : s.before.drives.filter((d) => isM2(d) && missingFigures(d).length > 0)

function placed(
  s: Situation,
  sockets: readonly M2Socket[],
  lanes: LaneLimits,
  fresh: readonly Drive[],
  today: readonly Seat[],
  fixed: readonly Seat[],
): Placing {
  const stays = [...today]
  const leave = newDrives({ ...s, before: s.after, after: s.before })
  for (const { id } of leave) {
    const at = stays.findIndex(({ drive }) => drive.id === id)
    if (at >= 0) stays.splice(at, 1)
  }
  const held = fixed.filter((seat) => stays.includes(seat))
  const free = [...stays.filter((seat) => !held.includes(seat)).map(({ drive }) => drive), ...fresh]
  const offBefore = portsOff(today)
  const sharedBefore = today.some(({ socket }) => socket?.sharesSlot === true)
  const rateBefore = (drive: Drive): number | undefined => {
    const seat = fresh.includes(drive) ? undefined : stays.find((one) => one.drive === drive)
    return seat?.socket === undefined ? driveGBps(drive) : socketGBps(drive, seat.socket)
  }
  const wish: Wish = {
    ...wishOf(s, sockets, lanes, rateBefore),
    offBefore,
    sharedBefore,
    seatBefore: (drive) => stays.find((one) => one.drive === drive)?.socket,
  }
  const { seats } = bestSeating(free, sockets, wish, held)
  const off = portsOff(seats)
  const sharesSlot = seats.some(({ socket }) => socket?.sharesSlot === true)
  return {
    seats,
    fresh: seats.filter(({ drive }) => fresh.includes(drive)),
    off,
    newlyOff: off.filter((port) => !offBefore.includes(port)),
    sharesSlot,
    newlyShares: sharesSlot && !sharedBefore,
    wantGBps: rateBefore,
  }
}

const portsOff = (seats: readonly Seat[]): string[] => [
  ...new Set(seats.flatMap(({ socket }) => socket?.sataPortsOff ?? [])),
]

function wishOf(
  s: Situation,
  sockets: readonly M2Socket[],
  lanes: LaneLimits,
  wantGBps: (drive: Drive) => number | undefined,
): Wish {
  const left = lanes.slotLanesShared
  return {
    hurtsSata: sataDrives(s.after).length > 0,
    hurtsCard: s.after.card !== undefined && !(left !== undefined && left >= lanesInUse(s, lanes)),
    wantGBps: (drive) => wantGBps(drive) ?? 0,
    indexOf: (socket) => sockets.indexOf(socket),
    offBefore: [],
    sharedBefore: false,
    seatBefore: () => undefined,
  }
}

/** Lanes that the card uses beside empty sockets, as far as they are known. */
export const lanesInUse = ({ after }: Situation, { slotLanes, processorPcieLanes }: LaneLimits): number =>
  Math.min(
    after.card?.pcieLanes ?? Number.POSITIVE_INFINITY,
    slotLanes ?? Number.POSITIVE_INFINITY,
    processorPcieLanes ?? Number.POSITIVE_INFINITY,
  )

/** Every way in which these drives can sit, one a socket, as far as anybody knows them. */
function waysToSit(drives: readonly Drive[], sockets: readonly M2Socket[]): readonly (readonly Seat[])[] {
  const [drive, ...rest] = drives
  if (drive === undefined) return [[]]
  const open = sockets.filter((socket) => obstacle(drive, socket) === undefined)
  // More of them than sockets: one sits elsewhere, such as on a card of its own.
  if (open.length === 0)
    return waysToSit(rest, sockets).map((seats) => [{ drive, socket: undefined }, ...seats])
  return open.flatMap((socket) =>
    waysToSit(
      rest,
      sockets.filter((other) => other !== socket),
    ).map((seats) => [{ drive, socket }, ...seats]),
  )
}

/** Drives are placed on a board whose list tells which sockets take lanes from the graphics slot. */
export const placesBeside = (s: Situation): boolean =>
  placesM2(s) && socketsOf(s.after.board)?.some(({ sharesSlot }) => sharesSlot === true) === true

/** Whether a drive takes lanes from the graphics slot after the change: as placed, else as somebody saw it. */
export const takesLanes = (
  s: Situation,
  limits: LaneLimits & { readonly sharedM2Used?: 'yes' | 'no' | undefined },
): boolean =>
  placesBeside(s) ? placingsOf(s, limits)[0]?.sharesSlot === true : limits.sharedM2Used === 'yes'
