import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Result } from '../problem.ts'
import { openStore, type Store } from '../store/open.ts'
import { importShop } from '../uses/importShop.ts'
import { shopFilesIn } from './import.ts'

/** Does something with a folder of tables, read as an import reads it into a file that is gone afterwards. */
export async function withShopOf<T>(
  folder: string,
  at: string,
  work: (store: Store) => Promise<Result<T>>,
): Promise<Result<T>> {
  const files = await shopFilesIn(folder)
  if (!files.ok) return files
  const place = await mkdtemp(join(tmpdir(), 'stillfits-folder-'))
  const store = await openStore(pathToFileURL(join(place, 'shop.db')).href)
  try {
    const imported = await importShop(store, files.value, at)
    return imported.ok ? await work(store) : imported
  } finally {
    await store.close()
    await rm(place, { recursive: true, force: true })
  }
}
