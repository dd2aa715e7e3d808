import { bench, describe } from 'vitest'
import { compileFrame } from '../../src/mail/frame.ts'
import { MAILS } from '../../src/mail/mails.ts'
import { answerOf, CARD } from '../words/answers.ts'

// Customised mails a second on one core, beside a plain string fill of the same frame in the same run: both put a name,
// a machine and a price into finished HTML; the mail also says everything anew, in the reader's language, and makes the
// text part. Read the ratio.

const answers = Array.from({ length: 50 }, (_, i) =>
  answerOf({
    customer: {
      id: `K-${i}`,
      name: `Owner ${i}`,
      email: `owner${i}@example.org`,
      language: i % 2 === 0 ? 'en' : 'de',
    },
  }),
)

const offer = (i: number) =>
  MAILS.offer.says({
    answer: answers[i % answers.length] ?? answerOf(),
    pickId: CARD.id,
    saidYesAt: '2026-05-12T10:00:00.000Z',
    offeredTo: 50,
    yesHref: `https://bench.example/y/${i}`,
    optOutHref: `https://bench.example/u/${i}`,
  })

const drawn = await MAILS.offer.draw(offer(0))
/** The finished mail as a template with three holes: what a mail merge does. */
const template = drawn.html
  .replaceAll('Owner', '{name}')
  .replaceAll('M-0042', '{tag}')
  .replaceAll('$142', '{price}')
let n = 0

describe('customised mails on one core', () => {
  bench('an offer: words, HTML and text', async () => {
    await MAILS.offer.draw(offer(n++))
  })
  bench('plain string fill of as much HTML', () => {
    const values = { name: `Owner ${n++}`, tag: 'M-0042', price: '$142' }
    template.replace(/\{(name|tag|price)\}/g, (_, key: keyof typeof values) => values[key])
  })
})

describe('once a start', () => {
  bench('the frame compiled by MJML', async () => {
    await compileFrame(new URL('../../emails/notice.mjml', import.meta.url))
  })
})
