import type { Setting, Title } from '../../core/gain/run.ts'
import type { Part } from '../../core/part.ts'
import type { Look } from '../../core/reach/look.ts'
import type { ShelfItem } from '../../core/shop.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { type FindableLine, listFindable } from '../../store/findable.ts'
import type { WorkLine } from '../../store/longWork.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { listShelf } from '../../store/shelf.ts'
import { countRunsBySetting, listSettings, listTitles, type RunCount } from '../../store/titles.ts'
import { longWork } from '../longWork/loaders.ts'
import { forgetWork, oneWork, worksOf } from '../longWork/longWork.ts'
import type { Progress } from '../longWork/messages.ts'
import { type Asked, reachProblems } from './reachInputs.ts'

/** What a platform can be put together from, and what was looked at before. */
export type LooksView = {
  readonly parts: readonly Part[]
  readonly shelf: readonly ShelfItem[]
  readonly findable: readonly FindableLine['findable'][]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  /** How often each title was run at each setting, the most often first. */
  readonly runCounts: readonly RunCount[]
  readonly looks: readonly WorkLine[]
}

export async function viewLooks(store: Store): Promise<LooksView> {
  const { db } = store
  return {
    parts: await listParts(db),
    shelf: (await listShelf(db)).map(({ item }) => item).filter(({ quantity }) => quantity > 0),
    findable: (await listFindable(db)).map(({ findable }) => findable),
    titles: await listTitles(db),
    settings: await listSettings(db),
    runCounts: await countRunsBySetting(db),
    looks: await worksOf(store, 'reach'),
  }
}

/** Begins a look. Fields of its problems: those of the ask. */
export async function askLook(
  store: Store,
  asked: Asked,
  name: string,
  at: string,
): Promise<Result<{ readonly id: string }>> {
  const problems = await reachProblems(store, asked.ask, asked.typed)
  if (problems.length > 0) return failed(...problems)
  return ok({ id: await longWork(store).ask('reach', asked, at, name) })
}

export type LookView = {
  readonly work: WorkLine
  readonly asked: Asked
  /** How far it is, while it is being worked out. */
  readonly progress?: Progress | undefined
  readonly look?: Look | undefined
  /** Those of the shop and those that were typed. */
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

export async function viewLook(store: Store, id: string): Promise<Result<LookView>> {
  const work = await oneWork(store, 'reach', id)
  if (work === undefined) {
    const next = 'There is no such plan. The list of platforms shows those that were worked out.'
    return failed({ code: 'not found', field: 'platforms', got: id, next })
  }
  const { db } = store
  const { ask, result, inputs: _, ...line } = work
  // Only what this program wrote stands there.
  const asked = ask as Asked
  return ok({
    ...{ work: line, asked, progress: longWork(store).progressOf(id) },
    ...(result !== null && { look: withTitles(result as Look) }),
    parts: [...(await listParts(db)), ...asked.typed],
    titles: await listTitles(db),
    settings: await listSettings(db),
  })
}

/** Levels of version 1 were kept without the titles that they are made of. */
const withTitles = (look: Look): Look => ({
  ...look,
  reach: {
    ...look.reach,
    platforms: look.reach.platforms.map((platform) => ({
      ...platform,
      now: {
        ...platform.now,
        points: platform.now.points.map(({ titles = [], ...point }) => ({ ...point, titles })),
      },
    })),
  },
})

export const callOffLook = async (store: Store, id: string, at: string): Promise<void> => {
  if ((await oneWork(store, 'reach', id)) !== undefined) await longWork(store).callOff(id, at)
}

export const forgetLook = (store: Store, id: string): Promise<Result<{ readonly id: string }>> =>
  forgetWork(store, 'reach', id)
