import { fitModel } from '../../src/core/gain/model/index.ts'
import type { OddKind } from '../../src/core/gain/odd/odd.ts'
import { oddDesk } from '../../src/core/gain/odd/oddRuns.ts'
import { SPOILS, type Spoil } from './measure.ts'
import type { Shop } from './shop.ts'

/** What of a spoil's runs was found, and of those found whether the kind told is the truth. */
export type SpoilScore = {
  readonly spoilt: number
  readonly found: number
  /** Those whose figure is more than 10 % off what the run would have made; the others hardly differ from good ones. */
  readonly moved: number
  readonly movedFound: number
  readonly kindRight: number
  /** The first or the second kind told is the truth. */
  readonly kindAmong: number
}

export type OddScore = {
  readonly runs: number
  readonly bySpoil: Readonly<Record<Spoil, SpoilScore>>
  readonly good: number
  readonly falseAlarms: number
}

const KIND_OF: Readonly<Record<Spoil, OddKind>> = {
  'background load': 'slowed',
  'one channel': 'memory',
  'other setting': 'setting',
  'wrong digits': 'digit',
}

/** How many spoilt runs of a shop are told as odd, how many good ones, and how often the kind is the truth. */
export function scoreOdd(shop: Shop): OddScore {
  const { runs, parts, titles, settings, policy, at, spoils } = shop
  const { odd } = oddDesk(fitModel({ runs, parts, titles, settings, policy, at })).all()
  const told = new Map(odd.map((one) => [one.runId, one.guesses.map(({ kind }) => kind)]))
  const bySpoil = Object.fromEntries(
    SPOILS.map((spoil) => {
      const ids = [...spoils].flatMap(([id, how]) => (how === spoil ? [id] : []))
      const moved = ids.filter((id) => isMoved(shop, id))
      const found = ids.map((id) => told.get(id) ?? []).filter((kinds) => kinds.length > 0)
      return [
        spoil,
        {
          spoilt: ids.length,
          found: found.length,
          moved: moved.length,
          movedFound: moved.filter((id) => told.has(id)).length,
          kindRight: found.filter(([first]) => first === KIND_OF[spoil]).length,
          kindAmong: found.filter((kinds) => kinds.includes(KIND_OF[spoil])).length,
        },
      ]
    }),
  ) as Record<Spoil, SpoilScore>
  return {
    runs: runs.length,
    bySpoil,
    good: runs.length - spoils.size,
    falseAlarms: odd.filter(({ runId }) => !spoils.has(runId)).length,
  }
}

function isMoved({ runs, truth }: Shop, id: string): boolean {
  const run = runs.find((one) => one.id === id)
  if (run === undefined) return false
  const { averageFps } = truth(run.fitted, run.titleId, run.settingId)
  return Math.abs(Math.log(run.averageFps / averageFps)) > Math.log(1.1)
}

/** Scores of several shops as one. */
export function sumOdd(scores: readonly OddScore[]): OddScore {
  const sum = (of: (score: OddScore) => number) => scores.reduce((total, score) => total + of(score), 0)
  return {
    runs: sum(({ runs }) => runs),
    good: sum(({ good }) => good),
    falseAlarms: sum(({ falseAlarms }) => falseAlarms),
    bySpoil: Object.fromEntries(
      SPOILS.map((spoil) => [
        spoil,
        {
          spoilt: sum((s) => s.bySpoil[spoil].spoilt),
          found: sum((s) => s.bySpoil[spoil].found),
          moved: sum((s) => s.bySpoil[spoil].moved),
          movedFound: sum((s) => s.bySpoil[spoil].movedFound),
          kindRight: sum((s) => s.bySpoil[spoil].kindRight),
          kindAmong: sum((s) => s.bySpoil[spoil].kindAmong),
        },
      ]),
    ) as Record<Spoil, SpoilScore>,
  }
}
