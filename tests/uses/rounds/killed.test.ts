import { setTimeout as pause } from 'node:timers/promises'
import { afterEach, expect, test } from 'vitest'
import { settleMail } from '../../../src/uses/outbox/mailSteps.ts'
import { roundWorkOf } from '../../../src/uses/rounds/roundWork.ts'
import { unwrapped } from '../jobs/jobShop.ts'
import { mailServer } from '../outbox/mailServer.ts'
import {
  AT,
  end,
  REACH,
  roundShop,
  roundsAt,
  startProcess,
  textOf,
  tokenIn,
  withDoubles,
} from './roundShop.ts'

/*
 * RFC 1047 and RFC 5321, 4.5.3.2.6: between the final dot of a mail and its reply nobody can know whether it arrived. A process
 * that is killed while it writes and sends a round must leave each customer with one mail, or one that a person looks up.
 */
const cleanups: (() => Promise<unknown>)[] = []
afterEach(async () => {
  for (const cleanup of cleanups.splice(0).reverse()) await cleanup()
})

test('killed again and again while it writes and sends, a round reaches each customer once', async () => {
  const { store, url } = await roundShop()
  cleanups.push(store.close)
  await withDoubles(store, 18)
  const server = await mailServer({ delayMs: () => 40 })
  cleanups.push(server.close)
  const { uses, work } = roundsAt(store, { at: AT })
  const ask = { of: 'S-602', pieces: 1, overOffer: 10, quietDays: 0, validDays: 14 }
  const tags = Array.from({ length: 18 }, (_, i) => `N-${i}`)
  const { roundId } = unwrapped(await uses.roundFromItem({ ...ask, tags }, 'Tess'))
  await work.idle()
  const draft = unwrapped(await uses.round(roundId))
  const asked = draft.result.of.asked.length
  expect(asked).toBe(18)
  // From here on the other process does all of it.
  roundWorkOf(store, { now: () => AT, reach: REACH, mailReady: () => {} }).halt()
  unwrapped(await uses.beginRound(roundId, draft.seen, 'Tess'))

  const round = async () => unwrapped(await uses.round(roundId))
  let kills = 0
  for (const waitMs of [150, 40, 260, 90, 330]) {
    const child = await startProcess(url, server.port, AT)
    const before = (await round()).written.done
    const since = Date.now()
    while ((await round()).written.done === before && Date.now() - since < 1500) await pause(5)
    await pause(waitMs)
    await end(child, 'SIGKILL')
    kills += 1
    if (server.taken.length >= asked) break
  }
  expect(kills).toBeGreaterThanOrEqual(3)
  const last = await startProcess(url, server.port, AT)
  const isOut = async () =>
    (await round()).seats.every(({ mail, standing }) =>
      standing === 'asked' ? mail?.state === 'sent' || mail?.state === 'held' : true,
    )
  const since = Date.now()
  while (!(await isOut()) && Date.now() - since < 60_000) await pause(100)
  // What is in doubt a person looks up by its Message-ID, at the server.
  let held = 0
  for (const { mail } of (await round()).seats)
    if (mail?.state === 'held') {
      const arrived = server.taken.some(({ messageId }) => messageId === mail.rfcMessageId)
      unwrapped(await settleMail(store, mail.id, arrived, { at: AT }))
      held += 1
    }
  while (!(await isOut())) await pause(100)
  await end(last, 'SIGTERM')
  const to = server.taken.map((taken) => taken.to)
  expect(new Set(to).size).toBe(asked)
  expect(to.length).toBe(asked)
  expect((await round()).result.of.sent).toHaveLength(asked)
  // Each has a link of its own that leads to their own machine.
  const tokens = await Promise.all(server.taken.map(async ({ bytes }) => tokenIn(await textOf(bytes))))
  const tagsBehind = await Promise.all(
    tokens.map(async (token) => unwrapped(await uses.offerByLink(token)).answer.inputs.machine.tag),
  )
  expect(new Set(tagsBehind).size).toBe(asked)
  process.stderr.write(`${kills} kills, ${held} in doubt\n`)
}, 300_000)
