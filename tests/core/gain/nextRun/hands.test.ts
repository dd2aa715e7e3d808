import { describe, expect, test } from 'vitest'
import { handsOf, handsOfBench, possibleRuns } from '../../../../src/core/gain/nextRun/hands.ts'
import type { Setting } from '../../../../src/core/gain/run.ts'
import { card, demanding, input, item, machine, processor, TODAY } from '../../ranking/smallShop.ts'
import { fitted, high } from '../model/small.ts'

const WORK = [
  { work: 'opening', minutes: 15, priceMinor: 1500 },
  { work: 'fit card', minutes: 10, priceMinor: 800 },
]
const told = (hands: ReturnType<typeof handsOf>) =>
  hands.map(({ partIds, fitted: f, minutes }) => [partIds.join('+'), f.cardId, f.processorId, minutes])

describe('a machine at hand', () => {
  const parts = [card('CARD-1'), card('CARD-2'), processor('CPU-1')]
  const shelf = [item('CARD-1', 9000), item('CARD-2', 9000), item('CPU-1', 9000)]

  test('as it is, and with each single part of the shelf, never with two; minutes are the shop’s own', () => {
    const hands = handsOf(input({ parts, shelf, work: WORK }))
    // Opening 15 and fitting 10; fitting a processor is not in the table and counts as none.
    expect(told(hands)).toEqual([
      ['', 'CARD-0', 'CPU-0', 0],
      ['CARD-1', 'CARD-1', 'CPU-0', 25],
      ['CARD-2', 'CARD-2', 'CPU-0', 25],
      ['CPU-1', 'CARD-0', 'CPU-1', 15],
    ])
    expect(hands.every(({ machineTag }) => machineTag === 'M-0001')).toBe(true)
  })

  test('what does not fit, or wants another part beside it, is no hand', () => {
    // 50 + 400 + 65 W is above the supply's 400; 350 mm is above the case's 300.
    const hungry = card('CARD-1', { boardPowerW: 400 })
    const long = card('CARD-2', { lengthMm: 350 })
    const hands = handsOf(input({ parts: [hungry, long], shelf: shelf.slice(0, 2), judge: demanding }))
    expect(told(hands)).toEqual([['', 'CARD-0', 'CPU-0', 0]])
  })

  test('the same card twice on the shelf is one hand; quantity 0 is none', () => {
    const twice = [
      item('CARD-1', 9000),
      { ...item('CARD-1', 7000), id: 'S-again' },
      item('CARD-2', 1, { quantity: 0 }),
    ]
    expect(told(handsOf(input({ parts, shelf: twice })))).toHaveLength(2)
  })

  test('without a card nothing runs as it is, but with one of the shelf in it', () => {
    const bare = machine(TODAY.filter(({ kind }) => kind !== 'card'))
    expect(told(handsOf(input({ parts, shelf, machine: bare, work: WORK }))).map(([ids]) => ids)).toEqual([
      'CARD-1',
      'CARD-2',
    ])
  })

  test('an empty shelf: as it is', () => {
    expect(told(handsOf(input({})))).toEqual([['', 'CARD-0', 'CPU-0', 0]])
  })
})

describe('the test bench', () => {
  const last = {
    ...fitted('P1', 'C1', { link: { gen: 3, lanes: 16 } }),
    cardLimitW: 180,
    processorLimitW: 65,
  }

  test('as it ran last, and with each other card of the shelf; a processor stays', () => {
    const shelf = [card('C1'), card('C2', { pcieGen: 4, pcieLanes: 8 }), processor('P2')]
    const hands = handsOfBench(last, shelf, WORK)
    expect(hands.map(({ partIds, minutes }) => [partIds, minutes])).toEqual([
      [[], 0],
      [['C2'], 10],
    ])
    // The slot gave gen 3 x16, the card has gen 4 x8: gen 3 x8 (the link trains to the lower of both, PCIe Base 4.2).
    expect(hands[1]?.fitted).toMatchObject({ cardId: 'C2', processorId: 'P1', link: { gen: 3, lanes: 8 } })
    // What was set for one card says nothing of another; for the processor it still holds.
    expect(hands[0]?.fitted.cardLimitW).toBe(180)
    expect(hands[1]?.fitted).not.toHaveProperty('cardLimitW')
    expect(hands[1]?.fitted.processorLimitW).toBe(65)
    expect(hands.every((hand) => hand.machineTag === undefined)).toBe(true)
  })

  test('a card without figures takes the slot’s link; a work that has no time counts as none', () => {
    const bare = card('C2')
    const { pcieGen: _, pcieLanes: __, ...plain } = bare
    expect(handsOfBench(last, [plain], [])[1]).toMatchObject({ minutes: 0, fitted: { link: last.link } })
  })
})

describe('possible runs', () => {
  const uhd: Setting = { ...high, id: 'uhd', widthPx: 3840, heightPx: 2160 }
  const small: Setting = { ...high, id: 'small', widthPx: 1280, heightPx: 720, preset: 'low' }
  const tiny: Setting = { ...high, id: 'tiny', widthPx: 640, heightPx: 360 }
  // Of few pixels, but none of them tells how fast a processor is by itself.
  const others: Setting[] = [
    { ...tiny, id: 'rt', rayTracing: true },
    { ...tiny, id: 'cap', capFps: 60 },
    { ...tiny, id: 'fg', frameGeneration: true },
    { ...tiny, id: 'step', lowered: { fromSettingId: 'high', what: 'shadows' } },
  ]
  const hand = (cardId: string, machineTag?: string) => ({
    ...{ fitted: fitted('P1', cardId), partIds: [], minutes: 0 },
    ...(machineTag !== undefined && { machineTag }),
  })
  const what = (runs: ReturnType<typeof possibleRuns>) =>
    runs.map(({ titleId, settingId, fitted: f, machineTag = 'bench' }) =>
      [titleId, settingId, f.cardId, machineTag].join(' '),
    )

  test('every hand in every title and setting that is asked for, and in the plain one with the fewest pixels', () => {
    const asked = [
      { titleId: 'T', settingId: 'uhd' },
      { titleId: 'U', settingId: 'small' },
    ]
    const runs = possibleRuns([hand('C1', 'M-1'), hand('C2')], asked, [...others, uhd, high, small])
    expect(what(runs)).toEqual([
      'T uhd C1 M-1',
      'T small C1 M-1',
      'U small C1 M-1',
      'T uhd C2 bench',
      'T small C2 bench',
      'U small C2 bench',
    ])
  })

  test('asked for by two questions it is one run; the same parts in two machines are two', () => {
    const asked = [1, 2].map(() => ({ titleId: 'T', settingId: 'small' }))
    expect(what(possibleRuns([hand('C1', 'M-1'), hand('C1', 'M-2')], asked, [small]))).toEqual([
      'T small C1 M-1',
      'T small C1 M-2',
    ])
  })

  test('no plain setting: only what is asked for; nothing asked or no hand: nothing', () => {
    expect(what(possibleRuns([hand('C1')], [{ titleId: 'T', settingId: 'rt' }], others))).toEqual([
      'T rt C1 bench',
    ])
    expect(possibleRuns([], [{ titleId: 'T', settingId: 'small' }], [small])).toEqual([])
    expect(possibleRuns([hand('C1')], [], [small])).toEqual([])
  })
})
