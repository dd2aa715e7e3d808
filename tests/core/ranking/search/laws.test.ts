import fc from 'fast-check'
import { expect, test } from 'vitest'
import { bitCount } from '../../../../src/core/bits.ts'
import { onlyWith } from '../../../../src/core/ranking/search/bundles.ts'
import {
  type Cells,
  cautiousOf,
  FOUR_IN_FIVE,
  medianOf,
  reachedOf,
} from '../../../../src/core/ranking/search/cells.ts'
import { pricing } from '../../../../src/core/ranking/search/price.ts'
import type { Shortcut, Space } from '../../../../src/core/ranking/search/space.ts'
import { frontierOf, type Objective, type Step } from '../../../../src/core/ranking/search/sweep.ts'
import { drawCells, drawnSeeds, drawSpace } from './drawnSpace.ts'
import { everyCombination, ofPair, type PlainStep, plainFrontier, type Whole } from './everyCombination.ts'

/** The objectives by their formulas, written once more without any short cut. */
const plain = (cells: Cells) => {
  const shown = (t: number, m: number) => Math.min(cells.titles[t]?.capLog as number, -m)
  const each = cells.titles.map((title, t) => ({ ...title, t }))
  const median = (q: number, g: number) =>
    each.reduce(
      (sum, { t, weight, today }) => sum + weight * (shown(t, cells.mean(t, q, g)) - shown(t, today)),
      0,
    )
  const cautious = (q: number, g: number) => {
    const down = each.map(({ t, weight }) => {
      const [m, sd] = [cells.mean(t, q, g), cells.gainSd(t, q, g)]
      return (weight * (shown(t, m) - shown(t, m + 1.2 * sd))) / 1.2
    })
    const sum = down.reduce((s, d) => s + d, 0)
    const squares = down.reduce((s, d) => s + d * d, 0)
    return median(q, g) - 1.2 * Math.sqrt(0.2 * sum * sum + 0.8 * squares)
  }
  const reached = (q: number, g: number) =>
    each.filter(({ t, targetLog }) => cells.mean(t, q, g) + FOUR_IN_FIVE * cells.endSd(t, q, g) <= targetLog)
      .length
  return { median, cautious, reached }
}

const OBJECTIVES = { median: medianOf, cautious: cautiousOf, reached: reachedOf } as const

const isSame = (steps: readonly Step[], wanted: readonly PlainStep[]): boolean =>
  steps.length === wanted.length &&
  steps.every((step, i) => {
    const other = wanted[i] as PlainStep
    return step.netMinor === other.netMinor && Math.abs(step.value - other.value) < 1e-10
  })

const agrees = (
  space: Space,
  cells: Cells,
  all: readonly Whole[],
  name: keyof typeof OBJECTIVES,
  shortcut?: Shortcut,
): boolean => {
  const objective: Objective = OBJECTIVES[name](cells)
  const wanted = plainFrontier(all, plain(cells)[name], objective.start)
  return isSame(frontierOf(space, objective, shortcut), wanted)
}

test('the frontiers of median, lower end and titles at the target are those of every combination', () => {
  fc.assert(
    fc.property(drawnSeeds, (drawn) => {
      const space = drawSpace(drawn)
      const all = everyCombination(space)
      const cells = drawCells(space, drawn.seed)
      for (const name of ['median', 'cautious', 'reached'] as const)
        expect(agrees(space, cells, all, name), name).toBe(true)
    }),
    { numRuns: 80 },
  )
}, 60_000)

test('why not this part: cut to what holds it, the frontier is that of every combination that holds it', () => {
  fc.assert(
    fc.property(drawnSeeds, fc.nat(), (drawn, at) => {
      const space = drawSpace(drawn)
      const cells = drawCells(space, drawn.seed)
      const lists = {
        platform: space.platforms,
        card: space.cards,
        case: space.cases,
        supply: space.supplies,
      }
      for (const [kind, list] of Object.entries(lists)) {
        const held = onlyWith(space, { [kind]: [at % list.length] })
        if (held === undefined) throw new Error('cut to nothing')
        const objective = medianOf(cells)
        // What is cut out fits nowhere, so every combination of the cut space holds it.
        const all = everyCombination(held).filter(({ gainClass }) => gainClass >= 0)
        expect(isSame(frontierOf(held, objective), plainFrontier(all, plain(cells).median, 0)), kind).toBe(
          true,
        )
      }
    }),
    { numRuns: 25 },
  )
}, 60_000)

test('the price of every pair is the least of every combination, with the fewest new kinds', () => {
  fc.assert(
    fc.property(drawnSeeds, (drawn) => {
      const space = drawSpace(drawn)
      const all = everyCombination(space)
      const prices = pricing(space)
      for (let q = 0; q < space.classes; q++)
        for (let g = 0; g < space.cards.length; g++) {
          const [found, best] = [prices.of(q, g), ofPair(all, q, g)]
          expect(found?.netMinor).toBe(best?.netMinor)
          if (found && best) expect(bitCount(found.kinds)).toBe(bitCount(best.kinds))
          if (found)
            expect(found.netMinor).toBeGreaterThanOrEqual(
              (prices.ofClass[q] as number) + (prices.ofCard[g] as number),
            )
        }
    }),
    { numRuns: 40 },
  )
}, 60_000)

test.each([
  'keep what fits',
  'labour only rises',
  'first case only',
  'cheapest platform only',
  'works are free',
  'bounds for measured pairs',
  'the price found first',
] as const satisfies readonly Shortcut[])('the law finds a fault put in on purpose: %s', (shortcut) => {
  const seeds = Array.from({ length: 400 }, (_, seed) => ({ seed, tight: 0.35, size: 4 }))
  const isFound = seeds.some((drawn) => {
    const space = drawSpace(drawn)
    return !agrees(space, drawCells(space, drawn.seed), everyCombination(space), 'median', shortcut)
  })
  expect(isFound).toBe(true)
})
