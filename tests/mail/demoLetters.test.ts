import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { emlOf } from '../../src/mail/eml.ts'
import { renderAnswer } from '../../src/mail/render.ts'
import { CHAT_MOST } from '../../src/words/answer/chat.ts'
import { PREHEADER_MOST, SUBJECT_MOST } from '../../src/words/answer/lead.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { type DemoShop, openDemoShop, QUESTIONS, type QuestionId } from '../demo/openDemoShop.ts'
import { proseOf, sentencesOf, wordsIn } from '../words/prose.ts'

// The invented demo shop's questions, as letters; the laws are those of tests/words/answerWriting.test.ts.
let shop: DemoShop
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(() => shop.close())

describe.each(QUESTIONS)('%s', (id: QuestionId) => {
  test('sentences are short, counting a part’s name as two words', () => {
    const answer = shop.answerTo(id)
    const names = answer.inputs.parts.map((p) => p.name).sort((a, b) => b.length - a.length)
    const prose = proseOf(letterOf(answer)).map((p) =>
      names.reduce((s, n) => s.replaceAll(n, 'Maker Model'), p),
    )
    const lengths = sentencesOf(prose).map(wordsIn)
    expect(lengths.length).toBeGreaterThan(20)
    expect(sentencesOf(prose).filter((s) => wordsIn(s) > 22)).toEqual([])
    expect(lengths.reduce((a, b) => a + b, 0) / lengths.length).toBeLessThanOrEqual(13)
  })

  test('subject, preheader, chat text and mail keep to their sizes', async () => {
    const letter = letterOf(shop.answerTo(id))
    expect(letter.subject.length).toBeLessThanOrEqual(SUBJECT_MOST)
    expect(letter.preheader.length).toBeLessThanOrEqual(PREHEADER_MOST)
    expect(chatTextOf(shop.answerTo(id)).length).toBeLessThanOrEqual(CHAT_MOST)
    const { html, text, subject } = await renderAnswer(letter)
    expect(Buffer.byteLength(html)).toBeLessThan(100_000)
    const eml = await emlOf({
      from: { name: letter.shopName, address: 'bench@example.org' },
      subject,
      html,
      text,
      messageId: `<${id}@example.org>`,
      date: shop.answerTo(id).at,
    })
    expect(eml.length).toBeGreaterThan(text.length)
  })

  test('the price lines add up to what is paid', () => {
    const rows = letterOf(shop.answerTo(id)).price?.rows ?? []
    const amount = (s: string) => Math.round(Number(s.replace('\u2212', '-').replace(/[$,]/g, '')) * 100)
    const lines = rows.filter((r) => !r.sum).map((r) => amount(r.figure))
    const sum = rows.find((r) => r.sum)
    expect(sum === undefined ? 0 : amount(sum.figure)).toBe(lines.reduce((a, b) => a + b, 0))
  })
})

// The story of fixtures/README.md: which answer each question gets, and what it costs.
test.each([
  ['Q-0301', 'M-0207: two of three games reach 60 FPS, $191'],
  ['Q-0302', 'M-0195: one check, then we know'],
  ['Q-0305', 'M-0214: we would not buy that one'],
  ['Q-0306', 'M-0219: you already average 60 FPS'],
  ['Q-0307', 'M-0198: nothing worth it for $60'],
  ['Q-0308', 'M-0186: two checks, then we know'],
  ['Q-0309', 'M-0224: try this first, it costs nothing'],
] as const)('%s is answered "%s"', (id, subject) => {
  expect(letterOf(shop.answerTo(id)).subject.replaceAll('\u00a0', ' ')).toBe(subject)
})

test('a pick of work alone reads as something to do, not as something to buy', async () => {
  const letter = letterOf(shop.answerTo('Q-0309'))
  const plain = (text: string) => text.replaceAll('\u00a0', ' ')
  expect(plain(letter.lead.answer)).toBe(
    'Try this first, it costs nothing: Peat and Copper goes from 59 to 66 FPS.',
  )
  expect(letter.reply.words).toBe('Reply “yes, do it”')
  expect(letter.pick?.grade?.says).toBe('We ran your games without it, and with it.')
  expect(letter.pick?.reason.map(plain)).toEqual([
    'With its profile on, your memory can run at its rated 3200 MT/s (million transfers a second).',
    'Your processor is rated for 2666 MT/s: above it most run, but it is not guaranteed.',
    'Nothing has to be bought for it.',
  ])
  // Nobody opens the machine for it, so no caution about the supply stands there.
  expect(letter.handsIn).toMatchObject({
    itemsHead: 'Before you start',
    items: ['Copy your files to another drive first.'],
    wayOut: 'Rather not? We do it in 10\u00a0minutes, and it costs nothing.',
  })
  const { text } = await renderAnswer(letter)
  for (const words of ['goes into your machine', 'fit it', 'new part', 'pays for itself', 'just'])
    expect(text.split('In your games')[0]).not.toContain(words)
})
