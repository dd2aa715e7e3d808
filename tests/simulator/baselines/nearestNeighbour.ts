import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import type { Change, Predictor } from '../predictors.ts'
import { figuresOf } from './figures.ts'
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
/** Runs on each side that are tried as a pair. */
const SHORTLIST = 12
/** A patch between the two runs. */
const OTHER_VERSION = 0.15

type Near = { readonly run: Run; readonly far: number }

/** What the change does, done to another machine. */
const changed = (to: Fitted, { before, after }: Change): Fitted => ({
  ...to,
  processorId: before.processorId === after.processorId ? to.processorId : after.processorId,
  cardId: before.cardId === after.cardId ? to.cardId : after.cardId,
  memory: {
    memoryType: after.memory.memoryType,
    rateMts: before.memory.rateMts === after.memory.rateMts ? to.memory.rateMts : after.memory.rateMts,
    channels: before.memory.channels === after.memory.channels ? to.memory.channels : after.memory.channels,
    totalGB: before.memory.totalGB === after.memory.totalGB ? to.memory.totalGB : after.memory.totalGB,
  },
})

/**
 * What a builder does by hand: look up a run like the machine before and a run like it after, in the same title at the
 * same setting, that differ in little but the change itself; and divide.
 */
export const nearestNeighbour: Predictor = {
  name: 'nearest neighbour',
  learn: (data) => {
    const figures = figuresOf(data.parts)
    const apart = (p: string, q: string): number => {
      const [a, b] = [figures.get(p), figures.get(q)]
      return a === undefined || b === undefined ? 0.5 : Math.abs(Math.log(a / b))
    }
    return splitIntervals(data, (runs) => {
      const byCell = new Map<string, Run[]>()
      for (const run of runs) {
        const key = `${run.titleId}|${run.settingId}`
        const cell = byCell.get(key)
        if (cell === undefined) byCell.set(key, [run])
        else cell.push(run)
      }
      const nearest = (fitted: Fitted, cell: readonly Run[]): Near[] =>
        cell
          .map((run) => ({ run, far: distance(run.fitted, fitted, apart) }))
          .filter(({ far }) => far <= FARTHEST)
          .sort((a, b) => a.far - b.far)
          .slice(0, SHORTLIST)
      return (change) => {
        const cell = byCell.get(`${change.titleId}|${change.settingId}`) ?? []
        const befores = nearest(change.before, cell)
        const afters = nearest(change.after, cell)
        let best = Number.POSITIVE_INFINITY
        let pair: readonly [Run, Run] | undefined
        for (const b of befores) {
          const wanted = changed(b.run.fitted, change)
          for (const a of afters) {
            const unlike =
              b.far +
              a.far +
              distance(wanted, a.run.fitted, apart) +
              (a.run.titleVersion === b.run.titleVersion ? 0 : OTHER_VERSION)
            if (unlike >= best) continue
            best = unlike
            pair = [b.run, a.run]
          }
        }
        if (pair === undefined) return undefined
        const [before, after] = pair
        return { logGain: Math.log(after.averageFps / before.averageFps), beforeFps: before.averageFps }
      }
    })
  },
}
