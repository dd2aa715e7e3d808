import { expect, test } from 'vitest'
import { excerptOf, fitModel, modelOfExcerpt } from '../../../src/core/gain/model/index.ts'
import { withBounds, withParts } from '../../../src/core/reach/bounds.ts'
import { heavier } from '../../../src/core/reach/scenario.ts'
import { fitted, POLICY, run } from '../gain/runs.ts'

const SETTING = {
  ...{ id: '1080-high', widthPx: 1920, heightPx: 1080, preset: 'high' },
  ...{ rayTracing: false, frameGeneration: false },
}
const part = (kind: 'processor' | 'card', id: string) =>
  kind === 'card' ? { kind, id, name: id, memoryGB: 8, pcieGen: 3, pcieLanes: 16 } : { kind, id, name: id }
const parts = [
  ...['CPU-SLOW', 'CPU-FAST'].map((id) => part('processor', id)),
  ...['CARD-SLOW', 'CARD-OTHER', 'CARD-MIDDLE', 'CARD-FAST', 'CARD-NEVER'].map((id) => part('card', id)),
]
// Frame times in ms of each side alone; the slower one sets the pace nearly by itself.
const A = { 'CPU-SLOW': 25, 'CPU-FAST': 5 }
const B = { 'CARD-SLOW': 25, 'CARD-OTHER': 16, 'CARD-MIDDLE': 9, 'CARD-FAST': 5 }
const runs = Object.entries(A).flatMap(([processorId, a]) =>
  Object.entries(B).flatMap(([cardId, b]) =>
    [1, 2].map((n) =>
      run({
        ...{ fitted: fitted(processorId, cardId), averageFps: 1000 / (a ** 7 + b ** 7) ** (1 / 7) },
        at: `2026-03-0${n}T12:00:00Z`,
      }),
    ),
  ),
)
const fit = fitModel({
  ...{ runs, parts, titles: [{ id: 'harbor', name: 'Harbor' }], settings: [SETTING] },
  ...{ policy: POLICY, at: '2026-06-01T12:00:00Z' },
} as Parameters<typeof fitModel>[0])
const excerpt = excerptOf(fit, {
  wanted: [{ titleId: 'harbor', settingId: '1080-high' }],
  partIds: parts.map(({ id }) => id),
})
const fpsOf = (of: typeof excerpt, processorId: string, cardId: string): number => {
  const end = fitted(processorId, cardId)
  const model = withBounds(modelOfExcerpt(of), () => ({
    fitted: fitted('CPU-FAST', 'CARD-FAST'),
    averageFps: 1,
  }))
  const told = model.predict({
    titleId: 'harbor',
    settingId: '1080-high',
    machineTag: '',
    before: end,
    after: end,
  })
  if (told.grade === 'no number') throw new Error(told.because)
  return told.after.averageFps
}

// By definition: log frame times of a card grow by the rate, those of a processor by half of it.
test('a heavier title costs a card in full and a processor by half, and nothing measured is left', () => {
  const [now, then] = [heavier(excerpt, 0), heavier(excerpt, 0.2)].map(({ views }) => views[0])
  if (now === undefined || then === undefined) throw new Error('no view')
  const grown = then.average.mean.map((value, i) => value - (now.average.mean[i] ?? Number.NaN))
  const by = { u: 0.1, v: 0.2 } as Readonly<Record<string, number>>
  now.average.names.forEach((name, i) => {
    expect([name, grown[i]]).toEqual([name, expect.closeTo(by[name.split(' ')[0] ?? ''] ?? 0, 12)])
  })
  expect(now.average.names).toEqual(expect.arrayContaining(['u CPU-SLOW', 'v CARD-FAST', 'rate', 'logp']))
  expect(then.cells).toEqual({})
  // So a whole machine loses between half of the rate and all of it.
  const loss = Math.log(
    fpsOf(heavier(excerpt, 0), 'CPU-FAST', 'CARD-SLOW') /
      fpsOf(heavier(excerpt, 0.2), 'CPU-FAST', 'CARD-SLOW'),
  )
  expect(loss).toBeGreaterThanOrEqual(0.1)
  expect(loss).toBeLessThanOrEqual(0.2 + 1e-9)
})

test('what never ran has bounds where the model says no number, and they are wide', () => {
  const model = modelOfExcerpt(excerpt)
  const ask = {
    ...{ titleId: 'harbor', settingId: '1080-high', machineTag: '' },
    ...{ before: fitted('CPU-FAST', 'CARD-FAST'), after: fitted('CPU-FAST', 'CARD-NEVER') },
  }
  expect(model.predict(ask).grade).toBe('no number')
  const wide = withBounds(model, () => ({
    fitted: fitted('CPU-FAST', 'CARD-FAST'),
    averageFps: 160,
  })).predict(ask)
  if (wide.grade === 'no number') throw new Error(wide.because)
  expect(wide.afterFpsLow).toBeLessThan(wide.after.averageFps * 0.78)
  expect(wide.afterFpsHigh).toBeGreaterThan(wide.after.averageFps * 1.28)
  // Without anything to count from there is no number: no guess out of nothing.
  expect(withBounds(model, () => undefined).predict(ask).grade).toBe('no number')
})

test('a part that the fit does not know at all is no better known than one that it knows and that never ran', () => {
  const typed = {
    kind: 'card',
    id: 'CARD-TYPED',
    name: 'typed',
    memoryGB: 8,
    pcieGen: 3,
    pcieLanes: 16,
  } as const
  const wide = withBounds(modelOfExcerpt(withParts(excerpt, [typed])), () => ({
    fitted: fitted('CPU-FAST', 'CARD-FAST'),
    averageFps: 160,
  }))
  const widthOf = (cardId: string): number => {
    const told = wide.predict({
      ...{ titleId: 'harbor', settingId: '1080-high', machineTag: '' },
      ...{ before: fitted('CPU-FAST', 'CARD-FAST'), after: fitted('CPU-FAST', cardId) },
    })
    if (told.grade === 'no number') throw new Error(told.because)
    return Math.log((told.afterFpsHigh ?? 0) / (told.afterFpsLow ?? 1))
  }
  expect(widthOf('CARD-TYPED')).toBeGreaterThanOrEqual(widthOf('CARD-NEVER') * 0.999)
})
