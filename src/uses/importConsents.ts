import type { Consent } from '../core/consent.ts'
import { dayOf } from '../input/dates.ts'
import type { ShopData } from '../input/shopFolder.ts'
import type { Problem } from '../problem.ts'
import type { CustomerRecord } from '../store/customers.ts'
import { withdrawalWording } from '../words/consent.ts'
import { type Plan, planOf, sameData } from './importPlan.ts'
import { lateProblem } from './runProblems.ts'

type Rows = ShopData['consents']

/** Which of equal ones of a day it is: yes, no and yes again on one day are three. */
type Counted = Consent & { readonly copy: number }

/**
 * What an import adds to the consents. Rows are only added: a row that differs in anything but the hour is another
 * yes or no. `at` is now: what was said today was said by now.
 */
export function planConsents(
  rows: Rows,
  stored: readonly Consent[],
  { timeZone, language, at }: { timeZone: string; language: string; at: string | undefined },
): Plan<Consent> {
  const keyOf = (consent: Consent) => JSON.stringify([{ ...consent, at: dayOf(consent.at, timeZone) }])
  const plan = planOf<Counted, Counted>(
    counted(
      rows.map(({ value }) => whole(value, language)),
      keyOf,
    ).map((value, i) => ({ line: rows[i]?.line ?? 0, value })),
    counted(stored, keyOf),
    keyOf,
    (draft, before) => before ?? { ...draft, at: at !== undefined && at < draft.at ? at : draft.at },
    keyOf,
  )
  const after = new Map([...plan.after].map(([key, row]) => [key, uncounted(row)]))
  return { ...plan, rows: plan.rows.map(uncounted), after }
}

const uncounted = ({ copy: _, ...consent }: Counted): Consent => consent

const whole = (row: Rows[number]['value'], language: string): Consent => {
  const words = row.standing === 'withdrawn' ? withdrawalWording() : { wording: '', language }
  const { customerId, standing, at, source = 'import' } = row
  return {
    ...{ customerId, kind: 'offers', standing, at, source },
    wording: row.wording ?? words.wording,
    language: row.language ?? words.language,
  }
}

function counted(consents: readonly Consent[], keyOf: (consent: Consent) => string): Counted[] {
  const seen = new Map<string, number>()
  return consents.map((consent) => {
    const copy = seen.get(keyOf(consent)) ?? 0
    seen.set(keyOf(consent), copy + 1)
    return { ...consent, copy }
  })
}

/** A yes without its words, and a day that has not come. */
export const consentProblems = (rows: Rows, timeZone: string, at: string | undefined): Problem[] =>
  rows.flatMap(({ line, value }): Problem[] => {
    const where = { file: 'consents.csv', line }
    const late = at === undefined ? undefined : lateProblem(value.at, at, timeZone)
    const problems: Problem[] = late === undefined ? [] : [{ ...late, field: 'said_on', ...where }]
    if (value.standing === 'given' && value.wording === undefined) {
      const next =
        'Write the words that were agreed to: without them nobody can tell later what the yes was to.'
      problems.push({ code: 'missing', field: 'wording', ...where, next })
    }
    return problems
  })

/** Somebody who was erased would come back with an old table. */
export function erasedAgain(rows: ShopData['customers'], stored: readonly CustomerRecord[]): Problem[] {
  const erased = new Map(stored.filter(({ erasedAt }) => erasedAt !== undefined).map((c) => [c.id, c]))
  return rows.flatMap(({ line, value }): Problem[] => {
    const before = erased.get(value.id)
    if (before === undefined || sameData({ ...before, ...value }, before)) return []
    const next = 'This customer was erased. Take the row out; a new customer gets a key of their own.'
    return [{ code: 'conflict', field: 'customer', got: value.id, file: 'customers.csv', line, next }]
  })
}
