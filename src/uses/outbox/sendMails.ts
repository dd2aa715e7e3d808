import { randomUUID } from 'node:crypto'
import { passesAt, standing } from '../../core/outbox/hindrance.ts'
import type { MailEvent } from '../../core/outbox/mail.ts'
import type { Outcome } from '../../core/outbox/outcome.ts'
import { nextTryAt, serverWaitMs } from '../../core/outbox/retry.ts'
import type { Transport } from '../../mail/transport/transport.ts'
import {
  endLeases,
  type Lease,
  markHandedOver,
  renewLeases,
  saveServerTrouble,
  serverTrouble,
  takeDue,
} from '../../store/mailLeases.ts'
import { setMessageTold } from '../../store/messages.ts'
import type { Db, Store } from '../../store/open.ts'
import { loadMailBytes, type Mail, moveMail } from '../../store/outbox.ts'
import { stepQuestion } from '../questionState.ts'
import { shopOrNeutral } from '../shop.ts'
import { hindrancesNow, type Reach } from './facts.ts'

export type SendOptions = Reach & {
  readonly now: () => string
  /** At most so many mails in a minute, over all processes with this database. */
  readonly perMinute: number
  /** How long a process that says nothing more keeps its mails, in ms. */
  readonly leaseMs?: number
  /** How often to look for mails that others approved, in ms. */
  readonly lookMs?: number
  /** Told of faults of ours; must log nothing of a mail. */
  readonly onFault: (error: unknown) => void
}

export type Sender = {
  /** Looks at once. */
  readonly wake: () => void
  /** Takes no more mails, waits for those on their way and closes the transport. */
  readonly stop: () => Promise<void>
  /** Settles when nothing is due and nothing is on its way. */
  readonly idle: () => Promise<void>
}

const LEASE_MS = 60_000
const LOOK_MS = 2000
const later = (at: string, ms: number): string => new Date(Date.parse(at) + ms).toISOString()

/** A wait longer than any that is ever set was set under a clock that has been put back since. */
const isToWait = (until: string, at: string): boolean =>
  until > at && until <= later(at, serverWaitMs(Number.MAX_SAFE_INTEGER))

/** Sends what is approved and due, until it is stopped. Several may run on one database, in one process or many. */
export function startSender(store: Store, transport: Transport, options: SendOptions): Sender {
  const { now, perMinute, leaseMs = LEASE_MS, lookMs = LOOK_MS, onFault } = options
  const leaseId = randomUUID()
  const lease = (): Lease => ({ id: leaseId, until: later(now(), leaseMs) })
  const onTheirWay = new Set<Promise<void>>()
  let stopped = false
  let isWoken = false
  let endSleep: () => void = () => {}
  let idlers: (() => void)[] = []

  const wakeUp = () => {
    isWoken = true
    endSleep()
  }
  /** What woke us while we looked counts too. */
  const sleep = (ms: number) =>
    new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, isWoken ? 0 : ms)
      endSleep = () => {
        clearTimeout(timer)
        resolve()
      }
    })

  const round = async (): Promise<boolean> => {
    const at = now()
    await store.write((tx) => endLeases(tx, at, transport.isRepeatable, leaseMs))
    const trouble = await serverTrouble(store.db)
    // While the server is in the way one mail at a time tells whether it still is.
    if (trouble !== undefined && (isToWait(trouble.nextTryAt, at) || onTheirWay.size > 0)) return false
    const free = trouble === undefined ? transport.connections - onTheirWay.size : 1
    if (free <= 0) return false
    const taken = await store.write((tx) => takeDue(tx, lease(), { most: free, perMinute, at }))
    for (const mail of taken) {
      const sent = sendOne(store, transport, mail, leaseId, options)
        .catch(onFault)
        .finally(() => {
          onTheirWay.delete(sent)
          wakeUp()
        })
      onTheirWay.add(sent)
    }
    return taken.length > 0
  }

  const loop = async () => {
    while (!stopped) {
      isWoken = false
      const tookSome = await round().catch((error) => {
        onFault(error)
        return false
      })
      if (stopped) break
      if (onTheirWay.size === 0 && !tookSome) for (const idle of idlers.splice(0)) idle()
      if (!tookSome) await sleep(lookMs)
    }
  }
  const renewal = setInterval(() => {
    if (onTheirWay.size > 0) store.write((tx) => renewLeases(tx, lease())).catch(onFault)
  }, leaseMs / 4)
  const running = loop()

  return {
    wake: wakeUp,
    idle: () =>
      new Promise((resolve) => {
        idlers = [...idlers, resolve]
        wakeUp()
      }),
    stop: async () => {
      stopped = true
      wakeUp()
      await running
      await Promise.all(onTheirWay)
      clearInterval(renewal)
      await transport.close()
    },
  }
}

