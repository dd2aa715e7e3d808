import { simpleParser } from 'mailparser'
import { describe, expect, test } from 'vitest'
import { emlOf } from '../../src/mail/eml.ts'
import { fetches } from '../../src/mail/frame.ts'
import { renderSheet } from '../../src/mail/render.ts'
import { PREHEADER_MOST } from '../../src/words/answer/lead.ts'
import type { SheetMail } from '../../src/words/sheetMail.ts'
import { TEXT_COLUMNS } from '../../src/words/wrap.ts'
import { LINK, mailOf, SHEET, SHEET_MAILS } from './sheetMails.ts'

const emlFor = async (mail: SheetMail) =>
  emlOf({
    ...(await renderSheet(mail)),
    from: { name: mail.shopName, address: 'bench@example.org' },
    to: { name: 'Imke Sander', address: 'imke@example.org' },
    messageId: '<sheet-T-0007.1@example.org>',
    date: '2026-11-28T15:00:00.000Z',
  })

const bare = (text: string): string => text.replace(/[\s\u00a0]+/g, '')

/** What a reader sees: no head, no comments, no hidden preheader, no tags. */
const seen = (html: string): string =>
  html
    .replace(/<head>[\s\S]*?<\/head>/, '')
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/<div style="display:none[\s\S]*?<\/div>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(
      /&(amp|lt|gt|quot|#39);/g,
      (_, n: string) => ({ amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" })[n] ?? '',
    )

/** Every piece of words in it, but keys and what a piece says again as one sentence. */
function wordsIn(value: unknown, key = ''): string[] {
  if (typeof value === 'string')
    return ['verdict', 'href', 'lang', 'tag', 'preheader', 'subject'].includes(key) ? [] : [value]
  if (Array.isArray(value)) return value.flatMap((one) => wordsIn(one))
  if (typeof value !== 'object' || value === null) return []
  const isPart = 'gains' in value
  return Object.entries(value).flatMap(([name, one]) => (isPart && name === 'text' ? [] : wordsIn(one, name)))
}

describe.each(Object.entries(SHEET_MAILS))('%s', (_, mail) => {
  test('RFC 2046, 5.1.4: read back by mailparser, text and HTML are what went in', async () => {
    const drawn = await renderSheet(mail)
    const eml = await emlFor(mail)
    const back = await simpleParser(eml)
    expect(eml.toString('latin1')).toMatch(/^content-type: multipart\/alternative;/im)
    expect(back.subject).toBe(mail.subject)
    expect(back.text?.trim()).toBe(drawn.text.trim())
    expect(String(back.html).replaceAll('\r\n', '\n').trim()).toBe(drawn.html.replaceAll('\r\n', '\n').trim())
    expect(back.attachments).toEqual([])
    expect(back.from?.value).toEqual([{ name: mail.shopName, address: 'bench@example.org' }])
    expect(back.messageId).toBe('<sheet-T-0007.1@example.org>')
    expect(back.date?.toISOString()).toBe('2026-11-28T15:00:00.000Z')
  })

  test('every word of the sheet is in both parts, in the same order of headings', async () => {
    const { html, text } = await renderSheet(mail)
    // A program for mails that has only text gets these in other words.
    const { reply, foot, ...rest } = mail
    const columns: readonly string[] = mail.said.measured.rows.length === 0 ? mail.said.measured.columns : []
    const all = wordsIn(rest).filter((words) => !columns.includes(words) && words !== mail.shopName)
    expect(all.length).toBeGreaterThan(15)
    const [inHtml, inText] = [bare(seen(html)), bare(text)]
    // What has nothing to tell has no heading.
    const empty = [
      ...(mail.said.never.groups.length === 0 ? [mail.said.never.head] : []),
      ...(mail.said.unknown.rows.length === 0 ? [mail.said.unknown.head, mail.said.unknown.says] : []),
      ...(mail.said.measured.rows.length === 0 ? [] : [mail.said.measured.columns[0]]),
      mail.said.foot,
    ]
    const wanted = all.filter((words) => !empty.includes(words))
    expect(wanted.filter((words) => !inText.includes(bare(words)))).toEqual([])
    // The head of the HTML is the shop's name beside the drawn tag.
    const drawn = [mail.shopName, mail.said.tag, reply.words, reply.note, foot.loads]
    const inHtmlOnly = [...wanted.filter((words) => words !== mail.masthead), ...drawn]
    expect(inHtmlOnly.filter((words) => !inHtml.includes(bare(words)))).toEqual([])
    for (const part of [inHtml, inText]) {
      expect(part).toContain(bare(foot.why))
      const { inside, measured, next, free, supply, warranties, cautions } = mail.said
      const heads = [inside, measured, next, free, supply, warranties, cautions].map(({ head }) => bare(head))
      const places = heads.map((head) => part.indexOf(head))
      expect(places).not.toContain(-1)
      expect(places).toEqual([...places].sort((a, b) => a - b))
    }
    expect(inText).toContain(bare(reply.text))
  })

  test('the HTML is whole, names its language, loads nothing and is not cut off', async () => {
    const { html } = await renderSheet(mail)
    expect(html).toMatch(/^\s*<!doctype html>/i)
    expect(html).toMatch(/<html lang="en/)
    expect(html).not.toMatch(/\{\{|\}\}|undefined|NaN|\[object/)
    expect(fetches(html.replaceAll(LINK, ''))).toBeUndefined()
    // Mail programs cut a mail near 102 kB (common practice).
    expect(Buffer.byteLength(html)).toBeLessThan(100_000)
    expect(mail.preheader.length).toBeLessThanOrEqual(PREHEADER_MOST)
    expect(html).toMatch(/<div style="display:none/)
  })

  test('the text keeps to 72 columns, but for a link, and has no marks', async () => {
    const { text } = await renderSheet(mail)
    const long = text.split('\n').filter((line) => [...line].length > TEXT_COLUMNS)
    expect(long.filter((line) => line !== LINK)).toEqual([])
    expect(text).not.toMatch(/[\u00a0\u25a0-\u25ff<>*]|undefined|NaN|\t/)
    expect(text.split('\n-- \n')).toHaveLength(2)
  })
})

test('the link stands in both parts, and without one there is none', async () => {
  const linked = await renderSheet(mailOf(SHEET, { link: LINK }))
  expect(linked.html.split(`href="${LINK}"`)).toHaveLength(2)
  expect(linked.text).toContain(LINK)
  const { html, text } = await renderSheet(mailOf())
  expect(html + text).not.toMatch(/https?:\/\/[^"]*\/o\//)
  expect(html).toContain('href="mailto:')
})

test('what somebody typed is shown as typed: no element, no header', async () => {
  const bad = '<script>alert(1)</script>"><b onmouseover=x>{{title}}'
  const mail = mailOf(
    { ...SHEET, inside: SHEET.inside.map((one) => ({ ...one, name: bad })), tag: bad },
    { ownerName: bad, words: { subject: `${bad}\r\nBcc: x@example.net`, opening: bad, closing: bad } },
  )
  const { html } = await renderSheet(mail)
  expect(html).not.toMatch(/<script|<b onmouseover/)
  expect(seen(html)).toContain(bad)
  const back = await simpleParser(await emlFor(mail))
  expect(back.bcc).toBeUndefined()
})

test('twenty games and forty parts inside stay under 100 kB', async () => {
  const [run] = SHEET.measured
  const [part] = SHEET.inside
  if (run === undefined || part === undefined) throw new Error('an empty sheet')
  const many = {
    ...SHEET,
    measured: Array.from({ length: 20 }, (_, i) => ({
      ...run,
      titleName: `A rather long title of a game ${i}`,
    })),
    inside: Array.from({ length: 40 }, (_, i) => ({ ...part, name: `A rather long name of a part ${i}` })),
  }
  expect(Buffer.byteLength((await renderSheet(mailOf(many))).html)).toBeLessThan(100_000)
})

test('a sheet without a measured game speaks of no games, and names limits as owners do', async () => {
  const bare = { ...SHEET, measured: [], next: SHEET.next.map((kind) => ({ ...kind, best: [] })) }
  const words = wordsIn(mailOf(bare)).join('\n')
  expect(words).toContain('What they gain, nobody knows before a game is measured here.')
  expect(words).not.toMatch(/these games|games above/)
  expect(wordsIn(mailOf()).join('\n')).toContain('for none is it sure that these games gain from it')
  for (const mail of Object.values(SHEET_MAILS)) {
    const said = wordsIn(mail).join('\n')
    expect(said).not.toMatch(/Supply at 12 V|Slot covers|Graphics slot lanes/)
  }
  expect(words).toContain('Power the supply has for card and processor')
})
