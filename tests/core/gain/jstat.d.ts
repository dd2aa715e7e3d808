declare module 'jstat' {
  export const normal: {
    cdf(x: number, mean: number, sd: number): number
    pdf(x: number, mean: number, sd: number): number
    inv(p: number, mean: number, sd: number): number
  }
}
