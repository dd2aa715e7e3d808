import { describe, expect, test } from 'vitest'
import { LIMIT_KEYS } from '../../src/core/limits/catalogue.ts'
import { WORK_CATALOGUE } from '../../src/core/work/catalogue.ts'
import { ANSWER_EN } from '../../src/words/en/answer.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { isAskedFor } from '../../src/words/limits.ts'
import { checkWords, gradeWords, optionWords, priceWords } from '../../src/words/options.ts'
import { CARD, finding, line, option } from './answers.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
const priced = (amountMinor: number, over: { costsNothing?: boolean; unpriced?: readonly string[] }) => {
  const made = option({ parts: [], work: ['cleaning'], lines: [line('work', 'cleaning', amountMinor)] })
  return { ...made, price: { ...made.price, ...over } }
}

describe('the price in a list', () => {
  // Our own guide on words: "free" is what costs nothing to anyone who reads it; a 0 that nobody set is no price.
  test.each([
    [2500, {}, '$25'],
    [0, { costsNothing: true }, 'costs nothing'],
    [0, { unpriced: ['cleaning'] }, 'not priced: cleaning'],
    [2500, { unpriced: ['drive cloned'] }, '$25, not priced: system cloned to the faster drive'],
    [-500, {}, '\u2212$5'],
  ])('%i with %j reads "%s"', (amount, over, words) => {
    expect(priceWords(priced(amount, over), figures)).toBe(words)
  })
})

test('works stand in an option by plain names', () => {
  const named = (work: string) => optionWords(option({ parts: [], work: [work], lines: [] }), [])
  expect(named('display into card')).toBe('display plugged into the card')
  expect(named('memory profile on')).toBe('memory profile on')
})

test('what to look at first is said with how', () => {
  const check = { option: priced(0, {}), limits: ['memoryProfileOn' as const] }
  expect(checkWords(check)).toEqual([
    "Memory profile on: The first page of the board's settings shows it, under XMP or EXPO.",
  ])
})

test('every work has words in a letter', () => {
  expect(WORK_CATALOGUE.filter((row) => ANSWER_EN.works[row.id] === undefined).map((row) => row.id)).toEqual(
    [],
  )
})

test('how a machine stands is not missed while nobody says it; what every machine has is', () => {
  expect(isAskedFor('cardRoomMm')).toBe(true)
  expect([isAskedFor('memoryProfileOn'), isAskedFor('boardSupplyPlug')]).toEqual([false, false])
  expect(LIMIT_KEYS.filter(isAskedFor).length).toBeGreaterThan(20)
})

describe('how a number is known', () => {
  const held = { ...CARD, findings: [finding({ rule: 'cooling.rating', verdict: 'fits slower' })] }
  test('measured, and said so where something holds the processor back that did not there', () => {
    expect([gradeWords(CARD), gradeWords(held)]).toEqual(['measured', 'measured on another machine'])
  })
  test('no number is none', () => {
    expect(gradeWords({ ...held, useful: undefined })).toBe('no number')
  })
})
