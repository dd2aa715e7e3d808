import { describe, expect, test } from 'vitest'
import type { Letter } from '../../src/words/answer/letter.ts'
import { letterOf } from '../../src/words/answer.ts'
import {
  answerOf,
  CARD,
  finding,
  gain,
  KINDS,
  line,
  NOTHING,
  option,
  PARTS,
  RANKING,
  useful,
} from './answers.ts'

// What a reader of the letter alone must be able to do and to tell: how to say yes to each way, which old part a price
// counts on, why a part has no frame rates, and figures beside each other that agree. Invented parts and prices; the
// sums are worked out by hand beside each check.

const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const rowOf = (letter: Letter, name: string) =>
  plain((letter.board?.items ?? []).find(({ what }) => what.includes(name))?.says.join(' ') ?? '')

describe('each way has words of its own to say yes to it', () => {
  const letter = letterOf(answerOf())
  const words = [
    letter.reply.text,
    ...(letter.price?.notes ?? []),
    ...(letter.roads?.items ?? []).flatMap(({ says }) => says),
    ...(letter.handsIn?.lead ?? []),
  ].flatMap((text) => [...text.matchAll(/“((?:yes, |and I )[^”]+)”/g)].flatMap(([, said]) => said ?? []))

  test('the one that is recommended, both others, and fitting it oneself; no two alike', () => {
    expect(words).toEqual([
      'yes, fit it',
      'yes, fit it, and I keep my old part',
      'yes, the cheaper one',
      'yes, the stronger one',
      // Its price hangs on an old part too: these words go behind the ones above.
      'and I keep my old part',
      'yes, I fit it myself, and I keep my old part',
      'yes, I fit it myself, and you keep my old part',
    ])
  })

  test('what has to be done besides is told to whoever fits it', () => {
    const moved = { ...CARD, change: { ...CARD.change, work: ['move front fan'] } }
    const lead = letterOf(answerOf({ ranking: { ...RANKING, ranked: [moved] } })).handsIn?.lead.join(' ')
    expect(lead).toContain('This is then also yours to do: Moving the front fan.')
  })
})

describe('figures beside each other agree', () => {
  test('of one game the percentage is that of the frames that stand there: 63 of 42 are 50 % more, not 49', () => {
    const one = {
      ...CARD,
      gains: [gain('winter', 42.3, 63.1, { low: 58.6, high: 68 })],
      useful: useful(49, 11, { countedTitleIds: ['winter'] }),
    }
    const { pick } = letterOf(
      answerOf({
        titles: [{ id: 'winter', name: 'Long Winter' }],
        ranking: { ...RANKING, ranked: [one], titlesAtTargetToday: 0 },
      }),
    )
    expect(pick?.figures.map(({ figure }) => plain(figure))).toEqual(['$142', '+50%'])
    expect(pick?.useful.join(' ')).not.toMatch(/%/)
  })

  test('no more of it than the display shows: from 42 to 60 of 63 at 60 Hz are 43 %', () => {
    const one = {
      ...CARD,
      gains: [gain('winter', 42.3, 63.1, { low: 58.6, high: 68 })],
      useful: useful(42, 2, { countedTitleIds: ['winter'] }),
    }
    const { pick } = letterOf(
      answerOf({
        titles: [{ id: 'winter', name: 'Long Winter' }],
        question: { display: { widthPx: 1920, heightPx: 1080, refreshHz: 60 } },
        ranking: { ...RANKING, ranked: [one], titlesAtTargetToday: 0 },
      }),
    )
    expect(pick?.figures[1]?.figure).toBe('+43%')
  })
})

describe('a part that is told in passing', () => {
  test('has its frames in every game', () => {
    const other = {
      ...CARD,
      ...option({ parts: ['C-LONG'], lines: [line('part', 'C-LONG', 15_000)] }),
      gains: CARD.gains,
      useful: CARD.useful,
      worthTheVisit: true,
      withinBudget: true,
    }
    const letter = letterOf(
      answerOf({ ranking: { ...RANKING, ranked: [CARD, { ...other, useful: useful(28, 3) }] } }),
    )
    expect(rowOf(letter, 'Broadside')).toMatch(
      /Salt Harbor goes from 51 to 73 FPS.*Long Winter goes from 42 to 63 FPS/,
    )
  })

  test('or says that there are none, and why', () => {
    const none = option({
      parts: ['C-LONG'],
      lines: [line('part', 'C-LONG', 15_000)],
      gains: [{ grade: 'no number', titleId: 'winter', because: 'unknown part', wanted: [] }],
    })
    const letter = letterOf(
      answerOf({ ranking: { ...RANKING, ranked: [CARD], withoutNumber: [none], needsAFact: [] } }),
    )
    expect(rowOf(letter, 'Broadside')).toMatch(/^No FPS yet: we never ran it, in any game\./)
  })
})

