import { describe, expect, test } from 'vitest'
import type { Part } from '../../src/core/part.ts'
import type { Option, Ranking } from '../../src/core/ranking/option.ts'
import type { ShelfItem } from '../../src/core/shop.ts'
import { askingOf } from '../../src/words/answer/named.ts'
import { letterOf } from '../../src/words/answer.ts'
import { ASKED_BY_EN } from '../../src/words/en/glosses.ts'
import {
  AT,
  answerOf,
  CARD,
  finding,
  gain,
  KIT,
  line,
  NO_ROOM_KNOWN,
  NOTHING,
  option,
  PARTS,
  RANKING,
  SHELF,
  TOO_BIG,
  UNCLEAR,
  useful,
} from './answers.ts'

// Invented parts, people and prices.
const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const lines = (items: readonly string[] | undefined) => plain((items ?? []).join(' '))
const stock = (partId: string): ShelfItem => ({ ...SHELF[0], id: `K-${partId}`, partId, at: AT }) as ShelfItem
const shelf = [...SHELF, stock('C-LONG'), stock('C-BIG')]
const asking = (words: string, parts: readonly Part[] = PARTS) =>
  askingOf(answerOf({ question: { words }, shelf, parts }), ASKED_BY_EN)
const letter = (words: string, ranking: Ranking) =>
  letterOf(answerOf({ question: { words }, shelf, ranking }))

describe('which part of the shelf the words name', () => {
  test.each([
    ['Is the Longbow worth it?', ['C-BIG']],
    ['is the longbow worth it?', ['C-BIG']],
    ['The Broadside 12G or the Longbow?', ['C-LONG', 'C-BIG']],
    ['I like a hexagon.', []],
    // Quarrel is also what the fitted card is called: the word tells nothing, the whole name does.
    ['A Quarrel?', []],
    ['What of the quarrel 8g?', ['C-NEW']],
    // Fitted, so not something to ask for.
    ['My Quarrel 4G is slow.', []],
    ['What can be done for $200?', []],
  ])('%s', (words, ids) => expect(asking(words).partIds).toEqual(ids))

  test('a short word of a name is taken for it with its capital only', () => {
    expect(asking('The Hexa?').partIds).toEqual(['P-NEW'])
    expect(asking('a hexa?').partIds).toEqual([])
  })

  test('not on the shelf is not named', () => {
    const answer = answerOf({ question: { words: 'The Longbow?' }, shelf: [] })
    expect(askingOf(answer, ASKED_BY_EN).partIds).toEqual([])
  })

  test.each([
    ['Is there any processor left?', ['processor']],
    ['More RAM, or a card?', ['memory', 'card']],
    ['On board with it?', []],
    ['Cards on the table: discard it?', ['card']],
  ])('%s', (words, kinds) => expect([...asking(words).kinds].sort()).toEqual([...kinds].sort()))
})

