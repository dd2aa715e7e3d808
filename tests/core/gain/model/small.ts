import type { GainData, GainPart } from '../../../../src/core/gain/model/data.ts'
import { PRIORS, type Priors } from '../../../../src/core/gain/model/priors.ts'
import type { Fitted, Run, Setting, Title } from '../../../../src/core/gain/run.ts'

/* Invented runs, small enough to be worked out by hand. */

export const AT = '2026-06-01T12:00:00Z'

export const high: Setting = {
  id: 'high',
  widthPx: 1920,
  heightPx: 1080,
  preset: 'high',
  rayTracing: false,
  frameGeneration: false,
}

export const fitted = (processorId: string, cardId: string, over: Partial<Fitted> = {}): Fitted => ({
  processorId,
  cardId,
  memory: { memoryType: 'DDR4', rateMts: 3200, channels: 2, totalGB: 16 },
  link: { gen: 4, lanes: 16 },
  ...over,
})

let count = 0
/** A run given by its frame time in ms. */
export const runOf = (titleId: string, f: Fitted, ms: number, over: Partial<Run> = {}): Run => ({
  id: `R${String(++count).padStart(5, '0')}`,
  at: '2026-05-01T12:00:00Z',
  fitted: f,
  titleId,
  titleVersion: '1.0',
  settingId: 'high',
  averageFps: 1000 / ms,
  ...over,
})

export const titles = (...ids: string[]): Title[] => ids.map((id) => ({ id, name: id }))
export const card = (id: string, nominalFigure?: number, over: Partial<GainPart> = {}): GainPart => ({
  id,
  kind: 'card',
  ...(nominalFigure !== undefined && { nominalFigure, nominalSource: 'own bench' }),
  ...over,
})
export const processor = (id: string, nominalFigure?: number): GainPart => ({
  ...card(id, nominalFigure),
  kind: 'processor',
})

export const dataOf = (runs: readonly Run[], over: Partial<GainData> = {}): GainData => ({
  runs,
  titles: titles(...new Set(runs.map((r) => r.titleId))),
  settings: [high],
  parts: [],
  policy: { runWindowDays: 400 },
  at: AT,
  ...over,
})

/** No doubt, nothing learned, no nominal figure, no difference between machines: a linear model near one point. */
export const PLAIN: Priors = {
  ...PRIORS,
  nuRuns: Number.POSITIVE_INFINITY,
  nuInteractions: Number.POSITIVE_INFINITY,
  empiricalBayes: false,
  machineSd: 0,
  calibration: 1,
}

/** `priors` with a kind's figures replaced. */
export const withKind = (priors: Priors, kind: string, over: Partial<Priors['kinds'][string]>): Priors => ({
  ...priors,
  kinds: { ...priors.kinds, [kind]: { ...(priors.kinds[kind] as Priors['kinds'][string]), ...over } },
})

export const ask = (titleId: string, before: Fitted, after: Fitted, settingId = 'high') => ({
  titleId,
  settingId,
  machineTag: 'T-1',
  before,
  after,
})
