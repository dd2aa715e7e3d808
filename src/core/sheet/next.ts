import { type Change, partsOf } from '../build.ts'
import type { Finding } from '../fit/finding.ts'
import type { Judged } from '../fit/judgeChange.ts'
import type { GainModel } from '../gain/gain.ts'
import type { Fitted, MemoryAsItRuns } from '../gain/run.ts'
import { usefulGain } from '../gain/useful.ts'
import { fittedOf } from '../limits/asItRuns.ts'
import type { Machine } from '../machine.ts'
import type { Part } from '../part.ts'
import { type Question, TARGET_FPS_DEFAULT, type Wanted } from '../question.ts'
import type { Verdict } from '../verdict.ts'
import { BOUNDS } from './bounds.ts'
import type { NextKind, NextPart, Unclear } from './sheet.ts'

/** Parts named for a kind; more would be a catalogue. */
const BEST_OF_A_KIND = 3

export type NextInput = {
  readonly machine: Machine
  /** Every part that the shop knows; those of other kinds than processor, card and memory are not tried. */
  readonly parts: readonly Part[]
  /** Titles that were measured on this machine. */
  readonly wanted: readonly Wanted[]
  readonly model: GainModel
  readonly judge: (machine: Machine, change: Change) => Judged
  /** How the memory ran in the machine's own runs, for modules nobody described. */
  readonly seenMemory?: MemoryAsItRuns | undefined
  /** What is fitted today as far as frame rates go; absent = not known, so nothing has a number. */
  readonly today?: Fitted | undefined
}

/**
 * What the machine can take next: every known processor, card and memory kit alone against the rules, those that go in
 * by their useful gain over the titles measured here, no display and no price. A part counts among the best when the
 * lower end of its 80 % interval lies above nothing. Kinds in the order of their best part's lower end.
 */
export function nextOf(input: NextInput): NextKind[] {
  const fitted = new Set(partsOf(input.machine.build).map(({ id }) => id))
  return BOUNDS.map(({ kind, keys }): NextKind => {
    const tried: Record<Verdict, number> = {
      fits: 0,
      'fits slower': 0,
      'fits after work': 0,
      "can't tell": 0,
      'does not fit': 0,
    }
    const going: NextPart[] = []
    const unclear: Unclear[] = []
    for (const part of GAINFUL.has(kind) ? input.parts : []) {
      if (part.kind !== kind || (kind !== 'memory' && fitted.has(part.id))) continue
      const { verdict, next, finding } = tryPart(part, input)
      tried[verdict] += 1
      if (finding !== undefined) unclear.push({ partId: part.id, name: part.name, finding })
      if (next !== undefined) going.push(next)
    }
    const best = going.filter(({ useful }) => (useful?.pctLow ?? 0) > 0).sort(byGain)
    return {
      kind,
      bounds: keys,
      best: best.slice(0, BEST_OF_A_KIND),
      unclear: unclear.slice(0, BEST_OF_A_KIND),
      tried,
    }
  })
    .map((kind, place) => ({ kind, place }))
    .sort((a, b) => worthOf(b.kind) - worthOf(a.kind) || a.place - b.place)
    .map(({ kind }) => kind)
}

const GAINFUL: ReadonlySet<Part['kind']> = new Set(['processor', 'card', 'memory'])

const worthOf = ({ best }: NextKind): number => best[0]?.useful?.pctLow ?? 0

const byGain = (a: NextPart, b: NextPart): number =>
  (b.useful?.pct ?? 0) - (a.useful?.pct ?? 0) || (a.partId < b.partId ? -1 : 1)

function tryPart(
  part: Part,
  input: NextInput,
): { verdict: Verdict; next?: NextPart; finding?: Finding | undefined } {
  const { machine, wanted, model, judge, today, seenMemory } = input
  const judged = judge(machine, { add: [part], removeIds: [], work: [] })
  const { verdict, findings } = judged
  if (verdict === "can't tell") return { verdict, finding: findings.find((one) => one.verdict === verdict) }
  if (verdict === 'does not fit') return { verdict }
  const leavesMemory = part.kind === 'card'
  const after = fittedOf(judged.after, judged.limitsAfter, leavesMemory ? seenMemory : undefined)
  const gains = wanted.map(({ titleId, settingId }) =>
    model.predict({ titleId, settingId, machineTag: machine.tag, before: today, after }),
  )
  return {
    verdict,
    next: {
      ...{ partId: part.id, name: part.name, verdict, gains },
      findings: findings.filter((finding) => finding.verdict !== 'fits'),
      useful: usefulGain(gains, asQuestion(machine.tag, wanted)),
    },
  }
}

/** The titles measured here as a question of nobody: no display caps them, no budget, equal weights. */
const asQuestion = (machineTag: string, wanted: readonly Wanted[]): Question => ({
  ...{ id: '', machineTag, words: '', askedAt: '', wanted, display: {}, wishes: [] },
  targetFps: TARGET_FPS_DEFAULT,
})
