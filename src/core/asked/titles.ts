import type { TitleGain } from '../gain/gain.ts'
import { isPromised } from '../gain/useful.ts'
import type { Question } from '../question.ts'
import { isAtTarget, mayReach } from '../ranking/draftOption.ts'
import type { Ranking } from '../ranking/option.ts'
import type { TitleAsked, TitlesAsked } from './asked.ts'

/** Each title against the target: today, and the cheapest option that brings it there. Unknown is never a yes. */
export function titlesAsked({ wanted, targetFps }: Question, { today, ranked }: Ranking): TitlesAsked {
  return {
    ask: 'will it run this',
    titles: wanted.map(({ titleId, settingId }, i) => {
      const now = today[i]
      const todayFps = now === undefined || now.grade === 'no number' ? undefined : now.after.averageFps
      const runsToday = now === undefined ? 'not known' : runsNow(now, targetFps)
      const [road] =
        runsToday === 'yes'
          ? []
          : ranked
              .filter(({ gains }) => gains[i] !== undefined && isAtTarget(gains[i], targetFps))
              .sort((a, b) => a.price.netMinor - b.price.netMinor || (a.id < b.id ? -1 : 1))
      return { titleId, settingId, todayFps, runsToday, ...(road && { roadId: road.id }) }
    }),
  }
}

function runsNow(now: TitleGain, targetFps: number): TitleAsked['runsToday'] {
  if (isAtTarget(now, targetFps)) return 'yes'
  if (now.grade === 'no number') return 'not known'
  if (!isPromised(now)) return 'run again'
  return mayReach(now, targetFps) ? 'may' : 'no'
}
