import { describe, expect, test } from 'vitest'
import type { Finding } from '../../src/core/fit/finding.ts'
import { LIMIT_KEYS } from '../../src/core/limits/catalogue.ts'
import type { Part } from '../../src/core/part.ts'
import type { Option, RuledOut } from '../../src/core/ranking/option.ts'
import { CHAT_MOST } from '../../src/words/answer/chat.ts'
import { SUBJECT_MOST } from '../../src/words/answer/lead.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { GLOSSES_EN } from '../../src/words/en/glosses.ts'
import { LIMIT_WORDS } from '../../src/words/en/limits.ts'
import { glosser } from '../../src/words/gloss.ts'
import {
  AT,
  answerOf,
  CARD,
  finding,
  gain,
  KINDS,
  KIT,
  line,
  NARROW,
  NO_FIRMWARE,
  NO_ROOM_KNOWN,
  NOTHING,
  option,
  PAIR,
  PARTS,
  RANKING,
  SHELF,
  TOO_BIG,
  UNCLEAR,
  useful,
} from './answers.ts'

// What a first reader stumbled over, against the invented answers of answers.ts; the wording is that of words.md.
const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const lines = (items: readonly string[] | undefined) => plain((items ?? []).join(' '))
const ranked = (...options: readonly Option[]) =>
  answerOf({ ranking: { ...RANKING, ranked: options, groups: options.map((o) => [o.id]) } })
const here = (g: ReturnType<typeof gain>) =>
  g.grade === 'no number' ? g : { ...g, after: { ...g.after, onThisMachine: true } }

const HELD = finding({
  rule: 'processor.boardPower',
  verdict: 'fits slower',
  partId: 'P-NEW',
  values: { processorLimitW: 224, boardProcessorW: 150 },
})
const held = (gains: Option['gains']): Option => ({
  ...CARD,
  ...option({ parts: ['P-NEW'], lines: [line('part', 'P-NEW', 9_400, { shelfItemId: 'K-CPU' })] }),
  id: CARD.id,
  verdict: 'fits slower',
  findings: [HELD],
  gains,
  useful: useful(29, 3),
  titlesAtTarget: 3,
  worthTheVisit: true,
})

describe('a number measured where nothing held the processor back', () => {
  const elsewhere = letterOf(ranked(held(CARD.gains)))
  test('is not plainly measured: on the strip, above the games and on another road', () => {
    expect(elsewhere.pick?.grade).toMatchObject({ word: 'measured on another machine' })
    expect(elsewhere.pick?.grade?.says).toContain(
      'Yours holds it back, so the FPS may land below the ranges. By how much, only a run in yours shows. What we promise with each game holds all the same.',
    )
    expect(lines(elsewhere.games?.intro)).toContain(
      'Yours holds it back, so the FPS may land below the ranges here.',
    )
    expect(lines(elsewhere.games?.intro)).not.toContain('All of it measured.')
    const road = letterOf(ranked(CARD, { ...held(CARD.gains), id: 'held', useful: useful(40, 3) }))
    const says = lines(road.roads?.items.find((i) => i.what.includes('Hexa'))?.says)
    expect(says).toContain('measured on another machine.')
  })
  test('run on this very machine it is', () => {
    const { pick, games } = letterOf(ranked(held(CARD.gains.map(here))))
    expect(pick?.grade?.word).toBe('measured')
    expect(lines(games?.intro)).toContain('All of it measured.')
  })
})

describe('what the figures count', () => {
  test('a processor held to the board’s watts, run on this very machine: counted', () => {
    const { pick } = letterOf(ranked(held(CARD.gains.map(here))))
    expect(lines(pick?.reason)).toBe(
      'It works, held to 150 W; at full speed it would take 224 W. The figures here already count it.',
    )
  })

  test('run on another machine: that is said, and no run is asked for', () => {
    const { pick } = letterOf(ranked(held(CARD.gains)))
    expect(lines(pick?.reason)).toContain(
      'That is not in the figures: we measured on a machine that does not hold it back. Yours may give fewer FPS than we expect.',
    )
    expect(lines(pick?.reason)).not.toContain('only a run can say')
  })

  test('a slower slot is counted wherever the run was made, and not told twice', () => {
    const few = { ...NARROW, rule: 'graphics.narrow' as const }
    const { pick } = letterOf(ranked({ ...CARD, findings: [NARROW, few] }))
    expect(pick?.reason).toHaveLength(2)
    expect(pick?.reason.at(-1)).toBe('The figures here already count it.')
  })
})

