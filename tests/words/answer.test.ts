import { describe, expect, test } from 'vitest'
import { CHAT_MOST } from '../../src/words/answer/chat.ts'
import { BARS_MOST } from '../../src/words/answer/games.ts'
import { chatTextOf, letterOf, pickOf } from '../../src/words/answer.ts'
import { joinPieces } from '../../src/words/say.ts'
import {
  answerOf,
  CARD,
  finding,
  gain,
  KINDS,
  KIT,
  line,
  NO_SLOTS,
  NOTHING,
  option,
  PAIR,
  RANKING,
  SHELF,
  TOO_BIG,
  UNCLEAR,
  useful,
} from './answers.ts'

// Figures and sums are worked by hand beside the invented fixture in answers.ts; the wording rules are those of
// words.md, our own. Hard spaces are read as spaces here; figures.test.ts holds where they stand.
const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const kind = (name: string) => {
  const answer = KINDS[name]
  if (answer === undefined) throw new Error(`no fixture "${name}"`)
  return answer
}
const says = (items: readonly { what: string; says: readonly string[] }[] | undefined, what: string) =>
  plain(items?.find((i) => i.what.includes(what))?.says.join(' ') ?? `(nothing about ${what})`)

describe('a yes', () => {
  const letter = letterOf(answerOf())

  test('subject, first sentence and slow moments name the game that was below 60', () => {
    expect(plain(letter.subject)).toBe('M-0042: yes, 60 FPS in three games, for $142')
    expect(plain(letter.lead.answer)).toBe('Yes on average: Long Winter goes from 42 to 63 FPS, for $142.')
    expect(plain(letter.lead.more.join(' '))).toBe(
      'FPS means pictures a second. All three of your games then average 60 FPS or more. These are averages, not held all the time: in slow moments Long Winter drops to about 47.',
    )
  })

  test('greets by the first name and quotes the question with its date', () => {
    expect(letter.greeting).toBe('Hello Imke,')
    expect(plain(letter.asked)).toBe(
      'on November 26, 2026 you asked (wanted: at least 60 FPS, for about $200):',
    )
    expect(letter.question).toBe('“Can it hold 60 in the new one, for about $200?”')
  })

  test('the strip: verdict, reason, grade and two figures', () => {
    expect(letter.pick).toMatchObject({
      what: 'Quarrel 8G graphics card, used',
      verdict: 'fits slower',
      word: 'fits, runs below its rating',
      grade: { grade: 'measured', word: 'measured' },
      figures: [
        { figure: '$142', what: 'in all, fitting included, if we keep your old graphics card' },
        { figure: '+29%', what: 'in pictures you can see, on average over three games' },
      ],
    })
    expect(plain(letter.pick?.reason.join(' ') ?? '')).toBe(
      'Your slot carries less data than this card could use: 7.9 GB/s (billion bytes a second) of 15.8 GB/s. The figures here already count it.',
    )
    expect(letter.pick?.useful.at(-1)).toBe('In four of five cases it is between 26% and 32%.')
  })

  test('games: the first interval in full, then short, outward to whole frames', () => {
    const rows = letter.games?.rows.map((r) => plain(joinPieces(r.says)))
    expect(rows).toEqual([
      'From 51 to 73 FPS, between 70 and 76 in four of five cases.',
      'From 115 to 117 FPS (112 to 122): no gain you can see.',
      'From 42 to 63 FPS (60 to 66).',
    ])
    expect(letter.games?.rows.map((r) => plain(r.notes.join(' ')))).toEqual([
      'We promise at least 70 FPS. Slow moments (1% low: 99 of 100 pictures come faster): from 38 to 52 FPS.',
      'We promise at least 112 FPS. Your display shows 75 a second. Slow moments: from 82 to 84 FPS.',
      'We promise at least 60 FPS. Slow moments: from 31 to 47 FPS.',
    ])
  })

  test('the price adds up: 165 + 10 + 5 - 38 = 142, and without the old card 180', () => {
    expect(letter.price?.rows.map((r) => [r.what, r.figure])).toEqual([
      ['Quarrel 8G graphics card, used', '$165'],
      ['Opening and closing the machine', '$10'],
      ['Fitting the graphics card', '$5'],
      ['Minus your old Quarrel 4G graphics card, which we keep', '\u2212$38'],
      ['You pay', '$142'],
    ])
    expect(plain(letter.price?.notes.join(' ') ?? '')).toBe(
      'This price is good until December 12, 2026. The work takes about 25 minutes in all; what it costs is in this sum. One on the shelf, and we don’t hold it. If it is sold first, we write to you before any work. We test your old graphics card first. If it fails, or if you would rather keep it, the price is $180. To keep it, reply “yes, fit it, and I keep my old part”.',
    )
  })

  test('two other roads: one cheaper, one stronger that we would not buy', () => {
    expect(letter.roads?.items.map((i) => [i.word, plain(i.what)])).toEqual([
      ['fits', 'Tandem 2×8 memory kit, $31 in all, fitting included'],
      [
        'fits after work',
        'Hexa 6C processor (open box) and Quarrel 8G graphics card (used), $236 in all, fitting included, if we keep your old graphics card',
      ],
    ])
    expect(says(letter.roads?.items, 'Tandem')).toBe(
      'Cheaper. Long Winter goes from 42 to 46 FPS (44 to 48), measured. Salt Harbor goes from 51 to 56 FPS (54 to 58), measured. Ninefold Rally goes from 115 to 117 FPS (112 to 122), measured. One of three games averages 60 FPS or more. Which memory is in it now, we have not written down. With slots to spare it stays in, else it comes out; it is yours either way. If you would rather have this, reply “yes, the cheaper one”.',
    )
    // 236 - 142 = $94 for 64 - 63 = 1 FPS; 1.31 / 1.29 is 1.6 %, below the shop's 5 %.
    expect(says(letter.roads?.items, 'Hexa')).toContain(
      'In Long Winter that is 1 FPS more, for $94 more. We would not buy it for these games.',
    )
    expect(says(letter.roads?.items, 'Hexa')).toContain('Stronger, and above your $200.')
  })

  test('the board: best to worst, one reason each, and how to find out', () => {
    expect(letter.board?.items.map((i) => i.word)).toEqual([
      'fits',
      'can’t tell',
      'does not fit',
      'does not fit',
    ])
    expect(says(letter.board?.items, 'Processors for another socket')).toBe(
      'Only another board changes that.',
    )
    expect(says(letter.board?.items, 'Broadside')).toMatch(
      /^Above your \$200\. No FPS yet: we never ran your games with it\./,
    )
    expect(says(letter.board?.items, 'Broadside')).toMatch(
      /267 mm long.*never measured.*Measure from the metal plate at the back of the slots/,
    )
    expect(says(letter.board?.items, 'Longbow')).toBe('It takes the room of 4 slots, and your case has 2.')
  })

  test('cautions and the way out: 10 + 15 minutes, $10 + $5', () => {
    expect(plain(letter.handsIn?.lead.join(' ') ?? '')).toBe(
      'Then you pay for the parts without fitting: $165, or $127 if we keep your old graphics card. For $165, reply “yes, I fit it myself, and I keep my old part”. For $127, reply “yes, I fit it myself, and you keep my old part”. Afterwards you tell us the FPS you see, and we compare.',
    )
    expect(letter.handsIn?.items[0]).toMatch(/^Shut down\. Switch the supply off\./)
    expect(letter.handsIn?.items).toContain('Never open the power supply.')
    expect(plain(letter.handsIn?.wayOut ?? '')).toBe(
      'Rather not? We do it, in about 25 minutes. The $15 for that is in the price above.',
    )
  })

  test('how we know: each grade of the letter once, and the dates of the runs', () => {
    expect(letter.known?.grades.map((g) => g.word)).toEqual(['Measured', 'Estimated'])
    expect(plain(letter.known?.more[0] ?? '')).toBe(
      'The newest run with your parts is from September 12, 2026; with the new ones, from October 3, 2026.',
    )
    expect(letter.sign).toEqual(['Kind regards,', 'Jorit, Wrenfold Bench'])
  })

  test('to say yes, one reply with the tag in its subject', () => {
    expect(letter.reply.href).toBe('mailto:bench@wrenfold.example?subject=M-0042%3A%20yes%2C%20fit%20it')
  })
})

