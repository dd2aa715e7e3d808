import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import {
  byCard,
  card,
  demanding,
  type FrameTime,
  finding,
  ids,
  input,
  item,
  judgeBy,
  kit,
  knowing,
  machine,
  option,
  TODAY,
} from './smallShop.ts'

describe('memory', () => {
  const faster: FrameTime = (_, { memory }) => 1000 / (40 + memory.totalGB)
  const over = {
    parts: [kit('KIT-1'), kit('KIT-0')],
    model: knowing(faster),
  }
  test('a kit goes in beside the others or instead of them', () => {
    const ranking = rank(input({ ...over, shelf: [item('KIT-1', 4000)] }))
    expect(ids(ranking.ranked).toSorted()).toEqual(['S-KIT-1', 'S-KIT-1+remove old modules'])
    expect(option(ranking, 'S-KIT-1+remove old modules').change).toMatchObject({
      removeIds: ['KIT-0'],
      work: ['remove old modules'],
    })
  })
  test('a second kit of the fitted one goes in beside it; instead of itself is no change', () => {
    const ranking = rank(input({ ...over, shelf: [item('KIT-0', 4000)] }))
    expect(ids(ranking.ranked)).toEqual(['S-KIT-0'])
  })
  test('beside, where the old modules must come out, is replacing and not offered twice', () => {
    const ranking = rank(
      input({
        ...over,
        machine: machine([...TODAY, kit('KIT-00')]),
        shelf: [item('KIT-1', 4000)],
        judge: demanding,
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-KIT-1+remove old modules'])
    expect(ranking.ranked[0]?.change.removeIds).toEqual(['KIT-0', 'KIT-00'])
  })
})

describe('pairs', () => {
  const parts = [kit('KIT-1'), card('CARD-1')]
  const shelf = [item('KIT-1', 4000), item('CARD-1', 10_000)]
  test('a kit that runs like the fitted one is not paired with a card', () => {
    // KIT-1 instead of KIT-0 is the same memory as it runs; beside it, it is more.
    const ranking = rank(
      input({
        ...{ parts, shelf },
        model: knowing((_, f) => (f.cardId === 'CARD-1' ? 10 : 20) - f.memory.totalGB / 16),
      }),
    )
    expect(ids(ranking.ranked).toSorted()).toEqual([
      'S-CARD-1',
      'S-CARD-1+S-KIT-1',
      'S-KIT-1',
      'S-KIT-1+remove old modules',
    ])
    expect(option(ranking, 'S-KIT-1+remove old modules').useful?.pct).toBe(0)
  })
  test('unless the idle one does not go in alone: then the pair is its only place', () => {
    const ranking = rank(
      input({
        ...{ parts, shelf },
        model: knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 })),
        judge: judgeBy((after, change) => [
          change.add.some((p) => p.kind === 'memory') &&
          (change.removeIds.length === 0 || after.card?.id !== 'CARD-1')
            ? finding('memory.slots', 'does not fit')
            : undefined,
        ]),
      }),
    )
    expect(ids(ranking.ranked)).toEqual(['S-CARD-1', 'S-CARD-1+S-KIT-1+remove old modules'])
    expect(ranking.ruledOut).toEqual([])
  })
})
