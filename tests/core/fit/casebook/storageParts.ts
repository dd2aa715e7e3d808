import type { Board, Case, Drive, M2Socket, Part, Processor, Supply } from '../../../../src/core/part.ts'
import { board, chassis, cpu, drive, machine, supply, without } from './parts.ts'

// Drives and what they plug into. Invented models; every figure a manual has is given.

/** Key M, gen 3 x4, screws for 42, 60 and 80 mm, not wired for SATA, shares nothing, unless told otherwise. */
export const socket = (name: string, figures?: Partial<M2Socket>): M2Socket => ({
  name,
  key: 'M',
  lengthsMm: [42, 60, 80],
  pcieGen: 3,
  lanes: 4,
  sata: false,
  ...figures,
})

/** Wired for SATA drives only. */
export const SATA_ONLY = { pcieGen: undefined, lanes: undefined, sata: true } as const

const named = (id: string): Drive => ({ ...drive, id: `DRIVE ${id}`, name: `invented drive ${id}` })

/** M.2, key M, 80 mm, gen 3 x4, unless told otherwise. */
export const pcieDrive = (id: string, figures?: Partial<Drive>): Drive => ({
  ...named(id),
  interface: 'PCIe',
  m2Key: 'M',
  lengthMm: 80,
  pcieGen: 3,
  pcieLanes: 4,
  ...figures,
})

/** M.2 and SATA, both notches, 80 mm, unless told otherwise. */
export const m2Sata = (id: string, figures?: Partial<Drive>): Drive => ({
  ...named(id),
  interface: 'SATA',
  m2Key: 'B+M',
  lengthMm: 80,
  ...figures,
})

/** 2.5-inch and SATA. */
export const small = (id: string): Drive => ({ ...named(id), form: '2.5-inch', interface: 'SATA' })

/** 3.5-inch and SATA. */
export const large = (id: string): Drive => ({ ...named(id), form: '3.5-inch', interface: 'SATA' })

/** So many 2.5-inch drives. */
export const smalls = (count: number): readonly Drive[] =>
  Array.from({ length: count }, (_, at) => small(`2.5-inch ${at + 1}`))

const r3000 = cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5')

/** Six SATA plugs. */
export const plugged = (id: string, figures?: Partial<Supply>): Supply =>
  supply(id, { sataPlugs: 6, ...figures })

/** Six bays of either size. */
export const bayed = (id: string, figures?: Partial<Case>): Case =>
  chassis(id, { bays25: 6, bays35: 6, ...figures })

/** A B550 board with these M.2 sockets and six SATA ports, unless told otherwise. */
export const b550 = (m2Sockets: readonly M2Socket[] | undefined, figures?: Partial<Board>): Board =>
  board('B550', { m2Sockets, sataPorts: 6, ...figures })

/** The board in a machine with these drives and no others; plugs and bays are plenty unless given. */
export function holding(
  main: Board,
  drives: readonly Drive[],
  processor: Processor = r3000,
  ...given: readonly Part[]
): readonly Part[] {
  const kinds = new Set(given.map((p) => p.kind))
  const rest = [plugged('old'), bayed('old')].filter((p) => !kinds.has(p.kind))
  return [...without('drive', machine(main, processor, ...given, ...rest)), ...drives]
}

/** New drives into a board with these M.2 sockets, some of them taken. */
export const intoSockets = (
  sockets: readonly M2Socket[] | undefined,
  next: Drive | readonly Drive[],
  fitted: readonly Drive[] = [],
): { readonly has: readonly Part[]; readonly add: readonly Part[] } => ({
  has: holding(b550(sockets), fitted),
  add: [next].flat(),
})
