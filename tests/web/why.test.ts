import { describe, expect, test } from 'vitest'
import { usefulGain } from '../../src/core/gain/useful.ts'
import { ok } from '../../src/problem.ts'
import { inputs, withModel } from './cannedShop.ts'
import { cannedUses } from './cannedUses.ts'
import { answerTo } from './serve.ts'
import type { PageState } from './states.ts'

const htmlOf = async (state: Omit<PageState, 'name'>): Promise<string> =>
  (await answerTo({ name: state.path, ...state })).text()

const wordsOf = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replace(/[\s\u00a0]+/g, ' ')

/** One title's card by its name; what stands over the cards names every title. */
const cardOf = (html: string, title: string): string =>
  html
    .split('<article class="card why-title"')
    .slice(1)
    .find((card) => wordsOf(card).includes(title)) ?? ''

const whole = withModel(inputs)
const halfMeasured = withModel({ ...inputs, runs: inputs.runs.filter(({ id }) => !id.startsWith('R-flint')) })
const why = (more: Partial<PageState> = {}) =>
  htmlOf({ path: '/questions/Q-0007/why?option=S-1', inputs: whole, ...more })

describe('why a measured number', () => {
  test('each end: what its runs say alone, the formula, the share of its own runs, and both together', async () => {
    const card = wordsOf(cardOf(await why(), 'Lantern Coast'))
    expect(card).toContain('measured')
    // The runs of the canned shop: 47.2 on this machine, 68.5 with the new card.
    expect(card).toMatch(/Today 47\.2 FPS [\d.]+ FPS \d+% [\d.]+ FPS/)
    expect(card).toMatch(/After the change 68\.5 FPS [\d.]+ FPS \d+% [\d.]+ FPS/)
  })

  test('fifty, eighty and ninety of a hundred, each wider than the one before', async () => {
    const card = wordsOf(cardOf(await why(), 'Lantern Coast'))
    const widths = ['five', 'eight', 'nine'].map((n) => {
      const found = new RegExp(`${n} of ten ([\\d.]+) to ([\\d.]+)`).exec(card)
      return Number(found?.[2]) - Number(found?.[1])
    })
    expect(widths[0]).toBeGreaterThan(0)
    expect(widths).toEqual([...widths].sort((a, b) => a - b))
    expect(new Set(widths).size).toBe(3)
  })

  test('every run behind it is a link to its page', async () => {
    const html = cardOf(await why(), 'Lantern Coast')
    for (const id of ['R-today-1', 'R-flint-1']) expect(html).toContain(`<a href="/runs/${id}">${id}</a>`)
  })

  test('the picture is hidden from screen readers, and all its figures stand in tables', async () => {
    const html = cardOf(await why(), 'Lantern Coast')
    expect(html).toMatch(/<svg class="bars"[^>]*aria-hidden="true"/)
    // Whiskers of three widths, told apart without colour.
    const widths = [...html.matchAll(/stroke-width="([\d.]+)"/g)].map((m) => Number(m[1]))
    expect(new Set(widths).size).toBe(3)
  })
})

test('how the gain over all games comes of the single ones stands over them', async () => {
  const words = wordsOf(await why())
  expect(words).toMatch(/All games together Useful gain: the weighted geometric mean .* That is \+\d+%/)
})

test('a probability stands here and on no other page', async () => {
  expect(wordsOf(await why())).toMatch(
    /chance that even a card without limits would add less than 5% is (under |over )?\d+%/,
  )
  const question = wordsOf(await htmlOf({ path: '/questions/Q-0007', inputs: whole }))
  expect(question).not.toMatch(/that even a (card|processor)|\d+% (likely|sure|probab)/)
})

test('half measured: which end nobody ran is said, with the sentence of its grade', async () => {
  const card = wordsOf(cardOf(await why({ inputs: halfMeasured }), 'Lantern Coast'))
  expect(card).toContain('half measured')
  expect(card).toContain('Half measured: one end has runs of our own')
  expect(card).toMatch(/After the change no run [\d.]+ FPS \d+% [\d.]+ FPS/)
})

test('no number: why, and the run that would help most, with what has to be fitted', async () => {
  const path = '/questions/Q-0007/why?option=S-6'
  const html = await htmlOf({ path, inputs: whole })
  const card = wordsOf(cardOf(html, 'Lantern Coast'))
  expect(card).toContain('no number')
  expect(card).toContain('A part that changes has neither a run nor a nominal figure.')
  expect(card).toMatch(/The run that would help most .*Lantern Coast at 1920×1080, high, with .*Grit 6G/)
  // The link takes what is run along: see sheetFor.test.ts.
  expect(html).toMatch(/href="\/runs\/new\?machine=[^"]*title=lantern[^"]*cardId=/)
})

test('an answer from before the model: its runs and the grade, nothing made up', async () => {
  const html = await htmlOf({ path: '/answers/1/why?option=S-1' })
  const words = wordsOf(html)
  expect(words).toContain('measured')
  expect(words).not.toContain('What sets the pace')
  expect(words).not.toContain('The model:')
})

test('where the fit failed the page of the question says so', async () => {
  const words = wordsOf(await htmlOf({ path: '/questions/Q-0007', inputs: { ...inputs, gainFailed: true } }))
  expect(words).toContain('The gain model could not be fitted just now')
})

describe('a title that is to be run again', () => {
  /** The page with one gain spoilt; the useful gain counts as the ranking would count it. */
  const spoilt = async (how: { runAgain: true } | { disagrees: true }) => {
    const { uses } = cannedUses({ inputs: whole })
    const found = await uses.whyOfQuestion('Q-0007', 'S-1')
    if (!found.ok) throw new Error('the canned shop has lost its option')
    const { option } = found.value
    const [first, ...others] = option.gains
    if (first === undefined || first.grade === 'no number') throw new Error('a gain without a number')
    const gains = [{ ...first, ...how }, ...others]
    const useful = usefulGain(gains, found.value.answer.inputs.question)
    const view = { ...found.value, option: { ...option, gains, useful } }
    const html = await why({ uses: { whyOfQuestion: async () => ok(view) } })
    return { words: wordsOf(html), card: wordsOf(cardOf(html, 'Lantern Coast')) }
  }

  test('counts in the mean, promises nothing, and has no chance to be reached', async () => {
    const { words, card } = await spoilt({ runAgain: true })
    expect(words).toContain('A run of Lantern Coast does not fit the others. It counts in this mean')
    expect(card).toContain('run it again before promising anything')
    expect(card).toContain('Nothing is said of it before this title is run again')
    expect(card).not.toContain('The chance that it is reached')
  })

  test('is left out where its runs disagree, and is not said to have no number', async () => {
    const { words } = await spoilt({ disagrees: true })
    expect(words).toContain('Runs of Lantern Coast disagree, so it is left out until they are run again.')
    expect(words).not.toContain('No number for Lantern Coast')
  })
})
