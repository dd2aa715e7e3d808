import { simpleParser } from 'mailparser'
import { describe, expect, test } from 'vitest'
import { emlOf, type Message } from '../../src/mail/eml.ts'
import { renderAnswer } from '../../src/mail/render.ts'
import { letterOf } from '../../src/words/answer.ts'
import { answerOf } from '../words/answers.ts'

const BASE: Message = {
  from: { name: 'Wrenfold Bench', address: 'bench@wrenfold.example' },
  to: { name: 'Imke Sander', address: 'imke@example.org' },
  subject: 'M-0042: yes, 60 FPS in three games, for $142',
  html: '<p>Yes: 63\u00a0FPS</p>',
  text: 'Yes: 63 FPS\n',
  messageId: '<answer.Q-1.1@wrenfold.example>',
  date: '2026-11-28T15:00:00.000Z',
}
const made = (more: Partial<Message> = {}) => emlOf({ ...BASE, ...more })
/** Header names as they stand before the first empty line, unfolded (RFC 5322, 2.2.3). */
const headersOf = (eml: Buffer): Map<string, string> => {
  const [head = ''] = eml.toString('latin1').split('\r\n\r\n')
  return new Map(
    head
      .replace(/\r\n[ \t]/g, ' ')
      .split('\r\n')
      .map((l) => [l.slice(0, l.indexOf(':')).toLowerCase(), l.slice(l.indexOf(':') + 2)]),
  )
}

test('RFC 5322, 3.6: Date, From and Message-ID once each, MIME-Version of RFC 2045, 4', async () => {
  const eml = await made()
  const [head = ''] = eml.toString('latin1').split('\r\n\r\n')
  for (const name of ['Date', 'From', 'To', 'Subject', 'Message-ID', 'MIME-Version'])
    expect(head.match(new RegExp(`^${name}:`, 'gim')), name).toHaveLength(1)
  expect(headersOf(eml).get('message-id')).toBe('<answer.Q-1.1@wrenfold.example>')
  expect(headersOf(eml).get('date')).toBe('Sat, 28 Nov 2026 15:00:00 +0000')
})

test('RFC 2046, 5.1.4: multipart/alternative, the text first and the HTML last', async () => {
  const eml = (await made()).toString('latin1')
  expect(eml).toMatch(/^content-type: multipart\/alternative;/im)
  const types = [...eml.matchAll(/^content-type: (text\/\w+); charset=utf-8/gim)].map((m) => m[1])
  expect(types).toEqual(['text/plain', 'text/html'])
})

test('RFC 5322, 2.1.1 and 2.3: CRLF alone ends lines, none over 998, ASCII only', async () => {
  const { html, text } = await renderAnswer(letterOf(answerOf()))
  for (const eml of [
    await made({ html, text }),
    await made({ text: `${'ü'.repeat(3_000)}\n${'x'.repeat(3_000)}`, subject: 'x'.repeat(300) }),
  ]) {
    const raw = eml.toString('latin1')
    expect(raw.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    expect(Math.max(...raw.split('\r\n').map((l) => l.length))).toBeLessThanOrEqual(998)
    expect(raw).not.toMatch(/[\u0080-\u00ff]/)
  }
})

test('read back: both parts, subject and addresses are what went in', async () => {
  const { html, text, subject } = await renderAnswer(letterOf(answerOf()))
  const back = await simpleParser(await made({ html, text, subject }))
  expect(back.subject).toBe(subject)
  expect(back.text?.trim()).toBe(text.trim())
  expect(String(back.html).replaceAll('\r\n', '\n').trim()).toBe(html.replaceAll('\r\n', '\n').trim())
  expect(back.from?.value).toEqual([{ name: 'Wrenfold Bench', address: 'bench@wrenfold.example' }])
  expect(back.date?.toISOString()).toBe(BASE.date)
})

test.each(['Łukasz Żółć', 'Ægir "the" Sea, jr.', '山田 太郎', 'O’Hara <b>', ''])(
  'the name %s comes back',
  async (name) => {
    const back = await simpleParser(await made({ to: { name, address: 'k@example.org' } }))
    const to = Array.isArray(back.to) ? back.to[0] : back.to
    expect(to?.value).toEqual([{ name, address: 'k@example.org' }])
  },
)

test('no address: no To line, and the draft is still a whole mail', async () => {
  const eml = await made({ to: undefined })
  expect([...headersOf(eml).keys()]).not.toContain('to')
  expect((await simpleParser(eml)).subject).toBe(BASE.subject)
})

describe('nothing from outside makes a header', () => {
  const own = ['content-type', 'date', 'from', 'message-id', 'mime-version', 'subject', 'to', 'x-unsent']

  test.each([
    ['a line break in the subject', { subject: 'Hello\r\nBcc: x@example.net' }],
    ['a bare LF in the subject', { subject: 'Hello\nBcc: x@example.net\n\nbody' }],
    ['a line break in a name', { to: { name: 'Imke\r\nBcc: x@example.net', address: 'k@example.org' } }],
    ['an address in a name', { to: { name: 'Imke <x@example.net>, y', address: 'k@example.org' } }],
    [
      'a line break in the sender’s name',
      { from: { name: 'Shop\r\nBcc: x@example.net', address: 's@example.org' } },
    ],
    ['headers at the start of the text', { text: 'Bcc: x@example.net\r\n\r\nhi' }],
  ])('%s', async (_, more) => {
    const eml = await made(more)
    expect([...headersOf(eml).keys()].sort()).toEqual(own)
    const back = await simpleParser(eml)
    expect(back.bcc).toBeUndefined()
    const to = Array.isArray(back.to) ? back.to[0] : back.to
    expect(to?.value).toHaveLength(1)
  })

  test('control and direction marks leave subject and names', async () => {
    const back = await simpleParser(
      await made({ subject: 'a\u0000\u202eb', to: { name: 'Im\u202eke\u0007', address: 'k@example.org' } }),
    )
    expect(back.subject).toBe('a b')
    const to = Array.isArray(back.to) ? back.to[0] : back.to
    expect(to?.value[0]?.name).toBe('Imke')
  })

  test.each([
    'k@example.org\r\nBcc: x@example.net',
    'k@example.org, x@example.net',
    'k@example.org>',
    'no address',
    '',
  ])('%j is not an address, and the fault does not repeat it', async (address) => {
    const fault = (() => {
      try {
        emlOf({ ...BASE, to: { address } })
        return undefined
      } catch (error) {
        return error
      }
    })()
    expect(fault).toBeInstanceOf(RangeError)
    expect(String(fault)).toBe('RangeError: mail: to is not usable')
  })

  test.each([
    ['messageId', '<a@b>\r\nBcc: x@example.net'],
    ['messageId', 'a@b'],
    ['date', 'yesterday'],
  ] as const)('%s %j is refused', (field, value) => {
    expect(() => emlOf({ ...BASE, [field]: value })).toThrow(RangeError)
  })
})

test('MailComposer may not read files or addresses named in a text', async () => {
  const back = await simpleParser(await made({ text: 'file:///etc/passwd' }))
  expect(back.text?.trim()).toBe('file:///etc/passwd')
  expect(back.attachments).toEqual([])
})
