import {
  type FactorProposal,
  groupedBy,
  type MeasuredPromise,
  proposedFactor,
  type Reliability,
  reliabilityOf,
} from '../../core/gain/reliability/reliability.ts'
import { factorInForce, type WidthStep } from '../../core/gain/reliability/widthSteps.ts'
import type { Setting, Title } from '../../core/gain/run.ts'
import type { Job } from '../../core/job/job.ts'
import { heldAgainst, type Kept, runsSince } from '../../core/job/promise.ts'
import type { Part, PartKind } from '../../core/part.ts'
import { lastChange } from '../../store/changes.ts'
import { partChangesOf } from '../../store/fitted.ts'
import { gainRevision } from '../../store/gainStart.ts'
import { listJobs, stepsOfJobs } from '../../store/jobs.ts'
import type { Db, Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { runsOfMachines } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { listWidthSteps } from '../../store/widthSteps.ts'

/** One promise in one title, what went in for it, and what became of it. */
export type PromiseLine = {
  readonly job: Pick<Job, 'id' | 'machineTag' | 'agreedAt' | 'fittedAt'>
  readonly partIds: readonly string[]
  readonly kinds: readonly PartKind[]
  readonly kept: Kept
}

export type Grouped = readonly (readonly [string, Reliability])[]

/** How wide intervals are, and whether the promises call for another width. */
export type WidthView = {
  /** What intervals are multiplied by now. */
  readonly inForce: number
  /** Every change of it, the newest first. */
  readonly steps: readonly WidthStep[]
  /** Absent below enough promises, and where nothing calls for another. */
  readonly proposal?: FactorProposal | undefined
}

export type PromisesView = {
  /** The newest first. */
  readonly lines: readonly PromiseLine[]
  readonly all: Reliability
  readonly width: WidthView
  /** By kind of part, title and part that went in. A promise of several parts counts under each. */
  readonly byKind: Grouped
  readonly byTitle: Grouped
  readonly byPart: Grouped
  /** Promised and not measured yet: the work is done. */
  readonly unmeasured: number
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

/** The last one of each store, with what it hangs on. */
const kept = new WeakMap<Store, { readonly basis: string; readonly view: Promise<PromisesView> }>()

/** Every promise of every job whose parts are in, against the shop's runs since; read anew once something was written. */
export async function viewPromises(store: Store): Promise<PromisesView> {
  const { db } = store
  const basis = JSON.stringify([await lastChange(db), await gainRevision(db)])
  const before = kept.get(store)
  if (before?.basis === basis) return before.view
  const view = promisesIn(db)
  kept.set(store, { basis, view })
  view.catch(() => kept.delete(store))
  return view
}

export async function promisesIn(db: Db): Promise<PromisesView> {
  const jobs = (await listJobs(db)).filter(({ fittedAt }) => fittedAt !== undefined)
  const parts = await listParts(db)
  const kindOf = new Map(parts.map(({ id, kind }) => [id, kind]))
  const work = await stepsOfJobs(
    db,
    jobs.map(({ id }) => id),
  )
  const tags = [...new Set(jobs.map(({ machineTag }) => machineTag))]
  const changes = await partChangesOf(db, tags)
  const runs = await runsOfMachines(db, tags)
  const lines: PromiseLine[] = []
  for (const job of jobs) {
    const since = runsSince(job, changes.get(job.machineTag) ?? [], runs.get(job.machineTag) ?? [])
    const partIds = (work.get(job.id) ?? []).flatMap(({ what, ref }) => (what === 'fit' ? [ref] : []))
    const kinds = [...new Set(partIds.flatMap((id) => kindOf.get(id) ?? []))]
    for (const promised of job.promised)
      lines.push({ job, partIds, kinds, kept: heldAgainst(promised, since) })
  }
  const measured = lines.flatMap(measuredOf)
  const steps = await listWidthSteps(db)
  const inForce = factorInForce(steps)
  const of = (keysOf: (line: PromiseLine) => readonly string[]): Grouped =>
    groupedBy(measured, ({ line }) => keysOf(line))
  return {
    lines,
    all: reliabilityOf(measured),
    width: { inForce, steps: steps.toReversed(), proposal: proposedFactor(measured, inForce) },
    byKind: of(({ kinds }) => kinds),
    byTitle: of(({ kept }) => [kept.promised.titleId]),
    byPart: of(({ partIds }) => partIds),
    unmeasured: lines.length - measured.length,
    ...{ parts, titles: await listTitles(db), settings: await listSettings(db) },
  }
}

type WithLine = MeasuredPromise & { readonly line: PromiseLine }

function measuredOf(line: PromiseLine): WithLine[] {
  const { promised, measuredFps, runIds } = line.kept
  if (measuredFps === undefined) return []
  return [
    {
      jobId: line.job.id,
      promised,
      measuredFps,
      runs: runIds.length,
      factor: promised.widthFactor ?? 1,
      line,
    },
  ]
}
