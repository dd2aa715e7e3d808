import { isOver, JOB_STATES } from '../core/job/states.ts'
import { failed, ok, type Result } from '../problem.ts'
import { noteAccess } from '../store/accessLog.ts'
import { eraseRows, rowsOfCustomer } from '../store/customerData.ts'
import { loadCustomer } from '../store/customers.ts'
import { endEraseRequest } from '../store/eraseRequests.ts'
import type { Db, Store } from '../store/open.ts'
import { eraseMailsOf, mailsOfCustomer } from '../store/outboxPeople.ts'
import { endRequest } from '../store/ownerRequests.ts'
import { eraseSeatsOf } from '../store/roundSeats.ts'
import { oneOf } from '../store/rows.ts'
import { withdraw } from './consent.ts'
import { NO_CUSTOMER } from './customerRecord.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { stepQuestion } from './questionState.ts'

/** What erasing a customer takes away and what it leaves, counted. */
export type Kept = {
  readonly name: string
  /** Gone: by kind, how many. */
  readonly gone: Readonly<
    Record<'particulars' | 'questions' | 'messages' | 'photos' | 'readings' | 'notes' | 'links', number>
  >
  /** Stays without a name. */
  readonly stays: Readonly<Record<'sales' | 'jobs' | 'reports' | 'answers' | 'consents' | 'machines', number>>
  /** Jobs that are open: with them nobody can be erased. */
  readonly openJobs: readonly string[]
}

export async function keptOf(db: Db, customerId: string): Promise<Result<Kept>> {
  const customer = await loadCustomer(db, customerId)
  if (customer === undefined) return failed(NO_CUSTOMER)
  const rows = await rowsOfCustomer(db, customerId)
  const own = rows.owned.filter(({ until }) => until === undefined)
  const notes = [
    ...[customer, ...rows.jobs, ...rows.reports, ...rows.requests].map(({ note }) => note),
    ...rows.machines
      .filter(({ tag }) => own.some(({ machineTag }) => machineTag === tag))
      .map(({ note }) => note),
    ...rows.sheets.map(({ message }) => message),
  ].filter((note) => note !== undefined && note !== null)
  const { email, phone } = customer
  return ok({
    name: customer.name,
    gone: {
      particulars: 1 + [email, phone].filter((one) => one !== undefined).length,
      questions: rows.questions.length,
      messages: rows.messages.length + (await mailsOfCustomer(db, customerId)).length,
      photos: rows.photos.filter(({ takenBy }) => takenBy === 'owner').length,
      readings: rows.readings.length,
      notes: notes.length,
      links: rows.links.length,
    },
    stays: {
      sales: rows.sales.length,
      jobs: rows.jobs.length,
      reports: rows.reports.length,
      answers: rows.answerCount,
      consents: rows.consentCount,
      machines: new Set(rows.owned.map(({ machineTag }) => machineTag)).size,
    },
    openJobs: rows.jobs.flatMap(({ id, state }) => (isOver(oneOf(JOB_STATES, state)) ? [] : [id])),
  })
}

/**
 * Erases a customer for good, with what waits for them: everything that tells of the person goes in one transaction. Open
 * jobs stand against it, because money or parts are still owed.
 */
export const eraseCustomer = (
  store: Store,
  customerId: string,
  sure: boolean,
  at: string,
  by?: string,
): Promise<Result<{ readonly customerId: string }>> =>
  allOrNothing(store, async (tx) => {
    const kept = await keptOf(tx, customerId)
    if (!kept.ok) return kept
    if ((await loadCustomer(tx, customerId))?.erasedAt !== undefined) {
      const next = 'This customer is erased already.'
      return failed({ code: 'conflict', field: 'customer', next })
    }
    const [open] = kept.value.openJobs
    if (open !== undefined) {
      const next = `${open} is still open. Finish it or call it off first.`
      return failed({ code: 'conflict', field: 'customer', next })
    }
    if (!sure) {
      const next = 'Tick the box to say that you are sure: nobody can undo this.'
      return failed({ code: 'missing', field: 'sure', next })
    }
    await withdraw(tx, customerId, { kind: 'offers', source: 'erase' }, at)
    const ended = await endWhatWaits(tx, customerId, at)
    if (!ended.ok) return ended
    await eraseRows(tx, customerId, at)
    await eraseMailsOf(tx, customerId, at)
    await eraseSeatsOf(tx, customerId)
    await endEraseRequest(tx, customerId, 'doneAt', at)
    await noteAccess(tx, { at, what: 'customer erased', by, about: customerId })
    return ok({ customerId })
  })

/** Questions that wait are called off, and nothing is asked of the owner any more. */
async function endWhatWaits(tx: Db, customerId: string, at: string): Promise<Result<undefined>> {
  const { questions, requests, owned } = await rowsOfCustomer(tx, customerId)
  for (const { id, state } of questions) {
    if (state !== 'new' && state !== 'waiting for the owner') continue
    const stepped = await stepQuestion(tx, id, 'called off', at)
    if (!stepped.ok) return stepped
  }
  const today = new Set(owned.filter(({ until }) => until === undefined).map(({ machineTag }) => machineTag))
  for (const { id, state, machineTag } of requests)
    if (state === 'open' && today.has(machineTag)) await endRequest(tx, String(id), 'withdrawn')
  return ok(undefined)
}
