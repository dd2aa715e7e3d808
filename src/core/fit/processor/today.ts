import { generationNamed } from '../../facts/generations.ts'
import { laterMark } from '../../facts/laterModels.ts'
import type { Situation } from '../situation.ts'

/** True when the board stays and a processor of the new one's generation runs in it before the change. */
export function runsGenerationToday({ before, after }: Situation): boolean {
  const sameBoard = before.board !== undefined && before.board.id === after.board?.id
  const wanted = generationNamed(after.processor?.generation)
  return sameBoard && wanted !== undefined && generationNamed(before.processor?.generation) === wanted
}

/** True when the new processor came out after its generation and the board does not run such a model today. */
export function isLaterModel({ before, after }: Situation): boolean {
  const mark = laterMark(after.processor)
  const sameBoard = before.board !== undefined && before.board.id === after.board?.id
  return mark !== undefined && !(sameBoard && laterMark(before.processor) === mark)
}
