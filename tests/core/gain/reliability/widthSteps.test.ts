import { expect, test } from 'vitest'
import { proposedFactor } from '../../../../src/core/gain/reliability/reliability.ts'
import {
  evidenceFor,
  factorInForce,
  stepInForce,
  type WidthStep,
} from '../../../../src/core/gain/reliability/widthSteps.ts'
import { promisesOfShop } from './drawnPromises.ts'

const step = (id: string, was: number, factor: number, takenBackAt?: string): WidthStep => ({
  ...{ id, at: '2026-06-01T12:00:00.000Z', was, factor, takenBackAt },
  evidence: { promises: 60, jobs: 40, counts: 45, seen: 1.4, before: [], after: [] },
})
const BACK = '2026-06-02T12:00:00.000Z'

test.each([
  { steps: [], factor: 1, why: 'nothing was taken' },
  { steps: [step('1', 1, 1.2)], factor: 1.2, why: 'the one that was taken' },
  { steps: [step('1', 1, 1.2), step('2', 1.2, 1.1)], factor: 1.1, why: 'the later one' },
  {
    steps: [step('1', 1, 1.2), step('2', 1.2, 1.1, BACK)],
    factor: 1.2,
    why: 'the one before, when the later went',
  },
  { steps: [step('1', 1, 1.2, BACK), step('2', 1, 1.1)], factor: 1.1, why: 'another after one that went' },
  { steps: [step('1', 1, 1.2, BACK), step('2', 1, 1.1, BACK)], factor: 1, why: 'all went' },
])('$why holds: $factor', ({ steps, factor }) => {
  expect(factorInForce(steps)).toBe(factor)
  expect(stepInForce(steps)?.factor ?? 1).toBe(factor)
})

test('what speaks for a proposal is kept whole: counts, and how often promises held with the old and the new', () => {
  const proposal = proposedFactor(promisesOfShop(3, 60, { width: 0.5 }), 1)
  if (proposal === undefined) throw new Error('nothing was proposed')
  const { promises, jobs, counts, seen, before, after } = evidenceFor(proposal)
  expect({ promises, jobs }).toEqual({ promises: proposal.before.promises, jobs: 60 })
  expect(counts).toBeLessThan(promises)
  expect(seen).toBeGreaterThan(proposal.factor)
  expect(before.map(({ coverage }) => coverage)).toEqual([50, 80, 90])
  // Wider intervals hold at least as often, at every share.
  expect(after.every(({ kept }, i) => kept >= (before[i]?.kept ?? Number.NaN))).toBe(true)
  expect(after[1]?.share).toBeGreaterThan(before[1]?.share ?? 1)
})
