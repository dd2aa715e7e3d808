import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { sql } from 'drizzle-orm'
import { simpleParser } from 'mailparser'
import { openStore, type Store } from '../../../src/store/open.ts'
import { mailsOfCustomer } from '../../../src/store/outboxPeople.ts'
import { seatsOfRound } from '../../../src/store/roundSeats.ts'
import { keptFitOf } from '../../../src/uses/gain/keptFit.ts'
import { roundUsesOf } from '../../../src/uses/rounds/roundUses.ts'
import { roundWorkOf } from '../../../src/uses/rounds/roundWork.ts'
import { demoFile } from '../../demo/preparedShop.ts'
import { prepared } from '../../prepared.ts'
import { temporaryFolder } from '../../store/temporaryStore.ts'

/** Two days after the last question of the invented shop, on a weekday outside quiet hours. */
export const AT = '2026-11-24T16:00:00.000Z'
export const REACH = { ownerUrl: 'https://ask.thrushfield.example' }
export const later = (minutes: number): string => new Date(Date.parse(AT) + minutes * 60_000).toISOString()

/**
 * The invented shop, with the runs of one title alone, so that the gain model is fitted quickly, and with everybody's yes to
 * offers. In a file to be copied; the fit is kept in it.
 */
export async function roundShopFile(): Promise<string> {
  const folder = await prepared('round-shop', async (into) => {
    const file = join(into, 'shop.db')
    await copyFile(await demoFile(), file)
    const store = await openStore(`file:${file}`)
    await store.db.run(sql`delete from runs where title_id <> 'saffron'`)
    await store.db.run(
      sql`insert into consents (customer_id, kind, standing, at, source, wording, language)
          select id, 'offers', 'given', '2026-01-02T12:00:00.000Z', 'in person', 'Offers are fine.', 'en' from customers`,
    )
    await keptFitOf(store).fresh(AT)
    await store.db.run(sql`pragma wal_checkpoint(truncate)`)
    await store.close()
    await writeFile(join(into, 'done'), '')
  })
  return join(folder, 'shop.db')
}

/** A store of its own with that shop in it; its file, for another process. */
export async function roundShop(): Promise<{ store: Store; url: string }> {
  const file = join(await temporaryFolder(), 'shop.db')
  await copyFile(await roundShopFile(), file)
  const url = `file:${file}`
  return { store: await openStore(url), url }
}

/** So many more customers, each with a machine like M-0207 and the question about it: `D-0` to `D-<n>`, `N-0` to `N-<n>`. */
export async function withDoubles(store: Store, n: number): Promise<void> {
  await store.write(async (tx) => {
    for (let i = 0; i < n; i += 1) {
      const [who, tag, asked] = [`D-${i}`, `N-${i}`, `Q-9${i}`]
      await tx.run(sql`insert into customers (id, name, email, language)
        values (${who}, ${`Double ${i}`}, ${`double${i}@customers.example`}, ${i % 2 === 0 ? 'en' : 'de'})`)
      await tx.run(sql`insert into consents (customer_id, kind, standing, at, source, wording, language)
        values (${who}, 'offers', 'given', '2026-01-02T12:00:00.000Z', 'in person', 'Offers are fine.', 'en')`)
      await tx.run(sql`insert into machines (tag, customer_id, sold_at)
        select ${tag}, ${who}, sold_at from machines where tag = 'M-0207'`)
      await tx.run(sql`insert into fitted_parts (machine_tag, part_id, fitted_at, removed_at, copy)
        select ${tag}, part_id, fitted_at, removed_at, copy from fitted_parts where machine_tag = 'M-0207'`)
      await tx.run(sql`insert into limits (machine_tag, key, value, source, at)
        select ${tag}, key, value, source, at from limits where machine_tag = 'M-0207'`)
      await tx.run(sql`insert into questions
        (id, machine_tag, words, asked_at, display_width_px, display_height_px, display_hz, target_fps, budget_minor,
          wishes, state, customer_id)
        select ${asked}, ${tag}, words, asked_at, display_width_px, display_height_px, display_hz, target_fps,
          budget_minor, wishes, 'answered', ${who} from questions where machine_tag = 'M-0207' limit 1`)
      await tx.run(sql`insert into wanted_titles (question_id, position, title_id, setting_id, weight)
        select ${asked}, position, title_id, setting_id, weight from wanted_titles
        where question_id = (select id from questions where machine_tag = 'M-0207' limit 1)`)
    }
  })
}

/** What a person does with rounds at an instant that a test moves. */
export function roundsAt(store: Store, clock: { at: string }) {
  const now = () => clock.at
  return {
    uses: roundUsesOf(store, now, { sending: REACH, wake: () => {} }),
    work: roundWorkOf(store, { now, reach: REACH, mailReady: () => {} }),
  }
}

/** The link in the mail of a seat, as its reader finds it: out of the bytes that go out. */
export async function tokenOf(store: Store, roundId: string, seatId: string): Promise<string> {
  const seat = (await seatsOfRound(store.db, roundId)).find(({ id }) => id === seatId)
  const mail = (await mailsOfCustomer(store.db, seat?.customerId ?? '')).find(({ id }) => id === seat?.mailId)
  return tokenIn(mail?.text ?? '')
}

export const tokenIn = (text: string): string => {
  const found = /\/y\/([A-Za-z0-9_-]{43})/.exec(text)?.[1]
  if (found === undefined) throw new Error('no link in the mail')
  return found
}

export const textOf = async (bytes: Buffer): Promise<string> => (await simpleParser(bytes)).text ?? ''

const PROCESS = fileURLToPath(new URL('roundProcess.ts', import.meta.url))

/** A process of its own that works rounds out, writes and sends. */
export async function startProcess(
  url: string,
  port: number,
  at: string,
  leaseMs = 1200,
): Promise<ChildProcess> {
  const given = [url, String(port), REACH.ownerUrl, at, String(leaseMs)]
  const child = spawn(process.execPath, ['--import', 'tsx', PROCESS, ...given], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const isReady = child.stdout === null ? undefined : once(child.stdout, 'data')
  const isGone = once(child, 'exit').then(() => {
    throw new Error('the process ended before it was ready')
  })
  isGone.catch(() => {})
  await Promise.race([isReady, isGone])
  return child
}

export async function end(child: ChildProcess, signal: 'SIGKILL' | 'SIGTERM'): Promise<void> {
  const gone = once(child, 'exit')
  child.kill(signal)
  await gone
}