/** One try of one mail that this process has, with what becomes of it. */
async function sendOne(
  store: Store,
  transport: Transport,
  mail: Mail,
  leaseId: string,
  options: SendOptions,
): Promise<void> {
  const { now } = options
  const shop = await shopOrNeutral(store.db)
  const hindrances = await hindrancesNow(store.db, mail, shop, options, now())
  const [forGood] = standing(hindrances)
  if (forGood !== undefined)
    return void (await store.write((tx) => stopTaken(tx, mail, leaseId, forGood.why, now())))
  const passes = passesAt(hindrances)
  if (passes !== undefined) {
    const why = hindrances[0]?.why ?? ''
    return void (await store.write((tx) => putOff(tx, mail, leaseId, passes, why, now())))
  }
  const bytes = await loadMailBytes(store.db, mail.id)
  if (bytes === undefined) throw new Error('an approved mail has no bytes')
  const outcome = await transport.send({
    ...{ from: shop.email, to: mail.toAddress, messageId: mail.rfcMessageId, bytes },
    mayHandOver: () => store.write((tx) => markHandedOver(tx, mail.id, leaseId, now())),
  })
  await store.write((tx) => keepOutcome(tx, mail, leaseId, outcome, now()))
}

const FREE = { leaseUntil: null, handedAt: null }

const stopTaken = (tx: Db, mail: Mail, leaseId: string, why: string, at: string) =>
  moveMail(
    tx,
    mail.id,
    'sending',
    'stopped',
    { event: 'stopped', at, says: why },
    { ...FREE, leaseId, says: why },
  )

/** It was not tried, so no try is used up. */
const putOff = (tx: Db, mail: Mail, leaseId: string, dueAt: string, why: string, at: string) =>
  moveMail(
    tx,
    mail.id,
    'sending',
    'approved',
    { event: 'put off', at, says: why },
    {
      ...{ ...FREE, leaseId, dueAt, tries: mail.tries - 1, says: why },
    },
  )

/** Writes down how a try ended. Where the lease went to another meanwhile nothing is changed, but what is known of a held mail. */
async function keepOutcome(tx: Db, mail: Mail, leaseId: string, outcome: Outcome, at: string): Promise<void> {
  if (outcome.is === 'not ours') return
  const { says } = outcome
  const step = (event: MailEvent) => ({ event, at, says })
  if (outcome.is !== 'server') await saveServerTrouble(tx, undefined)
  switch (outcome.is) {
    case 'sent': {
      const change = { leaseUntil: null, leaseId, sentAt: at, says }
      const moved =
        (await moveMail(tx, mail.id, 'sending', 'sent', step('sent'), change)) ||
        (await moveMail(tx, mail.id, 'held', 'sent', step('sent'), change))
      if (moved) await tellSent(tx, mail, at)
      return
    }
    case 'unknown':
      await moveMail(tx, mail.id, 'sending', 'held', step('no reply'), { leaseUntil: null, leaseId, says })
      return
    case 'never':
      await moveMail(tx, mail.id, 'sending', 'failed', step('refused for good'), { ...FREE, leaseId, says })
      return
    case 'later': {
      const dueAt = nextTryAt(mail.tries, mail.firstTriedAt ?? at, at)
      if (dueAt === undefined)
        await moveMail(tx, mail.id, 'sending', 'failed', step('given up'), { ...FREE, leaseId, says })
      else
        await moveMail(tx, mail.id, 'sending', 'approved', step('refused for now'), {
          ...{ ...FREE, leaseId, dueAt, says },
        })
      return
    }
    case 'server': {
      const was = await serverTrouble(tx)
      // What failed beside another mail on its way is the same failure.
      if (was === undefined || was.nextTryAt <= at) {
        const failures = (was?.failures ?? 0) + 1
        const nextTry = later(at, serverWaitMs(failures))
        await saveServerTrouble(tx, { failures, since: was?.since ?? at, nextTryAt: nextTry, says })
      }
      await moveMail(tx, mail.id, 'sending', 'approved', step('put off'), {
        ...{ ...FREE, leaseId, dueAt: at, tries: mail.tries - 1, says },
      })
    }
  }
}

/** The owner has the answer: in the words that were sent. */
export async function tellSent(tx: Db, mail: Mail, at: string): Promise<void> {
  if (mail.kind !== 'answer' || mail.messageId === undefined) return
  await setMessageTold(tx, mail.messageId, at, mail.text)
  // A question that went on meanwhile stays where it is.
  if (mail.questionId !== undefined)
    await stepQuestion(tx, mail.questionId, 'answered', at, 'the mail was sent')
}
