import type { Drive, M2Socket } from '../../part.ts'
import { obstacle, socketGBps } from './sockets.ts'

/** A drive and the socket it sits in; `undefined` where none is left for it. */
export type Seat = { readonly drive: Drive; readonly socket: M2Socket | undefined }

/** What makes one seating better than another. */
export type Wish = {
  /** Drives on SATA cables are there, so a dead port matters. */
  readonly hurtsSata: boolean
  /** The card would notice the lanes. */
  readonly hurtsCard: boolean
  /** Below this a drive loses. */
  readonly wantGBps: (drive: Drive) => number
  readonly indexOf: (socket: M2Socket) => number
  readonly offBefore: readonly string[]
  readonly sharedBefore: boolean
  readonly seatBefore: (drive: Drive) => M2Socket | undefined
}

export type Seating = {
  readonly seats: readonly Seat[]
  /** What it does to SATA drives and card: the larger, the worse. */
  readonly harm: number
}

/** Compared figure by figure, the first that differs decides; every figure can only grow with one drive more. */
type Cost = readonly [
  homeless: number,
  evicted: number,
  portsLost: number,
  lanesLost: number,
  lostMBps: number,
  moved: number,
  portsOff: number,
  places: number,
]

const isLess = (a: Cost, b: Cost): boolean => {
  for (const [i, figure] of a.entries()) if (figure !== b[i]) return figure < (b[i] ?? 0)
  return false
}

/**
 * The best seating of some drives beside those that hold theirs, by looking at every one; a branch that is already no
 * better than the best so far is left. Drives are taken in the order of their ids, so their order in the machine never
 * matters.
 *
 * It begins with a seating of as many drives as there can be. So whether all have a socket is exact for any number;
 * what they cost others is exact for the six or eight that boards have, and beyond them the best of many.
 */
export function bestSeating(
  drives: readonly Drive[],
  sockets: readonly M2Socket[],
  wish: Wish,
  held: readonly Seat[],
): Seating {
  const sorted = [...drives].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
  const free = sockets.filter((socket) => !held.some((seat) => seat.socket === socket))
  const most = [...held, ...mostSeated(sorted, free)]
  let best: { readonly seats: readonly Seat[]; readonly cost: Cost } = {
    seats: most,
    cost: costOf(most, wish),
  }
  let looks = 0
  const look = (at: number, seats: readonly Seat[]): void => {
    looks += 1
    const cost = costOf(seats, wish)
    if (looks > MOST_LOOKS || !isLess(cost, best.cost)) return
    const drive = sorted[at]
    if (drive === undefined) {
      best = { seats, cost }
      return
    }
    for (const socket of free) {
      const isOpen = obstacle(drive, socket) === undefined && !seats.some((seat) => seat.socket === socket)
      if (isOpen) look(at + 1, [...seats, { drive, socket }])
    }
    look(at + 1, [...seats, { drive, socket: undefined }])
  }
  look(0, held)
  const { seats, cost } = best
  return { seats, harm: cost[2] * 2 + cost[3] }
}

/** Six unlike drives over six sockets take some thousand. */
const MOST_LOOKS = 30_000

/** As many drives in sockets as there can be: each drive may send those before it to another one (augmenting paths). */
function mostSeated(drives: readonly Drive[], sockets: readonly M2Socket[]): Seat[] {
  const holder = new Map<M2Socket, Drive>()
  const seat = (drive: Drive, tried: Set<M2Socket>): boolean => {
    for (const socket of sockets) {
      if (tried.has(socket) || obstacle(drive, socket) !== undefined) continue
      tried.add(socket)
      const other = holder.get(socket)
      if (other !== undefined && !seat(other, tried)) continue
      holder.set(socket, drive)
      return true
    }
    return false
  }
  for (const drive of drives) seat(drive, new Set())
  return drives.map((drive) => ({ drive, socket: sockets.find((socket) => holder.get(socket) === drive) }))
}

function costOf(seats: readonly Seat[], wish: Wish): Cost {
  const off = new Set(seats.flatMap(({ socket }) => socket?.sataPortsOff ?? []))
  const newlyOff = [...off].filter((port) => !wish.offBefore.includes(port)).length
  const shares = !wish.sharedBefore && seats.some(({ socket }) => socket?.sharesSlot === true)
  const homeless = seats.filter(({ socket }) => socket === undefined)
  const isMoved = ({ drive, socket }: Seat): boolean => {
    const had = wish.seatBefore(drive)
    return had !== undefined && had !== socket
  }
  return [
    homeless.length,
    homeless.filter(({ drive }) => wish.seatBefore(drive) !== undefined).length,
    wish.hurtsSata ? newlyOff : 0,
    shares && wish.hurtsCard ? 1 : 0,
    Math.round(lostOf(seats, wish) * 1000),
    seats.filter(isMoved).length,
    newlyOff + (shares ? 1 : 0),
    seats.reduce((sum, { socket }) => sum + (socket === undefined ? 0 : wish.indexOf(socket)), 0),
  ]
}

const lostOf = (seats: readonly Seat[], wish: Wish): number =>
  seats.reduce((sum, { drive, socket }) => {
    const gives = socket === undefined ? undefined : socketGBps(drive, socket)
    return sum + (gives === undefined ? 0 : Math.max(0, wish.wantGBps(drive) - gives))
  }, 0)
