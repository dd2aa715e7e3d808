import { describe, expect, test } from 'vitest'
import type { Answer } from '../../src/core/answer.ts'
import type { Lowered } from '../../src/core/ranking/lowered.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { KINDS } from './answers.ts'
import { proseOf, sentencesOf, wordsIn } from './prose.ts'

const end = (averageFps: number, onThisMachine = true) => ({
  ...{ averageFps, runIds: ['R-1'], at: '2026-10-01T12:00:00.000Z', onThisMachine },
})

/** Hard spaces hold figures and units together; here they are in the way. */
const plain = (text: string | undefined): string => (text ?? '').replaceAll('\u00a0', ' ')

/** An invented gain of the first title of an answer. */
const lowered = (answer: Answer, changes: Partial<Lowered> = {}): Lowered => ({
  titleId: answer.inputs.question.wanted[0]?.titleId ?? '',
  ...{ settingId: 'high', loweredId: 'less', what: ['shadows'], before: end(44), after: end(53.1) },
  ...{ logGain: Math.log(53.1 / 44), sd: 0.03, afterFpsLow: 51.2, afterFpsHigh: 55.03 },
  ...{ isAtLeast: false, reachesTarget: false, ...changes },
})

const withOne = (answer: Answer, changes: Partial<Lowered> = {}): Answer => ({
  ...answer,
  lowered: [lowered(answer, changes)],
})
const titleOf = (answer: Answer) =>
  answer.inputs.titles.find(({ id }) => id === answer.inputs.question.wanted[0]?.titleId)?.name ?? ''

const kinds = Object.entries(KINDS).filter(
  ([, answer]) => answer.asked === undefined && answer.inputs.question.wanted.length > 0,
)
const picked = kinds.filter(([, answer]) => letterOf(answer).pick !== undefined)
const unpicked = kinds.filter(([, answer]) => letterOf(answer).pick === undefined)

test('there are letters of both kinds', () => {
  expect(picked.length).toBeGreaterThan(1)
  expect(unpicked.length).toBeGreaterThan(1)
})

describe.each(picked)('beside a pick: %s', (_, answer) => {
  test('it is the first road, costs nothing, is measured, and says what it costs in looks', () => {
    const roads = letterOf(withOne(answer)).roads
    expect(roads?.items[0]).toMatchObject({ verdict: 'fits', word: 'costs nothing' })
    const said = plain(roads?.items[0]?.says.join(' '))
    expect(said).toContain(
      'Try this first. With lower shadows it goes from 44 to 53 FPS (51 to 56), measured.',
    )
    expect(said).toContain('It looks plainer: shadows one step lower')
    expect(roads?.items[0]?.what).toBe(`${titleOf(answer)}: lower shadows`)
    expect(roads?.head).not.toMatch(/two/i)
  })
  test('the other roads stay as they were', () => {
    const [before, after] = [
      letterOf(answer).roads?.items ?? [],
      letterOf(withOne(answer)).roads?.items ?? [],
    ]
    expect(after.slice(1)).toEqual(before)
  })
})

describe.each(unpicked)('where nothing is recommended: %s', (_, answer) => {
  test('it stands behind the answer, in the chat too', () => {
    const says = `Try this first, it costs nothing: with lower shadows, ${titleOf(answer)} goes from 44 to 53 FPS, measured.`
    expect(letterOf(withOne(answer)).lead.more.map(plain)).toContain(says)
    expect(chatTextOf(withOne(answer))).toContain(says)
  })
})

describe.each(kinds)('%s', (_, answer) => {
  test('sentences stay as short as letters are', () => {
    for (const changes of [{}, { reachesTarget: true }, { isAtLeast: true, after: end(59.5, false) }]) {
      const lengths = sentencesOf(proseOf(letterOf(withOne(answer, changes)))).map(wordsIn)
      expect(Math.max(...lengths)).toBeLessThanOrEqual(22)
    }
  })
  test('at its cap it says "at least", and where it was measured elsewhere that too', () => {
    const letter = letterOf(
      withOne(answer, { isAtLeast: true, after: end(59.5, false), what: ['shadows', 'fog'] }),
    )
    const said = plain([...letter.lead.more, ...(letter.roads?.items[0]?.says ?? [])].join(' '))
    expect(said).toContain('shadows and fog')
    expect(said).toMatch(/to at least (59\.5|60) FPS/)
    expect(said).toContain('another machine with the same parts')
  })
  test('without one the letter is what it was', () => {
    expect(letterOf({ ...answer, lowered: [] })).toEqual(letterOf(answer))
  })
})

test('to a German reader a slider is named in German where we have a word, else as the shop wrote it', () => {
  const [answer] = unpicked.map(([, one]) => one)
  if (answer === undefined) throw new Error('no answer without a pick')
  const german = {
    ...answer,
    inputs: { ...answer.inputs, customer: { id: 'K-1', name: 'I S', language: 'de' as const } },
  }
  const said = (what: string[]) => letterOf(withOne(german, { what })).lead.more.join(' ')
  expect(said(['shadows'])).toContain('Schatten')
  expect(said(['Shadows'])).not.toMatch(/shadows/i)
  expect(said(['grass at noon'])).toContain('grass at noon')
})
