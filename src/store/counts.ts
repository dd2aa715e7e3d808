import { isNull } from 'drizzle-orm'
import { machines, questions, runs, shelfItems, shops } from '../../db/schema.ts'
import type { Db } from './open.ts'

/** How much there is, for pages that have nothing to show yet. */
export type Counts = {
  readonly shops: number
  readonly machines: number
  readonly questions: number
  readonly shelf: number
  readonly runs: number
}

export async function loadCounts(db: Db): Promise<Counts> {
  return {
    shops: await db.$count(shops),
    machines: await db.$count(machines),
    questions: await db.$count(questions),
    shelf: await db.$count(shelfItems),
    runs: await db.$count(runs, isNull(runs.takenOutAt)),
  }
}
