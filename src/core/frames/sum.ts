/** A running sum whose error does not grow with the number of terms (Neumaier, ZAMM 54 (1974), 39-51). */
export function compensatedSum(): { readonly add: (term: number) => void; readonly total: () => number } {
  let sum = 0
  let lost = 0
  return {
    add: (term) => {
      const next = sum + term
      lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum
      sum = next
    },
    total: () => sum + lost,
  }
}
