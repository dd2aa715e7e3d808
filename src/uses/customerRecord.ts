import type { Consent } from '../core/consent.ts'
import type { Language } from '../core/language.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { Standing } from '../core/round/states.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { consentsOf } from '../store/consents.ts'
import { type CustomerRows, photoBytes, rowsOfCustomer } from '../store/customerData.ts'
import { loadCustomer } from '../store/customers.ts'
import { type EraseRequest, eraseRequestOf } from '../store/eraseRequests.ts'
import type { Db } from '../store/open.ts'
import { mailsOfCustomer } from '../store/outboxPeople.ts'
import { seatsOfCustomer } from '../store/roundSeats.ts'
import { withoutNulls } from '../store/rows.ts'
import { listTitles } from '../store/titles.ts'

/**
 * All that is kept of one customer, as plain data: what an export of a person is. Amounts are minor units of the shop's
 * currency, instants ISO 8601 UTC; what is absent is not known. What stays with a machine whoever has it (parts, limits,
 * runs) is no part of it.
 */
export type CustomerRecord = {
  readonly customer: {
    readonly id: string
    readonly name: string
    readonly email?: string | undefined
    readonly phone?: string | undefined
    readonly note?: string | undefined
    /** What they read our mails in; absent: the shop's own language. */
    readonly language?: Language | undefined
    readonly erasedAt?: string | undefined
  }
  readonly consents: readonly Omit<Consent, 'customerId'>[]
  readonly eraseRequest?: EraseRequest | undefined
  readonly machines: readonly {
    readonly tag: string
    readonly soldAt?: string | undefined
    readonly note?: string | undefined
    /** When it went to somebody else. */
    readonly until?: string | undefined
  }[]
  readonly questions: readonly AskedRecord[]
  readonly jobs: readonly {
    readonly id: string
    readonly machineTag: string
    readonly state: string
    readonly agreedAt: string
    readonly agreedMinor: number
    readonly bookedFor?: string | undefined
    readonly depositMinor?: number | undefined
    readonly fittedAt?: string | undefined
    readonly settledMinor?: number | undefined
    readonly settledAt?: string | undefined
    readonly note?: string | undefined
  }[]
  readonly reports: readonly {
    readonly machineTag: string
    readonly at: string
    readonly titleId: string
    /** The title's name; absent: the shop has it no more. */
    readonly title?: string | undefined
    readonly settingId: string
    readonly averageFps: number
    readonly low1Fps?: number | undefined
    readonly note?: string | undefined
  }[]
  readonly requests: readonly {
    readonly machineTag: string
    readonly limitKey: LimitKey
    readonly state: string
    readonly askedAt: string
    readonly answeredAt?: string | undefined
    readonly note?: string | undefined
  }[]
  readonly photos: readonly {
    readonly id: number
    readonly machineTag: string
    readonly at: string
    readonly takenBy: string
    readonly mediaType: string
    readonly note?: string | undefined
    /** Base64 (RFC 4648). */
    readonly bytes?: string | undefined
  }[]
  /** Firmware tables they sent, and what became of them. */
  readonly readings: readonly {
    readonly machineTag: string
    readonly at: string
    readonly takenAt?: string | undefined
    readonly asideAt?: string | undefined
  }[]
  readonly sheets: readonly {
    readonly machineTag: string
    readonly at: string
    readonly subject?: string | undefined
    readonly message?: string | undefined
  }[]
  readonly mails: readonly {
    readonly machineTag?: string | undefined
    readonly kind: string
    readonly state: string
    readonly at: string
    readonly subject: string
    readonly text: string
  }[]
  /** Offers of rounds they were thought of for, and what they said. */
  readonly offers: readonly {
    readonly machineTag?: string | undefined
    readonly roundId: string
    readonly standing: Standing
    /** When they were written to; absent: they were not. */
    readonly askedAt?: string | undefined
    readonly saidAt?: string | undefined
    /** What they were asked to pay. */
    readonly dueMinor?: number | undefined
    readonly note?: string | undefined
  }[]
  readonly links: readonly {
    readonly machineTag: string
    readonly createdAt: string
    readonly expiresAt: string
    readonly revokedAt?: string | undefined
  }[]
}

type AskedRecord = {
  readonly id: string
  readonly machineTag: string
  readonly askedAt: string
  readonly words: string
  readonly state: string
  readonly titles: readonly { readonly titleId: string; readonly settingId: string }[]
  readonly targetFps?: number | undefined
  readonly budgetMinor?: number | undefined
  readonly wishes: unknown
  readonly spaceGB?: number | undefined
  readonly displayWidthPx?: number | undefined
  readonly displayHeightPx?: number | undefined
  readonly displayHz?: number | undefined
  readonly complaint?: string | undefined
  readonly partInMind?: unknown
  /** What was told of it, in the words of then. */
  readonly told: readonly { readonly at: string; readonly text?: string | undefined }[]
  /** What was written and not told. */
  readonly written?: readonly { readonly at: string; readonly text: string }[] | undefined
}

export const NO_CUSTOMER: Problem = {
  ...{ code: 'not found', field: 'customer' },
  next: 'There is no such customer. The list of customers shows them all.',
}

/**
 * The record of one customer. `machineTag` is for whoever has the link of that machine: nothing of other machines and
 * nothing that was only written; the shop's notes about them are in it, since what is kept of a person is theirs to
 * read (GDPR, article 15), but for the one on the machine, which may tell of who had it before. Absent: all of it,
 * pictures too unless they are left out.
 */
