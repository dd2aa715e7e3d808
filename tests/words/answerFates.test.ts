import { describe, expect, test } from 'vitest'
import { buildOf } from '../../src/core/build.ts'
import { LANGUAGES } from '../../src/core/language.ts'
import type { Option } from '../../src/core/ranking/option.ts'
import { oldPartsSaid } from '../../src/words/answer/oldParts.ts'
import { letterOf } from '../../src/words/answer.ts'
import { answerOf, CARD, KINDS, KIT, line, option, PAIR, part, RANKING } from './answers.ts'

// What a reader of the letter alone must be able to tell: what becomes of old parts, what has no price, the figure that is
// promised, and the one thing to do now. Invented parts and prices; the rule for old parts is that of `core/ranking/price.ts`.

const plain = (text: string) => text.replaceAll('\u00a0', ' ')

/** The machine of the fixtures with a kit of memory in it. */
const withMemory = (ranked: readonly Option[]) => {
  const answer = answerOf({ ranking: { ...RANKING, ranked } })
  const build = buildOf(['P-OLD', 'B-1', 'C-OLD', 'S-1', 'M-KIT'].map(part))
  return { ...answer, inputs: { ...answer.inputs, machine: { ...answer.inputs.machine, build } } }
}

describe('old parts', () => {
  test('memory beside which more is put stays in', () => {
    expect(oldPartsSaid(withMemory([KIT]), KIT)).toEqual(['The memory that is in it now stays in.'])
  })

  test('memory that makes room and is not paid for stays the owner’s', () => {
    const inPlace = { ...KIT, change: { ...KIT.change, removeIds: ['M-KIT'] } }
    expect(oldPartsSaid(withMemory([inPlace]), inPlace)).toEqual([
      'Your old memory kit comes out. You keep it, and we pay nothing for it.',
    ])
  })

  test('what is taken in exchange is told by its price line alone; what comes out beside it is told', () => {
    expect(oldPartsSaid(answerOf(), CARD)).toEqual([])
    expect(oldPartsSaid(answerOf(), PAIR)).toEqual([
      'Your old processor comes out. You keep it, and we pay nothing for it.',
    ])
    const none = { ...PAIR, price: { ...PAIR.price, lines: [] } }
    expect(oldPartsSaid(answerOf(), none)).toEqual([
      'Your old processor and your old graphics card come out. You keep them, and we pay nothing for them.',
    ])
  })
})

test('work that the shop has not priced is no work for $0', () => {
  const moved = option({
    parts: ['C-NEW'],
    work: ['move front fan'],
    lines: [line('part', 'C-NEW', 16_500), line('work', 'move front fan', 0)],
    gains: CARD.gains,
    useful: CARD.useful,
    titlesAtTarget: 3,
  })
  const open = { ...moved, price: { ...moved.price, unpriced: ['move front fan'] } }
  const { price, pick } = letterOf(
    answerOf({ ranking: { ...RANKING, ranked: [open], bestPerMoneyId: open.id } }),
    {
      pickId: open.id,
    },
  )
  expect(price?.rows.find(({ what }) => what === 'Moving the front fan')?.figure).toBe('no price yet')
  expect(price?.notes).toContain('What has no price yet comes on top. We name it before any work.')
  expect(pick?.figures[0]?.what).toBe(
    'in all, fitting included, and on top Moving the front fan, which has no price yet',
  )
})

test('of a gain that the display cuts, title and what it can show are named: 66 to 84 FPS are 9 on 75 Hz', () => {
  const { roads } = letterOf(KINDS['reached already'] ?? answerOf())
  expect(plain(roads?.items[0]?.says.join(' ') ?? '')).toContain(
    'It fits, and we would not buy it. Of what Long Winter gains, your 75 Hz display can show 9 FPS, for $142.',
  )
})

test('each game says which figure is promised: the lower end of its range', () => {
  const { games } = letterOf(answerOf())
  const promised = games?.rows.map(({ notes }) => plain(notes[0] ?? ''))
  expect(promised).toEqual([
    'We promise at least 70 FPS.',
    'We promise at least 112 FPS.',
    'We promise at least 60 FPS.',
  ])
})

test('who fits a bundle alone reads all that goes in', () => {
  const bundle = { ...PAIR, withinBudget: true }
  const { handsIn } = letterOf(answerOf({ ranking: { ...RANKING, ranked: [bundle] } }), { pickId: bundle.id })
  expect(handsIn?.lead.join(' ')).toContain(
    'You then fit all of this: Hexa 6C processor and Quarrel 8G graphics card.',
  )
})

describe('the one thing to do now, at the end', () => {
  test.each([
    [
      'yes',
      'If you want it, reply “yes, fit it”. If not, do nothing. For another way, reply with the words that stand beside it.',
    ],
    [
      'one number missing',
      'If you want it, reply “yes, fit it”. If not, do nothing. For another way, reply with the words that stand beside it. If you would rather wait for the missing numbers, reply “please run it” first.',
    ],
    ['above the budget', 'Do nothing, and keep your money for now.'],
    ['need a fact', 'Find out one thing, and write it to us: room for a graphics card.'],
    ['need a run', 'Reply “please run it”.'],
    ['no games', 'Write back which games you play.'],
    ['reached already', 'Do nothing, and keep your money for now.'],
  ])('%s', (name, says) => {
    expect(letterOf(KINDS[name] ?? answerOf()).next).toEqual({ head: 'What to do now', says })
  })

  test('stands in every letter of every language', () => {
    for (const language of LANGUAGES)
      for (const answer of Object.values(KINDS)) {
        const { customer } = answer.inputs
        const inputs = { ...answer.inputs, ...(customer && { customer: { ...customer, language } }) }
        expect(letterOf({ ...answer, inputs }).next.says).toMatch(/^\S.*\.$/)
      }
  })
})
