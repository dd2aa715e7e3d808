import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Answer } from '../../src/core/answer.ts'
import { type Result, sayProblem } from '../../src/problem.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { type ImportReport, importShop } from '../../src/uses/importShop.ts'
import { tablesOf } from './tables.ts'

export const QUESTIONS = [
  'Q-0301',
  'Q-0302',
  'Q-0303',
  'Q-0304',
  'Q-0305',
  'Q-0306',
  'Q-0307',
  'Q-0308',
  'Q-0309',
  'Q-0310',
] as const
export type QuestionId = (typeof QUESTIONS)[number]

/** Two days after the last question; nothing may depend on it. */
const AT = '2026-11-24T15:00:00.000Z'

/** The invented shop in a database of its own. */
export type DemoShop = {
  readonly store: Store
  /** What importing demo-shop reported, the first time. */
  readonly first: ImportReport['tables']
  readonly importAgain: (fixture: string) => Promise<ImportReport['tables']>
  readonly answerTo: (id: QuestionId) => Answer
  readonly close: () => Promise<void>
}

/** Imports fixtures/demo-shop and answers every question. Rejects with all problems in words. */
export async function openDemoShop(): Promise<DemoShop> {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-demo-'))
  const store = await openStore(pathToFileURL(join(folder, 'demo.db')).href)
  const importAgain = async (fixture: string) =>
    unwrapped(await importShop(store, await tablesOf(fixture))).tables
  const first = await importAgain('demo-shop')
  const answers = new Map<QuestionId, Answer>()
  for (const id of QUESTIONS) answers.set(id, unwrapped(await answerQuestion(store, id, AT)))
  return {
    store,
    first,
    importAgain,
    answerTo: (id) => {
      const answer = answers.get(id)
      if (answer === undefined) throw new Error(`${id} was not answered`)
      return answer
    },
    close: async () => {
      await store.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

function unwrapped<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(sayProblem).join('\n'))
  return result.value
}
