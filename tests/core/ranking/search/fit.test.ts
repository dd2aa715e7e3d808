import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  type Code,
  compileFit,
  DIMENSIONS,
  MISFIT,
  placeOf,
  UNCLEAR,
  workBits,
} from '../../../../src/core/fit/compiled.ts'
import { type Judged, judgeChange } from '../../../../src/core/fit/judgeChange.ts'
import { RULES } from '../../../../src/core/fit/rules.ts'
import { isFitting } from '../../../../src/core/verdict.ts'
import { policy } from '../../fit/bench.ts'
import { someMoves } from './drawnMoves.ts'

/** What the findings of a change come to for a search. Making room is a change of its own: see compileFit. */
function codeOf(judged: Judged, asked: number): Code {
  if (judged.after.memory.length !== asked) return MISFIT
  const needs = judged.findings.flatMap((finding) => finding.needs)
  if (judged.findings.some(({ verdict }) => verdict === 'does not fit')) return MISFIT
  if (needs.some((need) => 'part' in need)) return MISFIT
  if (!isFitting(judged.verdict)) return UNCLEAR
  return workBits(needs.flatMap((need) => ('work' in need ? [need.work] : [])))
}

test('the compiled rules say what the findings say, on changes by chance', () => {
  const seen = new Map<Code | 'works', number>()
  fc.assert(
    fc.property(someMoves, fc.infiniteStream(fc.nat({ max: 10 })), ({ machine, moves }, chance) => {
      const compiled = compileFit(machine, policy, moves)
      for (let n = 0; n < 30; n++) {
        // Most dimensions are left alone, else nothing would ever fit.
        const place = DIMENSIONS.map((dimension) => {
          const at = (chance.next().value as number) - 7
          return Math.max(0, Math.min(at, moves[dimension].length - 1))
        })
        const change = compiled.changeOf(place)
        const removed = moves.memory[place[placeOf('memory')] as number]?.removeIds.length ?? 0
        const kits =
          machine.build.memory.length - removed + change.add.filter((p) => p.kind === 'memory').length
        const code = codeOf(judgeChange(machine, change, policy), kits)
        expect(compiled.whole(place)).toBe(code)
        const kind = code > 0 ? 'works' : code
        seen.set(kind, (seen.get(kind) ?? 0) + 1)
      }
    }),
    { numRuns: 6 },
  )
  // The law says nothing where one of these never came.
  for (const kind of [0, 'works', MISFIT, UNCLEAR] as const) expect(seen.get(kind) ?? 0).toBeGreaterThan(0)
}, 60_000)

test('what a rule reads is found by watching it: the least and the most of some', () => {
  const [drawn] = fc.sample(someMoves, { numRuns: 1, seed: 7 })
  if (drawn === undefined) throw new Error('nothing drawn')
  const compiled = compileFit(drawn.machine, policy, drawn.moves)
  const places = DIMENSIONS.map((_, d) => DIMENSIONS.map((_, e) => (d === e ? 1 : 0)))
  const all = DIMENSIONS.map(() => 1)
  for (const place of [...places, all]) for (let r = 0; r < compiled.rules; r++) compiled.code(r, place)
  const readBy = (id: string) => {
    const rule = RULES.findIndex((one) => one.id === id)
    return DIMENSIONS.filter((_, d) => compiled.readsOf(rule) & (1 << d))
  }
  expect(readBy('cooling.height')).toEqual(['case', 'cooler'])
  expect(readBy('case.supply')).toEqual(['case', 'supply'])
  expect(readBy('processor.socket')).toEqual(['board', 'processor'])
  expect(readBy('power.load')).toEqual(expect.arrayContaining(['processor', 'card', 'supply']))
  // No rule sees the cooler and the supply: the search looks for each alone.
  for (let r = 0; r < compiled.rules; r++) {
    const reads = DIMENSIONS.filter((_, d) => compiled.readsOf(r) & (1 << d))
    expect(reads.includes('cooler') && reads.includes('supply'), RULES[r]?.id).toBe(false)
  }
})
