import type { LoadPoint } from '../../limits/limit.ts'
import { limitPower } from '../processor/limitPower.ts'
import { type Situation, touches } from '../situation.ts'

/** What decides which road is taken; absent = not known. */
type Measured = { readonly coolingLoad?: LoadPoint | undefined }

/**
 * Whether anybody asks what the cooler carries away: processor or cooler change. A processor that draws no more than
 * the one in there today needs no proof: that cooler carries it already.
 */
export const isAsked = (s: Situation): boolean =>
  s.after.processor !== undefined && touches(s, 'processor', 'cooler') && !carriedToday(s)

function carriedToday(s: Situation): boolean {
  if (touches(s, 'cooler')) return false
  const [today, next] = [limitPower(s.before.processor).value, limitPower(s.after.processor).value]
  return today !== undefined && next !== undefined && next <= today
}

/** The way of the heat out of the machine is the one of today, so what a thermometer said of it holds. */
export const isSameWay = (s: Situation): boolean => !touches(s, 'cooler', 'case', 'fan')

/** A load point that holds after the change: cooling.measured and cooling.noMaximum go by it, cooling.rating without. */
export const hasLoadPoint = (s: Situation, { coolingLoad }: Measured): boolean =>
  isSameWay(s) && coolingLoad !== undefined && isSound(coolingLoad)

/** A processor under load is warmer than the room and draws something; else somebody wrote down something else. */
const isSound = ({ loadC, roomC, powerW }: LoadPoint): boolean => powerW > 0 && loadC > roomC
