import { expect, test } from 'vitest'
import { importShop } from '../../src/uses/importShop.ts'
import { editMessage, messageEml, prepareMessage, viewMessage } from '../../src/uses/writeMessage.ts'
import { filesOf, SMALL_SHOP } from '../input/smallShop.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const NOW = '2026-11-25T12:00:00.000Z'

async function drafted() {
  const store = await temporaryStore()
  expect(await importShop(store, filesOf(SMALL_SHOP))).toMatchObject({ ok: true })
  const message = await prepareMessage(store, 'Q1', undefined, NOW)
  if (!message.ok) throw new Error(JSON.stringify(message.problems))
  return { store, id: message.value.messageId }
}

test.each([
  ['subject', 'x'.repeat(201), 'at most 200 characters'],
  ['subject', 'one\nBcc: two@example.org', 'one line'],
  ['opening', 'x'.repeat(4001), 'at most 4000 characters'],
  ['closing', 'a\u0007b', 'at most 4000 characters'],
])('a %s that is none is refused, and nothing is saved', async (field, text, says) => {
  const { store, id } = await drafted()
  const before = await dump(store)
  const edited = await editMessage(store, id, { [field]: text }, NOW)
  expect(edited).toMatchObject({ ok: false, problems: [{ code: 'not allowed', field, got: text }] })
  expect(edited.ok ? '' : edited.problems[0]?.next).toContain(says)
  expect(await dump(store)).toEqual(before)
})

// RFC 5322, 2.1.1: a line has at most 998 octets, its CRLF left out.
test.each(['x', 'ü', '日', '😀'])(
  'a subject of 200 times %s is kept, in lines a mail may have',
  async (sign) => {
    const { store, id } = await drafted()
    const subject = sign.repeat(200 / sign.length)
    expect(await editMessage(store, id, { subject, opening: 'Hello\n\nyou' }, NOW)).toMatchObject({
      ok: true,
    })
    const view = await viewMessage(store, id)
    expect(view.ok && view.value.subject).toBe(subject)
    const mail = await messageEml(store, id)
    if (!mail.ok) throw new Error(JSON.stringify(mail.problems))
    const lines = Buffer.from(mail.value.bytes).toString('latin1').split('\r\n')
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(998)
  },
)
