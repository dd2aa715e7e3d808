import { describe, expect, test } from 'vitest'
import { buildOf, partsOf } from '../../../src/core/build.ts'
import type { Case, Fan, FanPlace, FrontPlug } from '../../../src/core/part.ts'
import { board, card, machine, processor, says, tower } from './bench.ts'

const fan = (sizeMm: number, id = `FAN-${sizeMm}`): Fan => ({ kind: 'fan', id, name: `Fan ${id}`, sizeMm })
const place = (name: FanPlace['place'], count: number, sizeMm: number): FanPlace => ({
  place: name,
  count,
  sizeMm,
})
const inCase = (figures: Partial<Case>, ...fans: readonly Fan[]) =>
  buildOf([...partsOf(machine).filter((p) => p.kind !== 'case'), { ...tower, ...figures }, ...fans])

describe('case.fans', () => {
  const front = [place('front', 3, 120), place('front', 2, 140)]
  // Case data sheets: "front 3 x 120 or 2 x 140" are alternatives; a frame fits the holes of its own size.
  test.each([
    { there: [120, 120], places: front, gives: 'fits' },
    { there: [120, 120, 120], places: front, gives: 'does not fit' },
    { there: [140], places: front, gives: 'does not fit' },
    { there: [140], places: [...front, place('rear', 1, 120)], gives: 'fits' },
    { there: [140, 140], places: [...front, place('rear', 1, 120)], gives: 'fits' },
    { there: [140, 140, 140], places: [...front, place('rear', 1, 120)], gives: 'does not fit' },
    { there: [], places: [place('rear', 1, 140)], gives: 'does not fit' },
    { there: [], places: [], gives: 'does not fit' },
    { there: [120], places: [place('front', 1, 120), place('top', 1, 120)], gives: 'fits' },
  ])('one 120 mm fan more beside $there in $places: $gives', ({ there, places, gives }) => {
    const before = inCase({ fanPlaces: places }, ...there.map((mm, i) => fan(mm, `OLD-${i}`)))
    const f = says('case.fans', { add: [fan(120, 'NEW')], before })
    expect(f).toMatchObject({ verdict: gives, partId: 'NEW', values: { fans: there.length + 1 } })
    expect(f?.values.homeless === 0).toBe(gives === 'fits')
  })

  test('another case must take all fans of the machine', () => {
    const before = inCase({}, fan(120), fan(120))
    const other = (count: number) => ({ ...tower, id: 'CASE-NEW', fanPlaces: [place('front', count, 120)] })
    expect(says('case.fans', { add: [other(2)], before })).toMatchObject({
      verdict: 'fits',
      partId: 'CASE-NEW',
    })
    expect(says('case.fans', { add: [other(1)], before })?.verdict).toBe('does not fit')
  })

  test('places or a size that nobody gave are asked for', () => {
    expect(says('case.fans', { add: [fan(120)] })?.missing).toEqual([
      { spec: 'fanPlaces', partId: tower.id, partName: tower.name },
    ])
    const before = inCase({ fanPlaces: [place('front', 2, 120)] })
    expect(says('case.fans', { add: [{ ...fan(120), sizeMm: undefined }], before })?.missing).toMatchObject([
      { spec: 'sizeMm' },
    ])
    const { case: _, ...none } = machine
    expect(says('case.fans', { add: [fan(120)], before: none })?.missing).toMatchObject([{ spec: 'case' }])
  })

  test('silent where no fan comes in, on another board, and in a machine without fans', () => {
    const before = inCase({ fanPlaces: [] }, fan(120))
    expect(says('case.fans', { add: [{ ...card, id: 'CARD-NEW' }], before })).toBeUndefined()
    expect(says('case.fans', { add: [{ ...board, id: 'BRD-NEW' }], before })).toBeUndefined()
    expect(says('case.fans', { out: ['FAN-120'], before })).toBeUndefined()
    expect(says('case.fans', { add: [{ ...tower, id: 'CASE-NEW' }] })).toBeUndefined()
  })
})

describe('case.frontPanel', () => {
  // Board manuals and case data sheets: one header a plug; the headers differ in shape (common practice).
  test.each<[plugs: FrontPlug[], headers: FrontPlug[], dead: FrontPlug[]]>([
    [['USB 2.0', 'HD audio'], ['HD audio', 'USB 2.0', 'USB 2.0'], []],
    [['USB 3 (19-pin)', 'HD audio'], ['USB 2.0', 'HD audio'], ['USB 3 (19-pin)']],
    [['USB-C (key A)'], [], ['USB-C (key A)']],
    [['USB 2.0', 'USB 2.0'], ['USB 2.0', 'USB 2.0'], []],
    [['USB 2.0', 'USB 2.0'], ['USB 2.0'], ['USB 2.0']],
    [[], [], []],
  ])('plugs %s on headers %s: dead %s', (frontPlugs, frontHeaders, deadPlugs) => {
    const before = inCase({ frontPlugs })
    const f = says('case.frontPanel', { add: [{ ...board, id: 'BRD-NEW', frontHeaders }], before })
    expect(f).toMatchObject({ verdict: deadPlugs.length === 0 ? 'fits' : 'fits slower', partId: 'BRD-NEW' })
    expect(f?.values.deadPlugs).toEqual(deadPlugs)
  })

  test('either list that nobody gave is asked for, and only a board or a case is looked at', () => {
    const other = { ...tower, id: 'CASE-NEW' }
    expect(says('case.frontPanel', { add: [other] })?.missing).toMatchObject([
      { spec: 'frontPlugs', partId: 'CASE-NEW' },
      { spec: 'frontHeaders', partId: board.id },
    ])
    const before = { ...machine, board: { ...board, frontHeaders: [] } }
    expect(says('case.frontPanel', { add: [{ ...other, frontPlugs: ['HD audio'] }], before })).toMatchObject({
      ...{ verdict: 'fits slower', partId: 'CASE-NEW' },
    })
    expect(says('case.frontPanel', { add: [{ ...processor, id: 'CPU-NEW' }] })).toBeUndefined()
  })
})
