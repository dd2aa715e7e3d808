import type { Minor } from '../money.ts'
import { ROUND_ROADS, type RoundKind, type RoundState, type RoundStep, type Standing } from './states.ts'

/** Pieces of one shelf item that a yes takes. */
export type Need = { readonly itemId: string; readonly quantity: number }

/** One customer in a round. */
export type Seat = {
  readonly id: string
  readonly needs: readonly Need[]
  /** What they are asked to pay. */
  readonly dueMinor: Minor
  readonly standing: Standing
  /** The how manieth yes of the round theirs is: who said it first comes first. Kept while it counts. */
  readonly yesNumber?: number | undefined
}

export type Round = {
  readonly kind: RoundKind
  readonly state: RoundState
  /** Pieces that this round may give away; what its bundles need beside them is bounded by the shelf alone. */
  readonly items: readonly Need[]
  readonly seats: readonly Seat[]
  /** Yeses so far, those that were taken back included. */
  readonly yeses: number
  /** Until when a yes holds, ISO 8601 UTC. */
  readonly validUntil: string
  /** Of a deal: pieces that were bought; absent before. */
  readonly boughtPieces?: number | undefined
}

export type RoundEvent =
  | { readonly is: RoundStep }
  | { readonly is: 'leave out' | 'put back'; readonly seat: string }
  | { readonly is: 'yes'; readonly seat: string; readonly at: string }
  | { readonly is: 'no'; readonly seat: string }
  /** A yes that something about the machine stops the shop from putting aside by itself. */
  | { readonly is: 'could not hold'; readonly seat: string }
  /** Given back: the customer changed their mind, or the shop lets go. */
  | { readonly is: 'let go'; readonly seat: string }
  /** What is there again, or could be settled, is put aside for this one, whoever stands before them in line. */
  | { readonly is: 'give'; readonly seat: string }
  | { readonly is: 'done'; readonly seat: string }
  | { readonly is: 'bought'; readonly pieces: number }

/** What has to happen beside the round itself, in this order. */
export type RoundEffect =
  | { readonly do: 'hold' | 'release'; readonly seat: string }
  | { readonly do: 'put on the shelf'; readonly itemId: string; readonly pieces: number }

export const ROUND_REFUSALS = ['not now', 'over', 'none left', 'no such customer', 'nothing said'] as const
export type RoundRefusal = (typeof ROUND_REFUSALS)[number]

export type Stepped =
  | { readonly ok: true; readonly round: Round; readonly effects: readonly RoundEffect[] }
  | { readonly ok: false; readonly why: RoundRefusal }

/** Pieces of each item that nobody holds, as the shelf stands. */
export type Free = ReadonlyMap<string, number>

const refuse = (why: RoundRefusal): Stepped => ({ ok: false, why })
const same = (round: Round): Stepped => ({ ok: true, round, effects: [] })

/** Whether somebody can say yes at an instant. */
export const takesYes = ({ state, validUntil }: Pick<Round, 'state' | 'validUntil'>, at: string): boolean =>
  (state === 'going out' || state === 'paused' || state === 'stopped') && at <= validUntil

/** A deal before the parts are there: a yes is counted and takes nothing. */
export const isOpenDeal = ({ kind, boughtPieces }: Pick<Round, 'kind' | 'boughtPieces'>): boolean =>
  kind === 'deal' && boughtPieces === undefined

/** Pieces of an item that seats with one of these standings take. */
const takenBy = ({ seats }: Round, itemId: string, standings: readonly Standing[]): number =>
  seats
    .filter(({ standing }) => standings.includes(standing))
    .flatMap(({ needs }) => needs.filter((need) => need.itemId === itemId))
    .reduce((sum, { quantity }) => sum + quantity, 0)

/** What the round can still give of an item: no more than is free, and of its own items no more than it offers. */
export function leftOf(round: Round, itemId: string, free: Free): number {
  const offered = round.items.find((item) => item.itemId === itemId)?.quantity
  if (isOpenDeal(round) && offered !== undefined) return offered - takenBy(round, itemId, ['counted'])
  const onShelf = free.get(itemId) ?? 0
  return offered === undefined
    ? onShelf
    : Math.max(0, Math.min(onShelf, offered - takenBy(round, itemId, ['held', 'done'])))
}

