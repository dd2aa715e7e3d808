import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { sql } from 'drizzle-orm'
import { describe, expect, test } from 'vitest'
import { smtpTransport } from '../../../src/mail/transport/smtp.ts'
import { loadJob, partsOutOf } from '../../../src/store/jobs.ts'
import { listShelf, upsertShelf } from '../../../src/store/shelf.ts'
import { listTitles } from '../../../src/store/titles.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { withdrawConsent } from '../../../src/uses/consent.ts'
import { recordOf } from '../../../src/uses/customerRecord.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { finishJob, markTold, settleJob } from '../../../src/uses/jobs/closeJob.ts'
import { finishFitting } from '../../../src/uses/jobs/finishFitting.ts'
import { callOff, startJob } from '../../../src/uses/jobs/moveJob.ts'
import { decidePartOut } from '../../../src/uses/jobs/partOut.ts'
import { recordRun } from '../../../src/uses/jobs/recordRun.ts'
import { longWork } from '../../../src/uses/longWork/loaders.ts'
import { askMatching, viewMatching } from '../../../src/uses/matching/matching.ts'
import { startSender } from '../../../src/uses/outbox/sendMails.ts'
import { optOut } from '../../../src/uses/outbox/unsubscribe.ts'
import { beginRound } from '../../../src/uses/rounds/roundSteps.ts'
import { stockOf, unwrapped } from '../jobs/jobShop.ts'
import { mailServer } from '../outbox/mailServer.ts'
import { begun, cleanups, drafted, ITEM, type Shop, sayYes, shopWith, WAIT_MS } from './aRound.ts'
import { AT, later, REACH, textOf, tokenIn, tokenOf } from './roundShop.ts'

/** The item gets a price of that instant, as a page writes it. */
const priced = ({ store }: Shop, priceMinor: number, at: string): Promise<void> =>
  store.write(async (tx) => {
    const item = (await listShelf(tx)).find(({ item: { id } }) => id === ITEM)?.item
    if (item === undefined) throw new Error('no item')
    await upsertShelf(tx, [{ ...item, priceMinor, at }])
  })

describe('a draft', () => {
  test(
    'asks those who gain most, as many as pieces times the factor, and nobody who said no; one is left out by hand with the reason',
    async () => {
      const shop = await shopWith(5)
      await withdrawConsent(shop.store, 'D-1', { kind: 'offers', source: 'in person' }, AT)
      const { roundId, round, asked } = await drafted(shop)
      expect(asked).toHaveLength(3)
      const seats = (await round()).seats
      expect(seats.find(({ customerId }) => customerId === 'D-1')).toMatchObject({
        ...{ standing: 'left out', leftBecause: 'no consent' },
      })
      // Nobody below them gains more, but who may not be asked.
      const least = Math.min(...asked.map(({ pct = 0 }) => pct))
      const beyond = seats.filter(({ leftBecause }) => leftBecause === 'others gain more')
      expect(beyond.length).toBeGreaterThan(0)
      for (const { pct = 0 } of beyond) expect(pct).toBeLessThanOrEqual(least)

      const [first, second] = asked
      unwrapped(await shop.uses.leaveOut(roundId, first?.id ?? '', 'Bought elsewhere', 'Tess'))
      const before = (await round()).seen
      expect((await round()).seats.find(({ id }) => id === first?.id)).toMatchObject({
        ...{ standing: 'left out', leftBecause: 'by hand', leftNote: 'Bought elsewhere' },
      })
      // Each mail has its own numbers, and says how many there are and how many are asked as things stand now.
      const mail = unwrapped(await shop.uses.offerMail(roundId, second?.id ?? ''))
      expect(mail.text.replaceAll(/\s+/g, ' ')).toMatch(/goes to two owners, and we have one|ging an zwei/)
      expect(mail.subject).toContain(second?.machineTag ?? '')

      // What was looked at is what goes out.
      unwrapped(await shop.uses.putBack(roundId, first?.id ?? '', 'Tess'))
      expect(await shop.uses.beginRound(roundId, before, 'Tess')).toMatchObject({ ok: false })
      unwrapped(await shop.uses.callOffRound(roundId, undefined, 'Tess'))
      expect(await shop.uses.beginRound(roundId, (await round()).seen, 'Tess')).toMatchObject({ ok: false })
    },
    WAIT_MS,
  )

  test(
    'is not sent at another price, after its date, or where customers cannot reach the shop',
    async () => {
      const shop = await shopWith(1)
      const { roundId, round } = await drafted(shop)
      const { seen } = await round()
      shop.clock.at = later(15 * 24 * 60)
      const late = await shop.uses.beginRound(roundId, seen, 'Tess')
      expect(late).toMatchObject({ ok: false, problems: [{ next: expect.stringContaining('date') }] })
      const away = await beginRound(shop.store, roundId, seen, {}, { at: AT })
      expect(away).toMatchObject({ ok: false, problems: [{ next: expect.stringContaining('https') }] })
      shop.clock.at = later(1)
      // The day it says it is of may lie before the round: when it was written counts.
      await priced(shop, 13_900, later(-60))
      const dearer = await shop.uses.beginRound(roundId, seen, 'Tess')
      expect(dearer).toMatchObject({ ok: false, problems: [{ next: expect.stringContaining('price') }] })
    },
    WAIT_MS,
  )

  test(
    'goes out at a price that was written before it, though that says it is of noon of the day, hours from now',
    async () => {
      const shop = await shopWith(1)
      await priced(shop, 13_900, later(6 * 60))
      const { roundId, round } = await drafted(shop)
      unwrapped(await shop.uses.beginRound(roundId, (await round()).seen, 'Tess'))
      expect((await round()).row.state).toBe('going out')
    },
    WAIT_MS,
  )
})