describe('the other honest answers', () => {
  test.each([
    [
      'partly',
      'M-0042: two of three games reach 60 FPS, $142',
      'Partly: Salt Harbor goes from 51 to 73 FPS, for $142.',
    ],
    [
      'above the budget',
      'M-0042: nothing worth it for $200',
      'For $200 nothing on our shelf adds enough to be worth it.',
    ],
    [
      'need a fact',
      'M-0042: one check, then we know',
      'One missing fact decides: room for a graphics card. Tell us, and we can answer.',
    ],
    [
      'need a run',
      'M-0042: it fits; one run, then a number',
      'Quarrel 8G graphics card (used) goes in, for $142, but we have no number for your games yet.',
    ],
    [
      'not worth it',
      'M-0042: keep your money for now',
      'Nothing on our shelf adds enough to be worth your money today.',
    ],
    [
      'nothing fits',
      'M-0042: nothing on our shelf goes in today',
      'None of the parts on our shelf today goes into your machine.',
    ],
    [
      'reached already',
      'M-0042: you already average 60 FPS',
      'Your three games already average 60 FPS or more.',
    ],
    [
      'no games',
      'M-0042: which games do you play?',
      'Tell us which games you play, and we can put numbers on it.',
    ],
  ])('%s', (name, subject, answer) => {
    const letter = letterOf(kind(name))
    expect(plain(letter.subject)).toBe(subject)
    expect(plain(letter.lead.answer)).toBe(answer)
  })

  test.each(['not worth it', 'nothing fits', 'reached already'])('%s: keep your money', (name) => {
    const letter = letterOf(kind(name))
    expect(letter.lead.more).toContain('Keep your money for now.')
    expect(letter.price).toBeUndefined()
    expect(letter.pick).toBeUndefined()
  })

  test('what was looked at and not worth it is named with its price', () => {
    expect(says(letterOf(kind('not worth it')).roads?.items, 'Tandem')).toContain(
      'It fits, and we would not buy it: 2 FPS more in Long Winter, for $31.',
    )
  })

  test('a missing fact names what it decides, and asking to look inside brings the cautions', () => {
    const letter = letterOf(kind('need a fact'))
    expect(letter.lead.more.slice(0, 2)).toEqual([
      'It decides whether this goes in: Broadside 12G graphics card.',
      'If it goes in, it costs $210 in all, fitting included, if we keep your old graphics card.',
    ])
    expect(letter.handsIn?.items.length).toBeGreaterThan(3)
    expect(letter.reply.words).toBe('Reply with the answer')
  })

  test('a number that is missing is said with its reason, and which run would give it', () => {
    const { games, pick } = letterOf(kind('one number missing'))
    expect(games?.rows.slice(1).map((r) => plain([joinPieces(r.says), ...r.notes].join(' ')))).toEqual([
      'Today 115 FPS. For afterwards we have no number yet. We never ran it with the new part.',
      'No number yet. We never ran it, neither with your parts nor with the new ones.',
    ])
    expect(games?.more[0]).toBe(
      'A run with Quarrel 8G graphics card in a machine like yours would give a number for Ninefold Rally and Long Winter.',
    )
    expect(pick?.useful.at(-1)).toBe('Left out: Ninefold Rally and Long Winter. We have no number there.')
  })

  test('an option that cannot be told is never a yes, whatever its gains', () => {
    const unsure = { ...CARD, verdict: "can't tell" as const, findings: UNCLEAR.findings }
    const letter = letterOf(answerOf({ ranking: { ...NOTHING, needsAFact: [unsure] } }), {
      pickId: unsure.id,
    })
    expect(letter.subject).toBe('M-0042: one check, then we know')
    expect(letter.lead.answer).not.toMatch(/yes/i)
    expect(letter.reply.words).toBe('Reply with the answer')
  })

  test('an old part worth more than the new one costs: the reader gets money back', () => {
    const swap = {
      ...CARD,
      ...option({
        parts: ['C-NEW'],
        lines: [line('part', 'C-NEW', 3_000), line('trade-in', 'C-OLD', -3_800)],
      }),
      gains: CARD.gains,
      useful: CARD.useful,
      pctPer100: undefined,
      worthTheVisit: true,
      titlesAtTarget: 3,
    }
    const letter = letterOf(answerOf({ ranking: { ...RANKING, ranked: [swap] } }))
    expect(plain(letter.lead.answer)).toBe('You even get $8 back: Long Winter goes from 42 to 63 FPS.')
    expect(letter.pick?.figures.map((f) => f.what)).toEqual([
      'you get back',
      'in pictures you can see, on average over three games',
    ])
    expect(letter.price?.rows.at(-1)).toMatchObject({ what: 'You get back', figure: '$8' })
  })

  test('slower than today is said so', () => {
    const slower = { ...CARD, gains: [gain('winter', 68.9, 58.7, { low: 55, high: 62 })] }
    const { games, lead } = letterOf(answerOf({ ranking: { ...RANKING, ranked: [slower] } }))
    expect(plain(joinPieces(games?.rows[0]?.says ?? []))).toBe(
      'From 69 to 59 FPS (55 to 62): slower than today.',
    )
    expect(plain(lead.answer)).toBe('It fits and adds little: Long Winter stays near 59 FPS, for $142.')
  })

  test('runs from other machines, and runs that do not agree, are said', () => {
    const odd = [
      gain('harbor', 51, 73, { low: 70, high: 76 }),
      gain('winter', 42, 63, { low: 60, high: 66, elsewhere: true }),
      gain('rally', 42, 63, { low: 60, high: 66, disagrees: true }),
    ]
    const { games } = letterOf(answerOf({ ranking: { ...RANKING, ranked: [{ ...CARD, gains: odd }] } }))
    const notes = (at: number) => games?.rows[at]?.notes.map(plain)
    expect(notes(0)).toEqual([
      'We promise at least 70 FPS.',
      'Afterwards: measured on another machine that has the new part.',
    ])
    expect(notes(1)).toEqual([
      'We promise at least 60 FPS.',
      'Measured on another machine with the same parts.',
    ])
    const [, , unsure] = games?.rows ?? []
    expect([joinPieces(unsure?.says ?? []), ...(unsure?.notes ?? [])]).toEqual([
      'Our runs of it disagree.',
      'We run it again before we promise.',
    ])
    expect(games?.intro.join(' ')).not.toContain('All of it measured')
  })

  test('level for the money is said, not ranked', () => {
    const ranking = {
      ...RANKING,
      ranked: [CARD, { ...KIT, useful: useful(8, 3) }],
      groups: [[CARD.id, KIT.id]],
    }
    expect(says(letterOf(answerOf({ ranking })).roads?.items, 'Tandem')).toContain(
      'For the money these two are level. One gives more, the other costs less.',
    )
  })
})

