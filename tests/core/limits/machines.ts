import { type Build, buildOf } from '../../../src/core/build.ts'
import type { Claim, LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'
import type { Board, Case, GraphicsCard, MemoryKit, Processor, Supply } from '../../../src/core/part.ts'

// Small made-up parts (invented) on real sockets, chipsets and generations. All are frozen: nothing may change them.
const named = <K extends string>(kind: K) => ({ kind, id: kind.toUpperCase(), name: `invented ${kind}` })

export const board = (spec: Partial<Board>): Board => Object.freeze({ ...named('board'), ...spec })
export const processor = (generation?: string, processorClass?: string): Processor =>
  Object.freeze({ ...named('processor'), generation, processorClass })
export const card = (pcieGen?: number, pcieLanes?: number): GraphicsCard =>
  Object.freeze({ ...named('card'), pcieGen, pcieLanes })
export const kit = (spec: Partial<MemoryKit>): MemoryKit =>
  Object.freeze({ ...named('memory'), modules: 2, moduleGB: 8, ...spec })
export const supply = (spec: Partial<Supply>): Supply => Object.freeze({ ...named('supply'), ...spec })
export const housing = (spec: Partial<Case>): Case => Object.freeze({ ...named('case'), ...spec })

export const ddr4 = (rateMts?: number, spec: Partial<MemoryKit> = {}) =>
  kit({ memoryType: 'DDR4', rateMts, ...spec })
export const ddr5 = (rateMts?: number, spec: Partial<MemoryKit> = {}) =>
  kit({ memoryType: 'DDR5', rateMts, ...spec })

export const build = (...parts: Parameters<typeof buildOf>[0]): Build => Object.freeze(buildOf(parts))

export const claim = <K extends LimitKey>(
  key: K,
  value: LimitValues[K],
  source: Claim['source'],
  rest: Pick<Claim, 'at' | 'doubt' | 'pinned' | 'note' | 'bound'> = {},
): Claim<K> => Object.freeze({ key, value, source, ...rest }) as Claim<K>