describe('of a finished matching', () => {
  test(
    'each of its offers is in the draft, with the same option at the same price',
    async () => {
      const shop = await shopWith(2)
      const { store } = shop
      const asked = unwrapped(
        await askMatching(
          store,
          {
            ...{ items: [{ itemId: ITEM, quantity: 1 }], aim: 'gain', overOffer: 2, smallestGainPct: 5 },
            ...{ quietDays: 0, companions: 'counted' },
          },
          AT,
        ),
      )
      await longWork(store).idle()
      const { matching } = unwrapped(await viewMatching(store, asked.id))
      expect(matching?.offers).toHaveLength(2)
      const { roundId } = unwrapped(await shop.uses.roundFromMatching(asked.id, 'Tess'))
      await shop.work.idle()
      const { seats, row } = unwrapped(await shop.uses.round(roundId))
      const drafted = seats.map(({ customerId, machineTag, optionId, dueMinor, standing }) => ({
        ...{ customerId, machineTag, optionId, netMinor: dueMinor, standing },
      }))
      expect(drafted).toEqual(
        matching?.offers.map(({ customerId, machineTag, optionId, netMinor }) => ({
          ...{ customerId, machineTag, optionId, netMinor, standing: 'asked' },
        })),
      )
      expect(row.preparedAt).toBeDefined()
      // Pressed again it leads to the same draft, so that nobody is offered the same in two rounds; not to one that is dropped.
      const again = async () => unwrapped(await shop.uses.roundFromMatching(asked.id, 'Tess')).roundId
      expect(await again()).toBe(roundId)
      unwrapped(await shop.uses.callOffRound(roundId, undefined, 'Tess'))
      const other = await again()
      expect(other).not.toBe(roundId)
      // Nor to one at prices that are over.
      shop.clock.at = later(1)
      await store.db.run(
        sql`update shelf_items set price_minor = 13900, priced_at = ${later(1)} where id = ${ITEM}`,
      )
      expect(await again()).not.toBe(other)
      longWork(store).halt()
    },
    WAIT_MS,
  )
})

