/** How many bits are set. */
export const bitCount = (bits: number): number => {
  let count = 0
  for (let left = bits; left !== 0; left &= left - 1) count++
  return count
}
