import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Finding } from '../../../src/core/fit/finding.ts'
import { judge } from '../../../src/core/fit/rule.ts'
import { RULES } from '../../../src/core/fit/rules.ts'
import type { LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'
import type { GraphicsCard, Plugs, SupplyDesign } from '../../../src/core/part.ts'
import { rankOfVerdict, worstVerdict } from '../../../src/core/verdict.ts'
import { runs } from '../../runs.ts'
import { card, change, limits, machine, processor, situation } from './bench.ts'

// Laws of the whole of what is said about a supply, over cards, processors and supplies of all sizes.

const AT = '2026-11-25T12:00:00.000Z'
const POWER = RULES.filter((r) => r.id.startsWith('power.'))

type Supplied = Pick<
  LimitValues,
  | 'supply12VW'
  | 'supplyRatedW'
  | 'supplyPlugs'
  | 'supplyYear'
  | 'pin16W'
  | 'cardCables'
  | 'supplyDesignVersion'
>

const plugs = fc.record({ pin6: fc.nat({ max: 2 }), pin8: fc.nat({ max: 3 }), pin16: fc.nat({ max: 1 }) })
const cards: fc.Arbitrary<GraphicsCard> = fc
  .record({ boardPowerW: fc.integer({ min: 30, max: 600 }), plugs })
  .map((figures) => ({ ...card, ...figures, id: 'CARD-NEW' }))
const supplied: fc.Arbitrary<Supplied> = fc.record({
  supply12VW: fc.integer({ min: 200, max: 1600 }),
  supplyRatedW: fc.integer({ min: 300, max: 2000 }),
  supplyPlugs: plugs,
  supplyYear: fc.integer({ min: 2005, max: 2026 }),
  pin16W: fc.constantFrom(150, 300, 450, 600),
  cardCables: fc.nat({ max: 4 }),
  supplyDesignVersion: fc.constantFrom<SupplyDesign>('ATX12V 2.x', 'ATX 3.0', 'ATX 3.1'),
})
const limitsW = fc.integer({ min: 35, max: 420 })

function found(next: GraphicsCard, limitPowerW: number, of: Supplied, unknown: LimitKey[] = []): Finding[] {
  const before = { ...machine, processor: { ...processor, limitPowerW } }
  const s = { ...situation(change([next]), before), at: AT }
  const known = limits(of, unknown)
  return POWER.map((r) => judge(r, s, known)).filter((f) => f !== undefined)
}
const overall = (findings: readonly Finding[]): number =>
  rankOfVerdict(worstVerdict(findings.map((f) => f.verdict)))

/** Asserts that no step makes the whole worse, and that each makes some finding better. */
function neverWorse(step: (of: Supplied) => Supplied): void {
  let better = 0
  fc.assert(
    fc.property(cards, limitsW, supplied, (next, limitW, of) => {
      const [was, is] = [found(next, limitW, of), found(next, limitW, step(of))]
      expect(overall(is)).toBeLessThanOrEqual(overall(was))
      const rankIn = (findings: readonly Finding[], rule: string) =>
        overall(findings.filter((f) => f.rule === rule))
      if (was.some((f) => rankIn(is, f.rule) < rankIn(was, f.rule))) better += 1
    }),
    { numRuns: runs(250) },
  )
  expect(better).toBeGreaterThan(0)
}

test('law: more rating never makes it worse', () => {
  neverWorse((of) => ({ ...of, supply12VW: of.supply12VW + 150 }))
  neverWorse((of) => ({ ...of, supplyRatedW: of.supplyRatedW + 150 }))
  neverWorse((of) => ({ ...of, pin16W: of.pin16W + 150 }))
})

test('law: an older supply is never better', () => {
  neverWorse((of) => ({ ...of, supplyYear: of.supplyYear + 6 }))
})

test('law: more plugs and cables are never worse', () => {
  const more = ({ pin6, pin8, pin16 }: Plugs, by: Plugs): Plugs => ({
    ...{ pin6: pin6 + by.pin6, pin8: pin8 + by.pin8, pin16: pin16 + by.pin16 },
  })
  for (const by of [
    { pin6: 1, pin8: 0, pin16: 0 },
    { pin6: 0, pin8: 1, pin16: 0 },
    { pin6: 0, pin8: 0, pin16: 1 },
  ])
    neverWorse((of) => ({ ...of, supplyPlugs: more(of.supplyPlugs, by) }))
  neverWorse((of) => ({ ...of, cardCables: of.cardCables + 1 }))
})

test('law: a later issue of the design guide is never worse', () => {
  neverWorse((of) => ({ ...of, supplyDesignVersion: 'ATX 3.1' }))
})

test('law: a weaker card or processor asks no more of a supply', () => {
  fc.assert(
    fc.property(cards, limitsW, supplied, fc.nat({ max: 100 }), (next, limitW, of, less) => {
      const was = overall(found(next, limitW, of))
      const smaller = { ...next, boardPowerW: Math.max(1, (next.boardPowerW ?? 0) - less) }
      expect(overall(found(smaller, limitW, of))).toBeLessThanOrEqual(was)
      expect(overall(found(next, Math.max(1, limitW - less), of))).toBeLessThanOrEqual(was)
    }),
    { numRuns: runs(300) },
  )
})

test('law: what decides and is not known never promises more than the least it could be', () => {
  const least: { readonly [K in keyof Supplied]?: Supplied[K] } = {
    ...{ supply12VW: 0, supplyRatedW: 0, supplyDesignVersion: 'ATX12V 2.x' },
    supplyPlugs: { pin6: 0, pin8: 0, pin16: 0 },
  }
  fc.assert(
    fc.property(cards, limitsW, supplied, (next, limitW, of) => {
      for (const key of ['supply12VW', 'supplyRatedW', 'supplyPlugs', 'supplyDesignVersion'] as const)
        if (overall(found(next, limitW, of, [key])) === 0)
          expect(overall(found(next, limitW, { ...of, ...pick(least, key) }))).toBe(0)
    }),
    { numRuns: runs(250) },
  )
})

const pick = <T extends object, K extends keyof T>(of: T, key: K): Partial<T> =>
  ({ [key]: of[key] }) as unknown as Partial<T>
