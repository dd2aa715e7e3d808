import { applyChange, type Build, type Change } from '../build.ts'
import { limitsOnDemand } from '../limits/after.ts'
import { LIMIT_CATALOGUE } from '../limits/catalogue.ts'
import type { LimitKey } from '../limits/limit.ts'
import type { Machine } from '../machine.ts'
import { PART_KINDS, type Part, type PartKind } from '../part.ts'
import type { ShopPolicy } from '../shop.ts'
import { isFitting } from '../verdict.ts'
import { workNamed } from '../work/catalogue.ts'
import { WORK_IDS, type WorkId } from './finding.ts'
import type { machineAfter } from './judgeChange.ts'
import { RULES } from './rules.ts'
import { broughtBy, differs, type Situation } from './situation.ts'

/*
 * The rules, compiled for a search. A search asks about ten thousands of changes that are put together from a few moves a
 * kind, and a rule looks at a few kinds only; so each rule is asked once for each set of moves of the kinds that it reads, by
 * itself, and remembered. Nothing is written down by hand: the limits that a rule reads are declared in its text, what these
 * hang on in the catalogue of limits, and what the rule reads of the situation is watched while it runs. A rule is a pure function,
 * so equal readings give an equal answer.
 */

/** What a change is put together from: one move each. */
export const DIMENSIONS = [
  'board',
  'processor',
  'memory',
  'work',
  'card',
  'case',
  'fan',
  'drive',
  'cooler',
  'supply',
] as const
export type Dimension = (typeof DIMENSIONS)[number]

/** What is done in one dimension: parts in, parts out, works. */
export type Move = Change
/** Possible moves of each dimension; the first of each is to do nothing. */
export type Moves = { readonly [D in Dimension]: readonly Move[] }
/** One move of each dimension, by place in its list, in the order of DIMENSIONS. */
export type Place = readonly number[]

/** Works that a rule asks for, as bits in the order of WORK_IDS; or one of the two below. */
export type Code = number
export const MISFIT: Code = -1
export const UNCLEAR: Code = -2

export const placeOf = (dimension: Dimension): number => DIMENSIONS.indexOf(dimension)
export const workBits = (works: readonly string[]): number =>
  works.reduce((bits, work) => bits | (1 << WORK_IDS.indexOf(work as WorkId)), 0)

export type Compiled = {
  /** By rule: the dimensions that it reads, as bits in the order of DIMENSIONS. It can grow while rules are asked. */
  readonly readsOf: (rule: number) => number
  /** How often that grew: what was sorted by it is to be sorted again. */
  readonly growth: () => number
  readonly rules: number
  readonly code: (rule: number, place: Place) => Code
  /** All rules together: a misfit before what is unclear before works. Asks no rule twice. */
  readonly whole: (place: Place) => Code
  /**
   * The same, with the works that are asked for even where something is unclear; and of a misfit the kinds that rules ask for, as
   * bits in the order of PART_KINDS: none where a rule says no that looks at no companion but those that are in already, because then
   * no further one helps.
   */
  readonly look: (place: Place) => { readonly code: Code; readonly demanded: number; readonly works: number }
  readonly changeOf: (place: Place) => Change
  readonly after: (place: Place) => ReturnType<typeof machineAfter>
}

const ALL = (1 << DIMENSIONS.length) - 1
const bitOf = (dimension: Dimension): number => 1 << placeOf(dimension)
const bitOfKind: { readonly [K in PartKind]: number } = {
  ...{ board: bitOf('board'), processor: bitOf('processor'), memory: bitOf('memory'), card: bitOf('card') },
  ...{ case: bitOf('case'), fan: bitOf('fan'), drive: bitOf('drive'), cooler: bitOf('cooler') },
  supply: bitOf('supply'),
}
/** Kinds that go in beside what is bought for its own sake. */
const BESIDE = bitOf('supply') | bitOf('case') | bitOf('cooler') | bitOf('fan')
const ADD_ORDER = [
  'processor',
  'board',
  'memory',
  'card',
  'supply',
  'case',
  'cooler',
  'drive',
  'fan',
] as const

/**
 * Compiles the rules for one machine and the moves that are possible. A change that makes room (old modules out, though nobody
 * asked) is a misfit here: taking them out is a move of its own.
 */
