import type { Situation } from '../situation.ts'

/** True when the board stays and a processor of the new one's generation runs in it before the change. */
export function runsGenerationToday({ before, after }: Situation): boolean {
  const generation = after.processor?.generation
  const sameBoard = before.board !== undefined && before.board.id === after.board?.id
  return sameBoard && generation !== undefined && before.processor?.generation === generation
}
