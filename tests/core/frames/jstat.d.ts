declare module 'jstat' {
  /** Quantiles with plotting positions alpha and beta; 1 and 1 are Hyndman-Fan type 7. */
  export function quantiles(
    values: readonly number[],
    at: readonly number[],
    alpha: number,
    beta: number,
  ): number[]
}
