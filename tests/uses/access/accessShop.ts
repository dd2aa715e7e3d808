import type { Store } from '../../../src/store/open.ts'
import { accessOf } from '../../../src/uses/access/accessOf.ts'
import { openFirstCode } from '../../../src/uses/access/firstCode.ts'
import { temporaryStore } from '../../store/temporaryStore.ts'

/** Not worth guessing: only for tests, whose passwords guard nothing. */
export const CHEAP = { log2N: 4, r: 8, p: 1 }

export const PASSWORD = 'four mice in a drawer'

/** A clock that stands until it is told to go on. */
export function clockAt(start: string) {
  let ms = Date.parse(start)
  return {
    now: () => new Date(ms).toISOString(),
    pass: (seconds: number) => {
      ms += seconds * 1000
    },
  }
}

/** A new shop with its one-time code. */
export async function newShop(given?: Store) {
  const store = given ?? (await temporaryStore())
  const clock = clockAt('2026-11-25T08:00:00.000Z')
  const { code, firstCode } = openFirstCode()
  const access = accessOf(store, { now: clock.now, firstCode, cost: CHEAP })
  return { store, clock, code, access }
}

/** A shop with its owner Ada, signed in on one browser. */
export async function ownedShop(given?: Store) {
  const shop = await newShop(given)
  const made = await shop.access.welcome({
    ...{ code: shop.code, name: 'Ada', password: PASSWORD, address: 'home' },
  })
  if (!made.ok) throw new Error(made.problems.map((p) => p.next).join(' '))
  return { ...shop, owner: made.value }
}

/** One more account, with a password. */
export async function withStaff(shop: Awaited<ReturnType<typeof ownedShop>>, name = 'Bo') {
  const added = await shop.access.addAccount({ name, role: 'staff' }, 'Ada')
  if (!added.ok) throw new Error('not added')
  const { code, id } = added.value
  const made = await shop.access.welcome({ code, name: '', password: `${PASSWORD} ${name}`, address: 'shop' })
  if (!made.ok) throw new Error(made.problems.map((p) => p.next).join(' '))
  return { id, ...made.value }
}
