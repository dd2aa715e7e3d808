import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { openStore, type Store } from '../../../src/store/open.ts'
import { countMails, searchMails } from '../../../src/store/outboxLists.ts'
import { settleMail } from '../../../src/uses/outbox/mailSteps.ts'
import { filled } from './filled.ts'
import { mailServer } from './mailServer.ts'

const PROCESS = fileURLToPath(new URL('sendingProcess.ts', import.meta.url))
const LEASE_MS = 1200

export type Killed = {
  readonly kills: number
  /** Mails by how often the server took them. */
  readonly takenOnce: number
  readonly takenMoreOften: number
  readonly never: number
  /** Held for a person, over all kills; and how many of them the server had taken. */
  readonly held: number
  readonly heldAndTaken: number
  /** All mails are `sent` in the end. */
  readonly sentInTheEnd: number
  /** Sent again by itself after the server took it, before anybody looked. */
  readonly doubledByItself: number
}

const startProcess = async (url: string, port: number): Promise<ChildProcess> => {
  const child = spawn(process.execPath, ['--import', 'tsx', PROCESS, url, String(port), String(LEASE_MS)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  if (child.stdout !== null) await once(child.stdout, 'data')
  return child
}

const sleep = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/** Until no mail is approved or on its way. */
async function untilQuiet(store: Store): Promise<void> {
  for (;;) {
    const counts = await countMails(store.db)
    if ((counts.get('approved') ?? 0) + (counts.get('sending') ?? 0) === 0) return
    await sleep(50)
  }
}

/**
 * Sends so many mails through a process that is killed (SIGKILL) at random points of the sending, then lets one run through.
 * Held mails are settled as a person would: by looking their Message-IDs up at the server. `random`: from 0 to 1.
 */
export async function sendWhileKilled(
  folder: string,
  { mails, kills, random }: { mails: number; kills: number; random: () => number },
): Promise<Killed> {
  const url = `file:${folder}/killed.db`
  const store = await openStore(url)
  const server = await mailServer({ delayMs: () => Math.floor(random() * 80) })
  try {
    await filled(store, mails)
    let done = 0
    while (done < kills) {
      const before = server.taken.length
      const child = await startProcess(url, server.port)
      const gone = once(child, 'exit')
      // From the first mail that this process gets through, or a moment after its start where it comes first.
      const since = Date.now()
      while (server.taken.length === before && Date.now() - since < 400) await sleep(1)
      await sleep(random() * ((mails / kills) * 12))
      child.kill('SIGKILL')
      await gone
      done += 1
      if (server.taken.length >= mails) break
    }
    const last = await startProcess(url, server.port)
    await untilQuiet(store)
    const doubledByItself = doubles(server.taken.map(({ messageId }) => messageId))
    let [held, heldAndTaken] = [0, 0]
    const inDoubt = await searchMails(store.db, { states: ['held'], query: '', offset: 0, most: mails })
    for (const mail of inDoubt.mails) {
      const arrived = server.taken.some(({ messageId }) => messageId === mail.rfcMessageId)
      held += 1
      heldAndTaken += Number(arrived)
      const settled = await settleMail(store, mail.id, arrived, { at: new Date().toISOString() })
      if (!settled.ok) throw new Error('a held mail could not be settled')
    }
    await untilQuiet(store)
    const gone = once(last, 'exit')
    last.kill('SIGTERM')
    await gone
    const times = timesOf(server.taken.map(({ to }) => to))
    const sent = (await countMails(store.db)).get('sent') ?? 0
    return {
      ...{ kills: done, held, heldAndTaken, doubledByItself, sentInTheEnd: sent },
      takenOnce: [...times.values()].filter((n) => n === 1).length,
      takenMoreOften: [...times.values()].filter((n) => n > 1).length,
      never: mails - times.size,
    }
  } finally {
    await server.close()
    await store.close()
  }
}

function timesOf(names: readonly string[]): Map<string, number> {
  const times = new Map<string, number>()
  for (const name of names) times.set(name, (times.get(name) ?? 0) + 1)
  return times
}

const doubles = (names: readonly string[]): number => [...timesOf(names).values()].filter((n) => n > 1).length
