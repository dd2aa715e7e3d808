import { parse } from 'parse5'
import { expect, test } from 'vitest'
import { ok } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { consentWording } from '../../src/words/consent.ts'
import { wordsIn } from '../../src/words/tables.ts'
import { TABLE_TEXT } from './cannedReading.ts'
import { cannedUses, TOKEN } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'

// Pages behind the link of an owner who reads German: the English of the same tables stands nowhere on them.

const german: Partial<WebUses> = {
  ownerPage: async (token) => {
    const page = await cannedUses().uses.ownerPage(token)
    const person = { ...consentWording('offers', 'Test Shop', 'de'), hasAddress: true }
    return page.ok ? ok({ ...page.value, person, language: 'de' as const, chosen: 'de' as const }) : page
  },
  // What was agreed to and written in English stays as it was; it is no word of the page.
  ownerRecord: async (token) => {
    const record = await cannedUses().uses.ownerRecord(token)
    return record.ok ? ok({ ...record.value, consents: [], mails: [] }) : record
  },
  sheetBehindLink: async (token) => {
    const shown = await cannedUses().uses.sheetBehindLink(token)
    return shown.ok ? ok({ ...shown.value, language: 'de' as const, chosen: 'de' as const }) : shown
  },
}
const app = createApp(cannedUses({ uses: german }).uses, { demo: true })

type Node = { readonly nodeName: string; readonly value?: string; readonly childNodes?: readonly Node[] }
/** Text of a page as somebody reads it, without what stands in scripts and fields. */
const readIn = (node: Node): string[] =>
  ['script', 'style', 'textarea'].includes(node.nodeName)
    ? []
    : [...(node.value === undefined ? [] : [node.value]), ...(node.childNodes ?? []).flatMap(readIn)]

const textsOf = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value]
    : value === null || typeof value !== 'object'
      ? []
      : Object.values(value).flatMap(textsOf)

/** Sentences and headings of the owner's English tables, long enough to be told from names. */
const tables = [
  'owner',
  'ownerPerson',
  'ownerForm',
  'ownerHistory',
  'ownerReading',
  'form',
  'consent',
] as const
const ENGLISH = tables
  .flatMap((name) => textsOf(wordsIn('en')[name]))
  .flatMap((text) => text.split(/\{\w+\}/))
  .map((text) => text.trim())
  .filter((text) => text.length >= 9 && / /.test(text))

const see = async (path: string, form?: Record<string, string>, language?: string) => {
  const headers = { ...FROM_OUR_PAGE, ...(language !== undefined && { 'accept-language': language }) }
  const sent = form === undefined ? { headers } : { method: 'POST', body: new URLSearchParams(form), headers }
  const html = await (await app.request(`${ORIGIN}${path}`, sent)).text()
  const text = readIn(parse(html) as unknown as Node)
    .join(' ')
    .replaceAll(/\s+/g, ' ')
  return { html, text, left: ENGLISH.filter((words) => text.includes(words)) }
}

test('there is English to be found', async () => {
  expect(ENGLISH.length).toBeGreaterThan(150)
  const { uses } = cannedUses()
  const english = await (await createApp(uses, { demo: true }).request(`${ORIGIN}/o/${TOKEN}`)).text()
  expect(ENGLISH.filter((words) => english.includes(words)).length).toBeGreaterThan(25)
})

const page = `/o/${TOKEN}`
test.each([
  ['the page', page, undefined],
  ['with what was just sent', `${page}?sent=question`, undefined],
  [
    'a question in which everything is wrong',
    `${page}/questions`,
    { words: '', budget: 'viel', targetFps: '0' },
  ],
  ['a part without a name', `${page}/questions`, { words: 'x', asks: 'can I put this in', partPrice: '12' }],
  ['a game without its setting', `${page}/questions`, { words: 'x', 'wanted.0.title': 'lantern' }],
  ['a display that is none', `${page}/questions`, { words: 'x', widthPx: 'breit', 'planned.refreshHz': '3' }],
  ['a length that is none', `${page}/limits`, { request: '1', 'limit.coolerRoomMm': '9 Hände' }],
  ['a report without a number', `${page}/fps`, { job: 'J-0001', reportFps: '' }],
  ['an unticked box', `${page}/consent`, { do: 'yes', wording: 'x' }],
  ['how to read the machine', `${page}/reading`, undefined],
  ['nonsense for a table', `${page}/reading`, { table: 'hallo' }],
  ['no table at all', `${page}/reading`, { table: '' }],
  ['what a table says', `${page}/reading`, { table: TABLE_TEXT }],
  ['what is kept', `${page}/mine`, undefined],
  ['to be erased', `${page}/erase`, undefined],
  ['not sure of it', `${page}/erase`, { x: '' }],
  ['sold', `${page}/sold`, undefined],
  ['the sheet', `${page}/sheet`, undefined],
])('%s', async (_, path, form) => {
  const { html, left } = await see(path, form as Record<string, string> | undefined)
  expect(html).toContain('<html lang="de">')
  expect(left).toEqual([])
})

test.each([
  ['de-AT,de;q=0.9,en;q=0.5', 'de'],
  ['fr, de;q=0.4, en;q=0.6', 'en'],
  ['fr', 'en'],
  ['*', 'en'],
  [',;q=;;=,', 'en'],
])('a dead link is told in what the browser asks for: %s', async (asked, language) => {
  const { html, text } = await see('/o/nobody-made-this', undefined, asked)
  expect(html).toContain(`<html lang="${language}">`)
  expect(text).toContain(wordsIn(language as 'en' | 'de').owner.nowhere.wish)
})