describe('reasons are given, the worst first', () => {
  const plugs = finding({
    rule: 'power.plugs',
    verdict: 'fits after work',
    partId: 'C-NEW',
    values: { needPlugs: { pin6: 0, pin8: 1, pin16: 0 }, havePlugs: { pin6: 1, pin8: 0, pin16: 0 } },
  })
  const two = { ...CARD, verdict: 'fits after work' as const, findings: [NO_FIRMWARE, plugs] }

  test('a second reason of a better verdict is not lost, and what is too much is counted', () => {
    const held4 = Array.from({ length: 4 }, (_, i) => ({
      ...HELD,
      values: { ...HELD.values, boardProcessorW: 150 + i },
    }))
    const { pick } = letterOf(ranked({ ...two, findings: [...held4, NO_FIRMWARE] }))
    expect(lines(pick?.reason)).toMatch(/newer firmware.*held to 150 W.*held to 151 W.*held to 152 W/)
    expect(lines(pick?.reason)).not.toContain('153 W')
    expect(pick?.reason.at(-1)).toBe('And one more reason.')
  })

  test('the second reason stands beside the first, in mail and chat', () => {
    const letter = letterOf(ranked(two))
    expect(lines(letter.pick?.reason)).toMatch(/newer firmware.*It needs 1 × 8-pin/)
    expect(chatTextOf(ranked(two))).toMatch(/newer firmware.*It needs 1 × 8-pin/)
  })

  test.each(Object.entries(KINDS))('%s: no clause without its reason', (_, answer) => {
    expect(JSON.stringify(letterOf(answer))).not.toMatch(/more reason/)
  })

  test('a chat keeps to its size, whole reasons only', () => {
    const many = Array.from({ length: 3 }, (_, i) => ({ ...plugs, partId: `C-${i}`, rule: plugs.rule }))
    const long: Finding[] = many.map((f, i) => ({
      ...f,
      values: { ...f.values, needPlugs: { pin6: 0, pin8: i + 1, pin16: 0 } },
    }))
    const text = chatTextOf(ranked({ ...two, findings: [NO_FIRMWARE, ...long] }), {
      opening: 'A word before. '.repeat(24),
    })
    expect(text.length).toBeLessThanOrEqual(CHAT_MOST)
    expect(text).toContain('fits after work')
  })
})

describe('a chat speaks of no mail', () => {
  test.each(Object.entries(KINDS))('%s', (_, answer) => expect(chatTextOf(answer)).not.toMatch(/\bmail\b/i))

  test('who is asked for a fact writes back, and reads first how to find it out', () => {
    const text = chatTextOf(KINDS['need a fact'] ?? answerOf())
    expect(text).toContain('Write back with the answer.')
    expect(text.indexOf('Measure from the metal plate at the back of the slots')).toBeGreaterThan(0)
    expect(text.indexOf('Measure from the metal plate at the back of the slots')).toBeLessThan(
      text.indexOf('Today'),
    )
  })
})

describe('equal names', () => {
  const twin: Part = { kind: 'memory', id: 'M-TWIN', name: 'Tandem 2×8', memoryType: 'DDR4' }
  const unclear = (id: string) => ({
    ...option({ parts: ['M-KIT'], lines: [line('part', 'M-KIT', 3_100)] }),
    id,
    verdict: "can't tell" as const,
    findings: [finding({ rule: 'memory.slots', verdict: "can't tell", missing: [{ limit: 'memorySlots' }] })],
  })
  const other = { ...unclear('b'), change: { add: [twin], removeIds: [], work: [] } }

  test('two kits of one name are one name with their number', () => {
    const answer = answerOf({
      parts: [...PARTS, twin],
      ranking: { ...NOTHING, needsAFact: [unclear('a'), other] },
    })
    expect(lines(letterOf(answer).lead.more)).toContain(
      'It decides whether this goes in: Tandem 2×8 memory kit (two on our shelf).',
    )
  })

  test('one kit in two options is named once', () => {
    const answer = answerOf({ ranking: { ...NOTHING, needsAFact: [unclear('a'), unclear('b')] } })
    expect(lines(letterOf(answer).lead.more)).toContain(
      'It decides whether this goes in: Tandem 2×8 memory kit ($31). Each price is in all, fitting included.',
    )
  })
})

