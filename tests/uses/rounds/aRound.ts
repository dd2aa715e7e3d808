import { afterEach } from 'vitest'
import { unwrapped } from '../jobs/jobShop.ts'
import { AT, roundShop, roundsAt, tokenOf, withDoubles } from './roundShop.ts'

/* The invented shop with one title's runs: it waits for the gain model once. */
export const WAIT_MS = 300_000

/** Done after each test of a file, the last first. */
export const cleanups: (() => Promise<unknown>)[] = []
afterEach(async () => {
  for (const cleanup of cleanups.splice(0).reverse()) await cleanup()
})

export const ITEM = 'S-602'
const ASK = { of: ITEM, pieces: 1, overOffer: 3, quietDays: 0, validDays: 14, tags: [], costMinor: 9000 }

export async function shopWith(doubles: number) {
  const { store, url } = await roundShop()
  cleanups.push(store.close)
  await withDoubles(store, doubles)
  const clock = { at: AT }
  return { store, url, clock, ...roundsAt(store, clock) }
}
export type Shop = Awaited<ReturnType<typeof shopWith>>
type Ask = Parameters<Shop['uses']['roundFromItem']>[0]

export const askWith = (more: Partial<Ask> = {}): Ask => ({ ...ASK, ...more })

/** A draft that is worked out. */
export async function drafted(shop: Shop, ask: Partial<Ask> = {}) {
  const { roundId } = unwrapped(await shop.uses.roundFromItem(askWith(ask), 'Tess'))
  await shop.work.idle()
  const round = async () => unwrapped(await shop.uses.round(roundId))
  const asked = (await round()).seats.filter(({ standing }) => standing === 'asked')
  return { roundId, round, asked }
}

/** The same, with its mails written and approved; nobody sends them. */
export async function begun(shop: Shop, ask: Partial<Ask> = {}) {
  const draft = await drafted(shop, ask)
  unwrapped(await shop.uses.beginRound(draft.roundId, (await draft.round()).seen, 'Tess'))
  await shop.work.idle()
  const seats = (await draft.round()).seats
  const written = draft.asked.filter(({ id }) => seats.find((seat) => seat.id === id)?.mailId !== undefined)
  const tokens = await Promise.all(written.map(({ id }) => tokenOf(shop.store, draft.roundId, id)))
  return { ...draft, tokens }
}

export const sayYes = async (shop: Shop, token: string | undefined) =>
  unwrapped(await shop.uses.sayByLink(token ?? '', 'yes')).standing
