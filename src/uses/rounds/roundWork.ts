import type { Store } from '../../store/open.ts'
import { seatToWrite } from '../../store/roundSeats.ts'
import { roundToPrepare, updateRound } from '../../store/rounds.ts'
import type { Reach } from '../outbox/facts.ts'
import { prepareNext } from './prepareRound.ts'
import { passOver, writeNext } from './writeOffers.ts'

/**
 * What rounds have to do that takes longer than a page waits: offers are worked out, mails written and approved, one after the
 * other and between them everybody else is served. What is done is kept at once, so after a stop it goes on.
 */
export type RoundWork = {
  /** Goes on with whatever is to be done. */
  readonly wake: () => void
  /** Until nothing is to be done: for tests. */
  readonly idle: () => Promise<void>
  readonly halt: () => void
  readonly onFault: (listener: (error: unknown) => void) => void
}

export type RoundWorkOptions = {
  readonly now: () => string
  readonly reach: Reach
  /** A mail was approved: something may be due. */
  readonly mailReady: () => void
}

const known = new WeakMap<Store, RoundWork>()

/** The work of a store's rounds; what counts are the options of the first call. */
export function roundWorkOf(store: Store, options: RoundWorkOptions): RoundWork {
  const had = known.get(store)
  if (had !== undefined) return had
  const fresh = start(store, options)
  known.set(store, fresh)
  return fresh
}

function start(store: Store, { now, reach, mailReady }: RoundWorkOptions): RoundWork {
  let running: Promise<void> | undefined
  let isWoken = false
  let isHalted = false
  let hear: (error: unknown) => void = () => {}

  /** One piece; false where there is nothing to do. */
  async function piece(): Promise<boolean> {
    const row = await roundToPrepare(store.db)
    if (row !== undefined) {
      try {
        await prepareNext(store, row, now())
      } catch (error) {
        await store.write((tx) => updateRound(tx, row.id, { trouble: 'fault' }))
        hear(error)
      }
      return true
    }
    const seat = await seatToWrite(store.db)
    if (seat === undefined) return false
    try {
      await writeNext(store, reach, now())
      mailReady()
    } catch (error) {
      await passOver(store, seat.id)
      hear(error)
    }
    return true
  }

  async function run(): Promise<void> {
    try {
      for (;;) {
        isWoken = false
        while (!isHalted && (await piece())) await new Promise((resolve) => setImmediate(resolve))
        if (!isWoken || isHalted) return
      }
    } catch (error) {
      // The store cannot be reached: it goes on when somebody looks again.
      hear(error)
    } finally {
      running = undefined
    }
  }

  return {
    wake: () => {
      isWoken = true
      if (!isHalted) running ??= run()
    },
    idle: async () => {
      while (running !== undefined) await running
    },
    halt: () => {
      isHalted = true
    },
    onFault: (listener) => {
      hear = listener
    },
  }
}
