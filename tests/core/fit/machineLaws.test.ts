import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Build, buildOf, NO_CHANGE } from '../../../src/core/build.ts'
import type { Finding } from '../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import { judge } from '../../../src/core/fit/rule.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import { situationOf } from '../../../src/core/fit/situation.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../../../src/core/limits/catalogue.ts'
import type { Limits, Resolved } from '../../../src/core/limits/limit.ts'
import type { Part } from '../../../src/core/part.ts'
import { isFitting, rankOfVerdict, worstVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import { policy } from './bench.ts'
import type { FitCase } from './casebook/case.ts'
import { graphicsCases } from './casebook/graphics.ts'
import { memoryCases } from './casebook/memory.ts'
import { processorCases } from './casebook/processor.ts'
import { workAndOfficeCases } from './casebook/workAndOffice.ts'
import { isMoreDrawn, MORE_KEYS, raise } from './more.ts'

// The laws of the rules on whole machines: those of the case book, with real sockets, chipsets and generations.

const book: readonly FitCase[] = [...processorCases, ...memoryCases, ...graphicsCases, ...workAndOfficeCases]
const machineOf = (c: FitCase) => ({
  tag: 'M-0001',
  build: buildOf(c.machine.parts),
  claims: c.machine.claims,
})

/** What the rules say of the machine of a case after its change, whatever the limits. */
function saidOf(c: FitCase, after: Build): (limits: Limits) => readonly Finding[] {
  const s = situationOf({ before: machineOf(c).build, after, change: c.change, policy })
  return (limits) => RULES.map((rule) => judge(rule, s, limits)).filter((f) => f !== undefined)
}
const overall = (findings: readonly Finding[]) => worstVerdict(findings.map((f) => f.verdict))

describe.each(book)('$id', (c) => {
  const { after: build, limitsAfter } = judgeChange(machineOf(c), c.change, policy)
  const findingsWith = saidOf(c, build)
  const before = findingsWith(limitsAfter)

  test('a limit less turns what reads it into "can\'t tell" and permits nothing new', () => {
    for (const key of LIMIT_KEYS.filter((k) => limitsAfter[k].known)) {
      const less: Limits = { ...limitsAfter, [key]: { known: false, claims: [] } }
      const after = findingsWith(less)
      const reading = after.filter((f) => RULES.find((r) => r.id === f.rule)?.reads.includes(key))
      expect(
        reading.filter((f) => f.verdict !== "can't tell").map((f) => f.rule),
        key,
      ).toEqual([])
      if (LIMIT_CATALOGUE[key].onlyIfStated === true) continue
      if (isFitting(overall(after))) expect(isFitting(overall(before)), key).toBe(true)
      expect(rankOfVerdict(overall(after)), key).toBeGreaterThanOrEqual(
        Math.min(rankOfVerdict(overall(before)), rankOfVerdict("can't tell")),
      )
    }
  })

  test('a lower bound in place of a limit promises no more than the limit itself', () => {
    for (const key of LIMIT_KEYS) {
      const resolved = limitsAfter[key]
      if (!resolved.known || typeof resolved.value !== 'number') continue
      const bounded = { known: false, atLeast: { ...resolved.by, bound: 'at least' }, claims: [] } as Resolved
      const after = findingsWith({ ...limitsAfter, [key]: bounded } as Limits)
      for (const f of after.filter((found) => found.atLeast?.includes(key))) {
        expect(f.verdict).toBe('fits')
        expect(before.find((b) => b.rule === f.rule)?.verdict ?? 'fits', `${f.rule} ${key}`).toBe('fits')
      }
    }
  })

  test('a little more of the host makes no finding worse', () => {
    for (const key of MORE_KEYS) {
      const resolved = limitsAfter[key]
      if (!resolved.known) continue
      const more = { ...resolved, value: raise(key, resolved.value) } as Resolved
      for (const f of findingsWith({ ...limitsAfter, [key]: more } as Limits)) {
        const was = before.find((b) => b.rule === f.rule)?.verdict ?? 'fits'
        if (!isMoreDrawn(key, f.rule))
          expect(rankOfVerdict(f.verdict), `${f.rule} with more ${key}`).toBeLessThanOrEqual(
            rankOfVerdict(was),
          )
      }
    }
  })

  test('its parts out and in again are no change', () => {
    const { parts } = c.machine
    const again = { ...NO_CHANGE, add: parts, removeIds: parts.map((p) => p.id) }
    expect(judgeChange(machineOf(c), again, policy)).toMatchObject({ verdict: 'fits', findings: [] })
  })
})

const ODD = [undefined, Number.NaN, Number.POSITIVE_INFINITY, -1, 0, 0.5, 1e308, ''] as const
const parts = book.flatMap((c) => [...c.machine.parts, ...c.change.add])
const oddPart = fc
  .tuple(fc.constantFrom(...parts), fc.infiniteStream(fc.nat({ max: 30 })))
  .map(([p, dice]) => {
    const fields = Object.entries(p).map(([name, value]) => {
      const roll = dice.next().value ?? 30
      const isOdd = roll < ODD.length && !['kind', 'id', 'name'].includes(name)
      if (!isOdd) return [name, value]
      return [name, typeof value === typeof ODD[roll] ? ODD[roll] : undefined]
    })
    return Object.fromEntries(fields) as Part
  })

test('odd parts never throw, and no odd figure reaches an answer', () => {
  const some = (maxLength: number) => fc.array(oddPart, { maxLength })
  fc.assert(
    fc.property(some(9), some(4), (fitted, add) => {
      const machine = { tag: 'M', build: buildOf(fitted), claims: [] }
      const removeIds = fitted.slice(0, 2).map((p) => p.id)
      const judged = judgeChange(machine, { add, removeIds, work: ['firmware update'] }, policy)
      expect(judged.verdict).toBe(overall(judged.findings))
      for (const f of judged.findings) {
        const numbers = Object.values(f.values).filter((v) => typeof v === 'number')
        expect(
          numbers.filter((n) => !Number.isFinite(n)),
          f.rule,
        ).toEqual([])
        expect(f.verdict === "can't tell", f.rule).toBe(f.missing.length > 0)
      }
    }),
    { numRuns: runs(200) },
  )
})