describe('what came of it', () => {
  test(
    'a job that is done is counted with what was paid, what it left, what was measured, and whether the promise was kept',
    async () => {
      const shop = await shopWith(1)
      const { store } = shop
      const { round, asked, tokens } = await begun(shop)
      await sayYes(shop, tokens[0])
      const job = (await round()).seats.find(({ id }) => id === asked[0]?.id)?.job
      const [promised] = job?.promised ?? []
      if (job === undefined || promised === undefined) throw new Error('nothing was promised')
      unwrapped(await startJob(store, job.id, later(1)))
      unwrapped(await finishFitting(store, job.id, {}, later(2)))
      expect((await round()).result).toMatchObject({ toComeMinor: job.agreedMinor, earnedMinor: 0 })
      // It runs just as it was promised.
      const title = (await listTitles(store.db)).find(({ id }) => id === promised.titleId)
      const run = {
        titleId: promised.titleId,
        settingId: promised.settingId,
        titleVersion: title?.versions?.at(-1)?.version ?? '',
      }
      unwrapped(await recordRun(store, job.id, { ...run, averageFps: promised.afterFps }, later(3)))
      unwrapped(await settleJob(store, job.id, 11_000, later(4)))
      for (const { id } of await partsOutOf(store.db, job.id))
        unwrapped(await decidePartOut(store, job.id, id, { outcome: 'given back' }, later(4)))
      unwrapped(await markTold(store, job.id, true, later(5)))
      unwrapped(await finishJob(store, job.id, later(6)))
      const { result } = await round()
      const one = [asked[0]?.id]
      expect(result.of).toMatchObject({
        done: one,
        earned: one,
        gained: one,
        kept: one,
        missed: [],
        reserved: [],
      })
      // 110.00 less 90.00 that the piece cost.
      expect(result).toMatchObject({ earnedMinor: 11_000, marginMinor: 2000, toComeMinor: 0 })
      expect(result.gainedPct).toBeCloseTo(100 * (promised.afterFps / promised.beforeFps - 1), 6)
    },
    WAIT_MS,
  )
})

