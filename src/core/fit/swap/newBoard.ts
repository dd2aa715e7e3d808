import { type Situation, touches } from '../situation.ts'

/** True when another board goes in: what was bound to the old one, or held against it, has to be looked at again. */
export const hasNewBoard = (s: Situation): boolean => s.after.board !== undefined && touches(s, 'board')