describe('which option is recommended', () => {
  const pick = (ranking: Partial<typeof RANKING>) =>
    pickOf(answerOf({ ranking: { ...RANKING, ...ranking } }))?.id

  test('the cheapest to the target within the budget, before the best in the budget', () => {
    expect(pick({ cheapestToTargetId: CARD.id, bestInBudgetId: KIT.id, bestPerMoneyId: KIT.id })).toBe(
      CARD.id,
    )
  })
  test('the best in the budget, when the target costs more', () => {
    expect(pick({ cheapestToTargetId: PAIR.id, bestInBudgetId: CARD.id, bestPerMoneyId: KIT.id })).toBe(
      CARD.id,
    )
  })
  test('nothing above the budget, however good', () => {
    expect(pick({ cheapestToTargetId: PAIR.id, bestInBudgetId: undefined, bestPerMoneyId: PAIR.id })).toBe(
      undefined,
    )
  })
  test('the best per money, when the owner named no budget', () => {
    const free = { ...PAIR, withinBudget: true }
    const picks = { cheapestToTargetId: undefined, bestInBudgetId: undefined, bestPerMoneyId: PAIR.id }
    expect(pick({ ranked: [CARD, KIT, free], ...picks })).toBe(PAIR.id)
  })
  test('nothing below the shop’s smallest gain', () => {
    expect(pick({ ranked: [{ ...CARD, worthTheVisit: false }], cheapestToTargetId: CARD.id })).toBeUndefined()
  })
  test('nothing when the target is reached today', () => {
    expect(pick({ titlesAtTargetToday: 3 })).toBeUndefined()
  })
  test('what the builder chooses, also below the floor, and then it is said', () => {
    const small = { ...KIT, useful: useful(2, 1), worthTheVisit: false }
    const letter = letterOf(answerOf({ ranking: { ...RANKING, ranked: [small] } }), { pickId: KIT.id })
    expect(letter.pick?.what).toBe('Tandem 2×8 memory kit, new')
    expect(letter.lead.more.at(-1)).toBe('It fits, and we would not buy it.')
  })
  test('an id that the answer does not have is a fault', () => {
    expect(() => letterOf(answerOf(), { pickId: 'K-GONE' })).toThrow('K-GONE')
  })
})

