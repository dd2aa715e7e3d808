import fc from 'fast-check'
import { expect, test } from 'vitest'
import { capOf, isCapped } from '../../../src/core/gain/capped.ts'
import type { Setting, Title } from '../../../src/core/gain/run.ts'

const setting = (capFps?: number): Setting => ({
  ...{ id: 's', widthPx: 1920, heightPx: 1080, preset: 'high', rayTracing: false, frameGeneration: false },
  ...(capFps !== undefined && { capFps }),
})
const title = (capFps?: number): Title => ({ id: 't', name: 'Invented', ...(capFps && { capFps }) })

// By hand: 3 % below 60 is 58.2, below 144 is 139.68.
test.each([
  [60, setting(60), title(), true, 'at the cap'],
  [58.2, setting(60), title(), true, '3 % below it'],
  [58.19, setting(60), title(), false, 'a little further below'],
  [61.3, setting(60), title(), true, 'above it: limiters overshoot'],
  [139.7, setting(), title(144), true, 'the engine holds it'],
  [139.6, setting(), title(144), false, 'not yet'],
  [59.5, setting(144), title(60), true, 'the lower cap counts'],
  [59.5, setting(60), title(144), true, 'whichever it is'],
  [500, setting(), title(), false, 'nothing holds it'],
  [60, undefined, undefined, false, 'nobody knows the setting'],
] as const)('%s FPS with caps: %#', (averageFps, s, t, capped, why) => {
  expect(isCapped({ averageFps }, s, t), why).toBe(capped)
})

test('law: a faster run of the same cell is capped where a slower one is', () => {
  const fps = fc.double({ min: 1, max: 2000, noNaN: true })
  fc.assert(
    fc.property(fps, fps, fps, (cap, a, b) => {
      const [slow, fast] = [Math.min(a, b), Math.max(a, b)]
      const s = setting(cap)
      return !isCapped({ averageFps: slow }, s, title()) || isCapped({ averageFps: fast }, s, title())
    }),
  )
  expect(capOf(setting(0), title())).toBeUndefined()
})