describe('a yes', () => {
  test(
    'puts it aside in a job, looking does not; said twice it is one; the next one hears that it is gone',
    async () => {
      const shop = await shopWith(2)
      const { round, asked, tokens } = await begun(shop)
      const [first, second] = asked
      for (const _ of [1, 2]) unwrapped(await shop.uses.offerByLink(tokens[0] ?? ''))
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 0, free: 1 })
      expect(await sayYes(shop, tokens[0])).toBe('held')
      expect(await sayYes(shop, tokens[0])).toBe('held')
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 1, free: 0 })
      const before = unwrapped(await shop.uses.offerByLink(tokens[1] ?? ''))
      expect(before).toMatchObject({ standing: 'asked', isLeft: false })
      expect(await sayYes(shop, tokens[1])).toBe('too late')
      const seats = new Map((await round()).seats.map((seat) => [seat.id, seat]))
      const job = seats.get(first?.id ?? '')?.job
      expect(job).toMatchObject({
        state: 'agreed',
        machineTag: first?.machineTag,
        agreedMinor: first?.dueMinor,
      })
      expect(job?.promised.length).toBeGreaterThan(0)
      expect(seats.get(second?.id ?? '')).toMatchObject({ standing: 'too late', yesNumber: 2 })
      expect((await round()).result).toMatchObject({ toComeMinor: first?.dueMinor, earnedMinor: 0 })

      // "It is gone" is written with one press, as a draft for a person to look at, and once.
      const told = unwrapped(await shop.uses.tellGone((await round()).row.id, second?.id ?? ''))
      expect(unwrapped(await shop.uses.tellGone((await round()).row.id, second?.id ?? ''))).toEqual(told)
      // What is kept of a person tells it too.
      const record = unwrapped(
        await recordOf(shop.store.db, first?.customerId ?? '', { photos: 'without bytes' }),
      )
      expect(record.offers).toMatchObject([
        { standing: 'held', machineTag: first?.machineTag, dueMinor: first?.dueMinor, saidAt: AT },
      ])
      // What waited to be sent and is gone does not go out.
      const waiting = (await round()).seats.filter(({ standing }) => standing === 'asked')
      expect(waiting.map(({ mail }) => [mail?.state, mail?.says])).toEqual(
        waiting.map(() => ['stopped', 'gone']),
      )
    },
    WAIT_MS,
  )

  test(
    'that is taken back, by link, by the shop or in the job itself, returns the stock, and the first in line is next',
    async () => {
      const shop = await shopWith(3)
      const { roundId, round, asked, tokens } = await begun(shop)
      const ids = asked.map(({ id }) => id)
      for (const token of tokens) await sayYes(shop, token)
      const standings = async () => {
        const seats = (await round()).seats
        return ids.map((id) => seats.find((seat) => seat.id === id)?.standing)
      }
      expect(await standings()).toEqual(['held', 'too late', 'too late'])
      expect((await round()).nextSeat).toBeUndefined()

      const back = unwrapped(await shop.uses.sayByLink(tokens[0] ?? '', 'back'))
      expect(back.standing).toBe('let go')
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 0, free: 1 })
      expect((await round()).nextSeat).toBe(ids[1])
      // For the first in line it is not gone any more: nobody tells them so.
      expect((await round()).seats.filter(({ isToTell }) => isToTell).map(({ id }) => id)).toEqual([ids[2]])
      expect(await shop.uses.tellGone(roundId, ids[1] ?? '', 'Tess')).toMatchObject({ ok: false })
      // Who gave it back does not come before who waits, and is not told that it is theirs for a yes.
      expect(unwrapped(await shop.uses.offerByLink(tokens[0] ?? ''))).toMatchObject({ isLeft: false })
      expect(await sayYes(shop, tokens[0])).toBe('too late')

      unwrapped(await shop.uses.giveTo(roundId, ids[1] ?? '', 'Tess'))
      expect(await standings()).toEqual(['too late', 'held', 'too late'])
      expect(await shop.uses.giveTo(roundId, ids[2] ?? '', 'Tess')).toMatchObject({ ok: false })

      // Called off where jobs are: the round knows.
      const jobId = (await round()).seats.find(({ id }) => id === ids[1])?.jobId ?? ''
      unwrapped(await callOff(shop.store, jobId, 'sick', later(5)))
      expect(await standings()).toEqual(['too late', 'let go', 'too late'])
      expect((await round()).nextSeat).toBe(ids[2])
      unwrapped(await shop.uses.giveTo(roundId, ids[2] ?? '', 'Tess'))
      unwrapped(await shop.uses.letGo(roundId, ids[2] ?? '', 'no money', 'Tess'))
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 0, free: 1 })
    },
    WAIT_MS,
  )

  test(
    'that is typed with a day becomes a booked job; without one the day is set later; a day that is over leaves nothing',
    async () => {
      const shop = await shopWith(2)
      const { roundId, round, asked } = await begun(shop, { overOffer: 2 })
      const [first, second] = asked.map(({ id }) => id)
      const stateOf = async (id: string | undefined) =>
        (await round()).seats.find((seat) => seat.id === id)?.job
      const over = '2026-11-23T16:00:00.000Z'
      const day = '2026-12-03T16:00:00.000Z'
      expect(await shop.uses.sayFor(roundId, first ?? '', 'yes', over, 'Tess')).toMatchObject({
        ...{ ok: false, problems: [{ field: 'bookedDay' }] },
      })
      expect((await round()).result.of.yes).toEqual([])
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 0, free: 1 })
      expect(await shop.uses.bookFor(roundId, first ?? '', day, 'Tess')).toMatchObject({ ok: false })
      unwrapped(await shop.uses.sayFor(roundId, first ?? '', 'yes', day, 'Tess'))
      expect(await stateOf(first)).toMatchObject({ state: 'booked', bookedFor: day })
      // In line there is nothing to book yet.
      unwrapped(await shop.uses.sayFor(roundId, second ?? '', 'yes', day, 'Tess'))
      expect((await round()).seats.find(({ id }) => id === second)).toMatchObject({ standing: 'too late' })
      unwrapped(await shop.uses.letGo(roundId, first ?? '', undefined, 'Tess'))
      unwrapped(await shop.uses.giveTo(roundId, second ?? '', 'Tess'))
      expect(await stateOf(second)).toMatchObject({ state: 'agreed' })
      unwrapped(await shop.uses.bookFor(roundId, second ?? '', day, 'Tess'))
      expect(await stateOf(second)).toMatchObject({ state: 'booked', bookedFor: day })
      const token = await tokenOf(shop.store, roundId, second ?? '')
      expect(unwrapped(await shop.uses.offerByLink(token))).toMatchObject({ bookedFor: day })
    },
    WAIT_MS,
  )

  test(
    'that is given back after the round was ended says so, with the day on which it was ended',
    async () => {
      const shop = await shopWith(1)
      const { roundId, round, tokens } = await begun(shop)
      await sayYes(shop, tokens[0])
      shop.clock.at = later(60)
      unwrapped(await shop.uses.endRound(roundId, 'Tess'))
      const ended = unwrapped(await shop.uses.offerByLink(tokens[1] ?? ''))
      expect(ended).toMatchObject({ isOpen: false, endedAt: later(60), standing: 'asked' })
      const back = unwrapped(await shop.uses.sayByLink(tokens[0] ?? '', 'back'))
      expect(back).toMatchObject({ isOpen: false, standing: 'let go' })
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 0, free: 1 })
      expect((await round()).result.of).toMatchObject({ yes: [], no: [], reserved: [] })
      expect((await round()).result.of['given back']).toHaveLength(1)
      const other = await begun(shop)
      // Its mails say "until December 8": at half past eleven that evening, in the shop's time zone, a yes is taken.
      shop.clock.at = '2026-12-09T05:30:00.000Z'
      expect(unwrapped(await shop.uses.offerByLink(other.tokens[0] ?? '')).isOpen).toBe(true)
      // Ended after its date: the date is what holds.
      shop.clock.at = later(20 * 24 * 60)
      unwrapped(await shop.uses.endRound(other.roundId, 'Tess'))
      const late = unwrapped(await shop.uses.offerByLink(other.tokens[0] ?? ''))
      expect(late.isOpen).toBe(false)
      expect(late.endedAt).toBeUndefined()
    },
    WAIT_MS,
  )

  test(
    'of a machine with an open job is written down for a person to look at, and takes nothing',
    async () => {
      const shop = await shopWith(1)
      const { store } = shop
      const one = await begun(shop)
      const [first] = one.asked
      await sayYes(shop, one.tokens[0])
      // A second round about another item, for the same machine.
      const other = await begun(shop, { of: 'S-601', tags: [first?.machineTag ?? ''] })
      expect(other.tokens).toHaveLength(1)
      expect(await sayYes(shop, other.tokens[0])).toBe('to settle')
      const seat = (await other.round()).seats.find(({ standing }) => standing === 'to settle')
      expect(seat?.trouble).toContain('has an open job already')
      expect((await stockOf(store, 'S-601')).held).toBe(0)
      // Nor is anything put aside for who stood in line and was erased since.
      expect(await sayYes(shop, one.tokens[1])).toBe('too late')
      const erased = one.asked[1]
      await store.db.run(sql`update customers set erased_at = ${later(1)} where id = ${erased?.customerId}`)
      unwrapped(await shop.uses.letGo(one.roundId, first?.id ?? '', undefined, 'Tess'))
      unwrapped(await shop.uses.giveTo(one.roundId, erased?.id ?? '', 'Tess'))
      expect((await one.round()).seats.find(({ id }) => id === erased?.id)).toMatchObject({
        ...{ standing: 'to settle', trouble: expect.stringContaining('They were erased') },
      })
      expect((await stockOf(store, ITEM)).held).toBe(0)
    },
    WAIT_MS,
  )

  test(
    'of a machine whose visit promises nothing yet does not join it, so that giving it back leaves the visit alone',
    async () => {
      const shop = await shopWith(1)
      const { store } = shop
      const { round, asked, tokens } = await begun(shop)
      const questionId = asked[0]?.questionId ?? ''
      const { ranking } = unwrapped(await answerQuestion(store, questionId, AT))
      const work = ranking.checkFirst.find(({ option }) => option.shelfItemIds.length === 0)?.option
      const { jobId } = unwrapped(await agreeJob(store, questionId, work?.id ?? '', { fittedBy: 'shop' }, AT))
      expect(await sayYes(shop, tokens[0])).toBe('to settle')
      const seat = (await round()).seats.find(({ id }) => id === asked[0]?.id)
      expect(seat?.trouble).toContain(jobId)
      expect(await stockOf(store, ITEM)).toEqual({ standing: 1, held: 0, free: 1 })
      expect((await loadJob(store.db, jobId))?.state).toBe('agreed')
    },
    WAIT_MS,
  )

  test(
    'by a link of somebody else’s machine, of nobody, and after the date, is none',
    async () => {
      const shop = await shopWith(1)
      const { tokens, asked } = await begun(shop)
      expect(await shop.uses.sayByLink('x'.repeat(43), 'yes')).toMatchObject({ ok: false })
      const [, second] = tokens
      shop.clock.at = later(15 * 24 * 60)
      expect(unwrapped(await shop.uses.sayByLink(second ?? '', 'yes'))).toMatchObject({
        ...{ standing: 'asked', isOpen: false },
      })
      shop.clock.at = AT
      await shop.store.db.run(
        sql`update machines set customer_id = 'C-108' where tag = ${asked[1]?.machineTag ?? ''}`,
      )
      expect(await shop.uses.offerByLink(second ?? '')).toMatchObject({ ok: false })
    },
    WAIT_MS,
  )

  test(
    'of two in two processes at the same moment to the last one: exactly one has it',
    async () => {
      const shop = await shopWith(4)
      const { tokens, round } = await begun(shop, { overOffer: 4 })
      const moment = Date.now() + 12_000
      const file = fileURLToPath(new URL('yesProcess.ts', import.meta.url))
      const children = tokens.map((token) =>
        spawn(process.execPath, ['--import', 'tsx', file, shop.url, token, AT, String(moment)], {
          stdio: ['ignore', 'pipe', 'inherit'],
        }),
      )
      const says = await Promise.all(
        children.map(async (child) => {
          let text = ''
          child.stdout.on('data', (piece) => {
            text += String(piece)
          })
          await once(child, 'exit')
          return text.split('\n')[1]
        }),
      )
      expect(says.filter((one) => one === 'held')).toHaveLength(1)
      expect(says.filter((one) => one === 'too late')).toHaveLength(tokens.length - 1)
      expect(await stockOf(shop.store, ITEM)).toEqual({ standing: 1, held: 1, free: 0 })
      const numbers = (await round()).seats.flatMap(({ yesNumber }) => yesNumber ?? [])
      expect(numbers.toSorted()).toEqual(tokens.map((_, i) => i + 1))
    },
    WAIT_MS,
  )
})

