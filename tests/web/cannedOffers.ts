import type { AnswerInputs } from '../../src/core/answer.ts'
import { rankInputOf } from '../../src/core/computeAnswer.ts'
import type { MatchAsk, MatchCustomer, MatchInputs } from '../../src/core/matching/ask.ts'
import { demandFor } from '../../src/core/matching/demand.ts'
import { matchShelf } from '../../src/core/matching/match.ts'
import { GAIN_KINDS } from '../../src/core/ranking/shelf.ts'
import { failed, ok } from '../../src/problem.ts'
import type { DemandView } from '../../src/uses/matching/demand.ts'
import type { MatchingView } from '../../src/uses/matching/matching.ts'
import type { OffersUses } from '../../src/web/offersUses.ts'
import { inputs, NOW } from './cannedShop.ts'
import type { PageState } from './states.ts'

/** The canned shop with its owner, one who never agreed, one who wrote no games, and one who heard lately. */
function customersOf(from: AnswerInputs): MatchCustomer[] {
  const { machine, seenMemory } = rankInputOf(from)
  const machines = [{ machine, seenMemory, hasOwnRuns: true, question: from.question }]
  const one = { mayOffer: true, hasEmail: true, machines }
  return [
    { ...one, id: 'C-1' },
    { ...one, id: 'C-2', mayOffer: false },
    { ...one, id: 'C-3', machines: [{ machine, hasOwnRuns: false }] },
    { ...one, id: 'C-4', lastAt: from.question.askedAt },
    { ...one, id: 'C-5' },
  ]
}

const NAMES = new Map([
  ['C-1', 'Isolde Kray'],
  ['C-2', 'Bram Odell'],
  ['C-3', 'Mette Lund'],
  ['C-4', 'Carlo Venn'],
])

const choosableOf = ({ shelf, parts }: AnswerInputs) =>
  shelf.flatMap((item) => {
    const part = parts.find(({ id }) => id === item.partId)
    if (part === undefined || !GAIN_KINDS.has(part.kind) || item.quantity === 0) return []
    return [{ item, part, standing: item.quantity, putAside: [] }]
  })

const matchInputsOf = (from: AnswerInputs, ask: MatchAsk): MatchInputs => ({
  ...{ ask, customers: customersOf(from), at: NOW },
  shop: { ...from, policy: from.shop.policy },
})

const askFor = (from: AnswerInputs): MatchAsk => ({
  items: choosableOf(from).map(({ item }) => ({ itemId: item.id, quantity: 1, costMinor: 5000 })),
  ...{
    aim: 'mix',
    percentMinor: 300,
    overOffer: 1,
    smallestGainPct: 5,
    quietDays: 90,
    companions: 'counted',
  },
})

function viewOf(from: AnswerInputs, id: string): MatchingView {
  const ask = askFor(from)
  const view = {
    ...{ ask, nameOf: NAMES, parts: from.parts, items: from.shelf, questionOf: new Map() },
    work: { id, kind: 'match', askedAt: NOW, state: 'done' } as const,
  }
  if (id === '2')
    return { ...view, work: { ...view.work, state: 'under way' }, progress: { done: 40, of: 120 } }
  if (id === '3') return { ...view, work: { ...view.work, state: 'failed' } }
  if (id === '4') return { ...view, work: { ...view.work, state: 'called off' } }
  if (id === '5') return { ...view, work: { ...view.work, state: 'waiting' } }
  return { ...view, matching: matchShelf(matchInputsOf(from, ask)) }
}

function demandViewOf(from: AnswerInputs, id: string): DemandView {
  const [line] = choosableOf(from)
  if (line === undefined) throw new Error('an empty shelf')
  const query = { of: line.item.id, leastPctPer100: 10 }
  const work = { id, kind: 'price', name: query.of, askedAt: NOW } as const
  const view = { query, nameOf: NAMES, parts: from.parts }
  if (id === '7') return { ...view, work: { ...work, state: 'under way' }, progress: { done: 40, of: 120 } }
  if (id === '8') return { ...view, work: { ...work, state: 'called off' } }
  const ask = { ...line, ...query, smallestGainPct: 5 }
  return {
    ...{ ...view, work: { ...work, state: 'done' } },
    demand: demandFor({ ...matchInputsOf(from, askFor(from)), ask }),
  }
}

