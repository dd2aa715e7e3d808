import { describe, expect, test } from 'vitest'
import { fitWith } from '../../../../src/core/gain/model/fit.ts'
import { WIDEST_HALF } from '../../../../src/core/gain/model/grade.ts'
import type { GainData } from '../../../../src/core/gain/model/index.ts'
import { modelOf } from '../../../../src/core/gain/model/index.ts'
import type { Priors } from '../../../../src/core/gain/model/priors.ts'
import { PRIORS } from '../../../../src/core/gain/model/priors.ts'
import { leftOutOf } from '../../../../src/core/gain/modelCard/leftOut.ts'
import { foretoldOf, LEAST_CELLS, modelCardOf } from '../../../../src/core/gain/modelCard/modelCard.ts'
import { averageViews, jointOf } from '../../../../src/core/gain/nextRun/joint.ts'
import { drawShop } from '../model/drawn.ts'
import { card, dataOf, fitted, PLAIN, processor, runOf, withKind } from '../model/small.ts'

/** The graphics side is the whole frame, so the model is a sum and the closed formula exact. */
const PINNED = withKind(PLAIN, 'alpha', { m: Math.log(0.01), ms: 1e-3, s0: 1e-3 })

const small = dataOf(
  [
    runOf('T', fitted('P1', 'C1'), 20),
    runOf('T', fitted('P1', 'C2'), 11),
    runOf('T', fitted('P1', 'C3'), 15),
    runOf('U', fitted('P1', 'C1'), 16),
    runOf('U', fitted('P1', 'C2'), 9.5),
    runOf('V', fitted('P1', 'C3'), 12),
  ],
  { parts: [card('C1'), card('C2'), card('C3'), processor('P1')] },
)

/** The same cell foretold by a fit that never heard it. */
const byRefit = (data: GainData, priors: Priors, at: number) => {
  const run = data.runs[at]
  if (run === undefined) throw new Error('no such run')
  const fit = fitWith({ ...data, runs: data.runs.filter((_, i) => i !== at) }, priors)
  const cell = { titleId: run.titleId, settingId: run.settingId, fitted: run.fitted }
  const joint = jointOf(fit, averageViews(fit), [cell])
  const place = joint.placeOf(cell)
  const gain = modelOf(fit).predict({ ...cell, machineTag: '', before: run.fitted, after: run.fitted })
  const fps = gain.grade === 'no number' ? undefined : gain.after.averageFps
  return { fps, variance: joint.covariance(place, place), measuredFps: run.averageFps }
}

describe('each cell left out', () => {
  test('in closed form as a refit without it finds: mean and spread, in a model that is a sum', () => {
    const fit = fitWith(small, PINNED)
    const left = leftOutOf(fit)
    expect(left).toHaveLength(6)
    let told = 0
    small.runs.forEach((run, i) => {
      const one = left.find((l) => l.titleId === run.titleId && l.cardId === run.fitted.cardId)
      const { fps, variance, measuredFps } = byRefit(small, PINNED, i)
      // One run adds sigma^2 to what is not known of the cell.
      const sd = Math.sqrt(variance + 0.02 ** 2)
      const isTold = 1.2 * sd <= WIDEST_HALF
      expect(1.2 * (one?.sd ?? 0) <= WIDEST_HALF, run.id).toBe(isTold)
      if (!isTold || fps === undefined) return
      told++
      expect(one?.sd).toBeCloseTo(sd, 4)
      expect(one?.off).toBeCloseTo(Math.log(fps / measuredFps), 4)
    })
    expect(told).toBeGreaterThan(1)
    expect(left.every(({ runs }) => runs === 1)).toBe(true)
  })

  test('a shop drawn from the model: refits agree where the pace changes sides too', () => {
    const shop = drawShop(5, { processors: 4, cards: 5, titles: 4, runs: 60 })
    const priors = { ...PRIORS, empiricalBayes: false }
    const fit = fitWith(shop.data, priors)
    const left = leftOutOf(fit)
    const offs: { closed: number; refit: number; apart: number }[] = []
    for (let i = 0; i < shop.data.runs.length; i += 4) {
      const run = shop.data.runs[i]
      const { fps, measuredFps } = byRefit(shop.data, priors, i)
      const cell = fit.cells.find(({ runs }) => runs.length === 1 && runs[0]?.id === run?.id)
      if (run === undefined || fps === undefined || cell === undefined) continue
      const one = left.find(
        (l) =>
          l.titleId === run.titleId &&
          l.settingId === run.settingId &&
          l.processorId === run.fitted.processorId &&
          l.cardId === run.fitted.cardId &&
          l.runs === 1,
      )
      if (one === undefined) continue
      const refit = Math.log(fps / measuredFps)
      offs.push({ closed: one.off, refit, apart: Math.abs(one.off - refit) / one.sd })
    }
    expect(offs.length).toBeGreaterThan(10)
    // Half of the cells agree within a fifth of the spread that is told; a few, where a doubted run is heard or the pace
    // changes sides, differ by as much as it. On average the closed form is a tenth too kind: 0.088 against 0.099.
    const mean = (of: 'closed' | 'refit') => offs.reduce((sum, o) => sum + Math.abs(o[of]), 0) / offs.length
    const apart = offs.map((o) => o.apart).sort((a, b) => a - b)
    expect(apart[offs.length >> 1]).toBeLessThan(0.2)
    expect(mean('closed') / mean('refit')).toBeGreaterThan(0.8)
    expect(mean('closed') / mean('refit')).toBeLessThan(1.2)
  })
})

describe('the card', () => {
  const shop = drawShop(6, { processors: 6, cards: 8, titles: 6, runs: 220 })
  const made = modelCardOf(fitWith(shop.data, PRIORS))

  test('counts runs, parts and titles', () => {
    const { runs } = shop.data
    expect(made).toMatchObject({
      runs: runs.length,
      titles: new Set(runs.map(({ titleId }) => titleId)).size,
      cards: new Set(runs.map(({ fitted: f }) => f.cardId)).size,
      processors: new Set(runs.map(({ fitted: f }) => f.processorId)).size,
      fittedFor: shop.data.at,
    })
  })

  // The shop follows the model, so intervals hold about what they state; they are a little wide in the middle, as the
  // factors 0.55, 1.2 and 1.75 were set for shops that do not follow it.
  test('a shop that follows the model is held as stated', () => {
    const share = Object.fromEntries(made.leftOut.levels.map(({ coverage, share: s }) => [coverage, s]))
    expect(share[80]).toBeGreaterThan(0.7)
    expect(share[80]).toBeLessThan(0.92)
    expect(share[50]).toBeLessThan(share[80] as number)
    expect(share[90]).toBeGreaterThan(share[80] as number)
  })

  test('the weakest come first, and few cells are said to be few', () => {
    const weak = made.byTitle.map(({ weaknesses }) => weaknesses.length)
    expect(weak).toEqual([...weak].sort((a, b) => b - a))
    for (const spot of [...made.byTitle, ...made.byCard, ...made.byProcessor])
      expect(spot.weaknesses.includes('few runs')).toBe(spot.cells + spot.untold < LEAST_CELLS)
  })

  test('no run: nothing is counted and nothing divided by', () => {
    const empty = modelCardOf(fitWith(dataOf([]), PRIORS))
    expect(empty).toMatchObject({ runs: 0, cells: 0, byTitle: [], leftOut: { cells: 0, meanError: 0 } })
    expect(foretoldOf([]).levels.map(({ share }) => share)).toEqual([0, 0, 0])
  })
})
