import { describe, expect, test } from 'vitest'
import { RULES } from '../../src/core/fit/rules.ts'
import { letterOf } from '../../src/words/answer.ts'
import { figuresOf } from '../../src/words/figures.ts'
import type { Gloss } from '../../src/words/gloss.ts'
import { sheetMail } from '../../src/words/sheetMail.ts'
import { wordsIn } from '../../src/words/tables.ts'
import { SHEET } from '../mail/sheetMails.ts'
import { answerOf, KINDS, SHOP } from './answers.ts'
import { proseOf, sentencesOf, wordsIn as wordsOf } from './prose.ts'

const german = wordsIn('de')
const CUSTOMER = { id: 'K-1', name: 'Imke Sander', email: 'imke@example.org', language: 'de' } as const

/** Every text of a table; of functions what they give for values that say their own names. */
function textsOf(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value]
  if (typeof value === 'function') return []
  if (value === null || typeof value !== 'object') return []
  return Object.values(value).flatMap(textsOf)
}

/** Values that stand for themselves: one word, as a figure with its unit would be one or two. */
const NAMED: Readonly<Record<string, string>> = new Proxy(
  {},
  { get: (_, name) => `7 ${String(name)}`, has: () => true },
)

const FINDINGS = RULES.flatMap(({ id, verdicts }) =>
  [...new Set([...verdicts, "can't tell" as const])].flatMap((verdict) =>
    [{}, { minutes: '20 Minuten' }, { doubt: 'Zweifel' }].flatMap((more) => {
      const sentences: Readonly<Record<string, unknown>> = german.findings[id]
      const say = sentences[verdict] as (v: object, more: object) => { owner: string; next?: string }
      return [NAMED, {}].flatMap((values) =>
        verdict === "can't tell" || values === NAMED ? [{ id, verdict, ...say(values, more) }] : [],
      )
    }),
  ),
)

/** English that a German reader must not meet; names of parts, titles and trade words are left out. */
const ENGLISH =
  /\b(the|your|with|and|of|from|between|measured|estimated|fits|about|slower|after|cannot|can’t|it|is|not|for|we|you|board|card|supply|cooler|memory)\b/

