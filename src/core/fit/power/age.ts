/** Full years between the year of a supply and the day of judging; none where either is not known. */
export function supplyYears(at: string | undefined, supplyYear: number | undefined): number | undefined {
  const year = Number(at?.slice(0, 4))
  if (supplyYear === undefined || !Number.isInteger(year) || year <= 0) return undefined
  return Math.max(0, year - supplyYear)
}
