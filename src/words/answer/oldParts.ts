import type { Answer } from '../../core/answer.ts'
import { partsOf, partsOut } from '../../core/build.ts'
import type { Option } from '../../core/ranking/option.ts'
import { fill } from '../say.ts'
import { type Context, contextOf } from './context.ts'

/**
 * What becomes of parts that are in the machine now, where no line of the price tells it: what comes out and is not taken
 * in exchange stays the owner's, and memory beside which more is put stays in.
 */
export function oldPartsOf(ctx: Context, { change, price }: Option): readonly string[] {
  const { out, kinds } = ctx.words
  const { build } = ctx.answer.inputs.machine
  const taken = new Set(price.lines.flatMap(({ what, ref }) => (what === 'trade-in' ? [ref] : [])))
  const left = partsOut(build, change).filter(({ id }) => !taken.has(id))
  const named = [...new Set(left.map(({ kind }) => kinds[kind]))]
  const isPut = change.add.some(({ kind }) => kind === 'memory')
  const stays =
    isPut && change.removeIds.length === 0 && partsOf(build).some(({ kind }) => kind === 'memory')
      ? [out.memoryStays]
      : []
  if (named.length === 0) return stays
  return [...stays, fill(named.length === 1 ? out.kept : out.keptMany, { kinds: ctx.list(named) })]
}

/** The same outside of a letter, in the language of the answer's customer. */
export const oldPartsSaid = (answer: Answer, option: Option): readonly string[] =>
  oldPartsOf(contextOf(answer, option), option)
