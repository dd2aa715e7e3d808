import { expect, test } from 'vitest'
import { buildOf } from '../../../../src/core/build.ts'
import { judgeChange } from '../../../../src/core/fit/judgeChange.ts'
import { memoryAsItRuns } from '../../../../src/core/limits/asItRuns.ts'
import { worstVerdict } from '../../../../src/core/verdict.ts'
import { policy } from '../bench.ts'
import type { FitCase } from './case.ts'
import { needsNewLimits } from './needsNewLimits.ts'
import { CASES_WITH_NEW_LIMITS, withNewLimits } from './withNewLimits.ts'

const judged = (c: FitCase) =>
  judgeChange({ tag: 'M-0001', build: buildOf(c.machine.parts), claims: c.machine.claims }, c.change, policy)

test('the cases are those of the book, with their expectations untouched', () => {
  expect(withNewLimits.map((c) => c.id)).toEqual(
    needsNewLimits.map((c) => c.id).filter((id) => CASES_WITH_NEW_LIMITS.includes(id)),
  )
  expect(withNewLimits).toHaveLength(CASES_WITH_NEW_LIMITS.length)
  for (const c of withNewLimits) {
    const asWritten = needsNewLimits.find((other) => other.id === c.id)
    expect(c.expect).toBe(asWritten?.expect)
    expect(c.change).toBe(asWritten?.change)
    expect(c.machine.parts).toBe(asWritten?.machine.parts)
  }
})

// Each source stands in the case. Cooling is left aside, as in the book.
test.each(withNewLimits)('$id: $says', (c) => {
  const findings = judged(c).findings.filter((f) => !f.rule.startsWith('cooling.'))
  expect(worstVerdict(findings.map((f) => f.verdict)), c.expect.reason).toBe(c.expect.verdict)
  if (c.expect.verdict !== "can't tell") return
  const missing = findings.flatMap((f) => f.missing.map((m) => ('limit' in m ? m.limit : m.spec)))
  expect(c.needsLimit?.filter((key) => !missing.includes(key))).toEqual([])
})

test('two modules in one channel run in two after the move, and in one before it', () => {
  const c = withNewLimits.find(({ id }) => id === 'new-two-modules-one-channel')
  if (c === undefined) throw new Error('the case is gone')
  const { after, limitsAfter } = judged(c)
  const before = judged({ ...c, change: { ...c.change, work: [] } })
  expect(memoryAsItRuns(before.after, before.limitsAfter)?.channels).toBe(1)
  expect(memoryAsItRuns(after, limitsAfter)?.channels).toBe(2)
})

/** What decides is the claim: without it each of these machines is one of standard parts. */
test.each([
  'new-supply-plug-unknown',
  'new-supply-plug-own',
  'new-board-in-brand-case',
  'new-slot-power',
  'new-supply-depth',
])('%s: without the claim nothing of it is said', (id) => {
  const c = needsNewLimits.find((other) => other.id === id)
  if (c === undefined) throw new Error('the case is gone')
  const said = judged(c).findings.filter((f) => /^(office|case\.supplyDepth)/.test(f.rule))
  expect(said).toEqual([])
})
