import { describe, expect, test } from 'vitest'
import type { AnswerInputs } from '../../../../src/core/answer.ts'
import { buildOf } from '../../../../src/core/build.ts'
import { computeAnswer } from '../../../../src/core/computeAnswer.ts'
import { openQuestionOf } from '../../../../src/core/gain/nextRun/openQuestion.ts'
import { fittedKey } from '../../../../src/core/gain/run.ts'
import { RANKING_VERSION } from '../../../../src/core/ranking/rank.ts'
import { inputs, NOW, parts, withModel } from '../../../web/cannedShop.ts'

/* An invented shop of one machine, with the model fitted to its runs; the ranking itself tells what is to choose. */
const whole: AnswerInputs = { ...withModel(inputs), ranking: RANKING_VERSION }
const { ranking } = computeAnswer(whole, NOW)
const today = inputs.runs.find(({ id }) => id === 'R-today-1')

describe('what a question hangs on', () => {
  const open = openQuestionOf(whole)

  test('the machine as it is today, the titles as they are asked for, and what the display shows', () => {
    expect(open).toMatchObject({
      ...{ id: 'Q-0007', machineTag: 'T-0007', refreshHz: 75 },
      titles: whole.question.wanted.map(({ titleId, settingId, weight }) => ({ titleId, settingId, weight })),
    })
    expect(open && fittedKey(open.before)).toBe(today && fittedKey(today.fitted))
  })

  test('every option of the ranking that changes what runs, at its price; those without a number too', () => {
    const listed = [...ranking.ranked, ...ranking.withoutNumber]
    expect(open?.options.length).toBeGreaterThan(3)
    expect(ranking.withoutNumber.length).toBeGreaterThan(0)
    for (const { id, after, netMinor } of open?.options ?? []) {
      expect(listed.find((option) => option.id === id)?.price.netMinor).toBe(netMinor)
      expect(fittedKey(after)).not.toBe(open && fittedKey(open.before))
    }
    for (const { id } of listed.filter(({ change }) => change.add.some(({ kind }) => kind === 'card')))
      expect(open?.options.map((option) => option.id)).toContain(id)
  })

  test('what does not fit is not among them: nothing is to choose there', () => {
    expect(ranking.ruledOut.length).toBeGreaterThan(0)
    const cards = new Set(open?.options.map(({ after }) => after.cardId))
    // 320 mm in a case that was measured at 284.
    expect(cards.has('CRD-CLIFF16')).toBe(false)
  })
})

describe('nothing to choose, or nothing known', () => {
  const without = (more: Partial<AnswerInputs>) => openQuestionOf({ ...whole, ...more })
  const build = (kinds: readonly string[]) =>
    buildOf(parts.slice(0, 6).filter(({ kind }) => !kinds.includes(kind)))

  test.each([
    ['no title is asked for', { question: { ...whole.question, wanted: [] } }],
    ['the shelf is empty', { shelf: [] }],
    ['no processor is known', { machine: { ...whole.machine, build: build(['processor']) } }],
    ['no card is known', { machine: { ...whole.machine, build: build(['card']) } }],
  ] as [string, Partial<AnswerInputs>][])('%s: no question', (_, more) => {
    expect(without(more)).toBeUndefined()
  })

  test('a display that nobody described cuts nothing', () => {
    expect(without({ question: { ...whole.question, display: {} } })?.refreshHz).toBeUndefined()
  })
})
