import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Answer } from '../../src/core/answer.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import { loadAnswer, saveAnswer } from '../../src/store/answers.ts'
import { type DemoShop, openDemoShop, QUESTIONS, type QuestionId } from './openDemoShop.ts'

/** Later than every answer: nothing but the note of when it was computed may depend on it. */
const LATER = '2031-02-03T04:05:06.789Z'

let shop: DemoShop
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(async () => shop.close())

/** The answer as it comes back from the database. */
async function keptAnswer(id: QuestionId): Promise<Answer> {
  const answerId = await shop.store.write((tx) => saveAnswer(tx, shop.answerTo(id)))
  const kept = await loadAnswer(shop.store.db, answerId)
  if (kept === undefined) throw new Error(`${id} was not kept`)
  return kept.answer
}

const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

describe('a kept answer, computed again from its own snapshot', () => {
  test.each(QUESTIONS)('%s: the same limits, ranking and what was asked for, as JSON', async (id) => {
    const kept = await keptAnswer(id)
    const again = computeAnswer(kept.inputs, LATER)
    expect(asJson(again.ranking)).toEqual(kept.ranking)
    expect(asJson(again.limits)).toEqual(kept.limits)
    expect(asJson(again.asked ?? null)).toEqual(kept.asked ?? null)
    expect(again.versions).toEqual(kept.versions)
    expect(kept.ranking.ranked.length + kept.ranking.ruledOut.length, 'says something').toBeGreaterThan(0)
  })

  test('changed inputs do change it, so the comparison can fail', async () => {
    const kept = await keptAnswer('Q-0301')
    const dearer = kept.inputs.shelf.map((item) => ({ ...item, priceMinor: item.priceMinor + 100 }))
    const again = computeAnswer({ ...kept.inputs, shelf: dearer }, LATER)
    expect(asJson(again.ranking)).not.toEqual(kept.ranking)
  })
})
