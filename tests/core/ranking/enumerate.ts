import { type Change, partsOut } from '../../../src/core/build.ts'
import { LIMIT_CATALOGUE } from '../../../src/core/limits/catalogue.ts'
import type { MemoryKit, Part, PartKind } from '../../../src/core/part.ts'
import type { RankInput } from '../../../src/core/ranking/rank.ts'
import type { ShelfItem } from '../../../src/core/shop.ts'

/**
 * What the ranking must say, found by trying everything: all sets of at most two gainful items, all sets of companions,
 * and the definitions as they are written, with no bound and none of the ranking's own code.
 */
export type Plain = {
  readonly id: string
  readonly gainPartIds: readonly string[]
  /** Works for their own sake, and whether the shop has priced them. */
  readonly chosen: readonly string[]
  readonly isPriced: boolean
  readonly net: number
  readonly kinds: number
  readonly pct: number | undefined
  readonly pctLow: number
  readonly titleWeight: number
  readonly titles: string
  readonly atTarget: number
  /** What is fitted after it, as far as frame rates go. */
  readonly end: string
  /** Where only facts are missing: id and net price of the cheapest way that needs none. */
  readonly surely?: { readonly id: string; readonly net: number } | undefined
  /** Memory put in beside modules that a rule wants out: replacing under another name. */
  readonly disguised: boolean
}
export type Everything = {
  readonly fitting: readonly Plain[]
  readonly unclear: readonly Plain[]
  /** Gainful items of which none, or only unwanted ones, can be had: the cheapest of each part. */
  readonly gainItems: readonly {
    readonly itemId: string
    readonly partId: string
    readonly wanted: boolean
  }[]
}

/** Frame time in ms of a title, or undefined, from the processor, the card and the memory as it runs. */
export type PlainTime = (
  titleId: string,
  cpu: string,
  card: string,
  totalGB: number,
  rateMts?: number,
  channels?: number,
) => number | undefined

/** Works without a part, as a test's own words have them; no work at all when it says nothing. */
export type Labour = {
  /** To do today. */
  readonly alone: readonly string[]
  /** Sensible beside one part. */
  readonly beside: (part: Part, replace: boolean) => readonly string[]
  /** Those that change what is fitted as far as frame rates go; only they have numbers and stand in pairs. */
  readonly moves: readonly string[]
  readonly handsIn: readonly string[]
  readonly memory: (
    cpu: string,
    kits: readonly MemoryKit[],
    isNewMemory: boolean,
    works: readonly string[],
  ) => { readonly rate: number; readonly channels: number }
}

type Bought = { readonly item: ShelfItem; readonly part: Part }
const COMPANIONS: readonly PartKind[] = ['supply', 'case', 'cooler', 'fan']
const SINGLE: readonly PartKind[] = ['processor', 'board', 'card', 'supply', 'case', 'cooler']

type Companions = readonly Bought[]

/** Of each set the sets that lack one of its members, with that member, and all smaller sets within it. */
function waysTo(sets: readonly Companions[]) {
  const keyOf = (set: Companions) => set.map((b) => b.item.id).join()
  const known = new Map(sets.map((set) => [keyOf(set), set]))
  const one = (set: Companions): Companions => known.get(keyOf(set)) ?? set
  return onceEach((set: Companions) => ({
    lasts: set.map((last) => ({ last, before: one(set.filter((b) => b !== last)) })),
    within: sets.filter((small) => small.length < set.length && small.every((b) => set.includes(b))),
  }))
}

/** The same function, which works each answer out once. */
function onceEach<A extends object, T>(work: (of: A) => T): (of: A) => T {
  const known = new Map<A, { readonly told: T }>()
  return (of) => {
    const kept = known.get(of) ?? { told: work(of) }
    known.set(of, kept)
    return kept.told
  }
}

