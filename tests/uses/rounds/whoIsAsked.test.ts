import { sql } from 'drizzle-orm'
import { describe, expect, test } from 'vitest'
import { longWork } from '../../../src/uses/longWork/loaders.ts'
import { askMatching } from '../../../src/uses/matching/matching.ts'
import { unwrapped } from '../jobs/jobShop.ts'
import { askWith, drafted, ITEM, shopWith, WAIT_MS } from './aRound.ts'
import { AT } from './roundShop.ts'

async function shopOf(doubles: number) {
  const shop = await shopWith(doubles)
  return { ...shop, drafted: (ask: Parameters<typeof drafted>[1] = {}) => drafted(shop, ask) }
}

describe('who named less than it costs as the most they would spend', () => {
  test.each([
    ['those who gain most are asked', []],
    ['machines are named', ['N-0', 'N-1']],
  ])(
    'is left out where %s, with both figures; taken in by hand they are asked and the row says so',
    async (_, tags) => {
      const { store, uses, work, drafted } = await shopOf(2)
      await store.db.run(sql`update questions set budget_minor = 5000 where id = 'Q-90'`)
      await store.db.run(sql`update questions set budget_minor = 50000 where id = 'Q-91'`)
      const { roundId, round } = await drafted({ tags, overOffer: 9 })
      const seatOf = async (tag: string) => (await round()).seats.find(({ machineTag }) => machineTag === tag)
      const out = await seatOf('N-0')
      expect(out).toMatchObject({
        ...{ standing: 'left out', leftBecause: 'above the ceiling', ceilingMinor: 5000 },
      })
      expect(out?.dueMinor).toBeGreaterThan(5000)
      const within = await seatOf('N-1')
      expect(within?.standing).toBe('asked')
      expect(within?.ceilingMinor).toBeUndefined()
      unwrapped(await uses.putBack(roundId, out?.id ?? '', 'Tess'))
      await work.idle()
      expect(await seatOf('N-0')).toMatchObject({ standing: 'asked', isDrafted: true, ceilingMinor: 5000 })
    },
    WAIT_MS,
  )

  test(
    'is left out of a matching’s round too where the price rose meanwhile',
    async () => {
      const { store, uses, work } = await shopOf(2)
      await store.db.run(sql`update questions set budget_minor = 50000 where id in ('Q-90', 'Q-91')`)
      const ask = {
        ...({ aim: 'gain', companions: 'counted' } as const),
        ...{ items: [{ itemId: ITEM, quantity: 1 }], overOffer: 9, smallestGainPct: 5, quietDays: 0 },
      }
      const { id } = unwrapped(await askMatching(store, ask, AT))
      await longWork(store).idle()
      await store.db.run(sql`update questions set budget_minor = 5000 where id = 'Q-90'`)
      const { roundId } = unwrapped(await uses.roundFromMatching(id, 'Tess'))
      await work.idle()
      const { seats } = unwrapped(await uses.round(roundId))
      const [first, second] = ['N-0', 'N-1'].map((tag) => seats.find((seat) => seat.machineTag === tag))
      expect(first).toMatchObject({ standing: 'left out', leftBecause: 'above the ceiling' })
      expect(second).toMatchObject({ standing: 'asked' })
      longWork(store).halt()
    },
    WAIT_MS,
  )
})

