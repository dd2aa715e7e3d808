import { expect, test } from 'vitest'
import type { Odd } from '../../../../src/core/gain/odd/odd.ts'
import { oddDesk } from '../../../../src/core/gain/odd/oddRuns.ts'
import type { Run } from '../../../../src/core/gain/run.ts'
import { fitted, runOf } from '../model/small.ts'
import { bench, benchWith, fitOf, timeOf } from './shop.ts'

/* How runs go wrong on a bench, and what a builder makes of it (common practice), on invented runs. */

const tell = (runs: readonly Run[]) => oddDesk(fitOf(runs)).all()
const oddOf = (runs: readonly Run[]): readonly Odd[] => tell(runs).odd
const fps = (...of: Parameters<typeof timeOf>) => 1000 / timeOf(...of)
const round = (x: number) => Math.round(x * 10) / 10

test('a bench on which nothing went wrong has no odd run', () => {
  expect(oddOf(bench())).toEqual([])
})

test('a figure ten times off is found, with the figure that was meant, and no other run is blamed', () => {
  const id = 'even-C2-G2-high'
  const meant = round(fps('even', 'C2', 'G2'))
  const odd = oddOf(benchWith({ [id]: { averageFps: round(meant * 10) } }))
  expect(odd.map(({ runId }) => runId)).toEqual([id])
  expect(odd[0]?.guesses[0]).toEqual({ kind: 'digit', slip: 'ten times', fps: meant })
  expect(odd[0]?.lowFps).toBeLessThan(meant)
  expect(odd[0]?.highFps).toBeGreaterThan(meant)
})

test('two digits the wrong way round are found', () => {
  const id = 'heavyGpu-C3-G2-high'
  const meant = round(fps('heavyGpu', 'C3', 'G2'))
  const [a = '', b = '', ...rest] = meant.toFixed(1)
  const odd = oddOf(benchWith({ [id]: { averageFps: Number([b, a, ...rest].join('')) } }))
  expect(odd).toMatchObject([{ runId: id, guesses: [{ kind: 'digit', slip: 'swapped', fps: meant }] }])
})

test('where the processor sets the pace, background load slows a run; where the card does, it hardly shows', () => {
  const [slow, hidden] = ['heavyCpu-C2-G3-high', 'heavyGpu-C2-G1-high']
  const odd = oddOf(
    benchWith({
      [slow]: { averageFps: fps('heavyCpu', 'C2', 'G3', 'high', 0.35) },
      [hidden]: { averageFps: fps('heavyGpu', 'C2', 'G1', 'high', 0.35) },
    }),
  )
  expect(odd.map(({ runId }) => runId)).toEqual([slow])
  expect(odd[0]?.guesses[0]).toEqual({ kind: 'slowed', side: 'processor' })
})

test('a run at another setting than was noted fits that setting far better', () => {
  const id = 'heavyGpu-C3-G2-uhd'
  const odd = oddOf(benchWith({ [id]: { averageFps: fps('heavyGpu', 'C3', 'G2', 'low') } }))
  expect(odd.map(({ runId }) => runId)).toEqual([id])
  expect(odd[0]?.guesses).toContainEqual({ kind: 'setting', settingId: 'low' })
})

test('two runs that disagree: the one that everything else contradicts is odd; the other is not', () => {
  const again = runOf('even', fitted('C1', 'G3'), timeOf('even', 'C1', 'G3') * 1.3, {
    id: 'again',
    at: '2026-05-02T10:00:00Z',
  })
  expect(oddOf([...bench(), again]).map(({ runId }) => runId)).toEqual(['again'])
})

test('where nothing tells which of two runs is right, both are to be run again', () => {
  const at = (id: string, ms: number) =>
    runOf('new', fitted('C9', 'G9'), ms, { id, at: `2026-05-0${id}T10:00:00Z` })
  const odd = oddOf([...bench(), at('1', 10), at('2', 13)])
  expect(odd).toMatchObject([
    { runId: '1', guesses: [{ kind: 'again', runId: '2' }] },
    { runId: '2', guesses: [{ kind: 'again', runId: '1' }] },
  ])
})

test('what another day confirms is so, and no longer odd', () => {
  const slow = { averageFps: fps('even', 'C2', 'G4') * 0.78 }
  const id = 'even-C2-G4-high'
  expect(oddOf(benchWith({ [id]: slow })).map(({ runId }) => runId)).toEqual([id])
  const twice = (at: string) =>
    runOf('even', fitted('C2', 'G4'), 1000 / (slow.averageFps * 1.01), {
      id: 'twice',
      at,
      machineTag: 'M-C2G4',
    })
  expect(oddOf(benchWith({ [id]: slow }, [twice('2026-05-20T09:00:00Z')]))).toEqual([])
  // On the same day whatever spoilt the first may have spoilt the second: still to be run again.
  const first = bench().find((run) => run.id === id)
  const sameDay = oddOf(benchWith({ [id]: slow }, [twice(first?.at.replace('T12', 'T13') ?? '')]))
  expect(sameDay.length).toBeGreaterThan(0)
  expect(sameDay[0]?.agreeIds.length).toBe(1)
})

test('a part that is slower in one title is a fact once both sides were repeated', () => {
  const slower = (more: readonly Run[]) =>
    tell(
      benchWith(
        Object.fromEntries(
          ['C1', 'C2', 'C3'].map((c) => [
            `even-${c}-G4-uhd`,
            { averageFps: fps('even', c as 'C1', 'G3', 'uhd') * 0.9 },
          ]),
        ),
        more,
      ),
    ).reversals.filter(({ slowerRunIds }) => slowerRunIds.includes('even-C3-G4-uhd'))
  const once = slower([])
  expect(once).toMatchObject([{ titleId: 'even', slowerId: 'G4', fasterId: 'G3', isFact: false }])
  const repeat = (g: 'G3' | 'G4', ms: number) =>
    runOf('even', fitted('C3', g), ms, { id: `again-${g}`, settingId: 'uhd', at: '2026-05-20T09:00:00Z' })
  const g3 = timeOf('even', 'C3', 'G3', 'uhd')
  expect(slower([repeat('G3', g3)])).toMatchObject([{ isFact: false }])
  expect(slower([repeat('G3', g3), repeat('G4', g3 / 0.9)])).toMatchObject([{ isFact: true }])
})

test('what is typed is judged before it is kept, and nothing is said where nothing is known', () => {
  const desk = oddDesk(fitOf(bench()))
  const typed = (averageFps: number, title = 'even') =>
    desk.judge(
      runOf(title, fitted('C1', 'G2'), 1000 / averageFps, { id: 'typed', at: '2026-05-03T10:00:00Z' }),
    )
  const usual = round(fps('even', 'C1', 'G2'))
  expect(typed(usual)).toBeUndefined()
  expect(typed(usual * 10)?.guesses[0]).toMatchObject({ kind: 'digit', slip: 'ten times', fps: usual })
  expect(typed(usual * 10, 'never run')).toBeUndefined()
})

test('the order of runs changes nothing', () => {
  const runs = benchWith({ 'even-C2-G2-high': { averageFps: 12.5 } })
  const [forth, back] = [tell(runs), tell(runs.toReversed())]
  expect(back.odd.map(({ runId }) => runId)).toEqual(forth.odd.map(({ runId }) => runId))
  expect(back.odd[0]?.expectedFps).toBeCloseTo(forth.odd[0]?.expectedFps ?? 0, 6)
})
