import type { Minor } from '../../core/money.ts'
import { unwiseOf } from '../../core/round/sense.ts'
import { failed, type Problem, type Result } from '../../problem.ts'
import type { Db, Store } from '../../store/open.ts'
import { setRoundItem } from '../../store/rounds.ts'
import { listShelfItems } from '../../store/shelf.ts'
import { ROUNDS_EN } from '../../words/en/rounds.ts'
import { figuresFor } from '../../words/figures.ts'
import { fill } from '../../words/say.ts'
import { shopOrNeutral } from '../shop.ts'
import { applyEvent, type Hand } from './applyEvent.ts'
import type { LoadedRound } from './loadRound.ts'
import { onRound } from './roundSteps.ts'
import { answerOfSeat } from './seatAnswer.ts'
import type { RoundId } from './startRound.ts'

/** What was bought of a deal's part. */
export type Bought = {
  readonly pieces: number
  readonly costMinor?: Minor | undefined
  /** That each is sold for less than it cost was told, and is meant all the same. */
  readonly knows?: boolean | undefined
}

/**
 * A part that was asked about is there: it goes to those who said yes, in the order of their yeses. Fields of its problems:
 * `round`, and `sure` where each is sold for less than it cost.
 */
export const boughtFor = (
  store: Store,
  roundId: string,
  { pieces, costMinor, knows }: Bought,
  hand: Hand,
): Promise<Result<RoundId>> =>
  onRound(store, roundId, async (tx, loaded) => {
    const [item] = loaded.items
    if (item !== undefined && costMinor !== undefined) {
      const loss = knows === true ? undefined : await lossOf(tx, loaded, item.itemId, costMinor)
      if (loss !== undefined) return failed(loss)
      await setRoundItem(tx, roundId, { ...item, costMinor })
    }
    return applyEvent(tx, roundId, { is: 'bought', pieces }, hand)
  })

/** What is lost by each piece at the price that was offered; undefined where nothing is. */
async function lossOf(
  tx: Db,
  loaded: LoadedRound,
  itemId: string,
  costMinor: Minor,
): Promise<Problem | undefined> {
  const priceMinor = await offeredFor(tx, loaded, itemId)
  if (priceMinor === undefined || unwiseOf({ pieces: 1, named: 0, priceMinor, costMinor }) === undefined)
    return undefined
  const figures = figuresFor(await shopOrNeutral(tx))
  const values = { price: figures.money(priceMinor, true), cost: figures.money(costMinor, true) }
  return { code: 'not allowed', field: 'sure', next: fill(ROUNDS_EN.ask.boughtLoss, values) }
}

/** For how much a piece was offered: what the mails say holds, whatever the shelf says now. */
async function offeredFor(tx: Db, { seats }: LoadedRound, itemId: string): Promise<Minor | undefined> {
  const one = seats.find(({ standing, optionId }) => standing !== 'left out' && optionId !== undefined)
  const shelf = (one && (await answerOfSeat(tx, one))?.inputs.shelf) ?? (await listShelfItems(tx))
  return shelf.find(({ id }) => id === itemId)?.priceMinor
}