/** `rateMts` is the rate above which a processor runs no memory; kits above it are alike. */
export function enumerate(
  input: RankInput,
  time: PlainTime,
  endSd: number,
  rateMts: (processorId: string) => number = () => 3200,
  labour: Labour = {
    ...{ alone: [], beside: () => [], moves: [], handsIn: ['remove old modules'] },
    memory: (cpu, kits) => ({
      rate: Math.min(rateMts(cpu), ...kits.map((k) => k.rateMts ?? 0)),
      channels: Math.min(
        2,
        kits.reduce((sum, k) => sum + (k.modules ?? 0), 0),
      ),
    }),
  },
): Everything {
  const { machine, question, shelf, parts } = input
  const { build } = machine
  const fitted = [build.processor, build.board, build.card, build.supply, build.case, build.cooler].map(
    (p) => p?.id,
  )
  const onShelf: Bought[] = shelf.flatMap((item) => {
    const part = parts.find((p) => p.id === item.partId)
    if (part === undefined || item.quantity === 0) return []
    return SINGLE.includes(part.kind) && fitted.includes(part.id) ? [] : [{ item, part }]
  })
  const wanted = onShelf.filter(({ item, part }) => {
    if (question.wishes.includes('keep the case') && part.kind === 'case') return false
    const used = ['used', 'used tested', 'used untested'].includes(item.condition)
    if (question.wishes.includes('no used parts') && used) return false
    if (question.wishes.includes('no untested parts') && used && item.condition !== 'used tested')
      return false
    const months = item.warrantyMonths ?? 0
    if (question.wishes.includes('only with warranty') && months <= 0) return false
    return !(question.wishes.includes('no used supply') && part.kind === 'supply' && used)
  })
  const ofKind = (kind: PartKind) => wanted.filter((b) => b.part.kind === kind)
  const gainful = (['processor', 'memory', 'card', 'board'] as const).flatMap(ofKind)

  const bases: Bought[][] = [
    [],
    ...gainful.map((b) => [b]),
    ...gainful.flatMap((a) =>
      gainful
        .filter((b) => a.part.kind < b.part.kind && a.part.kind !== 'board' && b.part.kind !== 'board')
        .map((b) => [a, b]),
    ),
  ]
  let sets: Bought[][] = [[]]
  for (const kind of COMPANIONS) sets = sets.flatMap((set) => [set, ...ofKind(kind).map((b) => [...set, b])])

  const movingPairs = labour.moves.flatMap((a, i) =>
    labour.moves.slice(i + 1).flatMap((b) => ([a, b].every((w) => labour.alone.includes(w)) ? [[a, b]] : [])),
  )
  /** The works that are chosen with these parts: none, or those that are sensible. */
  const chosenWith = (base: readonly Bought[], replace: boolean): (readonly string[])[] => {
    const [first] = base
    if (first === undefined) return [...labour.alone.map((w) => [w]), ...movingPairs]
    return base.length > 1 ? [[]] : [[], ...labour.beside(first.part, replace).map((w) => [w])]
  }
  const changeOf = (all: readonly Bought[], replace: boolean, chosen: readonly string[]): Change => ({
    add: all.map((b) => b.part),
    removeIds: replace ? build.memory.map((m) => m.id) : [],
    work: [...(replace ? ['remove old modules'] : []), ...chosen],
  })
  const waysOf = waysTo(sets)

  const found = { fitting: new Map<string, Plain>(), unclear: new Map<string, Plain>() }
  const sure = new Map<string, Plain>()
  for (const base of bases) {
    const kitIn = base.find((b) => b.part.kind === 'memory')
    const canReplace = kitIn !== undefined && build.memory.some((m) => m.id !== kitIn.part.id)
    for (const [replace, chosen] of (canReplace ? [false, true] : [false]).flatMap((r) =>
      chosenWith(base, r).map((works) => [r, works] as const),
    )) {
      // The same is asked of a set many times over; remembering the answers only saves time, and so does asking first what
      // is answered soonest: whether anything asks for the set at all.
      const judged = onceEach((set: Companions) =>
        input.judge(machine, changeOf([...base, ...set], replace, chosen)),
      )
      const needsOf = onceEach((set: Companions) =>
        judged(set).findings.flatMap((f) => f.needs.flatMap((n) => ('part' in n ? [n.part] : []))),
      )
      const state = onceEach((set: Companions) => {
        const { verdict } = judged(set)
        if (needsOf(set).length > 0 || verdict === 'does not fit') return 'open'
        return verdict === "can't tell" ? 'unclear' : 'fitting'
      })
      // A set is demanded when its members can be added one by one, each because a rule asks for its kind then.
      const isDemanded = onceEach(
        (set: Companions): boolean =>
          set.length === 0 ||
          waysOf(set).lasts.some(
            ({ last, before }) => isDemanded(before) && needsOf(before).includes(last.part.kind),
          ),
      )
      /** Kinds whose part a missing fact is about. */
      const doubted = (set: Companions) => {
        const { findings, after } = judged(set)
        const fittedThen = [after.supply, after.case, after.cooler]
        return findings
          .flatMap((f) => (f.verdict === "can't tell" ? f.missing : []))
          .flatMap((m) =>
            'limit' in m
              ? (LIMIT_CATALOGUE[m.limit].hosts as readonly PartKind[])
              : fittedThen.flatMap((p) => (p?.id === m.partId ? [p.kind] : [])),
          )
          .filter((kind) => kind === 'supply' || kind === 'case' || kind === 'cooler')
      }
      // One by one, each because a rule asks for its kind or because a missing fact is about the part it replaces.
      const isSettling = onceEach(
        (set: Companions): boolean =>
          set.length === 0 ||
          waysOf(set).lasts.some(({ last, before }) => {
            if (!isSettling(before)) return false
            const kinds = state(before) === 'unclear' ? doubted(before) : needsOf(before)
            return kinds.includes(last.part.kind)
          }),
      )
      for (const set of base.length === 0 ? [] : sets) {
        if (!isSettling(set) || state(set) !== 'fitting') continue
        if (waysOf(set).within.some((s) => state(s) === 'fitting')) continue
        const all = [...base, ...set]
        const asked = judged(set).findings.flatMap((f) => f.needs)
        const works = new Set([
          ...(replace ? ['remove old modules'] : []),
          ...chosen,
          ...asked.flatMap((n) => ('work' in n ? [n.work] : [])),
        ])
        const plain = plainOf(all, base, replace, chosen, [...works].sort())
        const key = JSON.stringify([base.map((b) => b.part.id).sort(), replace, chosen])
        const known = sure.get(key)
        if (known === undefined || plain.net < known.net || (plain.net === known.net && plain.id < known.id))
          sure.set(key, plain)
      }
      for (const kind of ['fitting', 'unclear'] as const) {
        const good = kind === 'fitting' ? ['fitting'] : ['fitting', 'unclear']
        for (const set of sets) {
          if (!isDemanded(set) || state(set) !== kind) continue
          if (waysOf(set).within.some((s) => good.includes(state(s)))) continue
          const all = [...base, ...set]
          const asked = judged(set).findings.flatMap((f) => f.needs)
          const works = new Set([
            ...(replace ? ['remove old modules'] : []),
            ...chosen,
            ...asked.flatMap((n) => ('work' in n ? [n.work] : [])),
          ])
          const plain = plainOf(all, base, replace, chosen, [...works].sort())
          // The item that stands for a part is the cheapest, so bases are told apart by their parts.
          const key = JSON.stringify([base.map((b) => b.part.id).sort(), replace, chosen])
          const known = found[kind].get(key)
          if (
            known === undefined ||
            plain.net < known.net ||
            (plain.net === known.net && plain.id < known.id)
          )
            found[kind].set(key, plain)
        }
      }
    }
  }
  const real = (plains: Iterable<Plain>) => [...plains].filter((p) => !p.disguised)
  const complete = new Set(found.fitting.keys())
  // A pair that does no more than one of the two alone, where both are to be had alone, is no option.
  const isIdle = ([key, pair]: [string, Plain]) => {
    const [partIds, replace, works] = JSON.parse(key) as [string[], boolean, string[]]
    const singles = [
      ...partIds.map((id) => [[id], parts.find((p) => p.id === id)?.kind === 'memory' && replace, []]),
      ...works.map((work) => [[], false, [work]]),
    ]
    const alone = singles.map((single) => {
      const plain = found.fitting.get(JSON.stringify(single))
      return plain?.disguised ? undefined : plain
    })
    return singles.length === 2 && alone.every((s) => s) && alone.some((s) => s?.end === pair.end)
  }
  return {
    fitting: real([...found.fitting].filter((entry) => !isIdle(entry)).map(([, p]) => p)),
    unclear: real(
      [...found.unclear]
        .filter(([key]) => !complete.has(key))
        .map(([key, p]) => {
          const way = sure.get(key)
          return way === undefined || way.disguised ? p : { ...p, surely: { id: way.id, net: way.net } }
        }),
    ),
    gainItems: [...new Set(onShelf.map((b) => b.part.id))].flatMap((partId) => {
      const of = (list: readonly Bought[]) =>
        list
          .filter((b) => b.part.id === partId)
          .sort((a, b) => a.item.priceMinor - b.item.priceMinor || (a.item.id < b.item.id ? -1 : 1))[0]
      const stands = of(wanted) ?? of(onShelf)
      if (stands === undefined || !['processor', 'memory', 'card', 'board'].includes(stands.part.kind))
        return []
      return [{ itemId: stands.item.id, partId, wanted: of(wanted) !== undefined }]
    }),
  }

  function plainOf(
    all: readonly Bought[],
    base: readonly Bought[],
    replace: boolean,
    chosen: readonly string[],
    works: readonly string[],
  ): Plain {
    const change = changeOf(all, replace, chosen)
    const kinds = [...new Set(all.map((b) => b.part.kind))]
    const workPrice = (name: string) => input.work.find((w) => w.work === name)?.priceMinor ?? 0
    const credit = (id: string) => input.tradeIns.find((t) => t.partId === id)?.creditMinor ?? 0
    const opens = all.length > 0 || works.some((w) => labour.handsIn.includes(w))
    let net = opens ? workPrice('opening') : 0
    for (const b of all) net += b.item.priceMinor
    for (const kind of kinds) net += workPrice(`fit ${kind}`)
    for (const work of works) net += workPrice(work)
    for (const out of partsOut(build, change)) net -= credit(out.id)

    const idAfter = (kind: 'processor' | 'card') =>
      (base.find((b) => b.part.kind === kind)?.part ?? build[kind])?.id ?? ''
    const [cpu, cardId] = [idAfter('processor'), idAfter('card')]
    const kits = [
      ...(replace ? [] : build.memory),
      ...all.flatMap((b) => (b.part.kind === 'memory' ? [b.part] : [])),
    ]
    const [cpuToday, cardToday] = [build.processor?.id ?? '', build.card?.id ?? '']
    const isNewMemory = replace || all.some((b) => b.part.kind === 'memory')
    const now = labour.memory(cpu, kits, isNewMemory, works)
    const before = labour.memory(cpuToday, build.memory, false, [])
    const end = JSON.stringify([cpu, cardId, gbOf(kits), now])
    const sd =
      end === JSON.stringify([cpuToday, cardToday, gbOf(build.memory), before]) ? 0 : endSd * Math.SQRT2
    const isTold = all.length > 0 || chosen.some((w) => labour.moves.includes(w))
    const cap = question.display.refreshHz ?? Number.POSITIVE_INFINITY
    let [ratio, weight, atTarget, downs, squares] = [1, 0, 0, 0, 0]
    const counted: string[] = []
    const terms = question.wanted.flatMap((w) => {
      const old = time(w.titleId, cpuToday, cardToday, gbOf(build.memory), before.rate, before.channels)
      const after = time(w.titleId, cpu, cardId, gbOf(kits), now.rate, now.channels)
      return !isTold || old === undefined || after === undefined
        ? []
        : [{ w, old: 1000 / old, now: 1000 / after }]
    })
    for (const { w } of terms) weight += w.weight
    for (const { w, old, now } of terms.toSorted((a, b) => (a.w.titleId < b.w.titleId ? -1 : 1))) {
      const low = now * Math.exp(-1.2 * sd)
      ratio *= (Math.min(now, cap) / Math.min(old, cap)) ** (w.weight / weight)
      const down = (w.weight / weight) * Math.log(Math.min(now, cap) / Math.min(low, cap))
      downs += down
      squares += down * down
      if (now >= question.targetFps - 1e-9) atTarget++
      counted.push(w.titleId)
    }
    return {
      id: [...all.map((b) => b.item.id).sort(), ...works].join('+'),
      gainPartIds: base.map((b) => b.part.id),
      chosen,
      isPriced: chosen.every((work) => input.work.some((w) => w.work === work)),
      net,
      kinds: kinds.length,
      pct: terms.length === 0 ? undefined : 100 * (ratio - 1),
      pctLow: 100 * (ratio * Math.exp(-Math.sqrt(0.2 * downs * downs + 0.8 * squares)) - 1),
      titleWeight: weight,
      titles: counted.join(),
      atTarget,
      end,
      disguised:
        !replace && works.includes('remove old modules') && base.some((b) => b.part.kind === 'memory'),
    }
  }
}

