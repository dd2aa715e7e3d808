import { buildOf } from '../../core/build.ts'
import { withVersions } from '../../core/gain/age.ts'
import type { Run, Setting, Title } from '../../core/gain/run.ts'
import { ownRunsOf } from '../../core/limits/fromRuns.ts'
import { limitsOf } from '../../core/limits/resolve.ts'
import type { Part } from '../../core/part.ts'
import { date } from '../../input/cells.ts'
import { dayOf } from '../../input/dates.ts'
import { Refusal } from '../../input/refusal.ts'
import type { FittedFields } from '../../input/tables/runs.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { type MachineLine, searchMachines } from '../../store/machineSearch.ts'
import { loadMachine } from '../../store/machines.ts'
import type { Db, Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { listRuns } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { findTag } from '../findMachine.ts'
import { fittedFieldsOf, fittedOnDay, partsOnDay } from '../fittedOnDay.ts'
import { shopOrNeutral } from '../shop.ts'

/** Which of the two figures that both go by the name of 1% low. */
export type LowKind = 'low1Fps' | 'low1MeanFps'

/** A title as it was last run: what the next run starts from. */
export type SheetTitle = {
  readonly titleId: string
  readonly settingId: string
  /** The version people play now. */
  readonly titleVersion?: string | undefined
  readonly scene?: string | undefined
  /** Runs of it that are kept of this machine and day. */
  readonly kept: readonly Run[]
}

/** A sheet before anything is typed. */
export type RunSheet = {
  readonly machines: readonly MachineLine[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly parts: readonly Part[]
  /** Absent: a test bench. */
  readonly machineTag?: string | undefined
  /** `2026-03-04`, of the shop. */
  readonly day: string
  readonly isToday: boolean
  /** Everything that was in the machine on that day. */
  readonly inside: readonly Part[]
  /** What is known of what ran; of a test bench, what ran last. */
  readonly fitted: FittedFields
  /** The run that told large window and power limits, where nobody noted them on the machine. */
  readonly setAsIn?: string | undefined
  /** As last seen: then the card is not what draws. */
  readonly displayInBoard: boolean
  /** From the last run here; the driver from the last one with this card. */
  readonly remembered: {
    readonly runId?: string | undefined
    readonly driverVersion?: string | undefined
    readonly roomC?: number | undefined
    readonly low?: LowKind | undefined
  }
  /** The titles run last come first. */
  readonly rows: readonly SheetTitle[]
}

/** Machines that the sheet offers; any other is known by its tag as well. */
const MACHINES_OFFERED = 100

/**
 * What a sheet starts from. `machine` undefined: the one of the last run; '': a test bench. `day` undefined: today.
 * `now` is now.
 */
export async function viewRunSheet(
  { db }: Store,
  asked: { readonly machine?: string | undefined; readonly day?: string | undefined },
  now: string,
): Promise<Result<RunSheet>> {
  const { timeZone } = await shopOrNeutral(db)
  const runs = await listRuns(db)
  const titles = (await listTitles(db)).map((title) => withVersions(title, runs))
  const settings = await listSettings(db)
  const last = runs.at(-1)
  const typedTag = asked.machine ?? last?.machineTag
  const machineTag = typedTag ? await findTag(db, typedTag) : undefined
  if (typedTag && machineTag === undefined) return failed(unknownMachine(typedTag))
  const at = asked.day === undefined ? now : date.read(asked.day, { ...READING, timeZone })
  if (at instanceof Refusal) return failed({ code: at.code, field: 'day', got: asked.day, next: at.next })
  const day = dayOf(at, timeZone)
  const machine =
    machineTag === undefined
      ? benchOf(runs)
      : await machineOn(db, machineTag, at, { runs, parts: await listParts(db), timeZone })
  const mine = runs.filter((run) => run.machineTag === machineTag)
  const before = mine.at(-1) ?? last
  const withCard = runs.findLast((run) => run.fitted.cardId === machine.fitted.cardId)
  return ok({
    machines: (await searchMachines(db, { most: MACHINES_OFFERED })).lines,
    settings,
    parts: await listParts(db),
    titles,
    ...{ machineTag, day, isToday: day === dayOf(now, timeZone) },
    ...machine,
    remembered: {
      runId: before?.id,
      driverVersion: withCard?.driverVersion ?? before?.driverVersion,
      roomC: before?.roomC,
      low: lowKindOf(runs),
    },
    rows: rowsOf(titles, settings, runs, {
      machineTag,
      kept: mine.filter((run) => dayOf(run.at, timeZone) === day),
    }),
  })
}

const READING = { decimalMark: '.', currencyDigits: 2 } as const

const unknownMachine = (got: string): Problem => ({
  ...{ code: 'not found', field: 'machine', got },
  next: 'There is no machine with this tag. Tags look like M-0042.',
})

type OnDay = Pick<RunSheet, 'inside' | 'fitted' | 'setAsIn' | 'displayInBoard'>

const benchOf = (runs: readonly Run[]): OnDay => {
  const last = runs.findLast((run) => run.machineTag === undefined)
  return { inside: [], fitted: last === undefined ? {} : fittedFieldsOf(last.fitted), displayInBoard: false }
}

async function machineOn(
  db: Db,
  tag: string,
  at: string,
  { runs, parts, timeZone }: { runs: readonly Run[]; parts: readonly Part[]; timeZone: string },
): Promise<OnDay> {
  const loaded = await loadMachine(db, tag)
  if (loaded === undefined) throw new Error('a machine that was found is gone')
  const stays = loaded.history.map(({ part, ...dates }) => ({ machineTag: tag, partId: part.id, ...dates }))
  const records = { parts: new Map(parts.map((part) => [part.id, part])), timeZone }
  const inside = partsOnDay(stays, records, at)
  const build = buildOf(inside)
  const day = dayOf(at, timeZone)
  const changes = stays
    .flatMap(({ fittedAt, removedAt }) => [fittedAt, removedAt].filter((when) => when !== undefined))
    .filter((when) => dayOf(when, timeZone) <= day)
    .sort()
  const ownRuns = ownRunsOf(tag, build, changes.at(-1), runs).filter((run) => dayOf(run.at, timeZone) <= day)
  const known = fittedOnDay(stays, loaded.machine.claims, records, at, { ownRuns })
  const { largeBar, processorLimitW, cardLimitW } = ownRuns.at(-1)?.fitted ?? {}
  const set = { largeBar, processorLimitW, cardLimitW }
  const isTold = Object.entries(set).some(
    ([field, value]) => value !== undefined && known[field as keyof typeof set] === undefined,
  )
  const seat = limitsOf(build, loaded.machine.claims).displayPluggedInto
  return {
    inside,
    fitted: {
      ...Object.fromEntries(Object.entries(set).filter(([, value]) => value !== undefined)),
      ...Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined)),
    },
    ...(isTold && { setAsIn: ownRuns.at(-1)?.id }),
    displayInBoard: seat.known && seat.value === 'board',
  }
}

