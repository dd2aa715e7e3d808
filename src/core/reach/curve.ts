import { buildOf } from '../build.ts'
import { judgeChange } from '../fit/judgeChange.ts'
import type { GainModel, TitleGain } from '../gain/gain.ts'
import { FOUR_OF_FIVE_SD } from '../gain/noise.ts'
import { sdOfSum } from '../gain/useful.ts'
import type { Claim } from '../limits/limit.ts'
import type { MatchShop } from '../matching/ask.ts'
import { modelOf } from '../matching/match.ts'
import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import { displayOf, type Question } from '../question.ts'
import { deskOf, type RankInput } from '../ranking/rank.ts'
import { bundlesOf } from '../ranking/search/bundles.ts'
import type { ReachInputs } from './ask.ts'
import { type Anchor, withBounds } from './bounds.ts'

/** A useful frame rate: the weighted geometric mean over the titles, each no higher than the display shows, with its interval. */
export type Level = {
  readonly fps: number
  /** Four of five results lie between. */
  readonly low: number
  readonly high: number
  /** Some title is too uncertain for a number: these are bounds, nothing to promise. */
  readonly isBound: boolean
  /** What it is made of: the rate of each title with its grade and the runs behind it; without runs the model alone tells it. */
  readonly titles: readonly LevelTitle[]
}

export type LevelTitle = {
  readonly titleId: string
  readonly fps: number
  readonly grade: Exclude<TitleGain['grade'], 'no number'>
  readonly runIds: readonly string[]
}

/** From that price on the platform can run at that level. */
export type Point = Level & {
  readonly spendMinor: Minor
  readonly addIds: readonly string[]
  readonly shelfItemIds: readonly string[]
}

/** Best level against further spend: today first, at 0. */
export type Curve = {
  readonly points: readonly Point[]
  /** Titles nobody can say anything about; where all are, there is no curve. */
  readonly untoldTitleIds: readonly string[]
}

/** Works out the curve of a build in a shop. `keepsBoard`: on this board alone. */
export type CurveOf = (parts: readonly Part[], shop: MatchShop, keepsBoard: boolean) => Curve

/** The curve of builds, by the search over every bundle. */
export function curvesOf({ ask, measured, at }: Pick<ReachInputs, 'ask' | 'measured' | 'at'>): CurveOf {
  return (parts, shop, keepsBoard) => {
    const plain = modelOf(shop)
    const kindOf = new Map(shop.parts.map((part) => [part.id, part.kind]))
    const question: Question = {
      ...{ id: '', machineTag: '', words: '', askedAt: at, wishes: [] },
      ...{ wanted: ask.wanted, display: ask.display, targetFps: ask.targetFps },
    }
    const inputWith = (model: GainModel): RankInput => ({
      ...{
        parts: shop.parts,
        work: shop.work,
        tradeIns: shop.tradeIns,
        policy: shop.policy,
        model,
        question,
      },
      machine: { tag: '', build: buildOf(parts), claims: [NEWEST_FIRMWARE], at },
      shelf: shop.shelf.filter(({ partId }) => !keepsBoard || kindOf.get(partId) !== 'board'),
      judge: (machine, change) => judgeChange(machine, change, shop.policy),
    })
    // What never ran is in nobody's way where the platform itself is known; where it is not, everything has bounds.
    const known = deskOf(inputWith(plain))
    const isKnown = known
      .gains(known.fittedToday, known.fittedToday)
      .every(({ grade }) => grade !== 'no number')
    const input = inputWith(isKnown ? plain : withBounds(plain, anchorsOf(ask.wanted, measured, plain)))
    const desk = isKnown ? known : deskOf(input)
    const today = levelOf(desk.gains(desk.fittedToday, desk.fittedToday), question)
    const untoldTitleIds = ask.wanted
      .filter((_, i) => desk.gains(desk.fittedToday, desk.fittedToday)[i]?.grade === 'no number')
      .map(({ titleId }) => titleId)
    if (today === undefined) return { points: [], untoldTitleIds }
    const points: Point[] = [{ ...today, spendMinor: 0, addIds: [], shelfItemIds: [] }]
    for (const { draft } of bundlesOf(desk, input).shown) {
      if (draft.price.netMinor > ask.upToMinor) continue
      const to = desk.fittedAfter(draft)
      const level = levelOf(desk.gains(desk.fittedToday, to), question)
      const best = points.at(-1)
      if (level === undefined || best === undefined || level.fps <= best.fps) continue
      points.push({
        ...level,
        spendMinor: Math.max(0, draft.price.netMinor),
        addIds: draft.change.add.map(({ id }) => id),
        shelfItemIds: [...draft.base.offers, ...draft.companions].map(({ item }) => item.id),
      })
    }
    return { points, untoldTitleIds }
  }
}

