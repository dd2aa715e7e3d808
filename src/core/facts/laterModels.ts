import type { Processor } from '../part.ts'
import type { Confidence, FactSource } from '../source.ts'
import type { Generation } from './generations.ts'
import { generationNamed } from './generations.ts'

/** Models that came out long after their generation: a board that runs the generation may need newer firmware for them. */
export type LaterModels = {
  readonly generation: Generation
  /** What their names have and the others of the generation do not. */
  readonly mark: string
  readonly source: FactSource
  readonly confidence: Confidence
}

const came = (generation: Generation): LaterModels => ({
  ...{ generation, mark: 'X3D', confidence: 'memory' },
  source: {
    kind: 'vendor',
    text: 'AMD product pages, launch dates of the X3D models and of their generation',
  },
})

export const LATER_MODELS: readonly LaterModels[] = [
  came('Ryzen 5000 (Zen 3)'),
  came('Ryzen 7000 (Zen 4)'),
  came('Ryzen 9000 (Zen 5)'),
]

/** The mark of a processor that came later than its generation; undefined for all others. */
export function laterMark(processor: Processor | undefined): string | undefined {
  const generation = generationNamed(processor?.generation)
  const row = LATER_MODELS.find((r) => r.generation === generation)
  const names = [processor?.name, processor?.processorClass].map((name) => name?.toUpperCase() ?? '')
  return row !== undefined && names.some((name) => name.includes(row.mark)) ? row.mark : undefined
}
