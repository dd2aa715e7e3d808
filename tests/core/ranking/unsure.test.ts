import { describe, expect, test } from 'vitest'
import type { GainModel, TitleGain } from '../../../src/core/gain/gain.ts'
import { heldBackBy } from '../../../src/core/ranking/heldBack.ts'
import { rank } from '../../../src/core/ranking/rank.ts'
import { byCard, card, finding, fitsAlways, ids, input, item, knowing, question } from './smallShop.ts'

// Invented parts and frame rates.
const two = question({
  wanted: ['harbor', 'winter'].map((titleId) => ({ titleId, settingId: '1080-high', weight: 1 })),
})
const model = knowing(byCard({ 'CARD-0': 20, 'CARD-1': 10 }))
const disagreeing = (...titles: readonly string[]): GainModel => ({
  name: 'measured-1',
  predict(ask): TitleGain {
    const gain = model.predict(ask)
    const marked = titles.includes(ask.titleId) && ask.after?.cardId === 'CARD-1'
    return gain.grade === 'no number' ? gain : { ...gain, disagrees: marked }
  },
})
const ranking = (titles: readonly string[]) =>
  rank(
    input({
      parts: [card('CARD-1')],
      shelf: [item('CARD-1', 20_000)],
      question: two,
      judge: fitsAlways,
      model: disagreeing(...titles),
    }),
  )

describe('repeats that disagree', () => {
  test('their title counts as one without a number, and reaches no target', () => {
    const [option] = ranking(['winter']).ranked
    expect(option?.useful).toMatchObject({ countedTitleIds: ['harbor'], missingTitleIds: ['winter'] })
    // 1000 / 10 ms = 100 FPS in both titles, 60 wanted.
    expect(option?.titlesAtTarget).toBe(1)
    // The figures stay to be shown.
    expect(option?.gains[1]).toMatchObject({ grade: 'measured', disagrees: true })
  })

  test('where there is no other title, the option is listed without a number and never a pick', () => {
    const { ranked, withoutNumber, bestPerMoneyId } = ranking(['harbor', 'winter'])
    expect([ranked.length, ids(withoutNumber), bestPerMoneyId]).toEqual([0, ['S-CARD-1'], undefined])
  })

  test('where they agree, both count', () => {
    const [option] = ranking([]).ranked
    expect(option?.useful?.missingTitleIds).toEqual([])
    expect(option?.titlesAtTarget).toBe(2)
  })
})

describe('what holds a processor back where it was not measured', () => {
  const [option] = ranking([]).ranked
  const gains = option?.gains ?? []
  const here = gains.map((g) =>
    g.grade === 'no number' ? g : { ...g, after: { ...g.after, onThisMachine: true } },
  )
  const cooler = finding('cooling.rating', 'fits slower')
  const board = finding('processor.boardPower', 'fits slower')

  test('board power and cooling, where a run was made on another machine', () => {
    const findings = [board, finding('graphics.link', 'fits slower'), cooler]
    expect(heldBackBy({ findings, gains })).toEqual([board, cooler])
  })
  test.each([
    ['all runs were made on this machine', { findings: [board, cooler], gains: here }],
    ['both say that it fits', { findings: [finding('cooling.measured', 'fits')], gains }],
    ['there is no number', { findings: [board], gains: [] }],
  ])('none where %s', (_, given) => expect(heldBackBy(given)).toEqual([]))
})
