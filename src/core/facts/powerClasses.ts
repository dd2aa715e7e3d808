import type { Confidence, FactSource } from '../source.ts'
import type { Generation } from './generations.ts'
import { generationNamed } from './generations.ts'
import { SOURCES } from './sources.ts'

/** Sustained limit (PL2) that Intel publishes. A board may set another one. */
export type PowerClass = {
  readonly generation: Generation
  /** Models without an F, or a family such as `i5`, which holds for its models without K or T. */
  readonly names: readonly string[]
  readonly turboW: number
  readonly source: FactSource
  readonly confidence: Confidence
}

const of = (generation: Generation, turboW: number, ...names: readonly string[]): PowerClass => ({
  ...{ generation, names, turboW },
  source: SOURCES.intelTurbo,
  confidence: 'seen',
})

/**
 * Only figures read in print. Left out: the 8th and 9th generation ("about 1.25 x TDP"), the T models (a span), the
 * 10th i5 without K and the 11th generation (from memory), and AMD, whose names do not tell the heat class.
 */
export const POWER_CLASSES: readonly PowerClass[] = [
  of('10th (Comet Lake)', 250, 'i9-10900K'),
  of('10th (Comet Lake)', 229, 'i7-10700K'),
  of('10th (Comet Lake)', 182, 'i5-10600K'),
  of('10th (Comet Lake)', 224, 'i9-10900', 'i7-10700'),
  of('10th (Comet Lake)', 123, 'i9-10900T'),
  of('12th (Alder Lake)', 89, 'i3'),
  of('12th (Alder Lake)', 117, 'i5'),
  of('12th (Alder Lake)', 150, 'i5-12600K'),
  of('12th (Alder Lake)', 180, 'i7'),
  of('12th (Alder Lake)', 190, 'i7-12700K'),
  of('12th (Alder Lake)', 202, 'i9'),
  of('12th (Alder Lake)', 241, 'i9-12900K', 'i9-12900KS'),
  of('13th (Raptor Lake)', 89, 'i3'),
  of('13th (Raptor Lake)', 148, 'i5-13400'),
  of('13th (Raptor Lake)', 154, 'i5'),
  of('13th (Raptor Lake)', 181, 'i5-13600K'),
  of('13th (Raptor Lake)', 219, 'i7', 'i9'),
  of('13th (Raptor Lake)', 253, 'i7-13700K', 'i9-13900K', 'i9-13900KS'),
  of('14th (Raptor Lake Refresh)', 110, 'i3-14100'),
  of('14th (Raptor Lake Refresh)', 148, 'i5-14400'),
  of('14th (Raptor Lake Refresh)', 154, 'i5-14500', 'i5-14600'),
  of('14th (Raptor Lake Refresh)', 181, 'i5-14600K'),
  of('14th (Raptor Lake Refresh)', 219, 'i7', 'i9'),
  of('14th (Raptor Lake Refresh)', 253, 'i7-14700K', 'i9-14900K', 'i9-14900KS'),
  of('Core Ultra 200S (Arrow Lake)', 121, 'Ultra 5'),
  of('Core Ultra 200S (Arrow Lake)', 159, 'Ultra 5 245K'),
  of('Core Ultra 200S (Arrow Lake)', 182, 'Ultra 7', 'Ultra 9'),
  of('Core Ultra 200S (Arrow Lake)', 250, 'Ultra 7 265K', 'Ultra 9 285K'),
]

/** `Core i5-13600KF` -> `i5-13600k`: a model without a graphics unit has the limit of its twin. */
const plain = (model: string): string =>
  model
    .trim()
    .toLowerCase()
    .replace(/^(intel )?(core )?/, '')
    .replace(/(?<=\d)(k?)f$/, '$1')

/** Watts by generation, then by model or family. */
const byName = new Map(
  POWER_CLASSES.flatMap(({ generation, names, turboW }) =>
    names.map((name) => [`${generation}/${name.toLowerCase()}`, turboW] as const),
  ),
)

/**
 * The published sustained limit in W of a processor whose name tells it: a full model such as `i5-12400F`. A family
 * alone, such as `i5`, is not enough, because its K models differ. `undefined` for everything else.
 */
export function classPowerW(generation: string | undefined, model: string | undefined): number | undefined {
  const known = generationNamed(generation)
  if (known === undefined || model === undefined) return undefined
  const name = plain(model)
  const isFamily = !/\d{3}/.test(name)
  if (isFamily) return undefined
  const own = byName.get(`${known}/${name}`)
  const family = /^(i\d|ultra \d)[- ]\d+$/.exec(name)?.[1]
  return own ?? (family === undefined ? undefined : byName.get(`${known}/${family}`))
}
