import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Answer } from '../../src/core/answer.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { type ImportReport, importShop } from '../../src/uses/importShop.ts'
import { demoAnswers, demoFile, demoReport, unwrapped } from './preparedShop.ts'
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

/** The imported shop and its answers to every question, made once for all files. Rejects with all problems in words. */
export async function openDemoShop(): Promise<DemoShop> {
  const [file, first, answers] = [await demoFile(), await demoReport(), await demoAnswers(QUESTIONS, AT)]
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-demo-'))
  await copyFile(file, join(folder, 'demo.db'))
  const store = await openStore(pathToFileURL(join(folder, 'demo.db')).href)
  const importAgain = async (fixture: string) =>
    unwrapped(await importShop(store, await tablesOf(fixture))).tables
  return {
    store,
    first: first.tables,
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