/** Which 1% low the last run that has one was typed as; a run with both came from a log and tells nothing. */
function lowKindOf(runs: readonly Run[]): LowKind | undefined {
  const typed = runs.findLast((run) => (run.low1Fps === undefined) !== (run.low1MeanFps === undefined))
  return typed && (typed.low1Fps !== undefined ? 'low1Fps' : 'low1MeanFps')
}

/**
 * Titles by their last run, each with the setting it goes on at: that of this machine's runs of the day; else of the
 * last run, on this machine where there is one, at a setting that is neither held by a cap nor a step below another:
 * those belong to one display and one question, and would be carried to the next machine unseen.
 */
function rowsOf(
  titles: readonly Title[],
  settings: readonly Setting[],
  runs: readonly Run[],
  { machineTag, kept }: { readonly machineTag: string | undefined; readonly kept: readonly Run[] },
): SheetTitle[] {
  const plain = new Set(
    settings
      .filter(({ capFps, lowered }) => capFps === undefined && lowered === undefined)
      .map(({ id }) => id),
  )
  const lastOf = new Map(runs.map((run) => [run.titleId, run]))
  return [...lastOf.values()]
    .sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : a.titleId < b.titleId ? -1 : 1))
    .flatMap((last) => {
      const { titleId } = last
      const title = titles.find(({ id }) => id === titleId)
      if (title === undefined) return []
      const usual = runs.filter((run) => run.titleId === titleId && plain.has(run.settingId))
      const keptNow = kept.filter((run) => run.titleId === titleId)
      const from =
        keptNow.at(-1) ?? usual.findLast((run) => run.machineTag === machineTag) ?? usual.at(-1) ?? last
      return [
        {
          ...{ titleId, settingId: from.settingId, scene: from.scene, kept: keptNow },
          titleVersion: title.versions?.at(-1)?.version ?? from.titleVersion,
        },
      ]
    })
}
