import { expect, test } from 'vitest'
import type { Adds, Pace } from '../../src/core/gain/pace/pace.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { sayPace } from '../../src/words/pace.ts'
import { inputs } from '../web/cannedShop.ts'

const figures = figuresFor(inputs.shop)
const adds = (mostFps: number, mostSeenFps = mostFps): Adds => ({
  ceilingFps: mostFps / 2,
  mostFps,
  mostSeenFps,
})
const pace = (over: Partial<Pace>): Pace => ({
  ...{ side: 'processor', sure: 'clear', nowFps: 61, displayHides: false },
  ...{ card: adds(2.6), processor: adds(44), processorLimits: 0.97, cardLimits: 0.01 },
  ...over,
})
const said = (over: Partial<Pace>, hz?: number): string =>
  sayPace(pace(over), figures, hz).join(' ').replaceAll('\u00a0', ' ')

test.each([
  [{}, undefined, 'The processor sets the pace here; a faster card adds 0 to 3 FPS.'],
  [{ sure: 'leaning' }, undefined, 'The processor mostly sets the pace here; a faster card adds 0 to 3 FPS.'],
  [
    { side: 'card', card: adds(90), processor: adds(0.4) },
    undefined,
    'The graphics card sets the pace here; a faster processor adds 0 to 1 FPS.',
  ],
  [
    { side: 'both', sure: 'balanced', card: adds(9.2), processor: adds(6) },
    undefined,
    'Processor and card are about even here: a faster card alone adds at most 10 FPS, a faster processor alone at most 6 FPS.',
  ],
  [
    { nowFps: 90, displayHides: true, card: adds(2.6, 0), processor: adds(44, 0) },
    60,
    'The display shows 60 a second and the machine makes 90 FPS: neither a faster card nor a faster processor adds anything to be seen.',
  ],
  [
    { side: 'card', nowFps: 55, card: adds(90, 5), processor: adds(8, 5) },
    60,
    'The graphics card sets the pace here; a faster processor adds 0 to 8 FPS. Of that the display shows at most 5 FPS.',
  ],
  [{ side: 'cap' }, undefined, 'It runs at its limit of frames here; no part adds any.'],
] as const satisfies readonly (readonly [Partial<Pace>, number | undefined, string])[])(
  'what sets the pace is told in frames: %o on a display of %s',
  (over, hz, text) => {
    expect(said(over, hz)).toBe(text)
  },
)

test('no probability and no percentage is said, however sure it is', () => {
  for (const side of ['processor', 'card', 'both', 'cap'] as const)
    for (const sure of ['clear', 'leaning', 'balanced'] as const)
      expect(said({ side, sure }, 60)).not.toMatch(/%|9[79]|percent|bottleneck/i)
})