/** Whether there is enough for a seat once those before it in line have theirs. */
export function isLeftFor(round: Round, seat: Seat, free: Free): boolean {
  const before = inLine(round).filter(
    ({ id, yesNumber }) => id !== seat.id && (yesNumber ?? 0) < (seat.yesNumber ?? Number.POSITIVE_INFINITY),
  )
  return seat.needs.every(({ itemId, quantity }) => {
    const ahead = takenBy({ ...round, seats: before }, itemId, ['too late'])
    return leftOf(round, itemId, free) - ahead >= quantity
  })
}

/** Whether there is enough for a seat, whoever stands in line. */
export const isThereFor = (round: Round, { needs }: Seat, free: Free): boolean =>
  needs.every(({ itemId, quantity }) => leftOf(round, itemId, free) >= quantity)

/** Who said yes when nothing was left, in the order of their yeses. */
export const inLine = ({ seats }: Pick<Round, 'seats'>): readonly Seat[] =>
  seats
    .filter(({ standing }) => standing === 'too late')
    .toSorted((a, b) => (a.yesNumber ?? 0) - (b.yesNumber ?? 0))

/** The first in line for whom there is enough now; undefined where there is none. */
export const nextInLine = (round: Round, free: Free): Seat | undefined =>
  isOpenDeal(round) ? undefined : inLine(round).find((seat) => isLeftFor(round, seat, free))

/**
 * The round after an event, and what has to happen to shelf and jobs with it; or why it cannot be. What was said already
 * changes nothing, so a yes that comes twice is one. `free` is the shelf at that moment.
 */
export function roundAfter(round: Round, event: RoundEvent, free: Free): Stepped {
  switch (event.is) {
    case 'begin':
    case 'pause':
    case 'resume':
    case 'stop':
    case 'end':
    case 'call off':
      return moved(round, event.is)
    case 'bought':
      return bought(round, event.pieces, free)
    default: {
      const seat = round.seats.find(({ id }) => id === event.seat)
      return seat === undefined
        ? refuse('no such customer')
        : movedUp(seatAfter(round, seat, event, free), free)
    }
  }
}

/** Before a deal is bought a place that somebody gives back goes to the next in line: it costs nobody anything. */
function movedUp(stepped: Stepped, free: Free): Stepped {
  if (!stepped.ok || !isOpenDeal(stepped.round) || stepped.round.state === 'called off') return stepped
  let { round } = stepped
  for (const seat of inLine(round))
    if (isLeftFor(round, seat, free)) round = withSeat(round, { ...seat, standing: 'counted' })
  return { ...stepped, round }
}

function moved(round: Round, step: RoundStep): Stepped {
  const to = ROUND_ROADS[round.state][step]
  if (to === undefined) return refuse('not now')
  // What is agreed cannot be called off for everybody at once: only what nobody has yet.
  if (step === 'call off' && round.state !== 'draft' && !isOpenDeal(round)) return refuse('not now')
  if (step !== 'call off') return same({ ...round, state: to })
  const seats = round.seats.map(
    (seat): Seat =>
      seat.standing === 'counted' || seat.standing === 'too late'
        ? { ...seat, standing: 'not bought' }
        : seat,
  )
  return same({ ...round, state: to, seats })
}

type SeatEvent = Extract<RoundEvent, { readonly seat: string }>

function seatAfter(round: Round, seat: Seat, event: SeatEvent, free: Free): Stepped {
  const { standing } = seat
  const to = (next: Standing, effect?: 'hold' | 'release'): Stepped => ({
    ok: true,
    round: withSeat(round, { ...seat, standing: next }),
    effects: effect === undefined ? [] : [{ do: effect, seat: seat.id }],
  })
  switch (event.is) {
    case 'leave out':
      if (round.state !== 'draft') return refuse('not now')
      return standing === 'left out' ? same(round) : to('left out')
    case 'put back':
      if (round.state !== 'draft') return refuse('not now')
      return standing === 'asked' ? same(round) : to('asked')
    case 'yes':
      return saidYes(round, seat, event, free)
    case 'no':
      return saidNo(round, seat, to)
    case 'let go':
      if (standing === 'let go' || standing === 'not bought') return same(round)
      if (standing === 'held') return to('let go', 'release')
      return standing === 'counted' || standing === 'too late' || standing === 'to settle'
        ? to('let go')
        : refuse('nothing said')
    case 'give':
      if (standing === 'held' || standing === 'done') return same(round)
      if (standing !== 'too late' && standing !== 'to settle') return refuse('nothing said')
      if (isOpenDeal(round) || round.state === 'called off') return refuse('not now')
      return isThereFor(round, seat, free) ? to('held', 'hold') : refuse('none left')
    case 'could not hold':
      return standing === 'held' ? to('to settle') : refuse('nothing said')
    case 'done':
      if (standing === 'done') return same(round)
      return standing === 'held' ? to('done') : refuse('nothing said')
  }
}

