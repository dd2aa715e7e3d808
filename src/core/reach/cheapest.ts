import type { Minor } from '../money.ts'
import { type Curve, type Point, reachesFps } from './curve.ts'
import type { PlatformReach } from './reach.ts'

/** Which platforms run at a frame rate for the least money in all: what they cost today and what must still go in. */
export type Cheapest = {
  /** The cheapest, several where they come to the same; none where nothing on sale is sure to get any there. */
  readonly best: readonly { readonly name: string; readonly totalMinor: Minor; readonly point: Point }[]
  /** The cheapest of those that cost more. */
  readonly next?: { readonly name: string; readonly moreMinor: Minor } | undefined
  /** Nobody can tell what they come to: a part has no price, or no title a number. */
  readonly untold: readonly string[]
}

type Side = Pick<PlatformReach, 'name' | 'firstMinor' | 'unpricedPartIds' | 'now' | 'later'>

/** By today's curves, or by those after the years of the scenario; prices of today's first cost in both. */
export function cheapestTo(platforms: readonly Side[], fps: number, when: 'now' | 'later'): Cheapest {
  const isTold = (side: Side) => side.unpricedPartIds.length === 0 && side[when].points.length > 0
  const there = platforms
    .filter(isTold)
    .flatMap(({ name, firstMinor, ...curves }) => {
      const point = firstPointAt(curves[when], fps)
      return point === undefined ? [] : [{ name, point, totalMinor: firstMinor + point.spendMinor }]
    })
    .sort((a, b) => a.totalMinor - b.totalMinor)
  const least = there[0]?.totalMinor ?? 0
  const best = there.filter(({ totalMinor }) => totalMinor === least)
  const second = there[best.length]
  return {
    best,
    ...(second && { next: { name: second.name, moreMinor: second.totalMinor - least } }),
    untold: platforms.filter((side) => !isTold(side)).map(({ name }) => name),
  }
}

/** Points rise in spend and level, so the first that is there costs least. */
const firstPointAt = ({ points }: Curve, fps: number): Point | undefined =>
  points.find((point) => reachesFps(point.fps, fps))
