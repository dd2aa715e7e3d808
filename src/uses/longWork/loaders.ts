import type { MatchAsk } from '../../core/matching/ask.ts'
import type { Store } from '../../store/open.ts'
import { type DemandQuery, demandInputs } from '../matching/demandInputs.ts'
import { matchInputs } from '../matching/matchInputs.ts'
import { type Asked, reachInputs } from '../reach/reachInputs.ts'
import { type Loaders, type LongWork, longWorkOf } from './longWork.ts'

const LOADERS: Loaders = {
  match: (store: Store, ask: MatchAsk, at: string) => matchInputs(store, ask, at),
  price: (store: Store, query: DemandQuery, at: string) => demandInputs(store, query, at),
  reach: (store: Store, { ask, typed }: Asked, at: string) => reachInputs(store, ask, at, typed),
}

/** The long work of a store. */
export const longWork = (store: Store): LongWork => longWorkOf(store, LOADERS)
