import type { AnswerInputs } from '../../src/core/answer.ts'
import {
  KNOWN,
  type MeasuredPair,
  type MeasuredPart,
  measuredMap,
  pairKey,
} from '../../src/core/gain/measuredMap.ts'
import type { Run } from '../../src/core/gain/run.ts'
import { type MeasuredAsked, type MeasuredView, startOf } from '../../src/uses/runs/viewMeasured.ts'
import type { RunUses } from '../../src/web/runUses.ts'
import { NOW } from './cannedShop.ts'
import type { PageState } from './states.ts'

/* Maps of what was measured, as the store gives them; how well a pair is known goes round, so that each kind is seen. */

const pairsOf = (runs: readonly Run[]): MeasuredPair[] => {
  const of = new Map<string, { pair: MeasuredPair; titles: Set<string> }>()
  for (const { fitted, titleId, at } of runs) {
    const { processorId, cardId } = fitted
    const key = pairKey({ processorId, cardId })
    const titles = new Set(of.get(key)?.titles).add(titleId)
    const n = (of.get(key)?.pair.runs ?? 0) + 1
    of.set(key, { titles, pair: { processorId, cardId, runs: n, titles: titles.size, lastAt: at } })
  }
  return [...of.values()].map(({ pair }) => pair)
}

const viewOf = (
  pairs: readonly MeasuredPair[],
  asked: MeasuredAsked,
  { titles, names }: { titles: MeasuredView['titles']; names: ReadonlyMap<string, string> },
): MeasuredView => {
  const map = measuredMap(pairs)
  const cells = map.pairs.map((pair, i) => ({ ...pair, known: KNOWN[1 + (i % 3)] ?? 'more' }))
  const piece = <T>(all: readonly T[], { offset, most }: { offset: number; most: number }) => ({
    lines: all.slice(startOf(offset, most, all.length)).slice(0, most),
    total: all.length,
  })
  const named = (part: MeasuredPart) => ({ ...part, name: names.get(part.id) ?? part.id })
  return {
    ...{ titles, names, title: titles.find(({ id }) => id === asked.titleId) },
    runs: pairs.reduce((sum, { runs }) => sum + runs, 0),
    processors: piece(map.processors.map(named), asked.processors),
    cards: piece(map.cards.map(named), asked.cards),
    cells: new Map(cells.map((cell) => [pairKey(cell), cell])),
    pairs: piece(cells, asked.pairs),
    neverRun: {
      processor: { lines: [], total: 0 },
      card: { lines: [{ id: 'CRD-SLATE6', name: 'Slate 6' }], total: 14 },
    },
  }
}

/** The map of these runs. */
export const measuredIn = (from: Pick<AnswerInputs, 'runs' | 'titles' | 'parts'>): RunUses['measured'] => {
  const names = new Map(from.parts.map(({ id, name }) => [id, name]))
  return async (asked) => {
    const runs = from.runs.filter(({ titleId }) => asked.titleId === undefined || titleId === asked.titleId)
    return viewOf(pairsOf(runs), asked, { names, titles: from.titles })
  }
}

/** 60 processors and 80 cards, of which about a quarter of all pairs were run: those that are used most the most often. */
export const largeMap: RunUses['measured'] = async (asked) => {
  const pairs = Array.from({ length: 60 * 80 }, (_, i): MeasuredPair => {
    const [p, c] = [i % 60, Math.floor(i / 60)]
    const isRun = (p * 7 + c * 5) % 4 === 0 || p + c < 6
    return {
      ...{ processorId: `CPU-${p}`, cardId: `CRD-${c}`, titles: 1 + ((p + c) % 7), lastAt: NOW },
      runs: isRun ? Math.ceil(400 / (3 + p + c)) : 0,
    }
  }).filter(({ runs }) => runs > 0)
  const names = new Map([
    ...Array.from(
      { length: 60 },
      (_, i) => [`CPU-${i}`, `Aven ${4000 + 100 * i}X, ${6 + (i % 3)} cores`] as const,
    ),
    ...Array.from({ length: 80 }, (_, i) => [`CRD-${i}`, `Flint ${500 + 10 * i} Twin 12 GB`] as const),
  ])
  return viewOf(pairs, asked, { names, titles: [] })
}

export const measuredStates = (from: AnswerInputs): readonly PageState[] => [
  { name: 'run-map', path: '/runs/map' },
  { name: 'run-map-title', path: `/runs/map?title=${from.titles[0]?.id ?? ''}` },
  { name: 'run-map-none', path: '/runs/map', uses: { measured: measuredIn({ ...from, runs: [] }) } },
  { name: 'run-map-large', path: '/runs/map?across=20&down=30&at=50', uses: { measured: largeMap } },
  { name: 'run-map-largest', path: '/runs/map', uses: { measured: largeMap } },
]
