import { applyChange, type Build, buildOf, type Change } from '../../../src/core/build.ts'
import type { Finding, Need, RuleId } from '../../../src/core/fit/finding.ts'
import type { Judged } from '../../../src/core/fit/judgeChange.ts'
import type { GainModel, TitleGain } from '../../../src/core/gain/gain.ts'
import type { Fitted } from '../../../src/core/gain/run.ts'
import { limitsOf } from '../../../src/core/limits/resolve.ts'
import type { Machine } from '../../../src/core/machine.ts'
import type {
  Board,
  Case,
  Cooler,
  Fan,
  GraphicsCard,
  MemoryKit,
  Part,
  Processor,
  Supply,
} from '../../../src/core/part.ts'
import type { Question } from '../../../src/core/question.ts'
import type { Option, Ranking } from '../../../src/core/ranking/option.ts'
import type { RankInput } from '../../../src/core/ranking/rank.ts'
import type { ShelfItem } from '../../../src/core/shop.ts'
import { type Verdict, worstVerdict } from '../../../src/core/verdict.ts'
import { freeze } from '../freeze.ts'
import { POLICY } from '../gain/runs.ts'

/** Invented parts, prices and gains for the tests of the ranking, with a judge of its own (no real rule is used). */
export const processor = (id: string, over: Partial<Processor> = {}): Processor => ({
  id,
  name: id,
  kind: 'processor',
  limitPowerW: 65,
  cores: 6,
  ...over,
})
export const board = (id: string): Board => ({ id, name: id, kind: 'board', memorySlots: 4 })
export const kit = (id: string, over: Partial<MemoryKit> = {}): MemoryKit => ({
  id,
  name: id,
  kind: 'memory',
  memoryType: 'DDR4',
  modules: 2,
  moduleGB: 8,
  rateMts: 3200,
  ...over,
})
export const card = (id: string, over: Partial<GraphicsCard> = {}): GraphicsCard => ({
  id,
  name: id,
  kind: 'card',
  boardPowerW: 120,
  lengthMm: 250,
  pcieGen: 4,
  pcieLanes: 16,
  ...over,
})
export const fan = (id: string, sizeMm: number): Fan => ({ id, name: id, kind: 'fan', sizeMm })
export const supply = (id: string, ratedW: number): Supply => ({ id, name: id, kind: 'supply', ratedW })
export const pcCase = (id: string, cardRoomMm: number, coolerRoomMm = 160, cardSlots = 2): Case => ({
  id,
  name: id,
  kind: 'case',
  cardRoomMm,
  coolerRoomMm,
  cardSlots,
})
export const cooler = (id: string, ratedW: number, heightMm = 150): Cooler => ({
  id,
  name: id,
  kind: 'cooler',
  ratedW,
  heightMm,
})

export const TODAY: readonly Part[] = [
  processor('CPU-0'),
  board('BOARD-0'),
  kit('KIT-0'),
  card('CARD-0'),
  supply('SUPPLY-0', 400),
  pcCase('CASE-0', 300),
  cooler('COOLER-0', 65),
]

export const item = (partId: string, priceMinor: number, over: Partial<ShelfItem> = {}): ShelfItem => ({
  id: `S-${partId}`,
  partId,
  condition: 'new',
  quantity: 1,
  priceMinor,
  at: '2026-01-01T00:00:00Z',
  ...over,
})

export const question = (over: Partial<Question> = {}): Question => ({
  id: 'Q-1',
  machineTag: 'M-0001',
  words: 'What can be done?',
  askedAt: '2026-06-01T00:00:00Z',
  wanted: [{ titleId: 'harbor', settingId: '1080-high', weight: 1 }],
  display: {},
  targetFps: 60,
  wishes: [],
  ...over,
})

export const machine = (parts: readonly Part[] = TODAY): Machine => ({
  tag: 'M-0001',
  build: buildOf(parts),
  claims: [],
})

/** Limits of which only the figures that `fittedOf` reads are known: 3200 MT/s, PCIe 3 with 16 lanes. */
const LIMITS = limitsOf(buildOf([]), [
  { key: 'controllerRateMts', value: 3200, source: 'entered', pinned: true },
  { key: 'boardRateMts', value: 3200, source: 'entered', pinned: true },
  { key: 'slotPcieGen', value: 3, source: 'entered', pinned: true },
  { key: 'slotLanes', value: 16, source: 'entered', pinned: true },
  { key: 'processorPcieGen', value: 3, source: 'entered', pinned: true },
  { key: 'processorPcieLanes', value: 16, source: 'entered', pinned: true },
])

export const finding = (rule: RuleId, verdict: Verdict, needs: readonly Need[] = []): Finding => ({
  rule,
  verdict,
  values: {},
  missing: [],
  needs,
  cautions: [],
  source: { kind: 'common practice', text: 'invented' },
})

/** A judge made of what `findings` says about the build after the change. */
export const judgeBy =
  (findings: (after: Build, change: Change, before: Build) => readonly (Finding | undefined)[]) =>
  ({ build }: Machine, change: Change): Judged => {
    const after = applyChange(build, change)
    const said = findings(after, change, build).filter((f) => f !== undefined)
    return { verdict: worstVerdict(said.map((f) => f.verdict)), findings: said, after, limitsAfter: LIMITS }
  }

export const fitsAlways = judgeBy(() => [])

/**
 * Invented rules that demand companions: the supply's watts (asked for as work to do), the card's length (asked for as
 * a misfit), the cooler's watts and height, four memory slots; a thick card wants air, from a 120 mm fan or from a case
 * with three slots, whichever; a processor without a core count can't be told.
 */
