import { buildOf, partsOf } from '../../../src/core/build.ts'
import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import { fittedOf } from '../../../src/core/limits/asItRuns.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Part } from '../../../src/core/part.ts'
import type { ReachInputs } from '../../../src/core/reach/ask.ts'
import { machine as bench, card, kit, policy, processor } from '../fit/bench.ts'

/*
 * Invented platforms made of the machine of the rules' tests. Every pair of processor and card was run twice, at a frame rate that
 * the test says; opening costs 15.00, nothing else.
 */
export const AT = '2026-06-01T12:00:00Z'
const TITLE = { titleId: 'harbor', settingId: '1080-high' } as const

export const OLD: readonly Part[] = partsOf(bench).map((part): Part => {
  if (part.kind === 'board')
    return { ...part, memoryRateMtsMax: 2666, slotPcieGen: 3, slotLanes: 16, frontHeaders: [] }
  return part.kind === 'card' ? { ...card, lengthMm: 250 } : part
})
export const cardOf = (id: string, change: Partial<typeof card> = {}): Part => ({
  ...{ ...card, id, name: id, lengthMm: 250 },
  ...change,
})
export const processorOf = (id: string, change: Partial<typeof processor> = {}): Part => ({
  ...{ ...processor, id, name: id },
  ...change,
})
/** The parts with some of a kind changed. */
export const swapped = (change: (part: Part) => Part): readonly Part[] => OLD.map(change)

/** What runs tell: the frame rate with a processor and a card. */
export type Fps = Readonly<Record<string, Readonly<Record<string, number>>>>

const endOf = (parts: readonly Part[]): Fitted => {
  const build = buildOf(parts)
  const end = fittedOf(build, limitsOf(build, []))
  if (end === undefined) throw new Error('nothing to run')
  return end
}

export const BUILT = endOf(OLD)

export function inputsOf(
  platforms: ReachInputs['ask']['platforms'],
  parts: readonly Part[],
  prices: Readonly<Record<string, number>>,
  fps: Fps,
  change: Partial<ReachInputs['ask']> = {},
): ReachInputs {
  const runs = Object.entries(fps).flatMap(([processorId, of]) =>
    Object.entries(of).flatMap(([cardId, averageFps]) =>
      [1, 2].map(
        (n): Run => ({
          ...{ id: `R-${processorId}-${cardId}-${n}`, at: `2026-05-0${n}T12:00:00Z`, averageFps, ...TITLE },
          ...{ fitted: { ...BUILT, processorId, cardId }, titleVersion: '1' },
        }),
      ),
    ),
  )
  return {
    ask: {
      ...{ platforms, wanted: [{ ...TITLE, weight: 1 }], display: {}, targetFps: 60, upToMinor: 100_000 },
      scenario: { pricesFallPct: 0, heavierPct: 0, years: 0 },
      ...change,
    },
    shop: {
      ...{ policy, parts, runs, tradeIns: [], work: [{ work: 'opening', minutes: 15, priceMinor: 1500 }] },
      shelf: Object.entries(prices).map(([partId, priceMinor]) => ({
        ...{ id: `S-${partId}`, partId, condition: 'used' as const, quantity: 1, priceMinor, at: AT },
      })),
    },
    measured: [BUILT],
    at: AT,
  }
}
export { kit }
