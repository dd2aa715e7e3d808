import { fitModel } from '../../core/gain/model/index.ts'
import { type ModelCard, modelCardOf } from '../../core/gain/modelCard/modelCard.ts'
import type { Title } from '../../core/gain/run.ts'
import type { Part } from '../../core/part.ts'
import { runIds } from '../../store/gainStart.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { listTitles } from '../../store/titles.ts'
import { loadGainData } from '../gain/gainData.ts'
import { keptFitOf, type OfFit } from '../gain/keptFit.ts'

export type ModelCardView = {
  readonly card: ModelCard
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
}

/** What the gain model knows and how well; how far the fit is, where it is not done in `waitMs`. */
export async function viewModelCard(
  store: Store,
  at: string,
  waitMs?: number,
): Promise<OfFit<ModelCardView>> {
  const found = await keptFitOf(store).card(at, waitMs)
  if (found.state !== 'told') return found
  const view = { card: found.told, parts: await listParts(store.db), titles: await listTitles(store.db) }
  return { state: 'told', told: view }
}

/** The card of a shop that no thread has fitted: for the terminal. */
export async function modelCardNow(store: Store, at: string): Promise<ModelCard> {
  return modelCardOf(fitModel(await loadGainData(store, await runIds(store.db), at)))
}
