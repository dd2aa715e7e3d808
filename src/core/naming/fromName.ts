import { generationNamed } from '../facts/generations.ts'
import type { Part } from '../part.ts'
import { partFromWords } from './partFromWords.ts'

/** The part without the figures that were only read from its name. */
export function statedOnly(part: Part): Part {
  const marked = new Set(['readFromName', ...(part.readFromName ?? [])])
  return Object.fromEntries(Object.entries(part).filter(([field]) => !marked.has(field))) as Part
}

/**
 * The part with figures that its name tells for certain where nobody stated any, marked as such. A stated figure always
 * wins. Where it contradicts a piece of the name, nothing is taken from that piece: `2x8GB` in the name of a kit with
 * modules of 16 GB says nothing about their number either.
 *
 * @param part as stated; figures that an earlier reading put there are read anew
 */
export function filledFromName(part: Part): Part {
  const stated = statedOnly(part)
  const given = new Map(Object.entries(stated).filter(([, value]) => value !== undefined))
  const { understood } = partFromWords(part.kind, part.id, part.name)
  const doubted = new Set(
    understood
      .filter(({ field, value }) => given.has(field) && !agree(given.get(field), value))
      .map(({ from }) => from),
  )
  const told = understood.filter(({ field, from }) => !given.has(field) && !doubted.has(from))
  if (told.length === 0) return stated
  const figures = Object.fromEntries(told.map(({ field, value }) => [field, value]))
  // The reader ties the figures to the kind, which the compiler does not follow through an object of entries.
  return { ...stated, ...figures, readFromName: told.map(({ field }) => field) } as Part
}

/** Equal, or names of which one is the longer way to write the other: `i7` and `Core i7`. */
function agree(a: unknown, b: unknown): boolean {
  if (typeof a !== 'string' || typeof b !== 'string') return JSON.stringify(a) === JSON.stringify(b)
  const [one, other] = [a.toLowerCase(), b.toLowerCase()]
  const isSameGeneration = generationNamed(a) !== undefined && generationNamed(a) === generationNamed(b)
  return isSameGeneration || one.includes(other) || other.includes(one)
}
