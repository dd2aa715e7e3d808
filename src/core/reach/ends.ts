import type { MatchShop } from '../matching/ask.ts'
import type { Minor } from '../money.ts'
import type { Board, Case, Part, Supply } from '../part.ts'
import { type Curve, type CurveOf, levelAt } from './curve.ts'

/** Limits of a platform that can end its road, the narrower first: of two that open as much the first is named. */
export const END_LIMITS = [
  'generation list',
  'board power',
  'memory slots',
  'memory maximum',
  'slot link',
  'supply watts',
  'supply plugs',
  'card room',
  'cooler room',
  'socket',
] as const
export type EndLimit = (typeof END_LIMITS)[number]

/** What ends a road: one limit, or two that open something only together; `money` where none opens anything. */
export type RoadEnd =
  | { readonly ends: 'limits'; readonly limits: readonly EndLimit[]; readonly risePct: number }
  | { readonly ends: 'money' }

type Relaxed = { readonly parts: readonly Part[]; readonly shop: MatchShop }
type Relax = (of: Relaxed) => Relaxed

const inPart =
  <K extends Part['kind']>(kind: K, change: (part: Extract<Part, { kind: K }>) => Partial<Part>): Relax =>
  ({ parts, shop }) => ({
    shop,
    parts: parts.map((part) =>
      part.kind === kind ? ({ ...part, ...change(part as Extract<Part, { kind: K }>) } as Part) : part,
    ),
  })

const boardWith = (change: (board: Board) => Partial<Board>): Relax => inPart('board', change)
const caseWith = (change: (box: Case) => Partial<Case>): Relax => inPart('case', change)
const supplyWith = (change: (supply: Supply) => Partial<Supply>): Relax => inPart('supply', change)

/** Figures that no part on sale asks for more than. */
const PLENTY = { powerW: 999, slots: 16, memoryGB: 4096, supplyW: 3000, roomMm: 900 } as const

/** Each limit taken away, and nothing else. Whatever has to go in is still bought. */
const RELAX: Readonly<Record<EndLimit, Relax>> = {
  'generation list': ({ parts, shop }) => {
    const generations = shop.parts.flatMap((part) =>
      part.kind === 'processor' && part.generation !== undefined ? [part.generation] : [],
    )
    const listed = Object.fromEntries(generations.map((generation) => [generation, '0']))
    return boardWith(() => ({ firmwareByGeneration: listed }))({ parts, shop })
  },
  'board power': boardWith(() => ({ processorPowerW: PLENTY.powerW })),
  'memory slots': boardWith(() => ({ memorySlots: PLENTY.slots })),
  'memory maximum': boardWith(() => ({ memoryMaxGB: PLENTY.memoryGB, memoryPerSlotMaxGB: PLENTY.memoryGB })),
  'slot link': boardWith(() => ({ slotPcieGen: 5, slotLanes: 16 })),
  'supply watts': supplyWith(() => ({ ratedW: PLENTY.supplyW, rail12VW: PLENTY.supplyW })),
  'supply plugs': supplyWith(() => ({ plugs: { pin6: 6, pin8: 6, pin16: 2 } })),
  'card room': caseWith(() => ({ cardRoomMm: PLENTY.roomMm, cardSlots: PLENTY.slots })),
  'cooler room': caseWith(() => ({ coolerRoomMm: PLENTY.roomMm })),
  // Every processor as if it were made for this socket, like the one that is in it.
  socket: ({ parts, shop }) => {
    const board = parts.find((part) => part.kind === 'board')
    const fitted = parts.find((part) => part.kind === 'processor')
    return {
      parts,
      shop: {
        ...shop,
        parts: shop.parts.map((part) =>
          part.kind === 'processor' && part.socket !== board?.socket
            ? { ...part, socket: board?.socket, generation: fitted?.generation }
            : part,
        ),
      },
    }
  },
}

/** Mean rise of the log level between two curves, over spends from 0 to a horizon; both are steps. */
export function meanRise(
  lower: Pick<Curve, 'points'>,
  upper: Pick<Curve, 'points'>,
  upToMinor: Minor,
): number {
  const steps = [0, ...lower.points, ...upper.points]
    .map((point) => (typeof point === 'number' ? point : point.spendMinor))
    .filter((minor) => minor <= upToMinor)
  const borders = [...new Set([...steps, upToMinor])].sort((a, b) => a - b)
  let sum = 0
  for (let i = 0; i + 1 < borders.length; i++) {
    const [from, to] = [borders[i] as number, borders[i + 1] as number]
    const [low, high] = [levelAt(lower, from), levelAt(upper, from)]
    if (low !== undefined && high !== undefined) sum += (to - from) * Math.log(high / low)
  }
  return upToMinor === 0 ? 0 : sum / upToMinor
}

/** Less than this (1 % of level) is no end of a road. */
const LEAST_RISE = Math.log(1.01)

/**
 * What ends the road of a platform: the limit that, taken away alone, lifts its curve most on the average over the horizon; or
 * several that lift it together by 1 % more than each by itself, since limits can bind together: of all limits those are left
 * of which none can be put back without closing something. `curveOf` must not know what was measured where a model is there, because
 * a measured cell can beat what a limit opens. Cost: 2 searches where money ends the road, else some 12 to 22.
 */
export function roadEnd(
  parts: readonly Part[],
  shop: MatchShop,
  curveOf: CurveOf,
  upToMinor: Minor,
  keepsBoard = true,
): RoadEnd {
  const plain = curveOf(parts, shop, keepsBoard)
  const riseOf = (limits: readonly EndLimit[]): number => {
    const relaxed = limits.reduce<Relaxed>((of, limit) => RELAX[limit](of), { parts, shop })
    return meanRise(plain, curveOf(relaxed.parts, relaxed.shop, keepsBoard), upToMinor)
  }
  const ended = (limits: readonly EndLimit[], rise: number): RoadEnd => ({
    ends: 'limits',
    limits,
    risePct: 100 * Math.expm1(rise),
  })
  const most = riseOf(END_LIMITS)
  if (most <= LEAST_RISE) return { ends: 'money' }
  const alone = new Map(END_LIMITS.map((limit) => [limit, riseOf([limit])]))
  let [best, bestRise]: [EndLimit | undefined, number] = [undefined, LEAST_RISE]
  for (const [limit, rise] of alone) if (rise > bestRise + 1e-9) [best, bestRise] = [limit, rise]
  if (best !== undefined && bestRise >= most - LEAST_RISE) return ended([best], bestRise)
  // The wider limits are put back first, so that the narrower ones are named.
  let together: readonly EndLimit[] = END_LIMITS
  for (const limit of END_LIMITS.toReversed()) {
    const fewer = together.filter((one) => one !== limit)
    if (riseOf(fewer) >= most - LEAST_RISE) together = fewer
  }
  const apart = together.reduce((sum, limit) => sum + Math.max(0, alone.get(limit) ?? 0), 0)
  if (best === undefined || most > apart + LEAST_RISE) return ended(together, most)
  return ended([best], bestRise)
}