export async function recordOf(
  db: Db,
  customerId: string,
  { machineTag, photos }: { readonly machineTag?: string; readonly photos?: 'without bytes' } = {},
): Promise<Result<CustomerRecord>> {
  const customer = await loadCustomer(db, customerId)
  if (customer === undefined) return failed(NO_CUSTOMER)
  const rows = await rowsOfCustomer(db, customerId)
  const isOwners = machineTag !== undefined
  const here = <R extends { machineTag: string }>(list: R[]): R[] =>
    isOwners ? list.filter((row) => row.machineTag === machineTag) : list
  const bytes =
    isOwners || photos !== undefined
      ? new Map<number, Uint8Array>()
      : await photoBytes(
          db,
          rows.photos.map(({ id }) => id),
        )
  const titleName = new Map((await listTitles(db)).map(({ id, name }) => [id, name]))
  return ok({
    customer,
    consents: (await consentsOf(db, customerId)).map(({ customerId: _, ...said }) => said),
    eraseRequest: await eraseRequestOf(db, customerId),
    machines: here(rows.owned.toSorted((a, b) => (a.machineTag < b.machineTag ? -1 : 1))).flatMap((owned) => {
      const machine = rows.machines.find(({ tag }) => tag === owned.machineTag)
      if (machine === undefined) return []
      const { tag, soldAt, note: about } = withoutNulls(machine)
      const isNow = owned.until === undefined
      return [
        { tag, ...(isNow && { soldAt }), until: owned.until, ...(isNow && !isOwners && { note: about }) },
      ]
    }),
    questions: here(rows.questions).map((row) => askedRecord(row, rows, isOwners)),
    jobs: here(rows.jobs).map((job) => {
      const { id, machineTag: tag, state, agreedAt, agreedMinor, ...rest } = withoutNulls(job)
      const { bookedFor, depositMinor, fittedAt, settledMinor, settledAt, note: about } = rest
      return {
        ...{ id, machineTag: tag, state, agreedAt, agreedMinor, bookedFor, depositMinor },
        ...{ fittedAt, settledMinor, settledAt, note: about },
      }
    }),
    reports: here(rows.reports).map((report) => {
      const { id: _, jobId: __, customerId: ___, ...rest } = withoutNulls(report)
      return { ...rest, title: titleName.get(rest.titleId) }
    }),
    requests: here(rows.requests).map((request) => {
      const { machineTag: tag, limitKey, state, askedAt, answeredAt, note: about } = withoutNulls(request)
      return { machineTag: tag, limitKey: limitKey as LimitKey, state, askedAt, answeredAt, note: about }
    }),
    photos: here(rows.photos).map((photo) => {
      const { id, machineTag: tag, at, takenBy, mediaType, note: about } = withoutNulls(photo)
      const picture = bytes.get(id)
      return {
        ...{ id, machineTag: tag, at, takenBy, mediaType, note: about },
        ...(picture !== undefined && { bytes: Buffer.from(picture).toString('base64') }),
      }
    }),
    readings: here(rows.readings).map((reading) => {
      const { machineTag: tag, at, takenAt, asideAt } = withoutNulls(reading)
      return { machineTag: tag, at, takenAt, asideAt }
    }),
    sheets: here(rows.sheets).map((sheet) => {
      const { machineTag: tag, at, subject, message } = withoutNulls(sheet)
      return { machineTag: tag, at, subject, message }
    }),
    // What only waits is the shop's: it was not said to anybody yet.
    mails: (await mailsOfCustomer(db, customerId))
      .filter((mail) => !isOwners || (mail.machineTag === machineTag && mail.sentAt !== undefined))
      .map(({ machineTag: tag, kind, state, sentAt, createdAt, subject, text }) => ({
        ...{ machineTag: tag, kind, state, at: sentAt ?? createdAt, subject, text },
      })),
    // What the shop only thought of is its own.
    offers: (await seatsOfCustomer(db, customerId))
      .filter((seat) => !isOwners || (seat.machineTag === machineTag && seat.askedAt !== undefined))
      .map(({ machineTag: tag, roundId, standing, askedAt, saidAt, dueMinor, leftNote }) => ({
        ...{ machineTag: tag, roundId, standing, askedAt, saidAt, dueMinor },
        ...(!isOwners && leftNote !== undefined && { note: leftNote }),
      })),
    links: here(rows.links).map((link) => {
      const { machineTag: tag, createdAt, expiresAt, revokedAt } = withoutNulls(link)
      return { machineTag: tag, createdAt, expiresAt, revokedAt }
    }),
  })
}

function askedRecord(
  row: CustomerRows['questions'][number],
  { titles: wanted, messages }: CustomerRows,
  isOwners: boolean,
): AskedRecord {
  const { id, machineTag, askedAt, words, state, targetFps, budgetMinor, wishes, ...rest } = withoutNulls(row)
  const { displayWidthPx, displayHeightPx, displayHz, complaint, partInMind, spaceGB } = rest
  const titles = wanted
    .filter(({ questionId }) => questionId === id)
    .map(({ titleId, settingId }) => ({ titleId, settingId }))
  const own = messages.filter(({ questionId }) => questionId === id).map((message) => withoutNulls(message))
  const told = own.flatMap(({ toldAt, toldText }) =>
    toldAt === undefined ? [] : [{ at: toldAt, text: toldText }],
  )
  const written = own.flatMap(({ toldAt, updatedAt, text }) =>
    toldAt === undefined ? [{ at: updatedAt, text }] : [],
  )
  return {
    ...{ id, machineTag, askedAt, words, state, titles, targetFps, budgetMinor, wishes },
    ...{ spaceGB, displayWidthPx, displayHeightPx, displayHz, complaint, partInMind, told },
    ...(!isOwners && { written }),
  }
}
