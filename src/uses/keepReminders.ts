import { isReminded } from '../core/retention.ts'
import type { Store } from '../store/open.ts'
import { keptSince, loadRemindAfterMonths, saveRemindAfterMonths } from '../store/retention.ts'

/** Whom the shop may erase as far as its own setting says; it is told, and never does so by itself. */
export type KeepReminders = {
  /** Absent: the shop wants no reminder. */
  readonly months?: number | undefined
  readonly due: readonly {
    readonly id: string
    readonly name: string
    /** The last thing that is kept of them; absent: nothing with a date is. */
    readonly lastAt?: string | undefined
  }[]
}

export async function viewKeepReminders({ db }: Store, at: string): Promise<KeepReminders> {
  const months = await loadRemindAfterMonths(db)
  if (months === undefined) return { due: [] }
  const due = (await keptSince(db, at)).filter((one) => isReminded(one, months, at))
  return { months, due: due.map(({ id, name, lastAt }) => ({ id, name, lastAt })) }
}

/** Undefined: no reminder. */
export const remindAfter = (store: Store, months: number | undefined): Promise<void> =>
  store.write((tx) => saveRemindAfterMonths(tx, months))
