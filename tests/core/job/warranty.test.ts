import { describe, expect, test } from 'vitest'
import { runsAt, type Warranty, warrantiesTouched } from '../../../src/core/job/warranty.ts'
import { card, change, kit, machine, processor } from '../fit/bench.ts'

const AT = '2026-06-01T12:00:00.000Z'
const on = (partId: string, changed: Partial<Warranty> = {}): Warranty => ({
  ...{ machineTag: 'M-1', partId, givenBy: 'shop' },
  ...{ from: '2026-01-01T12:00:00.000Z', until: '2027-01-01T12:00:00.000Z' },
  ...changed,
})
const touched = (c: ReturnType<typeof change>, ...warranties: Warranty[]) =>
  warrantiesTouched(machine, c, warranties, AT).map(({ warranty, how }) => [warranty.partId, how])

describe('warranties that a change touches', () => {
  test('of a part that comes out, named or replaced; not of one that stays', () => {
    const newCard = { ...card, id: 'CARD-NEW' }
    expect(touched(change([newCard]), on(card.id), on(processor.id))).toEqual([[card.id, 'comes out']])
    expect(touched(change([], [kit.id]), on(kit.id))).toEqual([[kit.id, 'comes out']])
  })

  test('of parts that are run above their rating by the memory profile', () => {
    const profile = change([], [], ['memory profile on'])
    expect(touched(profile, on(kit.id), on(processor.id), on(card.id))).toEqual([
      [kit.id, 'worked on'],
      [processor.id, 'worked on'],
    ])
  })

  test('one that is over or has not begun is not touched; its last instant is outside', () => {
    const newCard = change([{ ...card, id: 'CARD-NEW' }])
    expect(touched(newCard, on(card.id, { until: AT }))).toEqual([])
    expect(touched(newCard, on(card.id, { from: '2026-07-01T12:00:00.000Z' }))).toEqual([])
    expect(runsAt(on(card.id, { from: AT }), AT)).toBe(true)
  })
})