describe('missing facts', () => {
  const sheet = finding({
    rule: 'memory.form',
    verdict: "can't tell",
    partId: 'M-KIT',
    missing: [{ spec: 'form', partId: 'M-KIT', partName: 'Tandem 2×8' }],
  })
  const rate = finding({
    rule: 'memory.rate',
    verdict: "can't tell",
    partId: 'M-KIT',
    missing: [{ spec: 'rateMts', partId: 'M-KIT', partName: 'Tandem 2×8' }],
  })
  const ours: Option = {
    ...option({ parts: ['M-KIT'], lines: [line('part', 'M-KIT', 3_100)] }),
    verdict: "can't tell",
    findings: [sheet, rate],
  }

  test('a data sheet is the shop’s own homework: said once, and nobody is asked to open the machine', () => {
    const answer = answerOf({
      claims: [{ key: 'cardRoomMm', value: 286, source: 'measured' }],
      ranking: { ...NOTHING, needsAFact: [ours] },
    })
    const letter = letterOf(answer)
    expect(letter.lead.answer).toBe(
      'One missing fact decides: figures of Tandem 2×8 memory kit. We look that up and write to you.',
    )
    expect(letter.reply.words).toBe('Reply with a question')
    expect(letter.handsIn).toBeUndefined()
    expect(lines(letter.board?.items.find((i) => i.what.includes('Tandem'))?.says)).toBe(
      'No FPS yet: we never ran your games with it. We have not looked up all its figures yet. We do that before we promise anything. Which memory is in it now, we have not written down. With slots to spare it stays in, else it comes out; it is yours either way.',
    )
    expect(JSON.stringify(letter)).not.toMatch(/data sheet|do not know its/)
  })

  test('one for the owner and one for the shop: both are said, and what is missing is counted', () => {
    const letter = letterOf(answerOf({ ranking: { ...NOTHING, needsAFact: [UNCLEAR, ours] } }))
    expect(letter.subject).toBe('M-0042: two checks, then we know')
    expect(letter.lead.answer).toBe(
      'Two missing facts decide. From you we need: room for a graphics card. We look up figures of Tandem 2×8 memory kit.',
    )
    expect(letter.reply.text).toBe('Write back with what you find. Any question is welcome too.')
  })

  test('two facts about one card are asked for at once', () => {
    const plugs = finding({
      rule: 'power.plugs',
      verdict: "can't tell",
      partId: 'C-LONG',
      values: { needPlugs: { pin6: 0, pin8: 1, pin16: 0 } },
      missing: [{ limit: 'supplyPlugs' }],
    })
    const card = { ...UNCLEAR, findings: [NO_ROOM_KNOWN, plugs] }
    const { board } = letterOf(answerOf({ ranking: { ...NOTHING, needsAFact: [card] } }))
    expect(lines(board?.items.find((i) => i.what.includes('Broadside'))?.says)).toMatch(
      /Measure from the metal plate at the back of the slots.*Count the card plugs on the supply: 6-pin, 8-pin and 16-pin/,
    )
  })

  test('no way to find out is broken by a gloss', () => {
    for (const key of LIMIT_KEYS)
      expect(glosser(GLOSSES_EN).add(LIMIT_WORDS[key].findOut)).not.toMatch(/PCIe|card’s data road/)
  })
})

