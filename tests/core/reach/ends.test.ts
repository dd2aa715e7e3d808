import { describe, expect, test } from 'vitest'
import type { Part } from '../../../src/core/part.ts'
import { curvesOf } from '../../../src/core/reach/curve.ts'
import { type RoadEnd, roadEnd } from '../../../src/core/reach/ends.ts'
import { cardOf, type Fps, inputsOf, OLD, processorOf, swapped } from './small.ts'

/** What ends the road of a platform that could have one better part, under the real rules. */
function endOf(parts: readonly Part[], better: Part, fps: Fps): RoadEnd {
  const inputs = inputsOf([], [...parts, better], { [better.id]: 20_000 }, fps)
  return roadEnd(parts, inputs.shop, curvesOf(inputs), 50_000)
}
const named = (end: RoadEnd) => (end.ends === 'limits' ? end.limits : end.ends)

const withCard: Fps = { 'CPU-OLD': { 'CARD-OLD': 50, NEW: 100 } }
const withProcessor: Fps = { 'CPU-OLD': { 'CARD-OLD': 50 }, NEW: { 'CARD-OLD': 90 } }

// What a builder would name, common practice.
describe('the limit that ends the road is the one a builder would name', () => {
  test('a card that is longer than the case has room for', () => {
    const end = endOf(OLD, cardOf('NEW', { lengthMm: 330 }), withCard)
    expect(named(end)).toEqual(['card room'])
    // From 215.00 to the horizon of 500.00 twice as fast: 285 / 500 of ln 2, as percent.
    expect(end.ends === 'limits' && end.risePct).toBeCloseTo(100 * (2 ** (285 / 500) - 1), 6)
  })
  test('a card that draws more than the supply has', () => {
    expect(named(endOf(OLD, cardOf('NEW', { boardPowerW: 400 }), withCard))).toEqual(['supply watts'])
  })
  test('a card with more plugs than the supply', () => {
    const plugs = { pin6: 0, pin8: 3, pin16: 0 }
    expect(named(endOf(OLD, cardOf('NEW', { plugs }), withCard))).toEqual(['supply plugs'])
  })
  test('a processor of a generation that the chipset does not take', () => {
    // Intel's H410 takes 10th generation processors alone (published platform tables).
    const parts = swapped((part) =>
      part.kind === 'board' ? { ...part, ...boardOfOld(), chipset: 'H410' } : part,
    )
    const newer = processorOf('NEW', { generation: '11th (Rocket Lake)', processorClass: 'i5', cores: 6 })
    expect(named(endOf(parts, newer, withProcessor))).toEqual(['generation list'])
  })
  test('a processor for another socket', () => {
    const other = processorOf('NEW', { socket: 'LGA1700', generation: '12th (Alder Lake)', cores: 6 })
    expect(named(endOf(OLD, other, withProcessor))).toEqual(['socket'])
  })
  test('two limits that open nothing alone', () => {
    const both = cardOf('NEW', { lengthMm: 330, boardPowerW: 400 })
    expect(named(endOf(OLD, both, withCard))).toEqual(['supply watts', 'card room'])
  })
  test('a card that goes in: nothing but money ends the road', () => {
    expect(named(endOf(OLD, cardOf('NEW'), withCard))).toBe('money')
  })
})

const boardOfOld = () => OLD.find((part) => part.kind === 'board')
