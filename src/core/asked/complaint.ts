import type { WorkId } from '../fit/finding.ts'
import type { PartKind } from '../part.ts'
import type { Complaint } from '../question.ts'
import { changeOf, workBase } from '../ranking/bases.ts'
import { complete } from '../ranking/companions.ts'
import type { Option, Ranking } from '../ranking/option.ts'
import { priceOf } from '../ranking/price.ts'
import type { Desk } from '../ranking/rank.ts'
import type { FactSource } from '../source.ts'
import { workNamed } from '../work/catalogue.ts'
import type { ComplaintAsked, WorkRoad } from './asked.ts'

type Roads = {
  /** The likeliest and cheapest to look at first. */
  readonly works: readonly WorkId[]
  /** Kinds of part that help when work did not; for `slow` the ranking says which. */
  readonly parts: readonly PartKind[]
  readonly source: FactSource
}

const PRACTICE: FactSource = {
  kind: 'common practice',
  text: 'repair and bench practice, likeliest cause first',
}

/** What helps with a complaint: works before parts. */
export const COMPLAINT_ROADS: { readonly [C in Complaint]: Roads } = {
  slow: {
    works: [
      'display into card',
      'memory profile on',
      'move modules',
      'cleaning',
      'driver clean-up',
      'drive cloned',
      'reinstall',
    ],
    parts: [],
    source: PRACTICE,
  },
  hot: { works: ['cleaning', 'fan in front'], parts: ['cooler', 'fan'], source: PRACTICE },
  loud: { works: ['cleaning', 'fan in front'], parts: ['cooler', 'fan', 'supply'], source: PRACTICE },
}

const ORDER: Readonly<Record<WorkRoad['state'], number>> = {
  'to do': 0,
  'check first': 1,
  'nothing to do': 2,
}

/**
 * Works with their state on this machine: what is known to be wrong, then the likeliest to look at; then the cheapest
 * part of each kind that goes in.
 */
export function complaintAsked(complaint: Complaint, desk: Desk): ComplaintAsked {
  const { works, parts, source } = COMPLAINT_ROADS[complaint]
  return {
    ask: 'something is wrong',
    complaint,
    works: works.map((work) => roadOf(work, desk)).sort((a, b) => ORDER[a.state] - ORDER[b.state]),
    parts: parts.flatMap((kind) => cheapestOf(kind, desk)),
    source,
  }
}

function roadOf(work: WorkId, { search, judgedToday }: Desk): WorkRoad {
  const now = workNamed(work)?.stateOf(judgedToday.after, judgedToday.limitsAfter)
  return {
    work,
    state: now?.state ?? 'nothing to do',
    limits: now?.state === 'check first' ? now.limits : [],
    price: priceOf(search.build, changeOf(workBase(work), []), [], search.prices),
  }
}

/** The option of the ranking that is this work and nothing more than it needs; absent where there is nothing to do. */
export function optionOfWork(
  work: WorkId,
  { ranked, withoutNumber, needsAFact, checkFirst }: Ranking,
): Option | undefined {
  const all = [...ranked, ...withoutNumber, ...needsAFact, ...checkFirst.map(({ option }) => option)]
  return all
    .filter(({ change }) => change.add.length === 0 && change.work.includes(work))
    .sort((a, b) => a.change.work.length - b.change.work.length)[0]
}

/** Nothing is said of what it gains: the shop measures frame rates, not noise. */
function cheapestOf(kind: PartKind, { offers, search, optionFor }: Desk): Option[] {
  const [cheapest] = offers
    .filter(({ part }) => part.kind === kind)
    .flatMap(
      (offer) => complete({ offers: [offer], removeIds: [], chosen: [], work: [] }, search).fitting ?? [],
    )
    .sort((a, b) => a.price.netMinor - b.price.netMinor || (a.id < b.id ? -1 : 1))
  return cheapest === undefined ? [] : [optionFor(cheapest)]
}