export function compileFit(machine: Machine, policy: ShopPolicy, moves: Moves): Compiled {
  const sizes = DIMENSIONS.map((dimension) => moves[dimension].length)
  const keyOf = keysFor(sizes)
  const reads = RULES.map(({ reads, mayRead }) =>
    [...reads, ...mayRead].reduce((bits, key) => bits | bitsOfLimit(key), 0),
  )
  const answers: Map<number | string, Code>[] = RULES.map(() => new Map())
  const demands: Map<number | string, number>[] = RULES.map(() => new Map())
  const order = RULES.map((_, rule) => rule)
  let grown = 0

  const changeOf = (place: Place): Change => {
    const of = (dimension: Dimension): Move => moves[dimension][place[placeOf(dimension)] as number] as Move
    const add: Part[] = ADD_ORDER.flatMap((dimension) => of(dimension).add)
    return {
      add,
      removeIds: [...of('memory').removeIds, ...of('drive').removeIds, ...of('fan').removeIds],
      work: [...of('memory').work, ...of('work').work],
    }
  }
  const machines = new Map<number | string, ReturnType<typeof machineAfter>>()
  const after = (place: Place): ReturnType<typeof machineAfter> => {
    const key = keyOf(place, ALL)
    const known = machines.get(key)
    if (known !== undefined) return known
    const change = changeOf(place)
    const build = applyChange(machine.build, change)
    const fresh = { after: build, limitsAfter: limitsOnDemand(machine, change, build) }
    if (machines.size >= MOST_MACHINES) machines.clear()
    machines.set(key, fresh)
    return fresh
  }

  const code = (rule: number, place: Place): Code => {
    const table = answers[rule] as Map<number | string, Code>
    const key = keyOf(place, reads[rule] as number)
    const known = table.get(key)
    if (known !== undefined) return known
    for (;;) {
      const before = reads[rule] as number
      // Only what the rule reads is changed, so that one machine serves many rules.
      const own = place.map((at, d) => (before & (1 << d) ? at : 0))
      let seen = 0
      const see = (bits: number): void => {
        seen |= bits
      }
      const change = changeOf(own)
      const { after: build, limitsAfter } = after(own)
      const weighed = (RULES[rule] as (typeof RULES)[number]).weigh(
        watched(machine, policy, change, build, see),
        limitsAfter,
      )
      if ((seen & ~before) === 0) {
        const fresh = codeOf(weighed)
        table.set(key, fresh)
        const demanded = demandedBy(weighed)
        if (demanded !== 0) demands[rule]?.set(key, demanded)
        return fresh
      }
      reads[rule] = before | seen
      table.clear()
      demands[rule]?.clear()
      grown++
      return code(rule, place)
    }
  }
  return {
    rules: RULES.length,
    readsOf: (rule) => reads[rule] as number,
    growth: () => grown,
    code,
    whole: (place) => {
      let all: Code = 0
      for (let rule = 0; rule < RULES.length; rule++) {
        const one = code(rule, place)
        if (one === MISFIT) return MISFIT
        if (one === UNCLEAR || all === UNCLEAR) all = UNCLEAR
        else all |= one
      }
      return all
    },
    look: (place) => {
      const open = place.reduce((bits, at, d) => (at === 0 ? bits | (1 << d) : bits), 0) & BESIDE
      let [works, demanded, isMisfit, isUnclear] = [0, 0, false, false]
      for (let i = 0; i < order.length; i++) {
        const rule = order[i] as number
        const one = code(rule, place)
        if (one === UNCLEAR) isUnclear = true
        else if (one !== MISFIT) works |= one
        else {
          const read = reads[rule] as number
          if ((read & open) === 0) {
            // What ruled this out rules out much of what is asked next.
            order.splice(i, 1)
            order.unshift(rule)
            return { code: MISFIT, demanded: 0, works: 0 }
          }
          isMisfit = true
          demanded |= demands[rule]?.get(keyOf(place, read)) ?? 0
        }
      }
      return { code: isMisfit ? MISFIT : isUnclear ? UNCLEAR : works, demanded, works }
    },
    ...{ changeOf, after },
  }
}

const kindBit = (kind: PartKind): number => 1 << PART_KINDS.indexOf(kind)

/** Kinds of part that a rule asks for, as bits in the order of PART_KINDS. */
const demandedBy = (weighed: ReturnType<(typeof RULES)[number]['weigh']>): number =>
  (weighed?.needs ?? []).reduce((bits, need) => ('part' in need ? bits | kindBit(need.part) : bits), 0)

