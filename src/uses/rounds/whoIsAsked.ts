import { byText } from '../../core/gain/cellOf.ts'
import { type MatchCustomer, placesOf } from '../../core/matching/ask.ts'
import type { Demand, DemandInputs, Taker } from '../../core/matching/demand.ts'
import { barOf, isAboveCeiling } from '../../core/matching/leftOut.ts'
import { isAsked } from '../../core/matching/pairs.ts'
import type { RoundSource } from '../../input/storedRound.ts'
import { ownerIdOf } from '../../store/machines.ts'
import type { Store } from '../../store/open.ts'
import type { NewSeat, SeatRow } from '../../store/roundSeats.ts'
import type { RoundItem } from '../../store/rounds.ts'
import { listShelf } from '../../store/shelf.ts'
import { inThread } from '../longWork/thread.ts'
import { matchCustomers, matchShop } from '../matching/matchInputs.ts'
import { shopOrNeutral } from '../shop.ts'

type ItemSource = Extract<RoundSource, { from: 'item' }>

/**
 * Everybody who could take the item: those who gain most are asked, as many as the round has places for. Of the machines that
 * were named each has its place, with the reason where it is not asked.
 */
export async function whoIsAsked(
  store: Store,
  source: ItemSource,
  items: readonly RoundItem[],
  at: string,
): Promise<NewSeat[]> {
  const isByName = source.tags.length > 0
  const all = await matchCustomers(store, at)
  const customers = isByName ? onlyMachines(all, new Set(source.tags)) : all
  const demand = await demandOf(store, source.itemId, customers, at, isByName)
  if (demand === undefined) return []
  const { quietDays } = source
  const barred = new Map(customers.map((one) => [one.id, barOf(one, { quietDays }, at)?.reason]))
  const byGain = demand.takers.toSorted(
    (a, b) => b.useful.pct - a.useful.pct || byText(a.machineTag, b.machineTag),
  )
  const places = isByName ? byGain.length : placesOf(items[0]?.quantity ?? 0, source.overOffer)
  const questionOf = questionsOf(customers)
  const has = new Set<string>()
  const found = byGain.map((taker): NewSeat => {
    const { customerId, way, ceilingMinor } = taker
    const because =
      barred.get(customerId) ??
      (isAboveCeiling(way.netMinor, ceilingMinor) ? 'above the ceiling' : undefined) ??
      (has.has(customerId) ? 'another machine' : has.size >= places ? 'others gain more' : undefined)
    if (because === undefined) has.add(customerId)
    return {
      ...seatOf(taker, source.itemId, questionOf),
      ...(because === undefined ? { standing: 'asked' } : { standing: 'left out', leftBecause: because }),
    }
  })
  return [...found, ...(await whoCannot(store, source, demand, customers))]
}

/** Named machines that cannot take it, with what is in the way. */
async function whoCannot(
  { db }: Store,
  { tags, itemId }: ItemSource,
  demand: Demand,
  customers: readonly MatchCustomer[],
): Promise<NewSeat[]> {
  const known = new Set(customers.flatMap(({ machines }) => machines.map(({ machine }) => machine.tag)))
  const takes = new Set(demand.takers.map(({ machineTag }) => machineTag))
  const why = new Map(demand.each?.map(({ machineTag, because }) => [machineTag, because]))
  const out: NewSeat[] = []
  for (const machineTag of tags) {
    if (takes.has(machineTag)) continue
    const customerId = await ownerIdOf(db, machineTag)
    if (customerId === undefined) continue
    const leftBecause = why.get(machineTag) ?? (known.has(machineTag) ? 'no titles' : 'no machine')
    out.push({ customerId, machineTag, itemId, standing: 'left out', leftBecause })
  }
  return out
}

/** Of who is asked about one machine: their others that could take the same item, so that a person can choose. */
export async function otherMachines(store: Store, seats: readonly SeatRow[], at: string): Promise<NewSeat[]> {
  const asked = seats.filter(({ standing }) => standing === 'asked')
  const taken = new Set(seats.flatMap(({ machineTag }) => machineTag ?? []))
  const itemsOf = new Map(asked.map(({ customerId, itemId }) => [customerId, itemId]))
  const several = (await matchCustomers(store, at)).filter(
    ({ id, machines }) => itemsOf.has(id) && machines.filter(isAsked).length > 1,
  )
  const questionOf = questionsOf(several)
  const found: NewSeat[] = []
  for (const itemId of new Set(itemsOf.values())) {
    const theirs = several.filter(({ id }) => itemsOf.get(id) === itemId)
    if (itemId === undefined || theirs.length === 0) continue
    const demand = await demandOf(store, itemId, theirs, at, false)
    for (const taker of demand?.takers ?? []) {
      if (taken.has(taker.machineTag)) continue
      const leftBecause = isAboveCeiling(taker.way.netMinor, taker.ceilingMinor)
        ? 'above the ceiling'
        : 'another machine'
      found.push({ ...seatOf(taker, itemId, questionOf), standing: 'left out', leftBecause })
    }
  }
  return found
}

const seatOf = (
  { customerId, machineTag, useful, way }: Taker,
  itemId: string,
  questionOf: ReadonlyMap<string, string | undefined>,
) => ({
  ...{ customerId, machineTag, questionId: questionOf.get(machineTag), itemId },
  ...{ optionId: way.optionId, pct: useful.pct, dueMinor: way.netMinor },
})

const questionsOf = (customers: readonly MatchCustomer[]): ReadonlyMap<string, string | undefined> =>
  new Map(
    customers.flatMap(({ machines }) => machines.map(({ machine, question }) => [machine.tag, question?.id])),
  )

const onlyMachines = (customers: readonly MatchCustomer[], tags: ReadonlySet<string>): MatchCustomer[] =>
  customers
    .map((one) => ({ ...one, machines: one.machines.filter(({ machine }) => tags.has(machine.tag)) }))
    .filter(({ machines }) => machines.length > 0)

/** Who could take an item at its price; worked out beside, so that pages are served meanwhile. */
async function demandOf(
  store: Store,
  itemId: string,
  customers: readonly MatchCustomer[],
  at: string,
  tellsEach: boolean,
): Promise<Demand | undefined> {
  const line = (await listShelf(store.db)).find(({ item }) => item.id === itemId)
  if (line === undefined) return undefined
  const shop = await matchShop(store, customers, at)
  const { smallestGainPct } = (await shopOrNeutral(store.db)).policy
  const ask = { item: line.item, part: line.part, leastPctPer100: 1, smallestGainPct, tellsEach }
  const inputs: DemandInputs = { shop, customers, at, ask }
  return (await inThread({ kind: 'price', inputs }, () => {}).result) as Demand
}
