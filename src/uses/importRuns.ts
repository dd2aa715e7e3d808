import { buildOf } from '../core/build.ts'
import type { Fitted, Run } from '../core/gain/run.ts'
import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import { linkInPart, memoryInPart } from '../core/limits/inPart.ts'
import type { Claim } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import type { Part, PartKind } from '../core/part.ts'
import type { Entry } from '../input/csv/table.ts'
import { dayOf } from '../input/dates.ts'
import type { ShopData } from '../input/shopFolder.ts'
import type { Problem } from '../problem.ts'
import type { FittedPart } from '../store/fitted.ts'

type RunDraft = ShopData['runs'][number]['value']

/** Machines as they will be after the import. */
export type Workshop = {
  readonly parts: ReadonlyMap<string, Part>
  /** Stays by machine tag, oldest first. */
  readonly stays: ReadonlyMap<string, readonly FittedPart[]>
  readonly claims: ReadonlyMap<string, readonly Claim[]>
  readonly timeZone: string
}

/**
 * A whole run. What the row does not give is what was fitted in its machine on that day, so that a correction of
 * fitted.csv reaches the runs; where that is not known (any more), what was stored for the same run; else a problem
 * that names the columns to fill. For a run on a test bench, columns that the file does not have keep what is stored.
 */
export function completeRun(
  { line, value: draft }: Entry<RunDraft>,
  before: Run | undefined,
  workshop: Workshop,
): { run: Run } | { problem: Problem } {
  const given = { ...before, ...draft }
  const { id, at, titleId, titleVersion, settingId, averageFps } = draft
  const { machineTag, low1Fps, note } = given
  const fitted = fittedFor(draft, machineTag, workshop)
  const stored = flat(before?.fitted)
  const sameRun = machineTag !== undefined && before?.machineTag === machineTag && before.at === at
  const absent = Object.entries(stored ?? {}).filter(([field]) => !(field in draft))
  const filled = {
    ...(machineTag === undefined ? Object.fromEntries(absent) : sameRun ? stored : {}),
    ...defined(fitted),
    ...defined(pick(draft)),
  }
  const { processorId, cardId, memoryType, totalGB, rateMts, channels, linkGen, linkLanes } = filled
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
    return { problem: lacking(filled, line, machineTag) }
  const whole: Run = {
    id,
    at,
    machineTag,
    fitted: {
      processorId,
      cardId,
      memory: { memoryType, rateMts, channels, totalGB },
      link: { gen: linkGen, lanes: linkLanes },
    },
    titleId,
    titleVersion,
    settingId,
    averageFps,
    low1Fps,
    note,
  }
  return { run: whole }
}

type FlatFitted = Partial<
  Pick<
    RunDraft,
    'processorId' | 'cardId' | 'memoryType' | 'totalGB' | 'rateMts' | 'channels' | 'linkGen' | 'linkLanes'
  >
>

const COLUMNS = [
  ['processorId', 'processor'],
  ['cardId', 'card'],
  ['memoryType', 'memory_type'],
  ['totalGB', 'memory_gb'],
  ['rateMts', 'memory_mts'],
  ['channels', 'channels'],
  ['linkGen', 'link_gen'],
  ['linkLanes', 'link_lanes'],
] as const satisfies readonly (readonly [keyof FlatFitted, string])[]

const pick = (draft: RunDraft): FlatFitted =>
  Object.fromEntries(COLUMNS.map(([field]) => [field, draft[field]]))

const defined = (fitted: FlatFitted | undefined): FlatFitted =>
  Object.fromEntries(Object.entries(fitted ?? {}).filter(([, value]) => value !== undefined))

const flat = (fitted: Fitted | undefined): FlatFitted | undefined =>
  fitted && {
    processorId: fitted.processorId,
    cardId: fitted.cardId,
    ...fitted.memory,
    linkGen: fitted.link.gen,
    linkLanes: fitted.link.lanes,
  }

/** How to find what a column wants, said once for those that go together. */
const HOW: readonly (readonly [columns: readonly string[], how: string])[] = [
  [['processor', 'card'], 'the keys of the parts that were in it'],
  [
    ['memory_type', 'memory_gb', 'memory_mts', 'channels'],
    'the memory as it ran, such as DDR4, 16 in all, 3200 and 2',
  ],
  [['link_gen', 'link_lanes'], 'the generation and lanes the card runs at, such as 3 and 16'],
]

/** One problem for the row: the columns to fill, and how to find what goes into them. */
function lacking(filled: FlatFitted, line: number, machineTag: string | undefined): Problem {
  const columns: readonly string[] = COLUMNS.flatMap(([field, column]) =>
    filled[field] === undefined ? [column] : [],
  )
  const fill = HOW.flatMap(([group, how]) => {
    const open = group.filter((column) => columns.includes(column))
    return open.length === 0 ? [] : [`${open.join(', ')} (${how})`]
  }).join('; ')
  const next =
    machineTag === undefined
      ? `Fill ${fill}. Or name the machine that the run was made on.`
      : `What was fitted in ${machineTag} on that day does not tell all of it. Fill ${fill}.`
  return { code: 'missing', field: columns.join(', '), file: 'runs.csv', line, next }
}

/** What is known of what was fitted in the machine on the day of the run. */
function fittedFor(
  draft: RunDraft,
  machineTag: string | undefined,
  workshop: Workshop,
): FlatFitted | undefined {
  if (machineTag === undefined) return undefined
  const { timeZone } = workshop
  const day = dayOf(draft.at, timeZone)
  const stays = workshop.stays.get(machineTag) ?? []
  const thatDay = stays.filter(
    ({ fittedAt, removedAt }) =>
      (fittedAt === undefined || dayOf(fittedAt, timeZone) <= day) &&
      (removedAt === undefined || dayOf(removedAt, timeZone) > day),
  )
  const then = partsOfStays(thatDay, workshop)
  const now = partsOfStays(
    stays.filter((stay) => stay.removedAt === undefined),
    workshop,
  )
  const claims = claimsThen(workshop.claims.get(machineTag) ?? [], then, now)
  // The rate in the row was seen at the run: with it the rest of the memory can be told from the kits.
  const seen: Claim[] =
    draft.rateMts === undefined
      ? []
      : [{ key: 'memoryRunsMts', value: draft.rateMts, source: 'measured', pinned: true }]
  const others = seen.length > 0 ? claims.filter((claim) => claim.key !== 'memoryRunsMts') : claims
  const build = buildOf(then)
  const limits = limitsOf(build, [...others, ...seen])
  const { gen, lanes } = linkInPart(build, limits)
  return {
    processorId: build.processor?.id,
    cardId: build.card?.id,
    ...memoryInPart(build, limits),
    linkGen: gen,
    linkLanes: lanes,
  }
}

const partsOfStays = (stays: readonly FittedPart[], { parts }: Workshop): Part[] =>
  stays.flatMap((stay) => parts.get(stay.partId) ?? [])

/** Stored claims speak of the machine as it is now; they hold for that day where their parts are still the same. */
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
