import type { Answer } from '../../core/answer.ts'
import { partsOf, partsOut } from '../../core/build.ts'
import type { PartKind } from '../../core/part.ts'
import type { Option } from '../../core/ranking/option.ts'
import { capital, fill } from '../say.ts'
import { type Context, contextOf } from './context.ts'

/** Kinds of the old parts that the price counts in exchange, each once; of a part that nobody knows, none. */
export function tradedKinds(ctx: Context, { price }: Option): readonly PartKind[] {
  const kinds = price.lines.flatMap(({ what, ref, amountMinor }) => {
    const part = what === 'trade-in' && amountMinor < 0 ? ctx.part(ref) : undefined
    return part === undefined ? [] : [part.kind]
  })
  return [...new Set(kinds)]
}

/** Old parts by their kinds: "your old graphics card". */
export const oldWords = (
  { words, list }: Context,
  kinds: readonly PartKind[],
  as: keyof Context['words']['old'],
): string => list(kinds.map((kind) => words.old[as][kind]))

/**
 * What becomes of parts that are in the machine now, where no line of the price tells it: what comes out and is not taken
 * in exchange stays the owner's, and memory beside which more is put stays in.
 */
export function oldPartsOf(ctx: Context, { change, price }: Option): readonly string[] {
  const { out } = ctx.words
  const { build } = ctx.answer.inputs.machine
  const taken = new Set(price.lines.flatMap(({ what, ref }) => (what === 'trade-in' ? [ref] : [])))
  const left = partsOut(build, change).filter(({ id }) => !taken.has(id))
  const kinds = [...new Set(left.map(({ kind }) => kind))]
  const isPut = change.add.some(({ kind }) => kind === 'memory')
  const isKnown = partsOf(build).some(({ kind }) => kind === 'memory')
  const stays = !isPut
    ? []
    : !isKnown
      ? [out.memoryUnknown]
      : change.removeIds.length === 0
        ? [out.memoryStays]
        : []
  if (kinds.length === 0) return stays
  const Old = capital(oldWords(ctx, kinds, 'is'), ctx.lang)
  return [...stays, fill(kinds.length === 1 ? out.kept : out.keptMany, { Old })]
}

/** Kinds of what the price counts in exchange, outside of a letter. */
export const tradedSaid = (answer: Answer, option: Option): readonly PartKind[] =>
  tradedKinds(contextOf(answer, option), option)

/** The same outside of a letter, in the language of the answer's customer. */
export const oldPartsSaid = (answer: Answer, option: Option): readonly string[] =>
  oldPartsOf(contextOf(answer, option), option)
