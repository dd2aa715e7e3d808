import { describe, expect, test } from 'vitest'
import type { TitleGain } from '../../src/core/gain/gain.ts'
import type { Option } from '../../src/core/ranking/option.ts'
import { textOf } from '../../src/mail/text.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { answerOf, CARD, gain, RANKING, useful } from './answers.ts'

// What a customer reads of each grade; the answers are put together by hand (invented).

type Known = Exclude<TitleGain, { grade: 'no number' }>
const known = (...args: Parameters<typeof gain>): Known => gain(...args) as Known

const unrun = (end: Known['after']): Known['after'] => ({ ...end, runIds: [], onThisMachine: false })

/** Nobody ran it with the new card; today is a run of this machine. */
const half = (titleId: string, before: number, after: number, low: number, high: number): Known => {
  const g = known(titleId, before, after, { low, high, grade: 'half measured' })
  return { ...g, after: unrun(g.after), sdBefore: 0.01, sdAfter: 0.06 }
}
const estimated = (titleId: string, before: number, after: number, low: number, high: number): Known => {
  const g = half(titleId, before, after, low, high)
  return { ...g, grade: 'estimated', before: unrun(g.before) }
}

const plain = (text: string) => text.replaceAll('\u00a0', ' ').replace(/\s+/g, ' ')

/** The letter about the card with these gains, which are in the order of the canned question: harbor, rally, winter. */
function read(gains: readonly TitleGain[], rest: Partial<Option> = {}) {
  const card: Option = { ...CARD, gains, ...rest }
  const ranking = { ...RANKING, ranked: RANKING.ranked.map((o) => (o.id === CARD.id ? card : o)) }
  const answer = answerOf({ ranking })
  const letter = letterOf(answer, { pickId: CARD.id })
  return {
    letter,
    lead: plain([letter.lead.answer, ...letter.lead.more].join(' ')),
    text: plain(textOf(letter)),
    chat: plain(chatTextOf(answer, { pickId: CARD.id })),
    subject: plain(letter.subject),
  }
}

const HALF = [
  half('harbor', 51.2, 73.4, 66.2, 81.4),
  half('rally', 115, 117, 104, 131),
  half('winter', 42.3, 63.1, 58.4, 68.2),
]

describe('half measured', () => {
  const said = () => read(HALF, { useful: useful(28, 6, { grade: 'half measured' }), titlesAtTarget: 2 })

  test('the first sentence names the estimate with its interval, outwards to whole frames', () => {
    expect(said().lead).toMatch(/goes from 51 to about 73 FPS \(estimated, 66 to 82\), for \$/)
    expect(said().chat).toMatch(/about 73 FPS \(estimated, 66 to 82\)/)
  })

  test('the subject says about, and is short enough for a phone', () => {
    expect(said().subject).toMatch(/about 63 FPS|\d of \w+ games|reach/)
    expect(said().subject.length).toBeLessThanOrEqual(50)
  })

  test('each row says in its own sentence that it is estimated', () => {
    const rows = said().letter.games?.rows.map((r) => plain(r.says.map((p) => p.text).join(''))) ?? []
    expect(rows).toHaveLength(3)
    for (const row of rows) expect(row).toMatch(/estimated/)
    expect(rows[0]).toBe(
      'From 51 to about 73 FPS, estimated from runs of other machines: between 66 and 82 in four of five cases.',
    )
  })

  test('nothing that nobody ran is called measured', () => {
    expect(said().text).not.toMatch(/[Mm]easured on another machine|We measured it on|All of it measured/)
    expect(said().text).toContain('The figures of today are measured, those of afterwards worked out.')
  })
})

describe('estimated', () => {
  const gains = [
    estimated('harbor', 51.2, 73.4, 66.2, 81.4),
    estimated('rally', 115, 117, 104, 131),
    estimated('winter', 42.3, 63.1, 58.4, 68.2),
  ]
  const said = () => read(gains, { useful: useful(28, 8, { grade: 'estimated' }), titlesAtTarget: 2 })

  test('today is about, afterwards an estimate', () => {
    expect(said().lead).toContain('goes from about 51 to about 73 FPS (estimated, 66 to 82)')
    expect(said().text).toContain(
      'We worked it out from runs of similar machines. Nobody has run this pair yet.',
    )
  })

  test('no run of these parts is named, because there is none', () => {
    expect(said().text).not.toMatch(/The newest runs?/)
  })
})

