/**
 * How many cases a property test draws: so many in `npm test`, which draws the same ones at every run, where more of
 * them prove nothing more by the hundredth run; several times as many in `npm run explore`, which looks for new ones.
 */
export const runs = (usual: number): number => usual * FACTOR

/** Set by `.config/explore.mjs`. */
const FACTOR = Number(process.env.STILLFITS_RUNS ?? 1)