export const demanding = judgeBy((after, change, before) => {
  const brings = (kind: Part['kind']) => change.add.some((p) => p.kind === kind)
  const changes = (kind: Exclude<keyof Build, 'memory' | 'drives' | 'fans'>) =>
    after[kind]?.id !== before[kind]?.id
  const load = 50 + (after.card?.boardPowerW ?? 0) + (after.processor?.limitPowerW ?? 0)
  const modules = after.memory.reduce((n, k) => n + (k.modules ?? 0), 0)
  return [
    load > (after.supply?.ratedW ?? 0) && (changes('card') || changes('processor') || changes('supply'))
      ? finding(
          'power.load',
          brings('supply') ? 'does not fit' : 'fits after work',
          brings('supply') ? [] : [{ part: 'supply' }],
        )
      : undefined,
    (after.card?.lengthMm ?? 0) > (after.case?.cardRoomMm ?? 0) && (changes('card') || changes('case'))
      ? finding('graphics.length', 'does not fit', brings('case') ? [] : [{ part: 'case' }])
      : undefined,
    (after.processor?.limitPowerW ?? 0) > (after.cooler?.ratedW ?? 0) &&
    (changes('processor') || changes('cooler'))
      ? finding('cooling.mount', 'fits after work', brings('cooler') ? [] : [{ part: 'cooler' }])
      : undefined,
    (after.cooler?.heightMm ?? 0) > (after.case?.coolerRoomMm ?? 0) && (changes('cooler') || changes('case'))
      ? finding('cooling.height', 'does not fit', [
          ...(brings('cooler') ? [] : [{ part: 'cooler' } as const]),
          ...(brings('case') ? [] : [{ part: 'case' } as const]),
        ])
      : undefined,
    (after.card?.thicknessMm ?? 0) > 50 &&
    changes('card') &&
    (after.case?.cardSlots ?? 0) < 3 &&
    !after.fans.some((f) => (f.sizeMm ?? 0) >= 120)
      ? finding('graphics.link', 'fits after work', [
          ...(brings('fan') ? [] : [{ part: 'fan' } as const]),
          ...(brings('case') ? [] : [{ part: 'case' } as const]),
        ])
      : undefined,
    modules > 4 && brings('memory')
      ? finding('memory.slots', change.removeIds.length > 0 ? 'does not fit' : 'fits after work', [
          { work: 'remove old modules' },
        ])
      : undefined,
    after.processor?.cores === undefined && changes('processor')
      ? finding('processor.generation', "can't tell")
      : undefined,
  ]
})

/** Frame time in ms of a title on what is fitted; undefined: the shop has no run of it. */
export type FrameTime = (titleId: string, fitted: Fitted) => number | undefined

/**
 * A gain model that knows every frame time, with the given noise of each end in log. Ends that are equal gain 0 with
 * sd 0. `between` overrides the noise of the difference of two ends.
 */
export const knowing = (
  frameTime: FrameTime,
  endSd = 0.01,
  between: (from: Fitted, to: Fitted) => number | undefined = () => undefined,
): GainModel => ({
  name: 'measured-1',
  predict({ titleId, settingId, before, after }): TitleGain {
    const [t0, t1] = [before && frameTime(titleId, before), after && frameTime(titleId, after)]
    if (before === undefined || after === undefined || t0 === undefined || t1 === undefined)
      return {
        grade: 'no number',
        titleId,
        because: after === undefined ? 'nothing fitted' : 'no run after',
        wanted: after === undefined ? [] : [{ titleId, settingId, fitted: after }],
      }
    const same = JSON.stringify(before) === JSON.stringify(after)
    const sd = same ? 0 : (between(before, after) ?? endSd * Math.SQRT2)
    const end = (ms: number) => ({
      averageFps: 1000 / ms,
      runIds: ['R'],
      at: '2026-01-01T00:00:00Z',
      onThisMachine: false,
    })
    return {
      grade: 'measured',
      titleId,
      before: end(t0),
      after: end(t1),
      logGain: Math.log(t0 / t1),
      sd,
      afterFpsLow: (1000 / t1) * Math.exp(-1.2 * sd),
      afterFpsHigh: (1000 / t1) * Math.exp(1.2 * sd),
      disagrees: false,
    }
  },
})

/** Frame time of a processor side and a graphics side that overlap: (A^p + B^p)^(1/p). */
export const smoothMax = (a: number, b: number, p = 7): number => (a ** p + b ** p) ** (1 / p)

/** The shop's labour: opening 15, nothing else. */
export const input = (over: Partial<RankInput>): RankInput =>
  freeze({
    machine: machine(),
    question: question(),
    parts: [],
    shelf: [],
    work: [{ work: 'opening', minutes: 15, priceMinor: 1500 }],
    tradeIns: [],
    policy: POLICY,
    model: knowing(() => undefined),
    judge: fitsAlways,
    ...over,
  })

/** The option with that id, wherever the ranking has it; throws when it has none. */
export const option = (ranking: Ranking, id: string): Option => {
  const all = [...ranking.ranked, ...ranking.withoutNumber, ...ranking.needsAFact]
  const found = all.find((o) => o.id === id)
  if (found === undefined) throw new Error(`no option ${id} in ${all.map((o) => o.id).join(', ')}`)
  return found
}
export const ids = (options: readonly Option[]) => options.map((o) => o.id)

/** Frame times by card alone; a card that is not listed has no run. */
export const byCard =
  (ms: Readonly<Record<string, number>>): FrameTime =>
  (_, { cardId }) =>
    ms[cardId]
