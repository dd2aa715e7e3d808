import { generationNamed } from '../../facts/generations.ts'
import type { Situation } from '../situation.ts'

/** True when the board stays and a processor of the new one's generation runs in it before the change. */
export function runsGenerationToday({ before, after }: Situation): boolean {
  const sameBoard = before.board !== undefined && before.board.id === after.board?.id
  const wanted = generationNamed(after.processor?.generation)
  return sameBoard && wanted !== undefined && generationNamed(before.processor?.generation) === wanted
}
