import { expect, test } from 'vitest'
import type { AnswerInputs } from '../../src/core/answer.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import type { Question } from '../../src/core/question.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { NOW } from '../web/cannedShop.ts'
import { space, wait } from '../web/laterStates.ts'

const answerTo = (from: AnswerInputs, asks: Partial<Question>) =>
  computeAnswer({ ...from, question: { ...from.question, ...asks } }, NOW)

const CLIFF = { asks: 'can I put this in', partInMind: { kind: 'card', words: 'Cliff 16G' } } as const

test('a part that does not go in, and nothing on the shelf: the letter advises to wait behind its no', () => {
  const answer = answerTo(wait, CLIFF)
  const { lead, roads } = letterOf(answer)
  expect(lead.answer).toBe('No, it does not go in.')
  expect(lead.more[0]).toContain('320\u00a0mm long')
  expect(lead.more.join(' ')).toContain('Our advice today: wait.')
  expect(roads?.items.at(-1)).toMatchObject({ word: 'wait', what: 'Wait for Flint 8G graphics card' })
  expect(chatTextOf(answer)).toContain('Wait for Flint 8G graphics card')
})

test('titles that nothing brings to the target are told the same', () => {
  const { lead } = letterOf(answerTo(wait, { asks: 'will it run this' }))
  expect(lead.more.join(' ')).toContain('Our advice today: wait.')
})

test('a complaint is answered by work, and a part that goes in by a yes: no word of waiting', () => {
  const flint = { asks: 'can I put this in', partInMind: { kind: 'card', words: 'CRD-FLINT8' } } as const
  for (const asks of [{ asks: 'something is wrong', complaint: 'slow' } as const, flint])
    expect(JSON.stringify(letterOf(answerTo(wait, asks)))).not.toContain('Our advice today')
})

test('who asks for more space beside a part reads of the drives too', () => {
  const letter = JSON.stringify(letterOf(answerTo(space, CLIFF)).board)
  expect(letter).toContain('Dart 2 TB drive')
  expect(letter).toContain('Left out because they hold less')
})
