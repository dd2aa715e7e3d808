import type { Kept } from './job/promise.ts'
import { LIMIT_CATALOGUE } from './limits/catalogue.ts'
import type { Claim, LimitKey, LimitValues } from './limits/limit.ts'
import type { Part } from './part.ts'

/** A part as a history names it. */
type Named = Pick<Part, 'kind' | 'name'>

/** A limit that was written down, and what was written before in its place. */
export type LimitChange = {
  readonly key: LimitKey
  readonly value: LimitValues[LimitKey]
  readonly before?: LimitValues[LimitKey] | undefined
}

/** Work on the machine that was agreed with whoever looks: what was done beside parts, and what became of the promise. */
export type HistoryJob = {
  readonly jobId: string
  /** When the parts were in. */
  readonly fittedAt: string
  readonly works: readonly string[]
  readonly kept: readonly Kept[]
  readonly targetFps: number
}

/** All that happened to a machine on one day. */
export type HistoryDay = {
  /** Calendar day in the shop. */
  readonly day: string
  /** It was sold, with these parts inside. */
  readonly sold?: readonly Named[] | undefined
  readonly partsIn: readonly Named[]
  readonly partsOut: readonly Named[]
  readonly limits: readonly LimitChange[]
  readonly jobs: readonly HistoryJob[]
  /** Its own firmware table was read. */
  readonly isRead: boolean
}

type Known = {
  readonly soldAt?: string | undefined
  readonly stays: readonly {
    readonly part: Named
    readonly fittedAt?: string | undefined
    readonly removedAt?: string | undefined
  }[]
  readonly claims: readonly Claim[]
  readonly past: readonly { readonly claim: Claim; readonly endedAt: string }[]
  readonly jobs: readonly HistoryJob[]
  readonly readAt: readonly string[]
}

/**
 * What happened to a machine since it was sold, the newest day first. Of limits only what counts is told, without notes;
 * what stood in the sheet on the day of sale is no news. Of its people and of money there is nothing in it.
 *
 * @param dayOf the calendar day of an instant in the shop
 */
export function machineHistory(known: Known, dayOf: (at: string) => string): HistoryDay[] {
  const soldOn = known.soldAt === undefined ? undefined : dayOf(known.soldAt)
  const isSince = (at: string | undefined): at is string =>
    at !== undefined && (soldOn === undefined || dayOf(at) > soldOn)
  const days = new Map<string, Mutable>()
  const on = (day: string): Mutable => {
    const found = days.get(day) ?? { day, partsIn: [], partsOut: [], limits: [], jobs: [], isRead: false }
    days.set(day, found)
    return found
  }
  if (soldOn !== undefined)
    on(soldOn).sold = known.stays
      .filter((stay) => !isSince(stay.fittedAt) && (stay.removedAt === undefined || isSince(stay.removedAt)))
      .map(({ part }) => named(part))
  for (const { part, fittedAt, removedAt } of known.stays) {
    if (isSince(fittedAt)) on(dayOf(fittedAt)).partsIn.push(named(part))
    if (isSince(removedAt)) on(dayOf(removedAt)).partsOut.push(named(part))
  }
  for (const { at, ...change } of limitChanges(known)) if (isSince(at)) on(dayOf(at)).limits.push(change)
  for (const job of known.jobs) on(dayOf(job.fittedAt)).jobs.push(job)
  for (const at of known.readAt) if (isSince(at)) on(dayOf(at)).isRead = true
  return [...days.values()].sort((a, b) => (a.day < b.day ? 1 : -1))
}

type Mutable = {
  -readonly [K in keyof HistoryDay]: HistoryDay[K] extends readonly (infer E)[] ? E[] : HistoryDay[K]
}

const named = ({ kind, name }: Named): Named => ({ kind, name })

const counts = ({ key, source, pinned, bound }: Claim): boolean =>
  bound === undefined && (pinned === true || LIMIT_CATALOGUE[key].belief.includes(source))

/** Claims in the order in which they were made, each with the one of its key and source that it took the place of. */
function limitChanges({ claims, past }: Known): (LimitChange & { readonly at: string })[] {
  const made = [
    ...past.map(({ claim, endedAt }) => ({ claim, endedAt: endedAt as string | undefined })),
    ...claims.map((claim) => ({ claim, endedAt: undefined })),
  ].filter(({ claim }) => counts(claim))
  return made.flatMap(({ claim: { key, source, value, at } }) => {
    if (at === undefined) return []
    const before = made.find(
      (one) => one.claim.key === key && one.claim.source === source && one.endedAt === at,
    )?.claim.value
    if (before !== undefined && JSON.stringify(before) === JSON.stringify(value)) return []
    return [{ key, value, at, ...(before !== undefined && { before }) }]
  })
}