/** A board that is built in now gets the newest firmware first: common practice. */
const NEWEST_FIRMWARE: Claim<'firmware'> = {
  ...{ key: 'firmware', value: '9999', source: 'entered', pinned: true },
}

const anchorsOf = (
  wanted: ReachInputs['ask']['wanted'],
  measured: ReachInputs['measured'],
  model: GainModel,
) => {
  const anchors = new Map<string, Anchor>()
  wanted.forEach(({ titleId, settingId }, i) => {
    const fitted = measured[i]
    if (fitted === undefined) return
    const told = model.predict({ titleId, settingId, machineTag: '', before: fitted, after: fitted })
    const fps = told.grade === 'no number' ? told.before?.averageFps : told.after.averageFps
    if (fps !== undefined) anchors.set(`${titleId} ${settingId}`, { fitted, averageFps: fps })
  })
  return (titleId: string, settingId: string) => anchors.get(`${titleId} ${settingId}`)
}

/** The level after, out of the gains of each title; undefined where no title has a number. */
export function levelOf(gains: readonly TitleGain[], question: Question): Level | undefined {
  const { refreshHz } = displayOf(question)
  const cap = refreshHz !== undefined && refreshHz > 0 ? Math.log(refreshHz) : Number.POSITIVE_INFINITY
  const told = gains.flatMap((gain, i) => {
    const weight = question.wanted[i]?.weight ?? 0
    return gain.grade === 'no number' || weight <= 0 ? [] : [{ gain, weight }]
  })
  const total = told.reduce((sum, { weight }) => sum + weight, 0)
  if (total === 0) return undefined
  const parts = told.map(({ gain, weight }) => {
    const share = weight / total
    const seen = (fps: number) => share * Math.min(cap, Math.log(fps))
    const half = FOUR_OF_FIVE_SD * (gain.sdAfter ?? gain.sd)
    const mean = Math.log(gain.after.averageFps)
    return {
      mean: seen(Math.exp(mean)),
      down: seen(Math.exp(mean)) - seen(Math.exp(mean - half)),
      up: seen(Math.exp(mean + half)) - seen(Math.exp(mean)),
      half,
    }
  })
  const mean = parts.reduce((sum, part) => sum + part.mean, 0)
  return {
    fps: Math.exp(mean),
    low: Math.exp(mean - sdOfSum(parts.map(({ down }) => down))),
    high: Math.exp(mean + sdOfSum(parts.map(({ up }) => up))),
    isBound: parts.some(({ half }) => half > WIDEST_HALF),
    titles: told.map(({ gain: { titleId, grade, after } }) => ({
      ...{ titleId, grade, fps: after.averageFps, runIds: after.runIds },
    })),
  }
}

/** What is wider than this has no number elsewhere: 28 % to each side. */
const WIDEST_HALF = 0.25

/** A mean of logarithms makes 74.99999999999997 of runs of 75. */
export const reachesFps = (fps: number, wanted: number): boolean => fps >= wanted * (1 - 1e-9)

/** The least further spend at which a curve reaches a frame rate; undefined where it never does. */
export const needFor = ({ points }: Pick<Curve, 'points'>, fps: number): Minor | undefined =>
  points.find((point) => reachesFps(point.fps, fps))?.spendMinor

/** The level at a further spend. */
export const levelAt = ({ points }: Pick<Curve, 'points'>, spendMinor: Minor): number | undefined =>
  points.reduce<number | undefined>(
    (best, point) => (point.spendMinor <= spendMinor ? Math.max(best ?? 0, point.fps) : best),
    undefined,
  )
