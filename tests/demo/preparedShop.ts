import { copyFile, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { deserialize, serialize } from 'node:v8'
import type { Answer } from '../../src/core/answer.ts'
import { type Result, sayProblem } from '../../src/problem.ts'
import { openStore } from '../../src/store/open.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { type ImportReport, importShop } from '../../src/uses/importShop.ts'
import { prepared } from '../prepared.ts'
import { closeWhole } from '../store/closeWhole.ts'
import { tablesOf } from './tables.ts'

// The invented shop, imported and answered once a run of the tests: an import takes half a second, ten answers five.

/** Its database, to be copied. `at` as importShop has it. */
export async function demoFile(at?: string): Promise<string> {
  const folder = await prepared(
    at === undefined ? 'demo' : `demo-${at.replaceAll(/\D/g, '')}`,
    async (into) => {
      const store = await openStore(`file:${join(into, 'shop.db')}`)
      const report = unwrapped(await importShop(store, await tablesOf('demo-shop'), at))
      await closeWhole(store)
      await writeFile(join(into, 'report'), serialize(report))
    },
  )
  return join(folder, 'shop.db')
}

/** What that import reported, without `at`. */
export const demoReport = async (): Promise<ImportReport> =>
  deserialize(await readFile(join(await demoFile(), '../report'))) as ImportReport

/** Its answers to these questions at this instant, each as answerQuestion gave it. */
export async function demoAnswers<Id extends string>(
  ids: readonly Id[],
  at: string,
): Promise<ReadonlyMap<Id, Answer>> {
  const folder = await prepared('demo-answers', async (into) => {
    const file = join(into, 'shop.db')
    await copyFile(await demoFile(), file)
    const store = await openStore(`file:${file}`)
    const answers = new Map<Id, Answer>()
    for (const id of ids) answers.set(id, unwrapped(await answerQuestion(store, id, at)))
    await store.close()
    await writeFile(join(into, 'answers'), serialize(answers))
  })
  return deserialize(await readFile(join(folder, 'answers'))) as ReadonlyMap<Id, Answer>
}

export function unwrapped<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(sayProblem).join('\n'))
  return result.value
}