/** Sharing out the canned shelf; `calls` notes what was asked to change. */
export const cannedOffersUses = (from: AnswerInputs, calls: unknown[][]): OffersUses => ({
  matchings: async () => ({
    choosable: choosableOf(from),
    matchings: [
      { id: '2', kind: 'match', askedAt: NOW, state: 'under way' },
      { id: '1', kind: 'match', askedAt: NOW, state: 'done' },
    ],
    demands: [{ id: '6', kind: 'price', name: 'S-1', askedAt: NOW, state: 'done' }],
  }),
  askMatching: async (ask) => {
    calls.push(['askMatching', ask])
    return ok({ id: '2' })
  },
  matching: async (id) =>
    Number(id) >= 1 && Number(id) <= 5
      ? ok(viewOf(from, id))
      : failed({ code: 'not found', field: 'matching', got: id, next: 'There is no such matching.' }),
  callOffMatching: async (id) => {
    calls.push(['callOffMatching', id])
  },
  forgetMatching: async (id) => {
    calls.push(['forgetMatching', id])
    return ok({ id })
  },
  askDemand: async (query) => {
    calls.push(['askDemand', query])
    if (choosableOf(from).some(({ item }) => item.id === query.of)) return ok({ id: '7' })
    return failed({ code: 'not found', field: 'of', got: query.of, next: 'Give the id of a shelf item.' })
  },
  demand: async (id) =>
    Number(id) >= 6 && Number(id) <= 8
      ? ok(demandViewOf(from, id))
      : failed({ code: 'not found', field: 'demand', got: id, next: 'There is no such question.' }),
  callOffDemand: async (id) => {
    calls.push(['callOffDemand', id])
  },
  forgetDemand: async (id) => {
    calls.push(['forgetDemand', id])
    return ok({ id })
  },
})

/** So many items that not all have fields at a time: `S-1000` on, two of each but for every seventh. */
export const largeShelf = (items: number): OffersUses['matchings'] => {
  const [line] = choosableOf(inputs)
  if (line === undefined) throw new Error('the canned shelf has an item that can be offered')
  const choosable = Array.from({ length: items }, (_, n) => ({
    ...{ ...line, part: { ...line.part, name: `${line.part.name} ${n}` } },
    item: { ...line.item, id: `S-${1000 + n}`, quantity: n % 7 === 0 ? 1 : 2 },
  }))
  return async () => ({ choosable, matchings: [], demands: [] })
}
const LARGE = { matchings: largeShelf(95) }

const NO_SHELF: Partial<OffersUses> = {
  matchings: async () => ({ choosable: [], matchings: [], demands: [] }),
}

export const OFFERS_STATES: readonly PageState[] = [
  { name: 'offers', path: '/offers' },
  { name: 'offers-nothing', path: '/offers', uses: NO_SHELF },
  { name: 'offers-large', path: '/offers', uses: LARGE },
  {
    name: 'offers-large-more',
    ...{ path: '/offers', status: 200, uses: LARGE },
    form: { show: '30', 'pieces.S-1000': '', 'cost.S-1001': '45', find: '' },
  },
  {
    name: 'offers-large-found',
    ...{ path: '/offers', status: 200, uses: LARGE },
    form: { show: '0', 'pieces.S-1000': '', find: 'nothing like it' },
  },
  { name: 'offers-done', path: '/offers/1' },
  { name: 'offers-under-way', path: '/offers/2' },
  { name: 'offers-failed', path: '/offers/3' },
  { name: 'offers-called-off', path: '/offers/4' },
  { name: 'offers-none', path: '/offers/99', status: 404 },
  { name: 'offers-wrong', path: '/offers', form: { aim: 'mix', overOffer: 'many' }, status: 422 },
  { name: 'offers-price-ask', path: `/offers/price?of=${choosableOf(inputs)[0]?.item.id}` },
  { name: 'offers-price', path: '/offers/price/6' },
  { name: 'offers-price-under-way', path: '/offers/price/7' },
  { name: 'offers-price-called-off', path: '/offers/price/8' },
  { name: 'offers-price-none', path: '/offers/price/99', status: 404 },
  { name: 'offers-price-unknown', path: '/offers/price', form: { of: 'S-999' }, status: 404 },
  { name: 'offers-price-empty', path: '/offers/price', form: {}, status: 422 },
]
