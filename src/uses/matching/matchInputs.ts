import { partsOf } from '../../core/build.ts'
import { mayOffer } from '../../core/consent.ts'
import { byText } from '../../core/gain/cellOf.ts'
import type { Run } from '../../core/gain/run.ts'
import { asProven, seenMemoryOf } from '../../core/limits/fromRuns.ts'
import type { CustomersMachine, MatchCustomer, MatchInputs, MatchShop } from '../../core/matching/ask.ts'
import type { Part } from '../../core/part.ts'
import type { Question } from '../../core/question.ts'
import { consentsByCustomer } from '../../store/consents.ts'
import { listCustomers } from '../../store/customers.ts'
import { listJobs } from '../../store/jobs.ts'
import { listMachineRecords, loadMachine } from '../../store/machines.ts'
import { toldByMachine } from '../../store/messages.ts'
import type { Db, Store } from '../../store/open.ts'
import { lastOfferByCustomer } from '../../store/outboxOffers.ts'
import { partedMachines } from '../../store/partings.ts'
import { listQuestions } from '../../store/questionLines.ts'
import { listWholeQuestions } from '../../store/questions.ts'
import { hottestRoomC } from '../../store/roomTemperature.ts'
import { groupBy } from '../../store/rows.ts'
import { listRuns } from '../../store/runs.ts'
import { listShelf } from '../../store/shelf.ts'
import { soundReadings } from '../../store/sound.ts'
import { listTradeIns, listWork } from '../../store/work.ts'
import { inItsRoom } from '../answerQuestion.ts'
import { keptFitOf } from '../gain/keptFit.ts'
import { ownRuns } from '../ownRuns.ts'
import { shopOrNeutral } from '../shop.ts'

/**
 * Everybody who ever bought a machine, as a matching sees them: consent, how they are reached, when they last heard from the
 * shop or bought something, and their machines with the last question that is still theirs. `at` is now, ISO 8601 UTC.
 */
export async function matchCustomers({ db }: Store, at: string): Promise<MatchCustomer[]> {
  const consents = await consentsByCustomer(db)
  const records = groupBy(await listMachineRecords(db), ({ customerId }) => customerId)
  const runs = groupBy(await listRuns(db), ({ machineTag }) => machineTag)
  const parted = await partedMachines(db)
  const [asked, lastOf] = [await lastQuestions(db), await lastDates(db)]
  const customers: MatchCustomer[] = []
  for (const { id, email } of await listCustomers(db)) {
    const owned = records.get(id) ?? []
    const machines: CustomersMachine[] = []
    for (const { tag } of owned) {
      // Its owner said that it has gone: whose it is now nobody knows.
      if (parted.has(tag)) continue
      const one = await machineOf(db, tag, runs.get(tag) ?? [], asked.get(tag), at)
      if (one !== undefined) machines.push(one)
    }
    const dates = [...owned.map(({ soldAt }) => soldAt), ...owned.map(({ tag }) => lastOf.get(tag))]
    const lastAt = latest([...dates, lastOf.get(id)])
    customers.push({
      ...{ id, mayOffer: mayOffer(consents.get(id) ?? [], at), hasEmail: email !== undefined, machines },
      ...(lastAt !== undefined && { lastAt }),
    })
    // Between two customers pages get their turn.
    await new Promise((resolve) => setImmediate(resolve))
  }
  return customers
}

async function machineOf(
  db: Db,
  tag: string,
  runs: readonly Run[],
  question: Question | undefined,
  at: string,
): Promise<CustomersMachine | undefined> {
  const loaded = await loadMachine(db, tag)
  if (loaded === undefined) return undefined
  const own = ownRuns(loaded, runs)
  return {
    machine: asProven({ ...loaded.machine, at }, own),
    seenMemory: seenMemoryOf(own),
    hasOwnRuns: runs.length > 0,
    // An owner's own words are nothing that a matching reads.
    ...(question !== undefined && { question: { ...question, words: '' } }),
  }
}

/** The last question about each machine, of those whose asker still has it. */
async function lastQuestions(db: Db): Promise<Map<string, Question>> {
  const theirs = new Set(
    (await listQuestions(db)).filter(({ soldOnAt }) => soldOnAt === undefined).map(({ id }) => id),
  )
  const whole = (await listWholeQuestions(db)).filter(({ id }) => theirs.has(id))
  const oldestFirst = whole.sort((a, b) => byText(a.askedAt, b.askedAt) || byText(a.id, b.id))
  return new Map(oldestFirst.map((question) => [question.machineTag, question]))
}

/** When an owner was last told an answer or had something done, by machine; by customer where a job or an offer says who. */
async function lastDates(db: Db): Promise<Map<string, string>> {
  const last = await toldByMachine(db)
  const note = (key: string | undefined, at: string | undefined) => {
    if (key === undefined || at === undefined) return
    const later = latest([last.get(key), at])
    if (later !== undefined) last.set(key, later)
  }
  for (const { machineTag, customerId, agreedAt, fittedAt } of await listJobs(db))
    for (const at of [agreedAt, fittedAt]) {
      note(machineTag, at)
      note(customerId, at)
    }
  for (const [customerId, at] of await lastOfferByCustomer(db)) note(customerId, at)
  return last
}

const latest = (dates: readonly (string | undefined)[]): string | undefined =>
  dates.reduce((a, b) => (a === undefined || (b !== undefined && b > a) ? b : a), undefined)

/**
 * The shop for these customers, with the piece of the gain model that their titles, their parts and the shelf's need. Waits for the
 * fit. `also` are parts that are not on the shelf.
 */
export async function matchShop(
  store: Store,
  customers: readonly MatchCustomer[],
  at: string,
  also: readonly Part[] = [],
): Promise<MatchShop> {
  const { db } = store
  const shelf = await listShelf(db)
  const shop = inItsRoom(await shopOrNeutral(db), await hottestRoomC(db))
  const shelfParts = shelf.map(({ part }) => part)
  const machines = customers.flatMap((customer) => customer.machines)
  const wanted = machines.flatMap(({ question }) => question?.wanted ?? [])
  const parts = [...shelfParts, ...also, ...machines.flatMap(({ machine }) => partsOf(machine.build))]
  const partIds = parts.filter(({ kind }) => kind === 'processor' || kind === 'card').map(({ id }) => id)
  const of = {
    wanted: [...new Map(wanted.map((w) => [`${w.titleId} ${w.settingId}`, w])).values()].map(
      ({ titleId, settingId }) => ({ titleId, settingId }),
    ),
    partIds: [...new Set(partIds)],
  }
  const gain = of.wanted.length === 0 ? undefined : await keptFitOf(store).excerpt(of, at)
  const isQuiet = machines.some(({ question }) => question?.wishes.includes('quiet'))
  const titles = new Set(of.wanted.map(({ titleId }) => titleId))
  return {
    ...{ policy: shop.policy, parts: [...shelfParts, ...also], shelf: shelf.map(({ item }) => item) },
    ...{ work: await listWork(db), tradeIns: await listTradeIns(db) },
    ...(gain?.state === 'told' && { gain: gain.told }),
    ...(isQuiet && { sounds: await soundReadings(db) }),
    // Only what was measured counts where there is no model.
    runs: gain?.state === 'told' ? [] : (await listRuns(db)).filter(({ titleId }) => titles.has(titleId)),
  }
}

/** All that a matching is worked out from, as things stand now. */
export async function matchInputs(store: Store, ask: MatchInputs['ask'], at: string): Promise<MatchInputs> {
  const customers = await matchCustomers(store, at)
  return { ask, customers, at, shop: await matchShop(store, customers, at) }
}
