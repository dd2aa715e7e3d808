import { linkGBps } from '../../facts/links.ts'
import { M2_SOCKETS, sataGBps } from '../../facts/storage.ts'
import type { Board, Drive, M2Socket } from '../../part.ts'
import type { Missing } from '../finding.ts'
import { isUsable, type Spec, spec } from '../spec.ts'

/** The board's M.2 sockets; `undefined` where nobody listed them, or the list cannot be read. */
export function socketsOf(board: Board | undefined): readonly M2Socket[] | undefined {
  const sockets = board?.m2Sockets
  return sockets?.every(isReadable) === true ? sockets : undefined
}

const isCount = (n: number | undefined): boolean => n === undefined || (Number.isFinite(n) && n > 0)

const isReadable = ({ name, lengthsMm, pcieGen, lanes }: M2Socket): boolean =>
  isUsable(name) && isUsable(lengthsMm) && isCount(pcieGen) && isCount(lanes)

/** Names of the sockets, with the words to ask for the list where it is not there. */
export const socketsSpec = (board: Board | undefined): Spec<readonly string[]> => ({
  value: socketsOf(board)?.map(({ name }) => name),
  missing:
    board === undefined
      ? spec(board, 'board', 'id').missing
      : { spec: 'm2Sockets', partId: board.id, partName: board.name },
})

/** What decides whether a drive goes into a socket. */
const FIGURES = ['m2Key', 'lengthMm', 'interface'] as const

export const figuresOf = (drive: Drive): readonly Spec[] => FIGURES.map((name) => spec(drive, 'drive', name))

export const missingFigures = (drive: Drive): readonly Missing[] =>
  figuresOf(drive).flatMap(({ value, missing }) => (value === undefined ? [missing] : []))

/** The first thing that keeps a drive out of a socket, in the order in which a hand meets it. */
export type Obstacle = 'key' | 'length' | 'interface'

/** A figure that nobody gave is no obstacle here: whoever asks has to look for it first. */
export function obstacle(
  { m2Key, lengthMm, interface: speaks }: Drive,
  socket: M2Socket,
): Obstacle | undefined {
  const { takes } = M2_SOCKETS[socket.key]
  if (takes.length === 0 || (m2Key !== undefined && !takes.includes(m2Key))) return 'key'
  if (lengthMm !== undefined && !socket.lengthsMm.includes(lengthMm)) return 'length'
  const isWired = speaks === 'SATA' ? socket.sata : speaks === 'PCIe' ? socket.lanes !== undefined : true
  return isWired ? undefined : 'interface'
}

/** Revision of Serial ATA on M.2: boards with such sockets have the third (common practice). */
const SATA_REVISION = 3

/** What the drive could use, in GB/s; `undefined` while its link is not known. */
export function driveGBps({ interface: speaks, pcieGen, pcieLanes }: Drive): number | undefined {
  if (speaks === 'SATA') return sataGBps(SATA_REVISION)
  return pcieGen === undefined || pcieLanes === undefined ? undefined : linkGBps(pcieGen, pcieLanes)
}

/** What a socket leaves it: the lower generation and the fewer lanes of both ends. */
export function socketGBps(drive: Drive, { pcieGen, lanes }: M2Socket): number | undefined {
  if (drive.interface === 'SATA') return sataGBps(SATA_REVISION)
  if (drive.pcieGen === undefined || drive.pcieLanes === undefined) return undefined
  if (pcieGen === undefined || lanes === undefined) return undefined
  return linkGBps(Math.min(drive.pcieGen, pcieGen), Math.min(drive.pcieLanes, lanes))
}
