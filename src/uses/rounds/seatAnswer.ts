import type { Answer } from '../../core/answer.ts'
import { loadAnswer } from '../../store/answers.ts'
import type { Db } from '../../store/open.ts'
import { type SeatRow, seatDraft } from '../../store/roundSeats.ts'

/** The answer behind an offer, wherever it is kept by now. Only this program wrote it. */
export async function answerOfSeat(db: Db, seat: SeatRow): Promise<Answer | undefined> {
  if (seat.answerId !== undefined) return (await loadAnswer(db, seat.answerId))?.answer
  return (await seatDraft(db, seat.id)) as Answer | undefined
}
