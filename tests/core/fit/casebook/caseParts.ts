import type { Board, FanPlace, FrontPlug } from '../../../../src/core/part.ts'

/** What the front panel of a usual case brings. */
export const FRONT: readonly FrontPlug[] = ['USB 2.0', 'USB 3 (19-pin)', 'HD audio']

/** The board with these front panel headers; the usual three unless given. */
export const fronted = (main: Board, frontHeaders: readonly FrontPlug[] | undefined = FRONT): Board => ({
  ...main,
  frontHeaders,
})

/** In front 3 x 120 or 2 x 140 mm, in the rear 1 x 120 mm. */
export const PLACES: readonly FanPlace[] = [
  { place: 'front', sizeMm: 120, count: 3 },
  { place: 'front', sizeMm: 140, count: 2 },
  { place: 'rear', sizeMm: 120, count: 1 },
]
