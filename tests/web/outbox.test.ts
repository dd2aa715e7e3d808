import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { serve } from '@hono/node-server'
import { expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { hasChromium, launch } from './browser.ts'
import { cannedUses } from './cannedUses.ts'
import { answerTo, bodyOf, FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

// What the outbox and the pages that write into it hand over.

async function send(path: string, form: FormData | Record<string, string>) {
  const canned = cannedUses()
  const body = form instanceof FormData ? form : bodyOf(form)
  const answer = await createApp(canned.uses, { demo: false, ...asOwner }).request(`${ORIGIN}${path}`, {
    ...{ method: 'POST', body, headers: FROM_OUR_PAGE },
  })
  const text = await answer.text()
  return { calls: canned.calls, status: answer.status, to: answer.headers.get('location'), text }
}

const AT = '2026-05-02T15:00:00.000Z'

test('several mails are approved as they were looked at, with one press', async () => {
  const form = new FormData()
  for (const id of ['1', '10']) form.append('seen', `${id} ${AT}`)
  form.append('seen', 'what no form of ours sends')
  const { calls, status, to } = await send('/outbox/many', form)
  expect([status, to]).toEqual([303, '/outbox?group=approved&approved=2'])
  expect(calls).toEqual([
    [
      'approveMails',
      [
        { id: '1', updatedAt: AT },
        { id: '10', updatedAt: AT },
      ],
      expect.any(String),
    ],
  ])
})

test('one that changed meanwhile is named with why; nothing ticked approves nothing', async () => {
  const form = new FormData()
  form.append('seen', `1 ${AT}`)
  form.append('seen', '10 2026-05-01T00:00:00.000Z')
  const refused = await send('/outbox/many', form)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('One mail is approved.')
  expect(refused.text).toContain('This mail changed since you looked at it.')
  const nothing = await send('/outbox/many', {})
  expect([nothing.status, nothing.to, nothing.calls]).toEqual([303, '/outbox/many', []])
})

test('all that are looked through stand there whole, with what each is and to whom', async () => {
  const page = await answerTo({ name: 'many', path: '/outbox/many?mail=1&mail=14' })
  const text = await page.text()
  expect(text.match(/name="seen"/g)).toHaveLength(2)
  expect(text).toContain('T-0007: we have your question')
  expect(text.match(/imre@example\.org/g)).toHaveLength(2)
  expect(text.match(/<pre[^>]*>Yes\./g)).toHaveLength(2)
})

test('the words of a notice: subject and paragraphs, and no option', async () => {
  const form = { subject: 'We have it', opening: 'One.\n\nTwo.', closing: '' }
  const { calls, to } = await send('/outbox/14/words', form)
  expect(to).toBe('/outbox/14')
  const edits = { subject: 'We have it', opening: 'One.\n\nTwo.', closing: undefined, pickId: undefined }
  expect(calls).toEqual([['changeMailWords', '14', edits, expect.any(String)]])
})

test('a question: that it came in, by when an answer is there, and that what was told is gone', async () => {
  // The canned shop is in Chicago, at UTC-5 in June (IANA tz database): noon there is 17:00 UTC.
  const by = await send('/questions/Q-0007/mails/received', { answerBy: '2026-06-20' })
  expect(by.calls).toEqual([['draftReceivedMail', 'Q-0007', '2026-06-20T17:00:00.000Z', expect.any(String)]])
  expect(by.to).toBe('/outbox/1')
  const plain = await send('/questions/Q-0007/mails/received', { answerBy: '' })
  expect(plain.calls).toEqual([['draftReceivedMail', 'Q-0007', undefined, expect.any(String)]])
  const past = await send('/questions/Q-0007/mails/received', { answerBy: '2020-01-01' })
  expect([past.status, past.calls]).toEqual([422, []])
  const gone = await Promise.all(
    ['', '-', 'S-1'].map((inPlace) => send('/questions/Q-0007/mails/gone', { inPlace })),
  )
  expect(gone.map(({ calls }) => calls[0]?.[2])).toEqual([undefined, 'nothing', { optionId: 'S-1' }])
})

test('one thing asked by mail: the request is kept, and the mail has the owner’s link', async () => {
  const { calls, to } = await send('/ask', { machine: 'T-0007', limit: 'coolerRoomMm', do: 'mail' })
  expect(to).toBe('/outbox/1')
  const [, asked] = calls.find(([name]) => name === 'draftAskOneMail') ?? []
  expect(asked).toMatchObject({ tag: 'T-0007', limitKey: 'coolerRoomMm' })
  expect(asked).toHaveProperty('link', expect.stringMatching(/^http.*\/o\//))
})

const run = hasChromium || process.env.CI === 'true'

test.runIf(run)(
  'while mails go out the numbers follow, and the page stays where it is',
  async () => {
    let sent = 0
    const { uses } = cannedUses()
    const outbox: typeof uses.outbox = async (asked) => {
      sent += 1
      const view = await uses.outbox(asked)
      return { ...view, group: 'approved', progress: { waiting: 3, sending: 1, sent } }
    }
    const app = createApp({ ...uses, outbox }, { demo: false, ...asOwner })
    const server = serve({ fetch: app.fetch, port: 0, hostname: 'localhost' })
    if (!server.listening) await once(server, 'listening')
    const browser = await launch()
    const page = await browser.newPage({ viewport: { width: 390, height: 500 } })
    const complaints: string[] = []
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
    let loads = 0
    page.on('load', () => {
      loads += 1
    })
    await page.goto(`http://localhost:${(server.address() as AddressInfo).port}/outbox?group=approved`)
    await page.fill('#q', 'half a na')
    await page.evaluate('window.scrollTo(0, 700)')
    const was = await page.evaluate('window.scrollY')
    await page
      .locator('#sending')
      .filter({ hasText: / [2-9] sent/ })
      .waitFor({ timeout: 20_000 })
    expect(await page.evaluate('window.scrollY')).toBe(was)
    expect(await page.inputValue('#q')).toBe('half a na')
    expect([loads, complaints]).toEqual([1, []])
    await browser.close()
    server.close()
  },
  60_000,
)
