import { copyFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Option } from '../../../src/core/ranking/option.ts'
import { type Result, sayProblem } from '../../../src/problem.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { openReservations } from '../../../src/store/reservations.ts'
import { listShelf, listShelfItems } from '../../../src/store/shelf.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { demoFile, unwrapped } from '../../demo/preparedShop.ts'
import { temporaryFolder } from '../../store/temporaryStore.ts'

/** Two days after the last question of the invented shop; its story stands in fixtures/README.md. */
export const AT = '2026-11-24T15:00:00.000Z'

/** So many minutes later. */
export const later = (minutes: number): string => new Date(Date.parse(AT) + minutes * 60_000).toISOString()

export { unwrapped }

/** The sentences of what was refused; none where it was done. */
export const refusals = (result: Result<unknown>): string[] =>
  result.ok ? [] : result.problems.map(sayProblem)

/** A file with the invented shop in it, to be copied. */
export async function shopFile(folder: string): Promise<string> {
  const file = join(folder, 'template.db')
  await copyFile(await demoFile(), file)
  return file
}

/** A store of its own with what is in the file. */
export async function copyOf(
  file: string,
  name = 'shop.db',
): Promise<{ store: Store; close: () => Promise<void> }> {
  const copy = join(await temporaryFolder(), name)
  await copyFile(file, copy)
  const store = await openStore(`file:${copy}`)
  return { store, close: store.close }
}

/** The first option of a question whose parts are just these; `work` included. */
export async function optionWith(
  store: Store,
  questionId: string,
  itemIds: readonly string[],
): Promise<Option> {
  const { ranking } = unwrapped(await answerQuestion(store, questionId, AT))
  const wanted = [...itemIds].sort().join(' ')
  const found = [...ranking.ranked, ...ranking.withoutNumber].find(
    (o) => [...o.shelfItemIds].sort().join(' ') === wanted,
  )
  if (found === undefined) throw new Error(`no option of ${questionId} with ${wanted}`)
  return found
}

/** How much of an item stands on the shelf, is put aside and is free. */
export async function stockOf(store: Store, itemId: string) {
  const standing = (await listShelfItems(store.db)).find(({ id }) => id === itemId)?.quantity
  const held = (await openReservations(store.db))
    .filter((r) => r.itemId === itemId)
    .reduce((sum, r) => sum + r.quantity, 0)
  const free = (await listShelf(store.db)).find(({ item }) => item.id === itemId)?.item.quantity
  return { standing, held, free }
}
