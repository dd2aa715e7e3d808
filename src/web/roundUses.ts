import type { Result } from '../problem.ts'
import type { MailId } from '../uses/outbox/draftMails.ts'
import type { Bought } from '../uses/rounds/bought.ts'
import type { RoundsView, RoundView } from '../uses/rounds/roundViews.ts'
import type { ItemRoundAsk, RoundId } from '../uses/rounds/startRound.ts'
import type { ToldAll } from '../uses/rounds/tellGone.ts'
import type { OfferView, Says } from '../uses/rounds/yes.ts'

type Done = Promise<Result<RoundId>>

/** Rounds of offers, and the page behind an offer's link. `by` is whoever is signed in. */
export type RoundUses = {
  rounds(): Promise<RoundsView>
  round(id: string): Promise<Result<RoundView>>
  /** The mail to one customer as it would go out, or as it went. */
  offerMail(
    roundId: string,
    seatId: string,
  ): Promise<Result<{ readonly subject: string; readonly html: string; readonly text: string }>>
  roundFromMatching(matchingId: string, by?: string): Done
  /** Fields of its problems: those of the ask, and `sure` where it is unwise. */
  roundFromItem(ask: ItemRoundAsk, by?: string): Done
  /** `seen` is the mark of the round that was looked at. */
  beginRound(id: string, seen: string, by?: string): Done
  pauseRound(id: string, by?: string): Done
  resumeRound(id: string, by?: string): Done
  stopRound(id: string, by?: string): Done
  endRound(id: string, by?: string): Done
  callOffRound(id: string, because: string | undefined, by?: string): Done
  /** Fields of its problems: `round`, and `sure` where each is sold for less than it cost. */
  boughtFor(id: string, bought: Bought, by?: string): Done
  prepareAgain(id: string): Done
  leaveOut(id: string, seat: string, because: string | undefined, by?: string): Done
  putBack(id: string, seat: string, by?: string): Done
  /** `bookedFor`: the day of the job that a yes becomes. Fields of its problems: `bookedDay round`. */
  sayFor(id: string, seat: string, says: 'yes' | 'no', bookedFor: string | undefined, by?: string): Done
  bookFor(id: string, seat: string, bookedFor: string, by?: string): Done
  letGo(id: string, seat: string, because: string | undefined, by?: string): Done
  giveTo(id: string, seat: string, by?: string): Done
  askAnew(id: string, seat: string, by?: string): Done
  /** A draft in the outbox. */
  tellGone(id: string, seat: string, by?: string): Promise<Result<MailId>>
  /** A draft to each who waits to hear that it is gone or not bought. */
  tellAll(id: string, by?: string): Promise<Result<ToldAll>>
  /** Looking says nothing. */
  offerByLink(token: string): Promise<Result<OfferView>>
  sayByLink(token: string, says: Says): Promise<Result<OfferView>>
}
