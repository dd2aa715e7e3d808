import type { Question } from '../question.ts'
import { reachesTarget } from '../ranking/draftOption.ts'
import type { Option, Ranking } from '../ranking/option.ts'
import type { TitlesAsked } from './asked.ts'

/** Each title against the target: today, and the cheapest option that brings it there. Unknown is never a yes. */
export function titlesAsked({ wanted, targetFps }: Question, { today, ranked }: Ranking): TitlesAsked {
  const reaches = (fps: number) => reachesTarget(fps, targetFps)
  const afterIn = (option: Option, i: number): number => {
    const gain = option.gains[i]
    return gain === undefined || gain.grade === 'no number' ? 0 : gain.after.averageFps
  }
  return {
    ask: 'will it run this',
    titles: wanted.map(({ titleId, settingId }, i) => {
      const now = today[i]
      const todayFps = now === undefined || now.grade === 'no number' ? undefined : now.after.averageFps
      const runsToday = todayFps === undefined ? 'not known' : reaches(todayFps) ? 'yes' : 'no'
      const [road] =
        runsToday === 'yes'
          ? []
          : ranked
              .filter((option) => reaches(afterIn(option, i)))
              .sort((a, b) => a.price.netMinor - b.price.netMinor || (a.id < b.id ? -1 : 1))
      return { titleId, settingId, todayFps, runsToday, ...(road && { roadId: road.id }) }
    }),
  }
}
