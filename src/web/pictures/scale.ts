/** A line from a value to a place on an axis, in percent of its length, as SVG attributes take it. */
export const percentOf =
  (min: number, max: number) =>
  (value: number): string =>
    `${(((value - min) / (max - min)) * 100).toFixed(2)}%`

/** Round steps of 1, 2 or 5 times a power of ten: at most `count` of them across the span. */
export function stepFor(span: number, count: number): number {
  const rough = span / count
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 5, 10].find((m) => m * power >= rough) ?? 10
  return step * power
}

/** The round values from min to max, ends included when they are round. */
export function ticksOf(min: number, max: number, count: number): number[] {
  const step = stepFor(max - min, count)
  const first = Math.ceil(min / step)
  const last = Math.floor(max / step + 1e-9)
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step)
}
