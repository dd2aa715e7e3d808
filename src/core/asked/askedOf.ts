import type { Part } from '../part.ts'
import type { Question } from '../question.ts'
import { workBase } from '../ranking/bases.ts'
import type { Ranking } from '../ranking/option.ts'
import type { Desk } from '../ranking/rank.ts'
import type { Asked } from './asked.ts'
import { changeAsked } from './change.ts'
import { complaintAsked } from './complaint.ts'
import { inMindAsked } from './inMind.ts'
import { titlesAsked } from './titles.ts'

/** What the question asks for by name; undefined for "what can I do" and where what it needs was not given. */
export function askedOf(
  question: Question,
  parts: readonly Part[],
  desk: Desk,
  ranking: Ranking,
): Asked | undefined {
  const { asks, partInMind, complaint } = question
  switch (asks) {
    case 'can I put this in':
      return partInMind && inMindAsked(question, partInMind, parts, desk, ranking)
    case 'something is wrong':
      return complaint && complaintAsked(complaint, desk)
    case 'next system version':
      return { ask: asks, change: changeAsked([workBase('system upgrade')], desk) }
    case 'will it run this':
      return titlesAsked(question, ranking)
    default:
      return undefined
  }
}
