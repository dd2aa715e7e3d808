import { type Build, buildOf, partsOf } from '../../../src/core/build.ts'
import type { Finding, RuleId } from '../../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'
import type { Board, Drive, M2Socket, Part } from '../../../src/core/part.ts'
import { board, limits, machine, says } from './bench.ts'

/** An invented M.2 drive with every figure: 80 mm, key M, PCIe gen 3 x4. */
export const flat = (id: string, figures: Partial<Drive> = {}): Drive => ({
  ...{ kind: 'drive', id, name: `Drive ${id}`, form: 'M.2', capacityGB: 1000, interface: 'PCIe' },
  ...{ m2Key: 'M', lengthMm: 80, pcieGen: 3, pcieLanes: 4 },
  ...figures,
})
/** A drive of which the record holds no more than that it is an M.2 one. */
export const bare = (id: string): Drive => ({ kind: 'drive', id, name: `Drive ${id}`, form: 'M.2' })

export const cabled = (id: string, form: '2.5-inch' | '3.5-inch' = '2.5-inch'): Drive => ({
  ...{ kind: 'drive', id, name: `Drive ${id}`, form, interface: 'SATA' },
})

/** A socket of key M for 80 mm at gen 3 x4, without SATA wires, that takes nothing from anybody. */
export const socket = (name: string, figures: Partial<M2Socket> = {}): M2Socket => ({
  ...{ name, key: 'M', lengthsMm: [80], pcieGen: 3, lanes: 4, sata: false },
  ...figures,
})

/** The invented machine on a board with these sockets, with these parts besides. */
export const withSockets = (sockets: readonly M2Socket[] | undefined, ...parts: readonly Part[]): Build =>
  buildOf([...partsOf(machine).filter((p) => p.kind !== 'board'), { ...board, m2Sockets: sockets }, ...parts])

export const otherBoard = (sockets: readonly M2Socket[], figures: Partial<Board> = {}): Board => ({
  ...{ ...board, id: 'BRD-NEW', name: 'New board', m2Sockets: sockets },
  ...figures,
})

/** The bench's limits with the lanes of its slot: x16, x8 beside a drive. */
export const ask = (
  id: RuleId,
  before: Build,
  add: readonly Part[],
  more: {
    at?: Partial<LimitValues>
    not?: readonly LimitKey[]
    out?: readonly string[]
    work?: readonly string[]
  } = {},
): Finding | undefined =>
  says(id, {
    ...{ before, add, out: more.out ?? [], work: more.work ?? [] },
    limits: limits({ slotLanesShared: 8, ...more.at }, more.not),
  })
