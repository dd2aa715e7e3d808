import { sql } from 'drizzle-orm'
import { describe, expect, test } from 'vitest'
import { listShelf, searchShelf } from '../../../src/store/shelf.ts'
import { viewToApprove } from '../../../src/uses/outbox/approveMany.ts'
import { stockOf, unwrapped } from '../jobs/jobShop.ts'
import { askWith, begun, drafted, ITEM, type Shop, sayYes, shopWith, WAIT_MS } from './aRound.ts'
import { AT, REACH } from './roundShop.ts'

describe('a deal', () => {
  const findable = async (shop: Shop) => {
    await shop.store.db.run(sql`insert into findable_parts (id, part_id, condition, low_minor, high_minor, seen_at)
      select 'F-9001', part_id, 'used tested', 8000, 9500, ${AT} from shelf_items where id = ${ITEM}`)
    return { of: 'F-9001', pieces: 2, overOffer: 2, priceMinor: 12_900, wantedYeses: 2 }
  }

  test(
    'is asked about before it is bought, says so, counts yeses, and once bought puts aside in their order',
    async () => {
      const shop = await shopWith(3)
      const { roundId, round, asked, tokens } = await begun(shop, await findable(shop))
      const view = await round()
      const itemId = view.items[0]?.item.id ?? ''
      expect(view.isOpenDeal).toBe(true)
      expect(asked.length).toBeGreaterThanOrEqual(3)
      const mail = view.seats.find(({ id }) => id === asked[0]?.id)?.mail?.text.replaceAll(/\s+/g, ' ') ?? ''
      expect(mail).toMatch(/We don’t have it yet|Wir haben es noch nicht/)
      // Nothing in it says that there is one, or that anybody here has tested it.
      expect(mail).toMatch(/, used: |, gebraucht: /)
      expect(mail).not.toMatch(/tested by us|von uns geprüft/)
      expect(mail).not.toMatch(
        /on the shelf, and we|we don’t hold|im Lager, und wir|legen (es|sie) nicht zurück/i,
      )
      expect(await sayYes(shop, tokens[2])).toBe('counted')
      expect(await sayYes(shop, tokens[0])).toBe('counted')
      expect(await sayYes(shop, tokens[1])).toBe('too late')
      expect(await stockOf(shop.store, itemId)).toEqual({ standing: 0, held: 0, free: 0 })
      // Dearer than what the mails say: told first, whatever the shelf says by now; nothing is kept.
      await shop.store.db.run(sql`update shelf_items set price_minor = 20000 where id = ${itemId}`)
      expect(await shop.uses.boughtFor(roundId, { pieces: 1, costMinor: 12_901 }, 'Tess')).toMatchObject({
        ...{ ok: false, problems: [{ field: 'sure', next: expect.stringMatching(/\$129\.01.*\$129\.00/) }] },
      })
      expect(await round()).toMatchObject({ isOpenDeal: true })
      expect(await stockOf(shop.store, itemId)).toEqual({ standing: 0, held: 0, free: 0 })
      unwrapped(await shop.uses.boughtFor(roundId, { pieces: 1, costMinor: 8000 }, 'Tess'))
      const after = new Map((await round()).seats.map((seat) => [seat.id, seat.standing]))
      expect(asked.slice(0, 3).map(({ id }) => after.get(id))).toEqual(['too late', 'too late', 'held'])
      expect(await stockOf(shop.store, itemId)).toEqual({ standing: 1, held: 1, free: 0 })
      expect(await shop.uses.callOffRound(roundId, undefined, 'Tess')).toMatchObject({ ok: false })
      // Who was counted and got none hears how many were bought, and nothing of what was said of other offers.
      const told = unwrapped(await shop.uses.tellAll(roundId, 'Tess'))
      expect(told.mailIds).toHaveLength(2)
      for (const { text } of (await viewToApproveOf(shop, told.mailIds)).ready) {
        expect(text.replaceAll(/\s+/g, ' ')).toMatch(/bought only one of this|nur eines gekauft/)
        expect(text).not.toMatch(/don’t hold it\.\n|had said/)
      }
    },
    WAIT_MS,
  )

  test(
    'that is called off puts nothing aside, and those who said yes are told',
    async () => {
      const shop = await shopWith(2)
      const { roundId, round, asked, tokens } = await begun(shop, await findable(shop))
      await sayYes(shop, tokens[0])
      unwrapped(await shop.uses.callOffRound(roundId, 'too few', 'Tess'))
      expect(unwrapped(await shop.uses.offerByLink(tokens[0] ?? ''))).toMatchObject({ isCalledOff: true })
      const told = unwrapped(await shop.uses.tellGone(roundId, asked[0]?.id ?? '', 'Tess'))
      expect(told.mailId).toMatch(/^\d+$/)
      expect((await listShelf(shop.store.db)).every(({ putAside }) => putAside.length === 0)).toBe(true)
      expect((await round()).result.toComeMinor).toBe(0)
    },
    WAIT_MS,
  )

  test(
    'that is called off with enough yeses does not say that too few wanted it, and none of its mails waits any more',
    async () => {
      const shop = await shopWith(3)
      const { roundId, round, tokens } = await begun(shop, await findable(shop))
      for (const token of tokens.slice(0, 3)) await sayYes(shop, token)
      // One gave it back before: nobody tells them that it was not bought.
      unwrapped(await shop.uses.sayByLink(tokens[0] ?? '', 'back'))
      unwrapped(await shop.uses.callOffRound(roundId, undefined, 'Tess'))
      const { result, notices } = await round()
      expect(result.of['not bought']).toHaveLength(2)
      expect(result.of['given back']).toHaveLength(1)
      expect(result.of.waiting).toEqual([])
      expect(notices.toWrite).toBe(2)
      const view = unwrapped(await shop.uses.offerByLink(tokens[1] ?? ''))
      expect(view).toMatchObject({ isCalledOff: true, hadTooFew: false, standing: 'not bought' })
      // All are told with one press; their drafts are looked through together.
      const told = unwrapped(await shop.uses.tellAll(roundId, 'Tess'))
      expect(told).toMatchObject({ mailIds: [expect.any(String), expect.any(String)], problems: [] })
      expect((await round()).notices).toEqual({
        toWrite: 0,
        drafted: expect.arrayContaining([...told.mailIds]),
      })
      expect(unwrapped(await shop.uses.tellAll(roundId, 'Tess')).mailIds.toSorted()).toEqual(
        told.mailIds.toSorted(),
      )
      const approve = await viewToApproveOf(shop, told.mailIds)
      expect(approve.ready.map(({ text }) => text.replaceAll(/\s+/g, ' '))).toEqual(
        approve.ready.map(() =>
          expect.stringMatching(/decided not to buy it|entschieden, das Teil nicht zu kaufen/),
        ),
      )
      for (const { text } of approve.ready) expect(text).not.toMatch(/Too few|Zu wenige/)
    },
    WAIT_MS,
  )

  test(
    'that cannot come true is refused before anything is kept, and what is unwise is said first',
    async () => {
      const shop = await shopWith(2)
      const ask = await findable(shop)
      const before = await listShelf(shop.store.db)
      const tried = async (more: object) => shop.uses.roundFromItem(askWith({ ...ask, ...more }), 'Tess')
      expect(await tried({ pieces: 2, wantedYeses: 3 })).toMatchObject({
        problems: [{ field: 'wanted', got: '3', next: expect.stringContaining('2 pieces') }],
      })
      expect(await tried({ tags: ['N-0'], wantedYeses: 2 })).toMatchObject({
        problems: [{ field: 'wanted', next: expect.stringContaining('one machine is named') }],
      })
      expect(await tried({ priceMinor: undefined })).toMatchObject({ problems: [{ field: 'price' }] })
      const loss = { priceMinor: 7999, costMinor: 8000 }
      expect(await tried(loss)).toMatchObject({ problems: [{ field: 'sure' }] })
      expect(await tried({ priceMinor: 9400, costMinor: undefined })).toMatchObject({
        problems: [{ field: 'sure', next: expect.stringContaining('seen for up to') }],
      })
      expect(await shop.uses.roundFromItem(askWith({ wantedYeses: 1, priceMinor: 1 }), 'Tess')).toMatchObject(
        {
          problems: [{ field: 'price' }, { field: 'wanted' }],
        },
      )
      // What stands on the shelf is sold below its cost as well.
      expect(await shop.uses.roundFromItem(askWith({ costMinor: 99_900 }), 'Tess')).toMatchObject({
        problems: [{ field: 'sure' }],
      })
      expect(await listShelf(shop.store.db)).toEqual(before)
      expect((await shop.uses.rounds()).rounds).toEqual([])
      unwrapped(await tried({ ...loss, knows: true }))
    },
    WAIT_MS,
  )

  test(
    'for which fewer are asked than must say yes does not go out',
    async () => {
      const shop = await shopWith(3)
      const { roundId, round, asked } = await drafted(shop, {
        ...(await findable(shop)),
        pieces: 3,
        wantedYeses: 3,
      })
      for (const { id } of asked.slice(2)) unwrapped(await shop.uses.leaveOut(roundId, id, undefined, 'Tess'))
      expect(await shop.uses.beginRound(roundId, (await round()).seen, 'Tess')).toMatchObject({
        ...{ ok: false, problems: [{ next: expect.stringContaining('Only 2 are asked') }] },
      })
    },
    WAIT_MS,
  )

  test(
    'that is dropped or not bought leaves no place on the shelf; one that was bought keeps it',
    async () => {
      const shop = await shopWith(2)
      const { db } = shop.store
      const ids = async () => {
        const listed = (await listShelf(db)).map(({ item }) => item.id)
        const found = await searchShelf(db, { query: '', offset: 0, most: 1000 })
        // Both ways to the shelf tell the same.
        expect(found.lines.map(({ item }) => item.id)).toEqual(listed)
        expect(found.total).toBe(listed.length)
        return listed
      }
      const before = await ids()
      const ask = await findable(shop)
      const dropped = await drafted(shop, ask)
      const place = (await dropped.round()).items[0]?.item.id ?? ''
      expect(await ids()).toEqual(expect.arrayContaining([...before, place]))
      unwrapped(await shop.uses.callOffRound(dropped.roundId, undefined, 'Tess'))
      expect(await ids()).toEqual(before)
      const view = await dropped.round()
      // The page of the round still names what it was about.
      expect(view.items[0]?.item.id).toBe(place)
      expect(view.result.of.waiting).toEqual([])
      // The next deal does not take its name.
      const kept = await begun(shop, ask)
      const second = (await kept.round()).items[0]?.item.id ?? ''
      expect(second).not.toBe(place)
      unwrapped(
        await shop.uses.boughtFor(kept.roundId, { pieces: 1, costMinor: 99_000, knows: true }, 'Tess'),
      )
      expect(await ids()).toEqual(expect.arrayContaining([...before, second]))
      expect(await stockOf(shop.store, second)).toEqual({ standing: 1, held: 0, free: 1 })
    },
    WAIT_MS,
  )
})

const viewToApproveOf = async ({ store }: Shop, ids: readonly string[]) => {
  const sending = { ...REACH, going: { by: 'files', folder: '/tmp' }, perMinute: 60 } as const
  return viewToApprove(store, sending, { ids }, AT)
}