describe('games below the target', () => {
  const below = (after: number, ...more: readonly number[]): Option => ({
    ...CARD,
    gains: [
      gain('winter', 42, 63, { low: 60, high: 66, slow: [31, 47] }),
      gain('harbor', 50, after),
      ...more.map((fps) => gain('rally', 40, fps)),
    ],
    titlesAtTarget: 1,
  })
  const more = (o: Option) => lines(letterOf(ranked(o)).lead.more)

  test('one is named with its figure, and the slow moments name their game', () => {
    expect(more(below(52))).toBe(
      'FPS means pictures a second. One of your three games then averages 60 FPS or more. Salt Harbor stays below, at 52 FPS. These are averages, not held all the time: in slow moments Long Winter drops to about 47.',
    )
  })
  test('two are named in one sentence', () => {
    expect(more(below(52, 44))).toContain('Below it stay Salt Harbor at 52 FPS and Ninefold Rally at 44 FPS.')
  })
  test('59.7 is below 60 although it reads 60', () => {
    expect(more(below(59.7))).toContain('Salt Harbor stays below, at 59.7 FPS.')
  })
  test('at the target is not below', () => {
    expect(more({ ...below(60), titlesAtTarget: 2 })).not.toContain('below')
  })
  test('where none reaches it, the first game is not told twice', () => {
    const none = { ...below(52), gains: [gain('winter', 42, 55), gain('harbor', 50, 52)], titlesAtTarget: 0 }
    expect(more(none)).toContain(
      'None of your three games reaches 60 FPS. Salt Harbor stays below, at 52 FPS.',
    )
    expect(more(none)).not.toContain('Long Winter stays')
  })
  test('of one game it is "its"', () => {
    const one = answerOf({
      titles: [{ id: 'winter', name: 'Long Winter' }],
      ranking: {
        ...RANKING,
        titlesAtTargetToday: 0,
        ranked: [{ ...below(52), gains: [gain('winter', 42, 63, { slow: [31, 47] })] }],
      },
    })
    expect(lines(letterOf(one).lead.more)).toContain(
      'That is an average, not held all the time: in slow moments it drops to about 47.',
    )
  })
})

describe('a budget that is too small', () => {
  const above = { bestPerMoneyId: PAIR.id, cheapestToTargetId: PAIR.id, bestInBudgetId: undefined }
  const lead = (ranking: Partial<typeof RANKING>, pickId?: string) => {
    const answer = answerOf({ ranking: { ...RANKING, titlesAtTargetToday: 0, needsAFact: [], ...ranking } })
    const { lead: said, subject } = letterOf(answer, { pickId })
    return { answer: plain(said.answer), subject: plain(subject) }
  }

  test('first what the budget buys: nothing', () => {
    expect(lead({ ...above, ranked: [PAIR] })).toEqual({
      answer: 'For $200 nothing on our shelf adds enough to be worth it.',
      subject: 'M-0042: nothing worth it for $200',
    })
  })
  test('then what the next step would cost, with its condition, and nobody is asked to order it', () => {
    const over = { ...RANKING, ...above, titlesAtTargetToday: 0, needsAFact: [], ranked: [PAIR] }
    const letter = letterOf(answerOf({ ranking: over }))
    expect(lines(letter.lead.more)).toBe(
      'Keep your money for now. The next step would cost $236 in all, fitting included, if we keep your old graphics card. That is Hexa 6C processor (open box) and Quarrel 8G graphics card (used). Long Winter would then go from 42 to about 64 FPS (estimated, 58 to 71). If you want that all the same, reply “yes, this one”. FPS means pictures a second.',
    )
    expect([letter.pick, letter.price]).toEqual([undefined, undefined])
    expect(letter.reply.text).toBe('Any question is welcome: write back.')
    expect(letter.reply.words).toBe('Reply with a question')
    expect(letter.roads?.head).toBe('Above your budget')
    expect(letter.roads?.items.map((i) => plain(i.what))).toEqual([
      'Hexa 6C processor (open box) and Quarrel 8G graphics card (used), $236 in all, fitting included, if we keep your old graphics card',
    ])
    // 236 + the 38 of the old card.
    expect(lines(letter.roads?.items[0]?.says)).toMatch(
      /^Above your \$200\..*If you want it all the same, reply “yes, this one”\. If you keep your old graphics card, it is \$274\. For that, add “and I keep my old part”\.$/,
    )
  })
  test('a fact that would bring something within the budget decides first', () => {
    const ranking = { ...RANKING, ...above, titlesAtTargetToday: 0, ranked: [PAIR] }
    const better = { ...UNCLEAR, worthTheVisit: true, withinBudget: true }
    const letter = letterOf(answerOf({ ranking: { ...ranking, needsAFact: [better] } }))
    expect(letter.subject).toBe('M-0042: one check, then we know')
  })
  test('a builder who chooses what is above the budget may propose it, and that is said', () => {
    const letter = letterOf(answerOf({ ranking: { ...RANKING, ...above, needsAFact: [], ranked: [PAIR] } }), {
      pickId: PAIR.id,
    })
    expect(plain(letter.lead.answer)).toBe(
      'For $200 nothing on our shelf adds enough to be worth it. For $236, Long Winter goes from 42 to about 64 FPS (estimated, 58 to 71).',
    )
    expect(letter.reply.words).toBe('Reply “yes, fit it”')
  })
  test('what fits in the budget and has no number is not called worthless', () => {
    const vague = { ...KIT, useful: undefined, gains: [] }
    expect(lead({ ...above, ranked: [PAIR], withoutNumber: [vague] }).answer).toMatch(
      /^For \$200 we know of nothing on our shelf that is worth it\./,
    )
  })
  test('the best within it, when that is worth the visit and the builder chose what is above', () => {
    expect(lead({ ...above, ranked: [KIT, PAIR], bestInBudgetId: KIT.id }, PAIR.id)).toEqual({
      answer:
        'For $200: with the Tandem 2×8 memory kit, Long Winter goes from 42 to 46 FPS. For $236, Long Winter goes from 42 to about 64 FPS (estimated, 58 to 71).',
      subject: 'M-0042: Long Winter from 42 to about 64 FPS, $236',
    })
  })
  test('the subject keeps to its size with large sums', () => {
    const dear = option({ ...PAIR, parts: ['P-NEW', 'C-NEW'], lines: [line('part', 'C-NEW', 1_234_500)] })
    const { subject } = lead({ ...above, ranked: [{ ...dear, id: PAIR.id, withinBudget: false }] })
    expect(subject).toMatch(/nothing (worth it )?for \$200/)
    expect(subject.length).toBeLessThanOrEqual(SUBJECT_MOST)
  })
  test('a cheaper road above the budget that is not worth it is no road', () => {
    const poor = { ...KIT, worthTheVisit: false, withinBudget: false, useful: useful(1, 1) }
    const answer = answerOf({ ranking: { ...RANKING, ...above, ranked: [PAIR, poor] } })
    expect(letterOf(answer, { pickId: PAIR.id }).roads).toBeUndefined()
  })
})