/** The standings of a yes that counts: said again, it is the same one. */
const COUNTS: ReadonlySet<Standing> = new Set(['counted', 'held', 'to settle', 'done'])

function saidYes(round: Round, seat: Seat, { at }: Extract<SeatEvent, { is: 'yes' }>, free: Free): Stepped {
  if (COUNTS.has(seat.standing)) return same(round)
  if (seat.standing === 'left out' || round.state === 'draft') return refuse('not now')
  if (!takesYes(round, at)) return refuse('over')
  const isInLine = seat.standing === 'too late'
  const numbered: Seat = isInLine ? seat : { ...seat, yesNumber: round.yeses + 1 }
  const counted = { ...round, yeses: isInLine ? round.yeses : round.yeses + 1 }
  const standing: Standing = !isLeftFor(counted, numbered, free)
    ? 'too late'
    : isOpenDeal(round)
      ? 'counted'
      : 'held'
  return {
    ok: true,
    round: withSeat(counted, { ...numbered, standing }),
    effects: standing === 'held' ? [{ do: 'hold', seat: seat.id }] : [],
  }
}

function saidNo(round: Round, { standing }: Seat, to: (s: Standing, effect?: 'release') => Stepped): Stepped {
  if (standing === 'said no') return same(round)
  if (standing === 'not bought') return refuse('not now')
  if (standing === 'left out' || standing === 'done' || round.state === 'draft') return refuse('not now')
  return standing === 'held' ? to('let go', 'release') : to('said no')
}

/** The parts of a deal are there: they go to those who said yes, in the order of their yeses, as far as they go. */
function bought(round: Round, pieces: number, free: Free): Stepped {
  const [item] = round.items
  const isAsking = round.state !== 'draft' && round.state !== 'ended' && round.state !== 'called off'
  if (!isOpenDeal(round) || !isAsking || item === undefined || pieces < 1) return refuse('not now')
  const shelf = new Map(free).set(item.itemId, (free.get(item.itemId) ?? 0) + pieces)
  const effects: RoundEffect[] = [{ do: 'put on the shelf', itemId: item.itemId, pieces }]
  let after: Round = {
    ...round,
    boughtPieces: pieces,
    items: [{ ...item, quantity: pieces }],
  }
  const inOrder = round.seats
    .filter(({ standing }) => standing === 'counted' || standing === 'too late')
    .toSorted((a, b) => (a.yesNumber ?? 0) - (b.yesNumber ?? 0))
  for (const seat of inOrder) {
    if (!isThereFor(after, seat, shelf)) {
      after = withSeat(after, { ...seat, standing: 'too late' })
      continue
    }
    after = withSeat(after, { ...seat, standing: 'held' })
    effects.push({ do: 'hold', seat: seat.id })
    for (const { itemId, quantity } of seat.needs) shelf.set(itemId, (shelf.get(itemId) ?? 0) - quantity)
  }
  return { ok: true, round: after, effects }
}

const withSeat = (round: Round, changed: Seat): Round => ({
  ...round,
  seats: round.seats.map((seat) => (seat.id === changed.id ? changed : seat)),
})

/** Everybody by where they stand, with what they would pay or pay. */
export type RoundSums = {
  readonly seats: { readonly [S in Standing]: number }
  readonly dueMinor: { readonly [S in Standing]: Minor }
}

/** Counts and money of a round: each seat stands in one place, so the sums over all places are those of all seats. */
export function sumsOf({ seats }: Pick<Round, 'seats'>): RoundSums {
  const zeros = () =>
    ({
      ...{ asked: 0, 'left out': 0, 'said no': 0, counted: 0, held: 0 },
      ...{ 'too late': 0, 'to settle': 0, 'let go': 0, 'not bought': 0, done: 0 },
    }) satisfies { [S in Standing]: number }
  const [count, due] = [zeros(), zeros()]
  for (const { standing, dueMinor } of seats) {
    count[standing] += 1
    due[standing] += dueMinor
  }
  return { seats: count, dueMinor: due }
}