describe('a round that goes out', () => {
  const sendAll = async (shop: Shop, port: number, at = AT) => {
    const transport = smtpTransport({ host: '127.0.0.1', port, security: 'none', connections: 3 })
    const sender = startSender(shop.store, transport, {
      ...{ ...REACH, now: () => at, perMinute: 100_000, lookMs: 20 },
      onFault: (error) => {
        throw error
      },
    })
    await sender.idle()
    await sender.stop()
  }

  test(
    'reaches each once; who took back their yes to offers meanwhile gets nothing, and the round says why',
    async () => {
      const server = await mailServer()
      cleanups.push(server.close)
      const shop = await shopWith(3)
      const { round, asked } = await begun(shop, { overOffer: 4 })
      const [gone] = asked
      await withdrawConsent(shop.store, gone?.customerId ?? '', { kind: 'offers', source: 'in person' }, AT)
      // One goes before the consent is looked at: at the moment of sending it is looked at again.
      await shop.store.db.run(
        sql`update mails set state = 'approved', says = null where customer_id = ${gone?.customerId ?? ''}`,
      )
      await sendAll(shop, server.port)
      const after = await round()
      expect(server.taken).toHaveLength(asked.length - 1)
      expect(after.result.of.sent).toHaveLength(asked.length - 1)
      expect(after.seats.find(({ id }) => id === gone?.id)?.mail).toMatchObject({
        ...{ state: 'stopped', says: 'no consent' },
      })
      expect(after.result.of['not sent']).toEqual([gone?.id])
    },
    WAIT_MS,
  )

  test(
    'paused, nothing of it leaves and other mails do; resumed, the rest goes',
    async () => {
      const server = await mailServer()
      cleanups.push(server.close)
      const shop = await shopWith(3)
      const { roundId, round, asked } = await begun(shop)
      unwrapped(await shop.uses.pauseRound(roundId, 'Tess'))
      await sendAll(shop, server.port)
      expect(server.taken).toEqual([])
      expect((await round()).result.of.waiting).toHaveLength(asked.length)
      unwrapped(await shop.uses.resumeRound(roundId, 'Tess'))
      await sendAll(shop, server.port)
      expect(server.taken).toHaveLength(asked.length)
      // The way to say yes is in the mail as it went out.
      const tokens = await Promise.all(server.taken.map(async ({ bytes }) => tokenIn(await textOf(bytes))))
      expect(new Set(tokens).size).toBe(asked.length)
    },
    WAIT_MS,
  )

  test(
    'waits in quiet hours and for the cap, and tells so; stopped, the rest never goes',
    async () => {
      const server = await mailServer()
      cleanups.push(server.close)
      const shop = await shopWith(2)
      const first = await begun(shop)
      // 22:00 in Chicago, where the invented shop is.
      const night = '2026-11-25T04:00:00.000Z'
      await sendAll(shop, server.port, night)
      expect(server.taken).toEqual([])
      expect((await first.round()).seats.find(({ mail }) => mail !== undefined)?.mail?.says).toBe(
        'quiet hours',
      )
      const day = '2026-11-25T17:00:00.000Z'
      await sendAll(shop, server.port, day)
      expect(server.taken).toHaveLength(first.asked.length)
      // Two in thirty days are all a customer gets: of the third round nothing leaves.
      shop.clock.at = day
      const tags = first.asked.map(({ machineTag = '' }) => machineTag)
      for (const of of ['S-601', ITEM]) {
        const next = await begun(shop, { of, tags, validDays: 60 })
        await sendAll(shop, server.port, day)
        if (of === 'S-601') continue
        expect(next.asked.length).toBeGreaterThan(0)
        const mails = (await next.round()).seats.flatMap(({ mail }) => mail ?? [])
        expect(mails.map(({ state, says }) => [state, says])).toEqual(mails.map(() => ['approved', 'cap']))
        unwrapped(await shop.uses.stopRound(next.roundId, 'Tess'))
        expect((await next.round()).result.of['not sent']).toHaveLength(mails.length)
      }
      // Where it could only go after its own date it does not wait, and the round says why.
      const short = await begun(shop, { of: ITEM, tags, validDays: 14 })
      const mails = (await short.round()).seats.flatMap(({ mail }) => mail ?? [])
      expect(mails.map(({ state, says }) => [state, says])).toEqual(
        short.asked.map(() => ['stopped', 'over by then']),
      )
    },
    WAIT_MS,
  )

  test(
    'one press out of offers ends what waits for that customer, and the round says why',
    async () => {
      const shop = await shopWith(2)
      const { round, asked, tokens } = await begun(shop)
      const toldAsked = async () => unwrapped(await shop.uses.offerByLink(tokens[1] ?? '')).asked
      expect(await toldAsked()).toBe(asked.length)
      const mail = (await round()).seats.find(({ id }) => id === asked[0]?.id)?.mail
      unwrapped(await optOut(shop.store, mail?.unsubscribeToken ?? '', later(1)))
      expect((await round()).seats.find(({ id }) => id === asked[0]?.id)?.mail).toMatchObject({
        ...{ state: 'stopped', says: 'no consent' },
      })
      // Whoever was not written to is not counted among those who were asked, where others read it.
      expect(await toldAsked()).toBe(asked.length - 1)
    },
    WAIT_MS,
  )
})
