import type { Part } from '../../core/part.ts'
import { GAIN_KINDS } from '../../core/ranking/shelf.ts'

/** Whether it can make a game faster, so that somebody gains by it. */
export const isItemChoosable = ({ kind }: Pick<Part, 'kind'>): boolean => GAIN_KINDS.has(kind)
