import { afterAll, describe, expect, test } from 'vitest'
import { buildOf } from '../../../../src/core/build.ts'
import type { Finding, Value } from '../../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../../src/core/fit/judgeChange.ts'
import type { ShopPolicy } from '../../../../src/core/shop.ts'
import { worstVerdict } from '../../../../src/core/verdict.ts'
import type { About, FitCase } from './case.ts'
import { caseCases } from './caseCases.ts'
import { coolingCases } from './coolingCases.ts'
import { graphicsCases } from './graphics.ts'
import { memoryCases } from './memory.ts'
import { powerCases } from './powerCases.ts'
import { processorCases } from './processor.ts'
import { storageCases } from './storageCases.ts'
import { swapCases } from './swapCases.ts'
import { workAndOfficeCases } from './workAndOffice.ts'

/** The default shop policy: what counts of a supply is 80 %, the rest of a machine takes 50 W. */
const policy: ShopPolicy = {
  ...{ currency: 'USD', supplyShare: 0.8, restOfMachineW: 50, smallestGainPct: 5 },
  ...{ runWindowDays: 400, priceValidDays: 14 },
  ...{ supplyFullYears: 5, supplyLossPctPerYear: 2, coolingMarginC: 5 },
}

/** What the chapters on work and office machines left aside: see case.ts. */
const LATER = /^(cooling|storage|swap|system)\.|^case\.(fans|frontPanel)$/

const RULES_OF: Readonly<Record<About, (rule: string) => boolean>> = {
  processor: (rule) => rule.startsWith('processor.'),
  memory: (rule) => rule.startsWith('memory.'),
  // What is printed on a 16-pin plug had no place in the record when that chapter was written.
  graphics: (rule) => /^(graphics|power)\./.test(rule) && rule !== 'power.plug16',
  work: (rule) => !LATER.test(rule),
  office: (rule) => !LATER.test(rule),
  power: (rule) => /^(power|case\.supply)/.test(rule),
  cooling: (rule) => rule.startsWith('cooling.'),
  storage: (rule) => rule.startsWith('storage.'),
  case: (rule) => rule.startsWith('case.') || rule === 'graphics.length',
  swap: (rule) => rule.startsWith('swap.'),
  system: (rule) => rule.startsWith('system.'),
  whole: () => true,
}

/** The book was written blind, so a figure may have another name in a finding. */
const NAMES: Readonly<Record<string, readonly string[]>> = {
  limitW: ['processorLimitW'],
  boardW: ['boardProcessorW'],
  lengthMm: ['cardMm', 'driveMm'],
  capacityGB: ['driveGB'],
  demandW: ['peakW'],
  obligedW: ['carriesW'],
  plugLoadW: ['needW'],
  plugsCarryW: ['pin16W', 'cablesW'],
  needMm: ['supplyMm', 'bothMm'],
  ratedW: ['coolerRatedW'],
}

/** How exactly the book gives its figures: links to a thousandth, temperatures to a tenth, watts as amperes x 11.2. */
const ROUNDED: readonly (readonly [end: string, within: number])[] = [
  ['GBps', 0.0006],
  ['C', 0.0501],
  ['W', 1e-6],
]

function isSame(name: string, value: Value | undefined, want: number): boolean {
  const within = ROUNDED.find(([end]) => name.endsWith(end))?.[1] ?? 0
  return typeof value === 'number' && Math.abs(value - want) <= within
}

/** The day of judging, for the age of a supply. */
const JUDGED_AT = '2026-11-25T12:00:00.000Z'

function findingsOf(c: FitCase): readonly Finding[] {
  const machine = { tag: 'M-0001', build: buildOf(c.machine.parts), claims: c.machine.claims, at: JUDGED_AT }
  const { findings } = judgeChange(machine, c.change, policy)
  return findings.filter((f) => RULES_OF[c.expect.about](f.rule))
}

const missingIn = (findings: readonly Finding[]): string[] =>
  findings.flatMap((f) => f.missing.map((m) => ('limit' in m ? m.limit : m.spec)))

const all: readonly FitCase[] = [
  ...[...processorCases, ...memoryCases, ...graphicsCases, ...workAndOfficeCases],
  ...[...powerCases, ...coolingCases, ...storageCases, ...caseCases, ...swapCases],
]
const unsure: string[] = []
afterAll(() => void process.stdout.write(`can't tell: ${unsure.length} of ${all.length} cases\n`))

function agrees(c: FitCase): void {
  const findings = findingsOf(c)
  const verdict = worstVerdict(findings.map((f) => f.verdict))
  if (verdict === "can't tell") unsure.push(c.id)
  expect(verdict, c.expect.reason).toBe(c.expect.verdict)
  for (const [name, want] of Object.entries(c.expect.values ?? {})) {
    const given = findings.flatMap((f) => [name, ...(NAMES[name] ?? [])].map((n) => f.values[n]))
    const found = given.filter((value) => value !== undefined)
    const isGiven = found.some((value) => isSame(name, value, want))
    expect(isGiven, `${name} ${want}, given ${found.join()}`).toBe(true)
  }
  const missing = missingIn(findings)
  const unnamed = c.needsLimit?.filter((key) => !missing.includes(key)) ?? []
  expect(unnamed, `missing: ${missing.join()}`).toEqual([])
}

describe.each([
  ...(['processor', 'memory', 'graphics', 'work and office'] as const),
  ...(['power', 'cooling', 'storage', 'case', 'platform swap'] as const),
])('the case book: %s', (area) => {
  const cases = all.filter((c) => c.area === area)
  test.each(cases)('$id: $says', agrees)
})
