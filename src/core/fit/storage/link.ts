import { rule } from '../rule.ts'
import { spec } from '../spec.ts'
import { isSeated } from './m2.ts'
import { bareDrives, LANE_LIMITS, type Placing, placingsOf, toPlace } from './placing.ts'
import type { Seat } from './seating.ts'
import { missingFigures, socketGBps } from './sockets.ts'

/**
 * Link of an M.2 drive in the socket it lands in:
 *
 *   linkGBps = rate(min generation) x min lanes      of drive and socket
 *
 * Below what the drive could use it works, slower; so does one of today that has to move to a slower socket. SATA drives
 * lose nothing. Silent where a drive has no socket (storage.m2).
 */
export const storageLink = rule({
  id: 'storage.link',
  source: {
    kind: 'standard',
    text: 'PCI Express Base Specification, link training: the lower generation and the fewer lanes; Serial ATA, 8b/10b',
  },
  reads: [],
  mayRead: LANE_LIMITS,
  thresholds: ['SATA 0.6 GB/s (Serial ATA, 6 Gb/s at 8b/10b)'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => isSeated(s),
  about: (s) => toPlace(s)[0],
  specs: (s) => {
    const onPcie = toPlace(s).filter((drive) => drive.interface === 'PCIe')
    return {
      gens: onPcie.map((drive) => spec(drive, 'drive', 'pcieGen')),
      lanes: onPcie.map((drive) => spec(drive, 'drive', 'pcieLanes')),
    }
  },
  values: (_, lanes, s) => {
    const ways = placingsOf(s, lanes)
    const [first] = ways
    const seat = first && slowest(first)
    const isSata = seat?.drive.interface === 'SATA'
    const want = seat && first.wantGBps(seat.drive)
    const link = seat?.socket && socketGBps(seat.drive, seat.socket)
    return {
      drive: seat?.drive.name,
      socket: seat?.socket?.name,
      driveGen: isSata ? 'SATA' : seat?.drive.pcieGen,
      driveLanes: isSata ? 'SATA' : seat?.drive.pcieLanes,
      socketGen: isSata ? 'SATA' : (seat?.socket?.pcieGen ?? 'not known'),
      socketLanes: isSata ? 'SATA' : seat?.socket?.lanes,
      driveGBps: want,
      linkGBps: link,
      lostGBps: want === undefined || link === undefined ? undefined : Math.max(0, want - link),
      ways: new Set(ways.map((way) => lossOf(slowest(way), way).toFixed(3))).size,
    }
  },
  doubts: ({ ways }, s) => (ways > 1 ? bareDrives(s).flatMap(missingFigures) : []),
  verdict: ({ lostGBps }) => (lostGBps > 0 ? 'fits slower' : 'fits'),
})

/** What a drive loses where it sits; a link that is not known counts as the most. */
function lossOf(seat: Seat | undefined, way: Placing): number {
  if (seat?.socket === undefined) return 0
  const [want, link] = [way.wantGBps(seat.drive), socketGBps(seat.drive, seat.socket)]
  if (way.fresh.includes(seat))
    return want === undefined || link === undefined ? UNKNOWN : Math.max(0, want - link)
  return want === undefined || link === undefined ? 0 : Math.max(0, want - link)
}
const UNKNOWN = 1e6

/** The seat that loses most; where none loses anything, that of the drive that comes in. */
const slowest = (way: Placing): Seat | undefined =>
  [...way.fresh, ...way.seats].reduce<Seat | undefined>(
    (worst, seat) => (worst === undefined || lossOf(seat, way) > lossOf(worst, way) ? seat : worst),
    undefined,
  )
