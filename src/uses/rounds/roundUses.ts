import type { Store } from '../../store/open.ts'
import type { Reach } from '../outbox/facts.ts'
import { type Bought, boughtFor } from './bought.ts'
import {
  askAnew,
  beginRound,
  bookFor,
  callOffRound,
  endRound,
  giveTo,
  leaveOut,
  letGo,
  pauseRound,
  prepareAgain,
  putBack,
  resumeRound,
  sayFor,
  stopRound,
} from './roundSteps.ts'
import { viewOfferMail, viewRound, viewRounds } from './roundViews.ts'
import { roundWorkOf } from './roundWork.ts'
import { type ItemRoundAsk, roundFromItem, roundFromMatching } from './startRound.ts'
import { tellAll, tellGone } from './tellGone.ts'
import { type Says, sayByLink, viewOffer } from './yes.ts'

/** So long a form waits for numbers of the gain model. */
const SEND_WAIT_MS = 900

/** What a person does with rounds of offers, joined to a store and the clock. `wake`: something may be due in the outbox. */
export function roundUsesOf(
  store: Store,
  now: () => string,
  { sending, wake }: { readonly sending: Reach; readonly wake: () => void },
) {
  const hand = (by: string | undefined) => ({ at: now(), by })
  const work = roundWorkOf(store, { now, reach: sending, mailReady: wake })
  const then = async <T>(done: Promise<T>): Promise<T> => {
    const result = await done
    work.wake()
    wake()
    return result
  }
  return {
    rounds: () => viewRounds(store),
    round: async (id: string) => {
      // What a stop of the program left goes on as soon as somebody looks.
      work.wake()
      return viewRound(store, id, sending)
    },
    offerMail: (roundId: string, seatId: string) => viewOfferMail(store, roundId, seatId),
    roundFromMatching: (matchingId: string, by?: string) =>
      then(roundFromMatching(store, matchingId, hand(by))),
    roundFromItem: (ask: ItemRoundAsk, by?: string) => then(roundFromItem(store, ask, hand(by))),
    beginRound: (id: string, seen: string, by?: string) =>
      then(beginRound(store, id, seen, sending, hand(by))),
    pauseRound: (id: string, by?: string) => pauseRound(store, id, hand(by)),
    resumeRound: (id: string, by?: string) => then(resumeRound(store, id, hand(by))),
    stopRound: (id: string, by?: string) => stopRound(store, id, hand(by)),
    endRound: (id: string, by?: string) => endRound(store, id, hand(by)),
    callOffRound: (id: string, because: string | undefined, by?: string) =>
      callOffRound(store, id, hand(by), because),
    boughtFor: (id: string, bought: Bought, by?: string) => then(boughtFor(store, id, bought, hand(by))),
    prepareAgain: (id: string) => then(prepareAgain(store, id)),
    leaveOut: (id: string, seat: string, because: string | undefined, by?: string) =>
      then(leaveOut(store, id, seat, because, hand(by))),
    putBack: (id: string, seat: string, by?: string) => then(putBack(store, id, seat, hand(by))),
    sayFor: (id: string, seat: string, says: 'yes' | 'no', bookedFor: string | undefined, by?: string) =>
      then(sayFor(store, id, seat, says, hand(by), bookedFor)),
    bookFor: (id: string, seat: string, bookedFor: string, by?: string) =>
      bookFor(store, id, seat, bookedFor, hand(by)),
    letGo: (id: string, seat: string, because: string | undefined, by?: string) =>
      then(letGo(store, id, seat, because, hand(by))),
    giveTo: (id: string, seat: string, by?: string) => then(giveTo(store, id, seat, hand(by))),
    askAnew: (id: string, seat: string, by?: string) => then(askAnew(store, id, seat, hand(by))),
    tellGone: (id: string, seat: string, by?: string) => tellGone(store, id, seat, hand(by), SEND_WAIT_MS),
    tellAll: (id: string, by?: string) => tellAll(store, id, hand(by), SEND_WAIT_MS),
    offerByLink: (token: string) => viewOffer(store, token, now()),
    sayByLink: (token: string, says: Says) => then(sayByLink(store, token, says, now())),
  }
}

export type RoundUses = ReturnType<typeof roundUsesOf>
