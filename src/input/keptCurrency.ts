import type { Problem } from '../problem.ts'

/** The currency of the stored shop, and where amounts are stored in it, in words. */
export type KeptCurrency = { readonly currency: string; readonly places: readonly string[] }

/**
 * Another currency than the stored amounts are in: they are whole numbers of its minor units, and would silently mean
 * something else. None where no amount is stored.
 */
export function currencyProblem(kept: KeptCurrency, got: string): Problem | undefined {
  const { currency, places } = kept
  if (got === currency || places.length === 0) return undefined
  const next = `Amounts are stored in ${currency}: ${places.join(', ')}. Keep ${currency}, or start a new database for another currency.`
  return { code: 'conflict', field: 'currency', got, allowed: currency, next }
}