/** A demand for another part is a misfit: a change that holds the part is another change. */
function codeOf(weighed: ReturnType<(typeof RULES)[number]['weigh']>): Code {
  if (weighed === undefined) return 0
  const { verdict, needs } = weighed
  if (needs.some((need) => 'part' in need)) return MISFIT
  if (verdict === "can't tell") return UNCLEAR
  return isFitting(verdict) ? workBits(needs.flatMap((need) => ('work' in need ? [need.work] : []))) : MISFIT
}

/** The moves of some dimensions (bits) as one key: a number, and where the lists are too long for one, a text. */
export function keysFor(sizes: readonly number[]): (place: Place, bits: number) => number | string {
  const plans = new Map<number, { readonly dimensions: readonly number[]; readonly isShort: boolean }>()
  const planOf = (bits: number) => {
    // A dimension of one move tells nothing apart.
    const dimensions = sizes.flatMap((size, d) => (bits & (1 << d) && size > 1 ? [d] : []))
    const most = dimensions.reduce((all, d) => all * (sizes[d] as number), 1)
    const plan = { dimensions, isShort: most < Number.MAX_SAFE_INTEGER }
    plans.set(bits, plan)
    return plan
  }
  return (place, bits) => {
    const { dimensions, isShort } = plans.get(bits) ?? planOf(bits)
    if (!isShort) return dimensions.map((d) => place[d]).join(' ')
    let key = 0
    for (const d of dimensions) key = key * (sizes[d] as number) + (place[d] as number)
    return key
  }
}

/** Limits of so many machines are remembered at once, some kB each. */
const MOST_MACHINES = 4000

/** Everything a limit can hang on: its hosts, what it follows from, and works that move it. */
function bitsOfLimit(key: LimitKey): number {
  const { hosts, from = [] } = LIMIT_CATALOGUE[key]
  const moved = WORK_IDS.some((id) => {
    const row = workNamed(id)
    return row?.ends.includes(key) === true || row?.leaves.some((claim) => claim.key === key) === true
  })
  return [...hosts, ...from].reduce((bits, kind) => bits | bitOfKind[kind], moved ? bitOf('work') : 0)
}

const BUILD_BITS: ReadonlyMap<PropertyKey, number> = new Map([
  ...Object.entries(bitOfKind),
  ['drives', bitOfKind.drive],
  ['fans', bitOfKind.fan],
])

/** A situation that tells which dimensions are read of it. What was there before the change is the same always. */
function watched(
  machine: Machine,
  policy: ShopPolicy,
  change: Change,
  after: Build,
  see: (bits: number) => void,
): Situation {
  /** A set or map by kind: asked about one kind, it was read of that dimension; asked anything else, of all. */
  const byKind = <T extends ReadonlySet<PartKind> | ReadonlyMap<PartKind, readonly string[]>>(of: T): T =>
    new Proxy(of, {
      get: (_, name) => {
        const value: unknown = Reflect.get(of, name, of)
        if (typeof value !== 'function') {
          see(ALL)
          return value
        }
        return (kind: PartKind, ...rest: unknown[]) => {
          see(name === 'has' || name === 'get' ? bitOfKind[kind] : ALL)
          return value.call(of, kind, ...rest)
        }
      },
    })
  const work = new Proxy(change.work, {
    get: (works, name) => {
      if (name === 'includes')
        return (id: string) => {
          // Memory goes out by a work of its own; all others are moves of the dimension of works.
          see(id === 'remove old modules' ? bitOf('memory') : bitOf('work'))
          return works.includes(id)
        }
      see(bitOf('memory') | bitOf('work'))
      return Reflect.get(works, name)
    },
  })
  const differing = new Set(
    (Object.keys(bitOfKind) as PartKind[]).filter((kind) => differs(kind, { before: machine.build, after })),
  )
  return {
    before: machine.build,
    after: new Proxy(after, {
      get: (build, name) => {
        see(BUILD_BITS.get(name) ?? ALL)
        return Reflect.get(build, name)
      },
      has: (build, name) => {
        see(BUILD_BITS.get(name) ?? ALL)
        return Reflect.has(build, name)
      },
      ownKeys: (build) => {
        see(ALL)
        return Reflect.ownKeys(build)
      },
    }),
    change: new Proxy(change, {
      get: (of, name) => {
        if (name === 'work') return work
        see(ALL)
        return Reflect.get(of, name)
      },
      ownKeys: (of) => {
        see(ALL)
        return Reflect.ownKeys(of)
      },
    }),
    ...{ policy, at: machine.at },
    touched: byKind<ReadonlySet<PartKind>>(differing),
    brought: byKind(broughtBy(change)),
  }
}