describe('it is answered first', () => {
  const worse: Option = option({
    parts: ['C-LONG'],
    lines: [line('part', 'C-LONG', 19_000)],
    gains: [gain('winter', 68.9, 58.7, { low: 55, high: 62 }), gain('harbor', 40, 41, { low: 39, high: 43 })],
    useful: useful(-5, 2),
  })
  const words = 'The Broadside, is it worth it?'

  test('slower than today: not for that game, before anything else is proposed', () => {
    const { lead, subject } = letter(words, { ...RANKING, ranked: [CARD, worse], needsAFact: [] })
    expect(plain(lead.answer)).toBe(
      'Broadside 12G graphics card, $190: not for Long Winter. It would go from 69 to 59 FPS there. Yes on average: Long Winter goes from 42 to 63 FPS, for $142.',
    )
    // What is proposed keeps its own subject.
    expect(plain(subject)).toBe('M-0042: yes, 60 FPS in three games, for $142')
  })

  test('the game that the words name', () => {
    const ranking = { ...RANKING, ranked: [CARD, worse], needsAFact: [] }
    expect(plain(letter('The Broadside for Salt Harbor?', ranking).lead.answer)).toMatch(
      /^Broadside 12G graphics card: we would not buy it\. Salt Harbor goes from 40 to 41 FPS, for \$190\./,
    )
  })

  test('where nothing is proposed, the subject says so too', () => {
    const ranking = { ...NOTHING, ranked: [worse] }
    expect(letter(words, ranking).subject).toBe('M-0042: we would not buy that one')
  })

  test.each([
    [
      'without a number',
      { ...NOTHING, withoutNumber: [{ ...UNCLEAR, verdict: 'fits' as const }] },
      'Broadside 12G graphics card goes in, for $210. What it adds, we cannot say yet.',
    ],
    [
      'worth it and above the budget',
      {
        ...NOTHING,
        ranked: [KIT, { ...worse, useful: useful(9, 2), worthTheVisit: true, withinBudget: false }],
      },
      'Broadside 12G graphics card: Long Winter goes from 69 to 59 FPS, for $190. That is above your $200.',
    ],
    [
      'not known yet, beside a pick',
      { ...RANKING, needsAFact: [UNCLEAR] },
      'Broadside 12G graphics card, $210 if it goes in: we can’t tell yet. What is missing is below.',
    ],
    [
      'left out by a wish',
      {
        ...NOTHING,
        ruledOut: [{ ...TOO_BIG, partId: 'C-LONG', findings: [], wish: 'no used parts' }],
      },
      'Broadside 12G graphics card: left out because you asked for no used parts.',
    ],
    [
      'does not fit',
      { ...NOTHING, ruledOut: [{ ...TOO_BIG, partId: 'C-LONG' }] },
      'Broadside 12G graphics card: does not fit. It takes the room of 4 slots, and your case has 2.',
    ],
  ])('%s', (_, ranking, said) => {
    expect(plain(letter(words, ranking).lead.answer).startsWith(said)).toBe(true)
  })

  test('of the facts that decide, the one about the named part leads', () => {
    const other = {
      ...UNCLEAR,
      ...option({ parts: ['C-BIG'], lines: [line('part', 'C-BIG', 30_000)] }),
      verdict: "can't tell" as const,
      findings: [
        finding({
          rule: 'power.plugs',
          verdict: "can't tell",
          partId: 'C-BIG',
          missing: [{ limit: 'supplyPlugs' }],
        }),
      ],
    }
    const { lead, board } = letter('The Longbow?', { ...NOTHING, needsAFact: [UNCLEAR, other] })
    expect(lines(lead.more)).toContain(
      'They decide whether this goes in: Longbow 16G graphics card ($300) and Broadside 12G graphics card ($210).',
    )
    expect(board?.items.filter((i) => i.verdict === "can't tell").map((i) => i.what)).toEqual([
      'Longbow 16G graphics card, $300 in all',
      'Broadside 12G graphics card, $210 in all if we keep your old graphics card',
    ])
  })
})

describe('a row of the board is true of its part alone', () => {
  const pair: Option = option({
    parts: ['P-NEW', 'C-LONG'],
    lines: [line('part', 'C-LONG', 30_000), line('part', 'P-NEW', 9_400, { shelfItemId: 'K-CPU' })],
    findings: [finding({ rule: 'graphics.length', partId: 'C-LONG', values: { cardMm: 267, roomMm: 286 } })],
    gains: CARD.gains,
    useful: useful(30, 2),
  })
  const row = (ranking: Partial<Ranking>, name = /^Broadside/) =>
    letterOf(answerOf({ ranking: { ...NOTHING, titlesAtTargetToday: 3, ...ranking } })).board?.items.find(
      (i) => name.test(i.what),
    )

  test('the option of the part alone is told, though it is worse than the pair', () => {
    const alone = { ...UNCLEAR, findings: [NO_ROOM_KNOWN] }
    expect(row({ ranked: [KIT, KIT, KIT, pair], needsAFact: [alone] })).toMatchObject({
      verdict: "can't tell",
    })
  })

  test('without one, its companion is named', () => {
    expect(row({ ranked: [KIT, KIT, KIT, pair] }, /Broadside/)?.what).toBe(
      'Hexa 6C processor together with Broadside 12G graphics card, $394 in all',
    )
  })

  test('what a rule demands beside it is named with the price of all', () => {
    const withSupply = option({
      parts: ['C-LONG', 'S-1'],
      lines: [line('part', 'C-LONG', 30_000), line('part', 'S-1', 6_400)],
      companionPartIds: ['S-1'],
      findings: pair.findings,
    })
    const told = row({ withoutNumber: [withSupply] })
    expect(told?.what).toMatch(/, \$364 in all$/)
    expect(lines(told?.says)).toContain('It needs the Tern 460 supply with it; that is in the price.')
  })
})

describe('works that somebody has to look into first', () => {
  const look = (work: string, netMinor: number) => ({
    option: {
      ...option({ parts: [], work: [work], lines: [] }),
      price: { lines: [], netMinor, paysForItself: false, costsNothing: netMinor === 0, unpriced: [] },
    },
    limits: [],
  })
  const more = (...checkFirst: readonly ReturnType<typeof look>[]) =>
    lines(letterOf(answerOf({ ranking: { ...RANKING, checkFirst } })).board?.more)

  test('one line, what costs nothing first, the rest counted', () => {
    expect(more(look('cleaning', 2_500), look('display into card', 0), look('reinstall', 6_000))).toContain(
      'Some work may help too: plugging the display into the card (costs nothing), cleaning and new paste, and one more. Whether yours needs it, we have not looked yet.',
    )
  })
  test('nothing without one', () => expect(more()).not.toContain('somebody has to look'))
})
