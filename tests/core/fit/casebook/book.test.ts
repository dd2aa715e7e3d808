import { describe, expect, test } from 'vitest'
import { SINGLE_KINDS } from '../../../../src/core/part.ts'
import { VERDICTS } from '../../../../src/core/verdict.ts'
import type { FitCase } from './case.ts'
import { caseCases } from './caseCases.ts'
import { coolingCases } from './coolingCases.ts'
import { graphicsCases } from './graphics.ts'
import { memoryCases } from './memory.ts'
import { powerCases } from './powerCases.ts'
import { processorCases } from './processor.ts'
import { storageCases } from './storageCases.ts'
import { swapCases } from './swapCases.ts'
import { needsNewLimits, workAndOfficeCases } from './workAndOffice.ts'

// The book only, never the rules: these checks keep it complete and readable.

const judged: readonly FitCase[] = [
  ...processorCases,
  ...memoryCases,
  ...graphicsCases,
  ...workAndOfficeCases,
  ...[...powerCases, ...coolingCases, ...storageCases, ...caseCases, ...swapCases],
]
const all: readonly FitCase[] = [...judged, ...needsNewLimits]

/** Names of processor generations as Intel and AMD publish them, written the way the part records key them. */
const GENERATIONS: ReadonlySet<string> = new Set([
  '4th (Haswell)',
  '5th (Broadwell)',
  '6th (Skylake)',
  '7th (Kaby Lake)',
  '8th (Coffee Lake)',
  '9th (Coffee Lake Refresh)',
  '10th (Comet Lake)',
  '11th (Rocket Lake)',
  '12th (Alder Lake)',
  '13th (Raptor Lake)',
  '14th (Raptor Lake Refresh)',
  'Core Ultra 200S (Arrow Lake)',
  'Athlon 200GE-3000G',
  'Ryzen 1000 (Zen)',
  'Ryzen 2000 (Zen+)',
  'Ryzen 2000G (Raven Ridge)',
  'Ryzen 3000 (Zen 2)',
  'Ryzen 3000G (Picasso)',
  'Ryzen 4000G, 4100, 4500 (Zen 2)',
  'Ryzen 5000 (Zen 3)',
  'Ryzen 5000G, 5500, 5700 (Zen 3)',
  'Ryzen 7000 (Zen 4)',
  'Ryzen 8000G (Phoenix)',
  'Ryzen 9000 (Zen 5)',
])

const idsOf = (cases: readonly FitCase[]): string[] => cases.map((c) => c.id)

describe('the case book', () => {
  test('holds at least a hundred and eighty cases over every matter and every verdict', () => {
    expect(judged.length).toBeGreaterThanOrEqual(180)
    expect(processorCases.length).toBeGreaterThanOrEqual(40)
    expect(memoryCases.length).toBeGreaterThanOrEqual(40)
    expect(graphicsCases.length).toBeGreaterThanOrEqual(40)
    expect(workAndOfficeCases.length).toBeGreaterThanOrEqual(20)
    for (const verdict of VERDICTS) {
      expect(judged.filter((c) => c.expect.verdict === verdict).length, verdict).toBeGreaterThanOrEqual(15)
    }
  })

  test('marks at least thirty-five cases as tricky', () => {
    expect(judged.filter((c) => c.tricky).length).toBeGreaterThanOrEqual(35)
  })

  test('gives every case an id of its own', () => {
    expect(new Set(idsOf(all)).size).toBe(all.length)
    expect(idsOf(all.filter((c) => c.id.length > 48))).toEqual([])
  })

  test('names a source, a reason and one sentence for every case', () => {
    expect(idsOf(all.filter((c) => c.source.trim().length < 10))).toEqual([])
    expect(idsOf(all.filter((c) => c.expect.reason.trim().length < 8))).toEqual([])
    expect(idsOf(all.filter((c) => !/^[A-Z\d].+\.$/.test(c.says)))).toEqual([])
  })

  test("says which fact is missing where the answer is can't tell, and only there", () => {
    const missing = judged.filter((c) => c.expect.verdict === "can't tell" && !c.needsLimit?.length)
    expect(idsOf(missing)).toEqual([])
    const idle = judged.filter((c) => c.expect.verdict !== "can't tell" && c.needsLimit !== undefined)
    expect(idsOf(idle)).toEqual([])
  })

  test('describes every field that the record has no place for yet', () => {
    expect(idsOf(needsNewLimits.filter((c) => !c.needsLimit?.length || !c.note))).toEqual([])
  })

  test('carries a unit or a count in the name of every figure', () => {
    const named = /(Mts|GBps|GB|Mm|W|C|[sS]lots|channels|channelsUsed)$/
    expect(
      all.flatMap((c) => Object.keys(c.expect.values ?? {})).filter((name) => !named.test(name)),
    ).toEqual([])
  })

  test('removes only what is fitted, and fits a single kind once', () => {
    const odd = all.filter((c) => {
      const fitted = c.machine.parts.map((p) => p.id)
      const single = c.machine.parts.filter((p) => SINGLE_KINDS.has(p.kind)).map((p) => p.kind)
      return c.change.removeIds.some((id) => !fitted.includes(id)) || new Set(single).size < single.length
    })
    expect(idsOf(odd)).toEqual([])
  })

  test('uses published names of generations', () => {
    const used = all.flatMap((c) =>
      [...c.machine.parts, ...c.change.add].flatMap((p) => {
        if (p.kind === 'processor') return p.generation === undefined ? [] : [p.generation]
        return p.kind === 'board' ? Object.keys(p.firmwareByGeneration ?? {}) : []
      }),
    )
    expect(used.filter((name) => !GENERATIONS.has(name))).toEqual([])
  })
})