describe('the German tables', () => {
  const texts = Object.entries(german).flatMap(([name, table]) =>
    // What a language is read by, and the lines of the workbench, are no sentences of this one.
    name === 'askedBy' || name === 'frames' ? [] : textsOf(table).map((text) => ({ name, text })),
  )

  test('hold no English, no informal address and no straight quotes', () => {
    expect(texts.length).toBeGreaterThan(600)
    const plain = (text: string) => text.replace(/\{\w+\}/g, '')
    expect(texts.filter(({ text }) => ENGLISH.test(plain(text)))).toEqual([])
    expect(texts.filter(({ text }) => /\b(du|dir|dich|dein\w*|euch|euer)\b/i.test(plain(text)))).toEqual([])
    expect(texts.filter(({ text }) => /["']/.test(text))).toEqual([])
  })

  test('no sentence is over 22 words', () => {
    const long = texts.flatMap(({ name, text }) =>
      sentencesOf([text.replace(/\{\w+\}/g, 'Wert')])
        .filter((s) => wordsOf(s) > 22)
        .map((s) => `${name}: ${s}`),
    )
    expect(long).toEqual([])
  })

  test('a placeholder stands in both languages or in none', () => {
    const holes = (text: string) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort().join(' ')
    const walk = (en: unknown, de: unknown, path: string): readonly string[] => {
      if (typeof en === 'string' && typeof de === 'string')
        return holes(en) === holes(de) ? [] : [`${path}: ${holes(en)} against ${holes(de)}`]
      if (en === null || typeof en !== 'object' || Array.isArray(en)) return []
      return Object.entries(en).flatMap(([key, value]) =>
        walk(value, (de as Record<string, unknown> | undefined)?.[key], `${path}.${key}`),
      )
    }
    // Words that one language needs and the other does not: a form for one that names no number, a name said again.
    const differs = walk({ ...wordsIn('en'), findings: undefined }, german, '').filter(
      (one) => !/\.(one|other)\b|\.(homeMissed|processorPlug|helloNamed|greeting)\b/.test(one),
    )
    expect(differs).toEqual([])
  })

  test('glosses are six words or fewer', () => {
    const says = german.glosses.flatMap((gloss: Gloss) => Object.values(gloss))
    expect(says.filter((text) => wordsOf(text) > 6)).toEqual([])
  })
})

test('every rule and verdict has its German sentence, short and without English', () => {
  expect(FINDINGS.length).toBeGreaterThan(200)
  for (const { id, verdict, owner, next = '' } of FINDINGS) {
    const said = `${owner} ${next}`.replace(/7 \w+/g, '7 mm')
    expect(said, id).not.toMatch(/undefined|\[object/)
    expect(said.match(ENGLISH)?.[0], `${id} ${verdict}: ${said}`).toBeUndefined()
    expect(owner, id).toMatch(/[.]$/)
    for (const s of sentencesOf([said])) expect(wordsOf(s), `${id}: ${s}`).toBeLessThanOrEqual(22)
  }
})

const letters = Object.entries(KINDS).map(([name, { inputs, ...answer }]) => ({
  name,
  letter: letterOf({ ...answer, inputs: { ...inputs, customer: CUSTOMER } }),
}))

describe.each(letters)('the answer "$name" in German', ({ letter }) => {
  // Notes, settings and conditions that the shop types are the shop's own words.
  const prose = proseOf(letter)

  test('says so, and is German throughout', () => {
    expect(letter.lang).toBe('de')
    expect(prose.filter((text) => ENGLISH.test(text))).toEqual([])
    expect(letter.greeting).toBe('Guten Tag Imke Sander,')
    expect(letter.subject.length).toBeLessThanOrEqual(50)
    expect(letter.preheader.length).toBeLessThanOrEqual(90)
  })

  test('has short sentences: none over 22 words, 14 in the mean', () => {
    const lengths = sentencesOf(prose).map((s) => ({ s, words: wordsOf(s) }))
    expect(lengths.filter(({ words }) => words > 22)).toEqual([])
    expect(lengths.reduce((sum, { words }) => sum + words, 0) / lengths.length).toBeLessThanOrEqual(14)
  })
})

test('figures, money and dates are German: CLDR for de, by Intl', () => {
  const figures = figuresOf(SHOP, CUSTOMER)
  // CLDR: decimal comma, the sign of money behind, a space before percent; hard spaces everywhere.
  expect(figures.money(14_250)).toBe('142,50\u00a0$')
  expect(figures.gainPct(29)).toBe('+29\u00a0%')
  expect(figures.named('linkGBps', 7.877)).toBe('7,9\u00a0GB/s')
  expect(figures.date('2026-12-12T12:00:00.000Z')).toBe('12.\u00a0Dezember 2026')
  expect(figures.named('xMts', 2666)).toBe('2666\u00a0MT/s')
  expect(figures.plugs({ pin16: 0, pin8: 2, pin6: 0 })).toBe('2\u00a0×\u00a08-polig')
})

test('the language is the customer’s; without one the shop’s; a shop without words here reads English', () => {
  const of = (locale: string, language?: 'en' | 'de') =>
    letterOf(answerOf({ shop: { locale }, customer: { ...CUSTOMER, language } })).lang
  expect([
    of('de-AT'),
    of('de-AT', 'en'),
    of('en-US', 'de'),
    of('en-GB'),
    of('fr-FR'),
    of('fr-FR', 'de'),
  ]).toEqual(['de-AT', 'en', 'de', 'en-GB', 'en', 'de'])
})

test('the limits sheet is German throughout', () => {
  const figures = figuresOf(SHOP, CUSTOMER)
  const mail = sheetMail(SHEET, { shop: SHOP, ownerName: 'Imke Sander' }, figures)
  const { said } = mail
  const texts = [
    ...textsOf([said.title, said.about, said.never, said.supply.says, said.unknown, said.cautions]),
    ...textsOf([
      said.free,
      said.warranties.head,
      said.next.head,
      said.next.says,
      mail.reply.words,
      mail.foot,
    ]),
    ...said.next.kinds.flatMap((kind) => [
      kind.head,
      ...kind.says,
      ...kind.best.flatMap(({ why, says }) => [says, ...why]),
    ]),
  ]
  expect(texts.length).toBeGreaterThan(30)
  expect(texts.filter((text) => ENGLISH.test(text.replace(/at bench@\S+|Wrenfold Bench/g, '')))).toEqual([])
  expect(mail.lang).toBe('de')
})
