import { type Build, buildOf } from '../core/build.ts'
import type { Fitted, Run } from '../core/gain/run.ts'
import { asSet } from '../core/limits/asItRuns.ts'
import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import { claimsFromRuns, seenMemoryOf } from '../core/limits/fromRuns.ts'
import { linkInPart, memoryInPart } from '../core/limits/inPart.ts'
import type { Claim } from '../core/limits/limit.ts'
import { provenTogether } from '../core/limits/proven.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import { SET_LIMITS } from '../core/limits/state.ts'
import type { Part, PartKind } from '../core/part.ts'
import { dayOf } from '../input/dates.ts'
import type { FittedFields } from '../input/tables/runs.ts'
import type { FittedPart } from '../store/fitted.ts'

type Records = { readonly parts: ReadonlyMap<string, Part>; readonly timeZone: string }

/**
 * What is known of what was fitted in a machine on the day of `at`, from its dated history and what is claimed about
 * it. What is not known is absent. A part that went out on that day counts as gone.
 *
 * @param seen.seenMts the memory's rate as it was seen then: with it the rest of the memory can be told from the kits
 * @param seen.ownRuns runs of this machine with the same parts: what they prove of link and memory holds then too
 */
export function fittedOnDay(
  stays: readonly FittedPart[],
  claims: readonly Claim[],
  records: Records,
  at: string,
  {
    seenMts,
    ownRuns = [],
  }: { readonly seenMts?: number | undefined; readonly ownRuns?: readonly Run[] } = {},
): FittedFields {
  const day = dayOf(at, records.timeZone)
  const then = partsOnDay(stays, records, at)
  const now = partsOf(
    stays.filter((stay) => stay.removedAt === undefined),
    records,
  )
  const held = claimsThen(claims, then, now).filter(
    (claim) =>
      !(claim.key in SET_LIMITS) || claim.at === undefined || dayOf(claim.at, records.timeZone) <= day,
  )
  const seen: Claim[] =
    seenMts === undefined ? [] : [{ key: 'memoryRunsMts', value: seenMts, source: 'measured', pinned: true }]
  const others = seen.length > 0 ? held.filter((claim) => claim.key !== 'memoryRunsMts') : held
  const build: Build = buildOf(then)
  const limits = limitsOf(build, [...provenTogether(build), ...claimsFromRuns(ownRuns), ...others, ...seen])
  const { gen, lanes } = linkInPart(build, limits)
  const seenMemory = seenMemoryOf(ownRuns)
  return {
    processorId: build.processor?.id,
    cardId: build.card?.id,
    ...(seenMts === undefined ? seenMemory : undefined),
    ...memoryInPart(build, limits),
    linkGen: gen,
    linkLanes: lanes,
    ...asSet(limits),
  }
}

/** The parts that were in the machine on the day of `at`. */
export function partsOnDay(stays: readonly FittedPart[], records: Records, at: string): Part[] {
  const { timeZone } = records
  const day = dayOf(at, timeZone)
  return partsOf(
    stays.filter(
      ({ fittedAt, removedAt }) =>
        (fittedAt === undefined || dayOf(fittedAt, timeZone) <= day) &&
        (removedAt === undefined || dayOf(removedAt, timeZone) > day),
    ),
    records,
  )
}

const partsOf = (stays: readonly FittedPart[], { parts }: Records): Part[] =>
  stays.flatMap((stay) => parts.get(stay.partId) ?? [])

/**
 * Stored claims speak of the machine as it is now; they hold for that day where their parts are still the same. What
 * firmware and driver are set to holds from the day somebody saw it.
 */
function claimsThen(claims: readonly Claim[], then: readonly Part[], now: readonly Part[]): Claim[] {
  const idsOf = (parts: readonly Part[], kind: PartKind) =>
    parts
      .filter((part) => part.kind === kind)
      .map((part) => part.id)
      .sort()
      .join(' ')
  return claims.filter((claim) =>
    LIMIT_CATALOGUE[claim.key].hosts.every((kind) => idsOf(then, kind) === idsOf(now, kind)),
  )
}

/** What was fitted in one row, as tables and forms hold it. */
export const fittedFieldsOf = ({ memory, link, ...fitted }: Fitted): FittedFields => ({
  ...fitted,
  ...memory,
  linkGen: link.gen,
  linkLanes: link.lanes,
})

/** What was fitted, or undefined while a figure that runs cannot do without is missing. */
export function wholeFitted(fields: FittedFields): Fitted | undefined {
  const { processorId, cardId, memoryType, totalGB, rateMts, channels, linkGen, linkLanes, ...set } = fields
  if (
    processorId === undefined ||
    cardId === undefined ||
    memoryType === undefined ||
    totalGB === undefined ||
    rateMts === undefined ||
    channels === undefined ||
    linkGen === undefined ||
    linkLanes === undefined
  )
    return undefined
  return {
    processorId,
    cardId,
    memory: { memoryType, rateMts, channels, totalGB },
    link: { gen: linkGen, lanes: linkLanes },
    ...set,
  }
}
