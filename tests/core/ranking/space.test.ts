import { describe, expect, test } from 'vitest'
import type { Drive } from '../../../src/core/part.ts'
import { deskOf, type RankInput, rank } from '../../../src/core/ranking/rank.ts'
import { spaceOf } from '../../../src/core/ranking/space.ts'
import { byCard, card, finding, input, item, judgeBy, knowing, question } from './smallShop.ts'

// Prices worked by hand: opening 15.00 once a visit, fitting a drive 5.00, fitting a card 8.00.

const drive = (id: string, capacityGB?: number): Drive => ({
  ...{ id, name: id, kind: 'drive' },
  ...(capacityGB !== undefined && { capacityGB }),
})
const WORK = [
  { work: 'opening', minutes: 15, priceMinor: 1500 },
  { work: 'fit drive', minutes: 5, priceMinor: 500 },
  { work: 'fit card', minutes: 10, priceMinor: 800 },
  { work: 'move drive cables', minutes: 5, priceMinor: 300 },
]
const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 }))
const asked = (over: Partial<RankInput> = {}): RankInput =>
  input({ model, work: WORK, question: question({ wishes: ['more space'] }), ...over })
const rows = (of: RankInput) => spaceOf(of, deskOf(of), rank(of))

describe('space', () => {
  test('nobody asked: nothing is looked at', () => {
    expect(
      rows(asked({ question: question(), parts: [drive('D-1', 500)], shelf: [item('D-1', 3000)] })),
    ).toBeUndefined()
  })
  test('net and by capacity: 30 + 15 + 5 = 50 for 500 GB is 10 cents, 60 + 20 = 80 for 1,000 GB is 8', () => {
    const of = asked({
      parts: [drive('D-1', 500), drive('D-2', 1000), drive('D-3')],
      shelf: [item('D-1', 3000), item('D-2', 6000), item('D-3', 1000)],
    })
    expect(rows(of)?.map(({ partId, price, minorPerGB }) => [partId, price?.netMinor, minorPerGB])).toEqual([
      ['D-2', 8000, 8],
      ['D-1', 5000, 10],
      ['D-3', 3000, undefined],
    ])
  })
  test('a size was asked for: just under, at and over it, and what nobody wrote down is never large enough', () => {
    const of = asked({
      question: question({ wishes: ['more space'], spaceGB: 1000 }),
      parts: [drive('D-1', 999), drive('D-2', 1000), drive('D-3', 1001), drive('D-4')],
      shelf: ['D-1', 'D-2', 'D-3', 'D-4'].map((id) => item(id, 3000)),
    })
    expect(rows(of)?.map(({ partId, size }) => [partId, size])).toEqual([
      ['D-3', 'enough'],
      ['D-2', 'enough'],
      ['D-4', "can't tell"],
      ['D-1', 'too small'],
    ])
  })
  test('beside the pick the machine is opened once: a drive adds 30 + 5 = 35, not 50', () => {
    const of = asked({
      parts: [drive('D-1', 500), card('CARD-1')],
      shelf: [item('D-1', 3000), item('CARD-1', 10_000)],
    })
    expect(rows(of)).toMatchObject([
      {
        price: { netMinor: 5000 },
        besidePick: { optionId: 'S-CARD-1', moreMinor: 3500, findings: [], verdict: 'fits' },
      },
    ])
  })
  test('lanes or ports that both want are told with the work they cost; alone it is not there', () => {
    const judge = judgeBy((_, change) =>
      change.add.some(({ kind }) => kind === 'drive') && change.add.some(({ kind }) => kind === 'card')
        ? [finding('storage.sharing', 'fits after work', [{ work: 'move drive cables' }])]
        : [finding('storage.sharing', 'fits')],
    )
    const of = asked({
      ...{ judge, parts: [drive('D-1', 500), card('CARD-1')] },
      shelf: [item('D-1', 3000), item('CARD-1', 10_000)],
    })
    const [row] = rows(of) ?? []
    expect(row?.verdict).toBe('fits')
    expect(row?.besidePick).toMatchObject({
      ...{ verdict: 'fits after work', moreMinor: 3800 },
      findings: [{ rule: 'storage.sharing', verdict: 'fits after work' }],
    })
  })
  test('what needs a fact stands behind what fits, what does not fit comes last and has no price', () => {
    const judge = judgeBy((_, change) =>
      change.add.map(({ id }) =>
        id === 'D-1'
          ? finding('storage.m2', 'does not fit')
          : finding('storage.m2', id === 'D-2' ? "can't tell" : 'fits'),
      ),
    )
    const of = asked({
      ...{ judge, parts: [drive('D-1', 4000), drive('D-2', 2000), drive('D-3', 100)] },
      shelf: [item('D-1', 1000), item('D-2', 1000), item('D-3', 9000)],
    })
    const told = rows(of)
    expect(told?.map(({ partId, verdict }) => [partId, verdict])).toEqual([
      ['D-3', 'fits'],
      ['D-2', "can't tell"],
      ['D-1', 'does not fit'],
    ])
    expect(told?.at(-1)).toMatchObject({ findings: [{ rule: 'storage.m2' }] })
    expect(told?.at(-1)?.price).toBeUndefined()
  })
  test('the ranking is the same with the wish and without', () => {
    const over = {
      parts: [drive('D-1', 500), card('CARD-1')],
      shelf: [item('D-1', 3000), item('CARD-1', 10_000)],
    }
    expect(JSON.stringify(rank(asked(over)))).toBe(
      JSON.stringify(rank(asked({ ...over, question: question() }))),
    )
  })
})
