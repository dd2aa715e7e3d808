import type { TitleGain } from '../../gain/gain.ts'
import { type Fitted, fittedKey } from '../../gain/run.ts'
import { seenGains, usefulGain } from '../../gain/useful.ts'
import { doubtedWith } from '../doubted.ts'
import { titlesAtTarget } from '../draftOption.ts'
import type { Desk, RankInput } from '../rank.ts'
import type { MachineSpace } from './machineSpace.ts'
import type { Objective } from './sweep.ts'

/** What a pair of gain class and card is worth, all figures in natural log. */
type Worth = {
  readonly useful: number
  readonly lower: number
  /** Which titles count: pairs of other titles are not compared. */
  readonly set: string
  readonly reached: number
}

/** The three objectives, by the very figures that an option shows, and the gains behind them. */
export type Objectives = {
  readonly median: Objective
  readonly cautious: Objective
  readonly reached: Objective
  /** Gains of the parts of a pair alone: where their runs disagree, the pair's estimate is in doubt. */
  readonly aloneOf: (gainClass: number, card: number) => readonly (Fitted | undefined)[]
}

export function objectivesOf(desk: Desk, { question }: RankInput, at: MachineSpace): Objectives {
  const { fittedToday, gains } = desk
  const { today, endOf } = at
  const aloneOf = (q: number, g: number) =>
    q === today.gainClass || g === today.card ? [] : [endOf(q, today.card), endOf(today.gainClass, g)]
  const worths = new Map<string, Worth | undefined>()
  const worthOf = (q: number, g: number): Worth | undefined => {
    const end = endOf(q, g)
    if (end === undefined) return undefined
    const key = fittedKey(end)
    if (worths.has(key)) return worths.get(key)
    const told: readonly TitleGain[] = doubtedWith(
      gains(fittedToday, end),
      aloneOf(q, g).map((one) => gains(fittedToday, one)),
    )
    const useful = usefulGain(told, question)
    const fresh = useful && {
      useful: Math.log1p(useful.pct / 100),
      lower: Math.log1p(useful.pctLow / 100),
      set: JSON.stringify(seenGains(told, question).map(({ wanted }) => [wanted.titleId, wanted.settingId])),
      reached: titlesAtTarget(told, question),
    }
    worths.set(key, fresh)
    return fresh
  }
  const set = (q: number, g: number): string => worthOf(q, g)?.set ?? ''
  const of = (figure: (worth: Worth) => number) => (q: number, g: number) => {
    const worth = worthOf(q, g)
    return worth === undefined ? Number.NaN : figure(worth)
  }
  return {
    median: { start: 0, set, at: of(({ useful }) => useful) },
    cautious: { start: 0, set, at: of(({ lower }) => lower) },
    reached: {
      start: titlesAtTarget(gains(fittedToday, fittedToday), question),
      at: of(({ reached }) => reached),
    },
    aloneOf,
  }
}
