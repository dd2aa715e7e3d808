import fc from 'fast-check'
import { expect, test } from 'vitest'
import { modelOf } from '../../../../src/core/gain/model/index.ts'
import { freedLog, paceOf } from '../../../../src/core/gain/pace/pace.ts'
import { ask, fitted } from '../model/small.ts'
import { bench, fitOf } from '../odd/shop.ts'

/* Which side sets the pace, against what builders know (common practice), on an invented bench that follows it. */

const model = modelOf(fitOf(bench()))
const endOf = (title: string, c: string, g: string, setting = 'high') => {
  const why = model.why?.(ask(title, fitted(c, g), fitted(c, g), setting))
  if (why === undefined) throw new Error('no why')
  return why.before
}
const pace = (...of: Parameters<typeof endOf>) => paceOf(endOf(...of), { isCapped: false })
const fps = (title: string, c: string, g: string, setting = 'high') => endOf(title, c, g, setting).blendFps

test('where the processor sets the pace, a faster card adds next to nothing, and a lower preset neither', () => {
  const { side, sure, card, processor, nowFps } = pace('heavyCpu', 'C1', 'G3')
  expect([side, sure]).toEqual(['processor', 'clear'])
  expect(card.mostFps / nowFps).toBeLessThan(0.05)
  expect(processor.ceilingFps / nowFps).toBeGreaterThan(0.5)
  // What the fastest card of the bench really made lies within what is said.
  expect(fps('heavyCpu', 'C1', 'G4') - nowFps).toBeLessThanOrEqual(card.mostFps + 0.02 * nowFps)
  // A twelfth of the processor's own time goes with the preset; the card's half does not count.
  expect(fps('heavyCpu', 'C1', 'G3', 'low') / nowFps).toBeLessThan(1.1)
})

test('a lower resolution raises the frame rate only where the card sets the pace', () => {
  const raises = (title: string, g: string) => fps(title, 'C1', g) / fps(title, 'C1', g, 'uhd')
  expect(pace('heavyCpu', 'C1', 'G4', 'uhd').side).toBe('processor')
  expect(raises('heavyCpu', 'G4')).toBeLessThan(1.06)
  expect(pace('heavyGpu', 'C1', 'G2', 'uhd')).toMatchObject({ side: 'card', sure: 'clear' })
  expect(raises('heavyGpu', 'G2')).toBeGreaterThan(2)
})

test('where the card sets the pace, a faster processor adds next to nothing', () => {
  const { side, sure, card, processor, nowFps } = pace('heavyGpu', 'C1', 'G1')
  expect([side, sure]).toEqual(['card', 'clear'])
  expect(processor.mostFps / nowFps).toBeLessThan(0.05)
  expect(card.ceilingFps).toBeGreaterThan(nowFps)
  expect(fps('heavyGpu', 'C3', 'G1') - nowFps).toBeLessThanOrEqual(processor.mostFps + 0.02 * nowFps)
})

test('where both take about as long, neither is said to set the pace and both add something', () => {
  const { side, sure, card, processor, nowFps } = pace('even', 'C1', 'G1')
  expect([side, sure]).toEqual(['both', 'balanced'])
  for (const { ceilingFps } of [card, processor]) expect(ceilingFps / nowFps).toBeGreaterThan(0.05)
})

test('a display of 60 hides all of 90: neither part adds anything to be seen, though the machine would make it', () => {
  const end = { ...endOf('heavyGpu', 'C1', 'G1'), blendFps: 90 }
  const seen = paceOf(end, { isCapped: false, refreshHz: 60 })
  expect(seen.displayHides).toBe(true)
  expect(seen.card.mostFps).toBeGreaterThan(10)
  expect([seen.card.mostSeenFps, seen.processor.mostSeenFps]).toEqual([0, 0])
  // Of 144 at 90, 54 can be seen.
  expect(paceOf(end, { isCapped: false, refreshHz: 144 }).card.mostSeenFps).toBeCloseTo(54, 10)
})

test('at a cap no part adds any', () => {
  const capped = paceOf(endOf('calm', 'C1', 'G4'), { isCapped: true })
  expect(capped).toMatchObject({ side: 'cap', card: { mostFps: 0 }, processor: { mostFps: 0 } })
})

test('what goes when a side costs nothing follows from the frame time (worked by hand)', () => {
  // Processor 8 ms, card 10 ms, p = 7: T = 10.27571089 ms; T / 8 = 1.284463861, T / 10 = 1.027571089.
  expect(Math.exp(freedLog(Math.log(10 / 8), 7))).toBeCloseTo(1.284463861, 8)
  expect(Math.exp(freedLog(Math.log(8 / 10), 7))).toBeCloseTo(1.027571089, 8)
  // Alike: 2^(1/p).
  expect(Math.exp(freedLog(0, 7))).toBeCloseTo(2 ** (1 / 7), 12)
})

test('the longer a side takes, the more its going adds; nothing is ever lost, and nothing overflows', () => {
  const d = fc.double({ min: -60, max: 60, noNaN: true })
  const p = fc.double({ min: 0.5, max: 60, noNaN: true })
  fc.assert(
    fc.property(d, d, p, (one, other, sharp) => {
      const [less, more] = [Math.min(one, other), Math.max(one, other)].map((x) => freedLog(x, sharp))
      expect(less).toBeGreaterThanOrEqual(0)
      expect(more).toBeGreaterThanOrEqual(less ?? 0)
      expect(Number.isFinite(more)).toBe(true)
      // What one side's going adds and what the other's adds differ by the ratio of their times.
      expect(freedLog(one, sharp) - freedLog(-one, sharp)).toBeCloseTo(one, 8)
    }),
  )
})