describe('near the target', () => {
  // ln(63.1/60) / 0.06 = 0.84: Phi = 0.80 just reaches; at 61 FPS, 0.28: 0.61, it may; at 55: -1.45, 0.07, it does not.
  test('what surely reaches it, what may, and what does not are told apart', () => {
    const gains = [
      half('harbor', 51.2, 73.4, 66.2, 81.4),
      half('rally', 45, 61, 57, 66),
      half('winter', 42.3, 55, 51, 59),
    ]
    const { lead } = read(gains, { titlesAtTarget: 1 })
    expect(lead).toContain(
      'One of your three games then averages 60 FPS or more. Ninefold Rally (57 to 66 FPS) may reach that or stay below it, so we do not promise 60 FPS there.',
    )
    expect(lead).toMatch(/stays below, at about 55 FPS \(estimated, 51 to 59\)\./)
    expect(lead).not.toMatch(/Rally[^.]*stays below/)
  })

  test('where none surely does, those that may are not called reached', () => {
    const gains = [
      half('harbor', 51.2, 61, 57, 66),
      half('rally', 45, 61, 57, 66),
      half('winter', 42.3, 55, 51, 59),
    ]
    const { lead } = read(gains, { titlesAtTarget: 0 })
    expect(lead).toContain(
      'Salt Harbor (57 to 66 FPS) and Ninefold Rally (57 to 66 FPS) may reach 60 FPS or stay below it, so we do not promise 60 FPS there.',
    )
    expect(lead).not.toMatch(/then reach/)
  })
})

describe('odd numbers', () => {
  const [first, second, third] = HALF as [Known, Known, Known]
  const withFirst = (odd: Partial<Known>) => read([{ ...first, ...odd }, second, third])

  test('the processor sets the pace: in frames, without a percentage', () => {
    const { text } = withFirst({
      ...known('harbor', 51.2, 52.4, { low: 50.9, high: 53.6 }),
      processorLimits: { before: 0.95, after: 0.99 },
    })
    // 50.9 - 51.2 is below nothing, so 0; 53.6 - 51.2 = 2.4, outwards 3.
    expect(text).toContain('The processor sets the pace here; a faster card adds 0 to 3 FPS.')
    expect(text).not.toMatch(/9[59] ?%/)
  })

  test('less sure of it, it says mostly; below that, nothing', () => {
    expect(withFirst({ processorLimits: { before: 0.7, after: 0.9 } }).text).toContain(
      'The processor mostly sets the pace here',
    )
    expect(withFirst({ processorLimits: { before: 0.5, after: 0.9 } }).text).not.toContain('sets the pace')
  })

  test.each([
    ['an old run', { marks: { before: ['old'], after: [] } }, 'That run is old, so we count it for less.'],
    [
      'another version',
      { marks: { before: ['other version'], after: [] } },
      'That run is of an older version of the game.',
    ],
    [
      'a run that does not fit',
      { marks: { before: [], after: ['flagged'] } },
      'A run of it does not fit the others, so we run it again before we promise.',
    ],
  ] as const)('%s is said', (_, odd, words) => {
    expect(withFirst(odd).text).toContain(words)
  })

  test('of a run that does not fit the lead promises nothing, and tells another game first', () => {
    const flagged = { marks: { before: [], after: ['flagged'] } } as const
    const { lead, subject } = read([first, second, { ...third, ...flagged }], { titlesAtTarget: 1 })
    // Long Winter counts and rises most; where none surely gets there it is the first sentence's game if its runs fit.
    const none = { titlesAtTarget: 0 }
    expect(read([second, third], none).lead).toMatch(/^Partly: Long Winter goes/)
    expect(read([second, { ...third, ...flagged }], none).lead).toMatch(/^Partly: (?!Long Winter)/)
    expect(lead).toMatch(/^Partly: (?!Long Winter)/)
    expect(lead).toContain(
      'A run of Long Winter does not fit the others. We run it again before we promise there.',
    )
    expect(subject).not.toContain('Long Winter')
  })

  test('at a cap it is at least', () => {
    const { text } = withFirst({ atLeast: { before: false, after: true } })
    expect(text).toMatch(/to at least about 73 FPS/)
    expect(text).toContain('Something stops it at that frame rate, so it may be more.')
  })
})
