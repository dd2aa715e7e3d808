import { sql } from 'drizzle-orm'
import type { Store } from '../../src/store/open.ts'

/** Closes it so that all it holds is in its one file, which can then be copied. */
export async function closeWhole(store: Store): Promise<void> {
  await store.db.run(sql`pragma wal_checkpoint(truncate)`)
  await store.close()
}
