import type { Part } from '../../../src/core/part.ts'

/** The bench numbers that the shop has, by part id. */
export const figuresOf = (parts: readonly Part[]): ReadonlyMap<string, number> =>
  new Map(
    parts.flatMap((part) =>
      (part.kind === 'card' || part.kind === 'processor') && part.nominalFigure !== undefined
        ? [[part.id, part.nominalFigure] as const]
        : [],
    ),
  )
