import { isNull, sql } from 'drizzle-orm'
import { machines, questions, runs, settings, shelfItems, shops, titles } from '../../db/schema.ts'
import type { Db } from './open.ts'

/** What there is at all, for pages that have nothing to show yet. */
export type Held = {
  readonly shop: boolean
  readonly machines: boolean
  readonly questions: boolean
  readonly shelf: boolean
  readonly runs: boolean
  readonly titles: boolean
  readonly settings: boolean
}

export async function loadHeld(db: Db): Promise<Held> {
  const is = (found: readonly unknown[]): boolean => found.length > 0
  const one = { one: sql`1` }
  return {
    shop: is(await db.select(one).from(shops).limit(1)),
    machines: is(await db.select(one).from(machines).limit(1)),
    questions: is(await db.select(one).from(questions).limit(1)),
    shelf: is(await db.select(one).from(shelfItems).limit(1)),
    runs: is(await db.select(one).from(runs).where(isNull(runs.takenOutAt)).limit(1)),
    titles: is(await db.select(one).from(titles).limit(1)),
    settings: is(await db.select(one).from(settings).limit(1)),
  }
}