describe('a customer with two machines that could take it', () => {
  test(
    'is asked about one, and the other is named beside it; a person can choose the other instead',
    async () => {
      const { store, uses, work, drafted } = await shopOf(2)
      await store.db.run(sql`update machines set customer_id = 'D-0' where tag = 'N-1'`)
      await store.db.run(sql`update questions set customer_id = 'D-0' where id = 'Q-91'`)
      const { roundId, round } = await drafted({ overOffer: 9 })
      const theirs = async () => (await round()).seats.filter(({ customerId }) => customerId === 'D-0')
      const [one, other] = await theirs()
      expect(one).toMatchObject({ standing: 'asked', others: [{ machineTag: other?.machineTag }] })
      expect(other).toMatchObject({ standing: 'left out', leftBecause: 'another machine', others: [] })
      expect(await uses.putBack(roundId, other?.id ?? '', 'Tess')).toMatchObject({ ok: false })
      unwrapped(await uses.leaveOut(roundId, one?.id ?? '', undefined, 'Tess'))
      unwrapped(await uses.putBack(roundId, other?.id ?? '', 'Tess'))
      await work.idle()
      expect((await theirs()).map(({ standing }) => standing)).toEqual(['left out', 'asked'])
    },
    WAIT_MS,
  )

  test(
    'is told of in a matching’s round as well',
    async () => {
      const { store, uses, work } = await shopOf(2)
      await store.db.run(sql`update machines set customer_id = 'D-0' where tag = 'N-1'`)
      await store.db.run(sql`update questions set customer_id = 'D-0' where id = 'Q-91'`)
      const ask = {
        ...({ aim: 'gain', companions: 'counted' } as const),
        ...{ items: [{ itemId: ITEM, quantity: 1 }], overOffer: 9, smallestGainPct: 5, quietDays: 0 },
      }
      const { id } = unwrapped(await askMatching(store, ask, AT))
      await longWork(store).idle()
      const { roundId } = unwrapped(await uses.roundFromMatching(id, 'Tess'))
      await work.idle()
      const { seats, row } = unwrapped(await uses.round(roundId))
      const theirs = seats.filter(({ customerId }) => customerId === 'D-0')
      expect(theirs.map(({ standing, leftBecause }) => [standing, leftBecause])).toEqual([
        ['asked', undefined],
        ['left out', 'another machine'],
      ])
      expect(theirs[0]?.others).toMatchObject([{ machineTag: theirs[1]?.machineTag }])
      expect(row.preparedAt).toBeDefined()
      longWork(store).halt()
    },
    WAIT_MS,
  )
})

test(
  'each machine that was named has its place, with the reason where it cannot take the item; one of nobody is refused',
  async () => {
    const { store, uses, drafted } = await shopOf(2)
    await store.db.run(sql`delete from wanted_titles where question_id = 'Q-91'`)
    // A card of the same part is in there already.
    await store.db.run(
      sql`insert into fitted_parts (machine_tag, part_id, fitted_at, copy)
          select 'N-0', part_id, '2026-01-01T00:00:00.000Z', 9 from shelf_items where id = ${ITEM}`,
    )
    const tags = ['n-0', 'N-1', 'M-0207', 'N-1']
    const { roundId, round } = await drafted({ tags })
    const seats = (await round()).seats
    expect(seats.map(({ machineTag }) => machineTag).toSorted()).toEqual(['M-0207', 'N-0', 'N-1'])
    const n1 = seats.find(({ machineTag }) => machineTag === 'N-1')
    expect(n1).toMatchObject({ standing: 'left out', leftBecause: 'no titles' })
    expect(await uses.putBack(roundId, n1?.id ?? '', 'Tess')).toMatchObject({ ok: false })
    await store.db.run(sql`update machines set customer_id = null where tag = 'N-1'`)
    expect(await uses.roundFromItem(askWith({ tags: ['N-1', 'Z-1'] }), 'Tess')).toMatchObject({
      ok: false,
      problems: [
        { field: 'tags', got: 'N-1', code: 'not allowed' },
        { field: 'tags', got: 'Z-1', code: 'not found' },
      ],
    })
  },
  WAIT_MS,
)

test(
  'who may not be written to is not taken in by hand, and who heard lately is, and told of',
  async () => {
    const { store, uses, work, drafted } = await shopOf(2)
    await store.db.run(sql`insert into consents (customer_id, kind, standing, at, source, wording, language)
      values ('D-0', 'offers', 'withdrawn', ${AT}, 'in person', 'No more.', 'en')`)
    await store.db.run(sql`update machines set sold_at = '2026-11-20T12:00:00.000Z' where tag = 'N-1'`)
    const { roundId, round } = await drafted({ overOffer: 9, quietDays: 30 })
    const seatOf = async (tag: string) => (await round()).seats.find(({ machineTag }) => machineTag === tag)
    expect(await seatOf('N-0')).toMatchObject({ leftBecause: 'no consent' })
    expect(await uses.putBack(roundId, (await seatOf('N-0'))?.id ?? '', 'Tess')).toMatchObject({ ok: false })
    expect(await seatOf('N-1')).toMatchObject({ leftBecause: 'quiet period' })
    unwrapped(await uses.putBack(roundId, (await seatOf('N-1'))?.id ?? '', 'Tess'))
    await work.idle()
    expect(await seatOf('N-1')).toMatchObject({ standing: 'asked', leftBecause: 'quiet period' })
  },
  WAIT_MS,
)
