import type { Store } from '../store/open.ts'
import { keepSentForm, sentFormTo } from '../store/sentForms.ts'

/** A form that was opened is sent within days, if at all. */
const KEPT_DAYS = 30
const DAY_MS = 86_400_000

/** Where a form led that was sent before, also before the program was started anew. */
export const formLedTo = ({ db }: Store, mark: string): Promise<string | undefined> => sentFormTo(db, mark)

/** Remembers where a form led; `at` is now, ISO 8601 UTC. */
export const rememberForm = (store: Store, mark: string, ledTo: string, at: string): Promise<void> =>
  store.write((tx) =>
    keepSentForm(tx, { mark, ledTo, at }, new Date(Date.parse(at) - KEPT_DAYS * DAY_MS).toISOString()),
  )