describe('a whole kind of which nothing fits', () => {
  const out = (partId: string, wish?: string): RuledOut => ({
    shelfItemId: `K-${partId}`,
    partId,
    verdict: 'does not fit',
    findings:
      wish === undefined
        ? [
            finding({
              rule: 'processor.socket',
              verdict: 'does not fit',
              partId,
              values: { needSocket: 'AM4', haveSocket: 'LGA1200' },
            }),
          ]
        : [],
    wish,
    lacking: [],
  })
  const extra: Part = { kind: 'processor', id: 'P-2', name: 'Octa 8C', socket: 'AM4' }
  const stock = { id: 'K-2', partId: 'P-2', condition: 'new', quantity: 1, priceMinor: 100, at: AT } as const
  const board = (ruledOut: readonly RuledOut[]) =>
    letterOf(
      answerOf({ parts: [...PARTS, extra], shelf: [...SHELF, stock], ranking: { ...NOTHING, ruledOut } }),
    ).board

  test('one sentence says so, beside one reason', () => {
    const items = board([out('P-NEW'), out('P-2')])?.items.filter(
      // What the board never takes, whatever the shelf has, is a line of its own.
      (i) => i.verdict === 'does not fit' && !i.what.startsWith('Processors for another socket'),
    )
    expect(items).toHaveLength(1)
    expect(items?.[0]?.what).toBe('Hexa 6C processor')
    expect(lines(items?.[0]?.says)).toMatch(
      /AM4, and your board has LGA1200\..*No processor on our shelf fits your board\.$/,
    )
  })
  test.each([
    ['one left out by a wish might fit', [out('P-NEW'), out('P-2', 'no used parts')]],
    ['one that is not ruled out fits', [out('P-2')]],
  ])('not when %s', (_, ruledOut) => {
    expect(JSON.stringify(board(ruledOut))).not.toContain('No processor on our shelf')
  })
})

describe('the target is reached already', () => {
  const reached = { today: RANKING.today, titlesAtTargetToday: 3 }
  const vague = { ...KIT, useful: undefined, gains: [] }

  test('options without any number are not looked at', () => {
    const { roads } = letterOf(answerOf({ ranking: { ...NOTHING, ...reached, withoutNumber: [vague] } }))
    expect(roads).toBeUndefined()
  })
  test('what has a number is', () => {
    const answer = answerOf({ ranking: { ...NOTHING, ...reached, ranked: [KIT], withoutNumber: [vague] } })
    expect(letterOf(answer).roads?.items).toHaveLength(1)
  })
})

