import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import type { Predictor } from '../predictors.ts'
import { splitIntervals } from './splitIntervals.ts'

/** How unlike two machines are, in steps that a builder would call about as bad. */
const distance = (a: Fitted, b: Fitted, apart: (p: string, q: string) => number): number =>
  (a.cardId === b.cardId ? 0 : 1 + 3 * apart(a.cardId, b.cardId)) +
  (a.processorId === b.processorId ? 0 : 0.7 + 2 * apart(a.processorId, b.processorId)) +
  (a.memory.memoryType === b.memory.memoryType
    ? 0.5 * Math.abs(Math.log(a.memory.rateMts / b.memory.rateMts))
    : 0.3) +
  (a.memory.channels === b.memory.channels ? 0 : 0.3) +
  0.1 * Math.abs(Math.log2(a.memory.totalGB / b.memory.totalGB)) +
  (a.link.gen === b.link.gen && a.link.lanes === b.link.lanes ? 0 : 0.1) +
  (a.cardLimitW === b.cardLimitW ? 0 : 0.1) +
  (a.processorLimitW === b.processorLimitW ? 0 : 0.1)

/** Further than that nobody would call it a neighbour: another card of some other class. */
const FARTHEST = 2.5

/**
 * What a builder does by hand: look up the run most like the machine before, and the run most like it after, in the
 * same title at the same setting, and divide. Equally near runs are put together by their median.
 */
export const nearestNeighbour: Predictor = {
  name: 'nearest neighbour',
  learn: (data) => {
    const figures = new Map(data.nominals.map(({ partId, figure }) => [partId, figure]))
    const apart = (p: string, q: string): number => {
      const [a, b] = [figures.get(p), figures.get(q)]
      return a === undefined || b === undefined ? 0.5 : Math.abs(Math.log(a / b))
    }
    return splitIntervals(data, (runs) => {
      const byCell = new Map<string, Run[]>()
      for (const run of runs) {
        const key = `${run.titleId}|${run.settingId}`
        const list = byCell.get(key)
        if (list === undefined) byCell.set(key, [run])
        else list.push(run)
      }
      const nearest = (fitted: Fitted, titleId: string, settingId: string): number | undefined => {
        let best = FARTHEST
        let found: number[] = []
        for (const run of byCell.get(`${titleId}|${settingId}`) ?? []) {
          const d = distance(run.fitted, fitted, apart)
          if (d > best) continue
          if (d < best) found = []
          best = d
          found.push(run.averageFps)
        }
        return found.toSorted((a, b) => a - b)[Math.floor(found.length / 2)]
      }
      return (change) => {
        const before = nearest(change.before, change.titleId, change.settingId)
        const after = nearest(change.after, change.titleId, change.settingId)
        if (before === undefined || after === undefined) return undefined
        return { logGain: Math.log(after / before), beforeFps: before }
      }
    })
  },
}