describe('the builder’s words', () => {
  test('subject, opening and closing are kept as typed, on their lines', () => {
    const letter = letterOf(answerOf(), {
      subject: ' About your card\r\nBcc: x ',
      opening: 'One.\n\nTwo.',
      closing: 'See you!',
    })
    expect(letter.subject).toBe('About your card Bcc: x')
    expect(letter.opening).toEqual(['One.', 'Two.'])
    expect(letter.closing).toEqual(['See you!'])
  })

  test('an emptied subject falls back to ours', () => {
    expect(letterOf(answerOf(), { subject: '  ' }).subject).toBe(letterOf(answerOf()).subject)
  })

  test('edits change no figure', () => {
    const edited = letterOf(answerOf(), { opening: 'Only $1 and 999 FPS!', subject: 'x' })
    const { opening: _o, subject: _s, ...rest } = edited
    const { opening: _p, subject: _t, ...own } = letterOf(answerOf())
    expect(rest).toEqual(own)
  })
})

describe('odd answers', () => {
  test.each([
    ['no customer', undefined, 'Hello,'],
    ['an empty name', { id: 'K', name: ' ' }, 'Hello,'],
    ['one name', { id: 'K', name: 'Orla' }, 'Hello Orla,'],
    ['a line break in a name', { id: 'K', name: 'Orla\r\nBcc: x' }, 'Hello Orla,'],
  ])('%s', (_, customer, greeting) => expect(letterOf(answerOf({ customer })).greeting).toBe(greeting))

  test('cents anywhere show cents everywhere', () => {
    const odd = { ...KIT, price: { ...KIT.price, netMinor: 3_150, lines: [line('part', 'M-KIT', 3_150)] } }
    const letter = letterOf(answerOf({ ranking: { ...RANKING, ranked: [CARD, odd] } }))
    expect(letter.price?.rows.map((r) => r.figure)).toEqual([
      '$165.00',
      '$10.00',
      '$5.00',
      '\u2212$38.00',
      '$142.00',
    ])
    expect(letter.roads?.items[0]?.what).toBe('Tandem 2×8 memory kit, $31.50 in all, fitting included')
  })

  test('parts, titles and items that nobody knows any more are named by their ids', () => {
    const letter = letterOf(answerOf({ parts: [], shelf: [] }))
    expect(letter.price?.rows[0]).toMatchObject({ what: 'Quarrel 8G graphics card', figure: '$165' })
    expect(letter.price?.rows[3]?.what).toBe('Minus your old C-OLD, which we keep')
  })

  test('from the ninth game on there is no bar, and every game is told', () => {
    const titles = Array.from({ length: 11 }, (_, i) => ({ id: `t${i}`, name: `Game ${i}` }))
    const gains = titles.map((t, i) => gain(t.id, 40 + i, 60 + i, { low: 58 + i, high: 62 + i }))
    const { games } = letterOf(answerOf({ titles, ranking: { ...RANKING, ranked: [{ ...CARD, gains }] } }))
    expect(games?.rows).toHaveLength(11)
    expect(games?.rows.filter((r) => r.bar)).toHaveLength(BARS_MOST)
  })

  test('games at different settings name each', () => {
    const answer = answerOf()
    const [a, ...rest] = answer.inputs.question.wanted
    if (a === undefined) throw new Error('the fixture has titles')
    const question = { ...answer.inputs.question, wanted: [{ ...a, settingId: 'low' }, ...rest] }
    const { games } = letterOf({ ...answer, inputs: { ...answer.inputs, question } })
    expect(games?.rows.map((r) => r.title)).toEqual([
      'Salt Harbor, low',
      'Ninefold Rally, 1920×1080, high',
      'Long Winter, 1920×1080, high',
    ])
  })

  test('parts with one reason are told once; what there is no room for is named', () => {
    const same = Array.from({ length: 5 }, (_, i) => ({
      ...TOO_BIG,
      partId: `E-${i}`,
      shelfItemId: `K-E${i}`,
    }))
    const others = Array.from({ length: 6 }, (_, i) => ({
      ...TOO_BIG,
      partId: `O-${i}`,
      shelfItemId: `K-O${i}`,
      findings: [{ ...NO_SLOTS, values: { ...NO_SLOTS.values, needSlots: 5 + i } }],
    }))
    const { board } = letterOf(answerOf({ ranking: { ...RANKING, ruledOut: [...same, ...others] } }))
    expect(board?.items.filter((i) => i.verdict === 'does not fit').map((i) => i.what)).toEqual([
      'Processors for another socket (where the processor plugs in) than LGA1200, and memory other than DDR4',
      'E-0',
      'O-0',
      'O-1',
      'O-2',
      'O-3',
      'O-4',
      'O-5',
    ])
    expect(says(board?.items, 'E-0')).toMatch(
      /your case has 2\. The same goes for E-1 and E-2\. The same goes for E-3 and E-4\.$/,
    )
    expect(says(board?.items, 'O-5')).toContain('10')
  })

  test('the machine’s own limits take no place from the parts that fit', () => {
    const { board } = letterOf(kind('a full board'))
    expect(board?.items.filter((i) => i.verdict === 'fits').map((i) => plain(i.what))).toEqual([
      'DDR4 memory, up to 64 GB',
      'Graphics cards up to 286 mm long',
      'Coolers up to 158 mm high',
      'Broadside 12G graphics card, $210 in all if we keep your old graphics card',
    ])
  })

  test('a part that is slower in a game says so instead of that it fits', () => {
    const worse = option({
      parts: ['C-LONG'],
      findings: [finding({ rule: 'graphics.length', values: { cardMm: 267, roomMm: 300 } })],
      lines: [line('part', 'C-LONG', 19_000)],
      gains: [gain('winter', 68.9, 58.7, { low: 55, high: 62 })],
      useful: useful(-5, 2),
    })
    const answer = answerOf({ ranking: { ...RANKING, ranked: [CARD, KIT, worse], needsAFact: [] } })
    const letter = letterOf(answer)
    expect(says(letter.board?.items, 'Broadside')).toBe(
      'In Long Winter it is slower than today: from 69 to 59 FPS. It fits, and we would not buy it. Your old graphics card comes out. You keep it, and we pay nothing for it.',
    )
  })

  test('two games are both, and a rate that hardly moves stays near', () => {
    const titles = [
      { id: 'harbor', name: 'Salt Harbor' },
      { id: 'winter', name: 'Long Winter' },
    ]
    const gains = [
      gain('harbor', 59.1, 59.3, { low: 56, high: 62, slow: [34.2, 33.8] }),
      gain('winter', 42, 63, { low: 60, high: 66 }),
    ]
    const letter = letterOf(
      answerOf({ titles, ranking: { ...RANKING, ranked: [{ ...CARD, gains, titlesAtTarget: 2 }] } }),
    )
    expect(letter.lead.more[1]).toBe('Both of your games then average 60\u00a0FPS or more.')
    expect(plain(joinPieces(letter.games?.rows[0]?.says ?? []))).toBe('It stays near 59 FPS (56 to 62).')
    expect(plain(letter.games?.rows[0]?.notes.join(' ') ?? '')).toBe(
      'We promise at least 56 FPS. Slow moments (1% low: 99 of 100 pictures come faster): 34 FPS, as today.',
    )
  })

  test('the game that counts most leads, before the lowest one', () => {
    const answer = answerOf()
    const wanted = answer.inputs.question.wanted.map((w) => ({
      ...w,
      weight: w.titleId === 'harbor' ? 3 : 1,
    }))
    const question = { ...answer.inputs.question, wanted }
    const letter = letterOf({ ...answer, inputs: { ...answer.inputs, question } })
    expect(letter.lead.answer).toContain('Salt Harbor goes from 51 to 73')
  })

  test('the stronger road is the cheapest that brings more games to the target; fewer numbers are no strength', () => {
    const two = { ...CARD, titlesAtTarget: 2 }
    const vague = option({
      parts: ['C-LONG'],
      lines: [line('part', 'C-LONG', 18_000)],
      gains: CARD.gains,
      useful: useful(60, 5, { missingTitleIds: ['rally'] }),
      titlesAtTarget: 2,
    })
    const crumb = option({
      parts: ['C-BIG'],
      lines: [line('part', 'C-BIG', 15_000)],
      gains: CARD.gains,
      useful: useful(30, 3),
      titlesAtTarget: 2,
    })
    const letter = letterOf(answerOf({ ranking: { ...RANKING, ranked: [two, vague, crumb, PAIR] } }))
    expect(letter.roads?.items.map((i) => i.what)).toEqual([
      'Hexa 6C processor (open box) and Quarrel 8G graphics card (used), $236 in all, fitting included, if we keep your old graphics card',
    ])
  })

  test('a part lacking a companion, several reasons, and a wish', () => {
    const { board } = letterOf(
      answerOf({
        ranking: {
          ...RANKING,
          ruledOut: [
            {
              ...TOO_BIG,
              findings: [
                NO_SLOTS,
                { ...NO_SLOTS, rule: 'graphics.length' as const, values: { cardMm: 300, overMm: 14 } },
              ],
              lacking: ['supply'],
            },
            {
              ...TOO_BIG,
              partId: 'P-NEW',
              shelfItemId: 'K-CPU',
              findings: [],
              lacking: [],
              wish: 'no used parts',
            },
          ],
        },
      }),
    )
    expect(says(board?.items, 'Longbow')).toBe(
      'It takes the room of 4 slots, and your case has 2. It needs another supply, and our shelf has none today. So we name no price. And one more reason.',
    )
    expect(board?.more.filter((line) => !line.startsWith('Prices in this list'))).toEqual([
      'Left out because you asked for no used parts: Hexa 6C processor.',
    ])
  })

  test('measured card room is a promise, unknown room is not', () => {
    const known = letterOf(answerOf({ claims: [{ key: 'cardRoomMm', value: 286, source: 'measured' }] }))
    expect(known.board?.items.map((i) => plain(i.what))).toContain('Graphics cards up to 286 mm long')
    const unknown = letterOf(answerOf({ ranking: NOTHING }))
    expect(unknown.board?.items.find((i) => i.what === 'Long graphics cards')?.verdict).toBe("can't tell")
  })

  test('two of one item on the shelf, none, and several items', () => {
    const stock = (quantity: number) =>
      letterOf(answerOf({ shelf: SHELF.map((s) => ({ ...s, quantity })) })).price?.notes.slice(2, 4)
    expect(stock(2)).toEqual([
      'Two on the shelf; we don’t hold them.',
      'If they are sold first, we write to you before any work.',
    ])
    expect(stock(0)?.[0]).toBe('It is not on the shelf today.')
    const { price } = letterOf(kind('above the budget'), { pickId: PAIR.id })
    expect(price?.notes).toContain('Hexa 6C processor: one on the shelf.')
  })

  test('work without a part: no fitting, no cautions for fitting', () => {
    const work = option({
      parts: [],
      work: ['firmware update'],
      lines: [line('work', 'firmware update', 1_500, { minutes: 20 })],
      gains: CARD.gains,
      useful: useful(9, 2),
      titlesAtTarget: 3,
    })
    const letter = letterOf(answerOf({ ranking: { ...NOTHING, ranked: [work] } }), { pickId: work.id })
    expect(letter.pick).toMatchObject({
      what: 'Firmware update',
      figures: [{ figure: '$15', what: 'in all' }, { figure: '+9%' }],
    })
    expect(letter.handsIn?.head).not.toBe('If you would rather fit it yourself')
  })

  test('cautions of a finding stand beside those of every opening', () => {
    const card = { ...CARD, findings: [finding({ cautions: ['seat-connector'] })] }
    const letter = letterOf(answerOf({ ranking: { ...RANKING, ranked: [card] } }))
    expect(letter.handsIn?.items.join(' ')).toContain('16-pin plug fully home')
  })

  test('a locale without a table reads English with its own figures', () => {
    const { lang, lead } = letterOf(answerOf({ shop: { locale: 'fr-FR' } }))
    expect(lang).toBe('en')
    // The dollar of the United States is "$US" in French (Unicode CLDR, fr, currency USD).
    expect(plain(lead.answer)).toBe('Yes on average: Long Winter goes from 42 to 63 FPS, for 142 $US.')
  })
})

describe('for a chat', () => {
  test.each(Object.keys(KINDS))('%s: at most 900 characters, plain, the same answer', (name) => {
    const text = chatTextOf(kind(name))
    const letter = letterOf(kind(name))
    expect(text.length).toBeLessThanOrEqual(CHAT_MOST)
    expect(text).toContain(plain(letter.lead.answer))
    expect(text).toContain('Jorit, Wrenfold Bench')
    expect(text).not.toMatch(/\*|<|https?:|mailto:|\u00a0/)
  })

  test('verdict, price and how to answer are in it', () => {
    const text = chatTextOf(answerOf())
    expect(text).toContain(
      'Quarrel 8G graphics card, used: fits, runs below its rating. Your slot carries less data',
    )
    expect(text).toContain('This price is good until December 12, 2026.')
    expect(text).toContain('reply “yes, fit it”')
  })
})
