import { describe, expect, test } from 'vitest'
import { rank } from '../../../src/core/ranking/rank.ts'
import {
  board,
  byCard,
  card,
  demanding,
  finding,
  input,
  item,
  judgeBy,
  kit,
  knowing,
  supply,
} from './smallShop.ts'

describe('ruled out', () => {
  const strong = card('CARD-1', { boardPowerW: 300 })
  const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 }))
  test('none on the shelf: ruled out, and the lacking kind is named', () => {
    const bare = rank(input({ parts: [strong], shelf: [item('CARD-1', 20_000)], judge: demanding, model }))
    expect(bare.ruledOut).toMatchObject([
      { partId: 'CARD-1', verdict: 'fits after work', lacking: ['supply'] },
    ])
    expect(bare.ruledOut[0]?.findings.map((f) => f.rule)).toEqual(['power.load'])
    const weak = rank(
      input({
        parts: [strong, supply('SUPPLY-410', 410)],
        shelf: [item('CARD-1', 20_000), item('SUPPLY-410', 1000)],
        judge: demanding,
        model,
      }),
    )
    expect(weak.ruledOut[0]?.lacking).toEqual(['supply'])
  })
  test('findings that demand stand beside those of the verdict', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1', { boardPowerW: 300, lengthMm: 330 })],
        shelf: [item('CARD-1', 20_000)],
        judge: demanding,
        model,
      }),
    )
    expect(ranking.ruledOut).toMatchObject([{ verdict: 'does not fit', lacking: ['supply', 'case'] }])
    expect(ranking.ruledOut[0]?.findings.map((f) => f.rule)).toEqual(['power.load', 'graphics.length'])
  })
  test('equally bad ways: the one with fewer misfits', () => {
    const ranking = rank(
      input({
        parts: [kit('KIT-1', { modules: 4, memoryType: 'DDR5' })],
        shelf: [item('KIT-1', 4000)],
        judge: judgeBy((_, change) => [
          finding('memory.generation', 'does not fit'),
          change.removeIds.length === 0 ? finding('memory.slots', 'does not fit') : undefined,
        ]),
        model,
      }),
    )
    expect(ranking.ruledOut[0]?.findings.map((f) => f.rule)).toEqual(['memory.generation'])
  })
  test('a kit that goes in neither way is told by the less bad of the two', () => {
    const over = {
      parts: [kit('KIT-1'), board('BOARD-1')],
      judge: judgeBy((after, change) => [
        after.memory.every((m) => m.id !== 'KIT-1') || after.board?.id === 'BOARD-1'
          ? undefined
          : change.removeIds.length === 0
            ? finding('memory.total', 'does not fit')
            : finding('memory.rate', 'fits after work', [{ part: 'board' }]),
      ]),
      model,
    }
    const [alone] = rank(input({ ...over, shelf: [item('KIT-1', 4000)] })).ruledOut
    expect(alone).toMatchObject({ partId: 'KIT-1', verdict: 'fits after work', lacking: ['board'] })
    // A board is a change of its own and no companion; one on the shelf is not lacking.
    const [beside] = rank(
      input({ ...over, shelf: [item('KIT-1', 4000), item('BOARD-1', 1)] }),
    ).ruledOut.filter((r) => r.partId === 'KIT-1')
    expect(beside?.lacking).toEqual([])
  })
  test('a rule that goes on asking for a supply is not settled by one', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1'), supply('SUPPLY-410', 410)],
        shelf: [item('CARD-1', 20_000), item('SUPPLY-410', 1000)],
        judge: judgeBy(() => [finding('power.load', 'fits after work', [{ part: 'supply' }])]),
        model,
      }),
    )
    expect(ranking.ranked).toEqual([])
    expect(ranking.ruledOut).toMatchObject([{ verdict: 'fits after work', lacking: ['supply'] }])
  })
  test('of two demands only the unmet one is lacking', () => {
    const ranking = rank(
      input({
        parts: [card('CARD-1', { boardPowerW: 300, lengthMm: 330 }), supply('SUPPLY-600', 600)],
        shelf: [item('CARD-1', 20_000), item('SUPPLY-600', 6000)],
        judge: demanding,
        model,
      }),
    )
    expect(ranking.ruledOut[0]?.lacking).toEqual(['case'])
  })
})