const gbOf = (kits: readonly MemoryKit[]): number =>
  kits.reduce((sum, k) => sum + (k.modules ?? 0) * (k.moduleGB ?? 0), 0)

const grid = (x: number) => Math.round(x * 1e9)

/** The order and the picks that follow from everything, by the definitions. */
export function order(all: Everything, input: RankInput, todayAtTarget: number) {
  const per100 = (p: Plain) => ((p.pct ?? 0) * 100 * 100) / p.net
  const tier = (p: Plain) => (grid(p.pct ?? 0) <= 0 ? 3 : p.net <= 0 ? 1 : 2)
  const value = (p: Plain) => grid(tier(p) === 2 ? per100(p) : (p.pct ?? 0))
  const text = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
  const byPrice = (a: Plain, b: Plain) => a.net - b.net || a.kinds - b.kinds || text(a.id, b.id)
  const ranked = all.fitting
    .filter((p) => p.pct !== undefined && p.isPriced)
    .sort(
      (a, b) =>
        grid(b.titleWeight) - grid(a.titleWeight) ||
        text(a.titles, b.titles) ||
        tier(a) - tier(b) ||
        value(b) - value(a) ||
        byPrice(a, b),
    )
  const good = ranked.filter((p) => (p.pct ?? 0) >= input.policy.smallestGainPct && p.pctLow > 0)
  const budget = input.question.budgetMinor
  const affordable = good.filter((p) => budget !== undefined && p.net <= budget)
  const widest = affordable.filter((p) => p.titles === affordable[0]?.titles)
  const most = Math.max(0, ...good.map((p) => p.atTarget))
  const beats = (a: Plain, b: Plain) =>
    a !== b &&
    a.titles === b.titles &&
    a.net <= b.net &&
    grid(a.pct ?? 0) >= grid(b.pct ?? 0) &&
    (a.net < b.net || grid(a.pct ?? 0) > grid(b.pct ?? 0) || byPrice(a, b) < 0)
  return {
    ranked,
    bestPerMoneyId: good[0]?.id,
    bestInBudgetId: widest.sort((a, b) => grid(b.pct ?? 0) - grid(a.pct ?? 0) || byPrice(a, b))[0]?.id,
    cheapestToTargetId:
      most > todayAtTarget ? good.filter((p) => p.atTarget === most).sort(byPrice)[0]?.id : undefined,
    frontierIds: ranked
      .filter((p) => grid(p.pct ?? 0) > 0 && !ranked.some((q) => beats(q, p)))
      .sort((a, b) => a.net - b.net || grid(b.pct ?? 0) - grid(a.pct ?? 0) || byPrice(a, b))
      .map((p) => p.id),
  }
}
