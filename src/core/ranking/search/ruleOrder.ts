import {
  type Compiled,
  DIMENSIONS,
  type Dimension,
  type Moves,
  type Place,
  placeOf,
} from '../../fit/compiled.ts'

/** Rules may turn out to read more while they are asked; what was sorted by their reads is then made again. */
export function settled<T>(compiled: Compiled, make: () => T): T {
  for (;;) {
    const before = compiled.growth()
    const made = make()
    if (compiled.growth() === before) return made
  }
}

/** Asks every rule about single moves first, so that what it reads is known before rules are sorted by it. */
export function askOnce(compiled: Compiled, none: Place, dimension: Dimension, moves: Moves): void {
  const last = moves[dimension].length - 1
  for (const to of last > 0 ? [1, last] : [0])
    for (let rule = 0; rule < compiled.rules; rule++)
      compiled.code(
        rule,
        none.map((was, d) => (d === placeOf(dimension) ? to : was)),
      )
}

/** Rules by the last dimension that they read and that the search moves, in the order of DIMENSIONS. */
export function rulesBy(compiled: Compiled, moves: Moves): RulesBy {
  const by: { [D in Dimension]: number[] } = {
    ...{ board: [], processor: [], memory: [], work: [], card: [] },
    ...{ case: [], fan: [], drive: [], cooler: [], supply: [] },
  }
  // Fans and drives stay as they are in the search over bundles.
  const moving = DIMENSIONS.reduce(
    (bits, dimension, d) =>
      moves[dimension].length > 1 && dimension !== 'fan' && dimension !== 'drive' ? bits | (1 << d) : bits,
    0,
  )
  const beside = (1 << placeOf('cooler')) | (1 << placeOf('supply'))
  let isTogether = false
  for (let rule = 0; rule < compiled.rules; rule++) {
    const reads = compiled.readsOf(rule) & moving
    const last = reads === 0 ? 0 : 31 - Math.clz32(reads)
    by[DIMENSIONS[last] as Dimension].push(rule)
    if ((reads & beside) === beside) isTogether = true
  }
  return { ...by, isTogether }
}
type RulesBy = { readonly [D in Dimension]: readonly number[] } & {
  /** A rule sees cooler and supply at once. */
  readonly isTogether: boolean
}