test('the room for a card says what is free with the front fan moved, and that this is done', () => {
  const moved = {
    ...CARD,
    change: { ...CARD.change, work: ['move front fan'] },
    findings: [
      finding({
        rule: 'graphics.length',
        verdict: 'fits after work',
        partId: 'C-NEW',
        values: { cardMm: 236, roomMm: 225, freeMm: 250, overMm: 0 },
        needs: [{ work: 'move front fan' }],
      }),
    ],
  }
  const letter = letterOf(
    answerOf({
      claims: [{ key: 'cardRoomMm', value: 225, source: 'measured' }],
      ranking: { ...RANKING, ranked: [moved] },
    }),
  )
  const row = letter.board?.items.find(({ what }) => what.startsWith('Graphics cards'))
  expect(plain(row?.what ?? '')).toBe(
    'Graphics cards up to 225 mm long, and up to 250 mm with the front fan moved',
  )
  expect(row?.says.at(-1)).toBe('We move that fan for the card above, so it goes in.')
})

test('an empty list of what does not fit says so; what the board never takes stands there all the same', () => {
  const letter = letterOf(answerOf({ ranking: { ...RANKING, ruledOut: [] } }))
  expect(letter.board?.more[0]).toBe('Of the parts on our shelf, none is ruled out.')
  expect(letter.board?.items.at(-1)?.what).toContain('than LGA1200, and memory other than DDR4')
  const empty = letterOf(KINDS['an empty shelf'] ?? answerOf())
  expect(empty.board?.more.join(' ')).not.toContain('none is ruled out')
})

describe('a part that somebody else sells', () => {
  const named = option({
    parts: ['C-NEW'],
    lines: [
      line('part', 'C-NEW', 16_500),
      line('opening', 'opening', 1_000),
      line('fitting', 'C-NEW', 500),
      line('trade-in', 'C-OLD', -3_800),
    ],
  })
  const asked = (words: string) =>
    letterOf(
      answerOf({ parts: PARTS, question: { words }, ranking: { ...NOTHING, withoutNumber: [named] } }),
    ).lead.more.join(' ')

  test('$10 + $5 of work', () => {
    expect(plain(asked('A friend sells his Quarrel 8G. Shall I?'))).toContain(
      'If you get the Quarrel 8G graphics card elsewhere, our work alone is $15.',
    )
  })
  test('is not spoken of where nobody else sells it', () => {
    expect(asked('Is the Quarrel 8G any good?')).not.toContain('elsewhere')
  })
})

test('where one game may stay below, one that gets there leads: 51 to 73 FPS, and not 42 to 63', () => {
  const { lead } = letterOf(KINDS.partly ?? answerOf())
  expect(plain(lead.answer)).toBe('Partly: Salt Harbor goes from 51 to 73 FPS, for $142.')
  expect(lead.more.join(' ')).toContain('Long Winter')
})

test('a road that is told with its frames says its slower game once, without other figures', () => {
  const slower = {
    ...CARD,
    ...option({ parts: ['C-LONG'], lines: [line('part', 'C-LONG', 3_000)] }),
    gains: [gain('harbor', 51.2, 56, { low: 54, high: 58 }), gain('winter', 42.3, 36, { low: 35, high: 38 })],
    useful: useful(2, 1, { countedTitleIds: ['harbor', 'winter'] }),
    worthTheVisit: false,
  }
  const letter = letterOf(answerOf({ ranking: { ...RANKING, ranked: [CARD, slower] } }))
  const says = plain(letter.roads?.items[0]?.says.join(' ') ?? '')
  expect(says).toContain('Long Winter goes from 42 to 36 FPS (35 to 38), measured.')
  expect(says).toContain('In Long Winter that is slower than today. It fits, and we would not buy it.')
})
