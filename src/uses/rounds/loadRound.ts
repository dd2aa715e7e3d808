import type { JobState } from '../../core/job/states.ts'
import type { Free, Need, Round, Seat } from '../../core/round/round.ts'
import type { Standing } from '../../core/round/states.ts'
import { needsSchema } from '../../input/storedRound.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Db } from '../../store/open.ts'
import { jobStatesOf, type SeatRow, seatsOfRound } from '../../store/roundSeats.ts'
import { itemsOfRound, loadRoundRow, type RoundItem, type RoundRow } from '../../store/rounds.ts'
import { listShelf } from '../../store/shelf.ts'

/** A round as it stands: what is kept of it, and the same as the core reads it. */
export type LoadedRound = {
  readonly row: RoundRow
  readonly items: readonly RoundItem[]
  readonly seats: readonly SeatRow[]
  readonly round: Round
  /** What of each shelf item nobody holds. */
  readonly free: Free
}

export const noSuchRound = (got: string): Problem => ({
  ...{ code: 'not found', field: 'round', got },
  next: 'There is no such round. The list of offers shows them all.',
})

/** What a yes of this customer takes; nothing until the offer is worked out. */
export const needsOf = ({ needs }: Pick<SeatRow, 'needs'>): readonly Need[] =>
  needs === undefined ? [] : needsSchema.parse(needs)

/** A job that was called off gave its parts back, and one that is done has them in; wherever that was said. */
function standingNow(standing: Standing, job: JobState | undefined): Standing {
  if (standing !== 'held') return standing
  return job === 'called off' ? 'let go' : job === 'done' ? 'done' : 'held'
}

export async function loadRound(db: Db, id: string): Promise<Result<LoadedRound>> {
  const row = await loadRoundRow(db, id)
  if (row === undefined) return failed(noSuchRound(id))
  const items = await itemsOfRound(db, id)
  const kept = await seatsOfRound(db, id)
  const jobs = await jobStatesOf(db, kept)
  const seats = kept.map((seat) => ({
    ...seat,
    standing: standingNow(seat.standing, seat.jobId === undefined ? undefined : jobs.get(seat.jobId)),
  }))
  const free = new Map((await listShelf(db)).map(({ item }) => [item.id, item.quantity]))
  return ok({ row, items, seats, free, round: roundOf(row, items, seats) })
}

const roundOf = (row: RoundRow, items: readonly RoundItem[], seats: readonly SeatRow[]): Round => ({
  ...{ kind: row.kind, state: row.state, yeses: row.yeses, validUntil: row.validUntil },
  items: items.map(({ itemId, quantity }) => ({ itemId, quantity })),
  seats: seats.map(coreSeat),
  ...(row.boughtPieces !== undefined && { boughtPieces: row.boughtPieces }),
})

const coreSeat = (seat: SeatRow): Seat => ({
  ...{ id: seat.id, needs: needsOf(seat), dueMinor: seat.dueMinor ?? 0, standing: seat.standing },
  ...(seat.yesNumber !== undefined && { yesNumber: seat.yesNumber }),
})
