/**
 * Who may get what, in whole numbers: the transportation problem. `values` holds a row for each customer and a column for
 * each item, side by side; 0 where there is nothing to offer. 4 bytes a pair, so 100,000 customers and 500 items are 200 MB.
 */
export type Table = {
  readonly customers: number
  readonly items: number
  /** `customers * items` values, row by row; each 0 or more. */
  readonly values: Int32Array
  /** How many may be offered of each item. */
  readonly places: Int32Array
  /**
   * Settles what the values leave open, 0 or more and less than 1024: of several best matchings the one whose customers have
   * the largest sum of these. Absent: 0.
   */
  readonly waited?: Int32Array | undefined
}

/** Who gets what, and what one more piece of each item would be worth: the dual prices, in the units of `weightOf`. */
export type Assigned = {
  /** The item of each customer; -1 for none. */
  readonly itemOf: Int32Array
  readonly prices: Float64Array
  /** By what values were multiplied so that `waited` decides only where they are level. */
  readonly scale: number
}

/** Days that count among equals at most: about as long as a customer keeps a machine. */
export const WAITED_MOST = 1023

/** The scale for a table: more than twice all `waited` of one matching together, so that values decide first and can be told apart. */
export function scaleOf({ customers, places, waited }: Table): number {
  if (waited === undefined) return 1
  let offered = 0
  for (const u of places) offered += u
  let scale = 1
  while (scale <= 2 * Math.min(customers, offered) * WAITED_MOST) scale *= 2
  return scale
}

/** What is really made as large as possible: the value first, then the wait. 0 where there is nothing to offer. */
export const weightOf = (value: number, waited: number, scale: number): number =>
  value === 0 ? 0 : value * scale + waited

/** A price in units of values, without what the waits add or take. */
export const valueOfPrice = (price: number, scale: number): number => Math.round(price / scale)
