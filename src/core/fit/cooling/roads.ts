import type { LoadPoint } from '../../limits/limit.ts'
import { limitPower } from '../processor/limitPower.ts'
import { type Situation, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/** What decides which road is taken; absent = not known. */
export type Measured = {
  readonly coolingLoad?: LoadPoint | undefined
  readonly processorMaxC?: number | undefined
}

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

/**
 * Whether the machine's own measurement decides: there is a load point, and a published maximum to hold it against.
 * Without the maximum a rated cooler is judged by its rating; an unrated one has to wait for the maximum.
 */
export const isByMeasurement = (s: Situation, { coolingLoad, processorMaxC }: Measured): boolean =>
  isSameWay(s) &&
  coolingLoad !== undefined &&
  isSound(coolingLoad) &&
  (processorMaxC !== undefined || spec(s.after.cooler, 'cooler', 'ratedW').value === undefined)

/** A processor under load is warmer than the room and draws something; else somebody wrote down something else. */
const isSound = ({ loadC, roomC, powerW }: LoadPoint): boolean => powerW > 0 && loadC > roomC