describe('memory that the board takes', () => {
  const memory = (missing: Finding['missing']) => {
    const kit = {
      ...UNCLEAR,
      findings: [finding({ rule: 'memory.perSlot', verdict: "can't tell", missing })],
    }
    const { board } = letterOf(answerOf({ ranking: { ...NOTHING, needsAFact: [kit] } }))
    return board?.items.find((i) => i.what.startsWith('DDR4 memory'))
  }
  test('is a promise while nothing in the letter doubts it', () => {
    expect(memory([{ limit: 'cardRoomMm' }])).toMatchObject({ verdict: 'fits' })
  })
  test.each(['memoryPerSlotMaxGB', 'memorySlots'] as const)('is none while %s is open', (limit) => {
    const row = memory([{ limit }])
    expect(row?.verdict).toBe("can't tell")
    expect(lines(row?.says)).toBe(
      'Up to 64 GB by the board’s page; how it is split over the slots, we check.',
    )
  })
})

describe('work without a part', () => {
  const work = (priceMinor: number, rest: Partial<Option> = {}): Option => {
    const made = option({
      parts: [],
      work: ['memory profile on'],
      lines: [line('work', 'memory profile on', priceMinor, { minutes: 10 })],
      gains: [gain('winter', 59, 66, { slow: [40, 45] })],
      useful: useful(9, 2),
      titlesAtTarget: 3,
    })
    return {
      ...made,
      price: { ...made.price, costsNothing: priceMinor === 0, paysForItself: false },
      ...rest,
    }
  }
  const of = (o: Option) => letterOf(ranked(o), { pickId: o.id })

  test('a free one says so in subject, lead, strip and price, and gives no day until which that holds', () => {
    const letter = of(work(0))
    expect(letter.subject).toBe('M-0042: try this first, it costs nothing')
    expect(plain(letter.lead.answer)).toBe(
      'Try this first, it costs nothing: Long Winter goes from 59 to 66 FPS.',
    )
    expect(letter.pick?.figures[0]).toEqual({ figure: 'nothing', what: 'to pay' })
    expect(letter.price?.notes).toEqual(['It costs nothing.'])
    expect(JSON.stringify(letter)).not.toMatch(/pays for itself|good until|In exchange/)
  })
  test('a free one that adds nothing is not praised', () => {
    const letter = of(work(0, { gains: [gain('winter', 59, 59)] }))
    expect(plain(letter.lead.answer)).toBe('It costs nothing and adds little: Long Winter stays near 59 FPS.')
  })
  test('a free one that is not known to work asks for the fact', () => {
    const letter = of(work(0, { verdict: "can't tell", findings: [NO_ROOM_KNOWN] }))
    expect(letter.subject).toBe('M-0042: one check, then we know')
    expect(letter.reply.words).toBe('Reply with the answer')
  })
  test('a priced one is tried first, for its price', () => {
    const letter = of(work(2_500))
    expect(plain(letter.lead.answer)).toBe('Try this first: Long Winter goes from 59 to 66 FPS, for $25.')
    expect(letter.pick?.figures[0]).toEqual({ figure: '$25', what: 'in all' })
    expect(letter.reply.words).toBe('Reply “yes, do it”')
  })
  test('beside a part that is recommended, the free thing comes first among the roads', () => {
    const { roads } = letterOf(ranked(CARD, KIT, work(0, { useful: useful(5, 1) })))
    expect(roads?.items[0]?.what).toBe('Switching the memory profile on, costs nothing')
    expect(roads?.items[0]?.says[0]).toBe('Try this first.')
    expect(roads?.items.map((i) => i.what)).toHaveLength(2)
  })
  test('in a chat it is something to do', () => {
    const text = chatTextOf(ranked(work(0)), { pickId: 'memory profile on' })
    expect(text).toContain('it costs nothing')
    expect(text).toContain('reply “yes, do it”')
  })
})

test('a part too large for two reasons has both', () => {
  const second = finding({
    rule: 'graphics.length',
    verdict: 'does not fit',
    partId: 'C-BIG',
    values: { cardMm: 300, overMm: 14, roomMm: 286 },
  })
  const { board } = letterOf(
    answerOf({
      ranking: { ...NOTHING, ruledOut: [{ ...TOO_BIG, findings: [...TOO_BIG.findings, second] }] },
    }),
  )
  expect(lines(board?.items.find((i) => i.what.includes('Longbow'))?.says)).toMatch(
    /your case has 2\. It is 300 mm long, 14 mm too long for your case\.$/,
  )
})
