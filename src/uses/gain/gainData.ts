import type { GainData } from '../../core/gain/model/index.ts'
import { factorInForce } from '../../core/gain/reliability/widthSteps.ts'
import type { Run } from '../../core/gain/run.ts'
import type { Db, Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { runsByIds } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { listWidthSteps } from '../../store/widthSteps.ts'
import { shopOrNeutral } from '../shop.ts'

/** Read and posted at once, some 12 ms of work. Between two such pieces pages get their turn. */
export const RUNS_A_PIECE = 100

/** Runs with these ids, a piece at a time; those taken out meanwhile are left out. */
export async function* runPieces(db: Db, ids: readonly string[]): AsyncGenerator<readonly Run[]> {
  for (let from = 0; from < ids.length; from += RUNS_A_PIECE) {
    yield await runsByIds(db, ids.slice(from, from + RUNS_A_PIECE))
    await new Promise((resolve) => setImmediate(resolve))
  }
}

/** What a fit is made from besides the runs. `at`: ages count to it, ISO 8601 UTC. */
export async function loadAroundRuns({ db }: Store, at: string): Promise<Omit<GainData, 'runs'>> {
  const parts = (await listParts(db)).filter(({ kind }) => kind === 'processor' || kind === 'card')
  const { policy } = await shopOrNeutral(db)
  return {
    parts,
    titles: await listTitles(db),
    settings: await listSettings(db),
    policy: { runWindowDays: policy.runWindowDays },
    widthFactor: factorInForce(await listWidthSteps(db)),
    at,
  }
}

/** All that a fit is made from. */
export async function loadGainData(store: Store, ids: readonly string[], at: string): Promise<GainData> {
  const runs: Run[] = []
  for await (const piece of runPieces(store.db, ids)) runs.push(...piece)
  return { ...(await loadAroundRuns(store, at)), runs }
}
