import type { Change } from '../../core/build.ts'
import { judgeChange } from '../../core/fit/judgeChange.ts'
import type { Both, GainModel, Grade, LowGain, TitleGain, WantedRun } from '../../core/gain/gain.ts'
import { HALF_WIDTH_SD, type Interval, intervalOf } from '../../core/gain/intervals.ts'
import { fitModel, type GainData, modelOf } from '../../core/gain/model/index.ts'
import type { Fitted } from '../../core/gain/run.ts'
import { reaches } from '../../core/gain/targets.ts'
import { usefulGain } from '../../core/gain/useful.ts'
import type { Why } from '../../core/gain/whyTypes.ts'
import { asProven, seenMemoryOf } from '../../core/limits/fromRuns.ts'
import type { Machine } from '../../core/machine.ts'
import type { Part } from '../../core/part.ts'
import type { UsefulGain } from '../../core/ranking/option.ts'
import { deskOf, endsOf, type RankInput } from '../../core/ranking/rank.ts'
import type { ShopPolicy } from '../../core/shop.ts'
import type { Verdict } from '../../core/verdict.ts'
import { didYouMean } from '../../input/closest.ts'
import type { GainLine } from '../../input/gainAsks.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { runIds } from '../../store/gainStart.ts'
import { loadMachine } from '../../store/machines.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { runsOfMachine } from '../../store/runs.ts'
import { ownRuns } from '../ownRuns.ts'
import { shopOrNeutral } from '../shop.ts'
import { loadGainData } from './gainData.ts'

/** An interval of a gain, and of the frame rate after the change. */
export type ToldInterval = Interval & { readonly fpsLow: number; readonly fpsHigh: number }

/** What a change is worth in one title. */
export type TitleAnswer = {
  readonly titleId: string
  readonly settingId: string
  readonly grade: Grade
} & (
  | {
      readonly logGain: number
      readonly sd: number
      readonly gainPct: number
      readonly beforeFps: number
      readonly afterFps: number
      /** Whether runs of the shop stand behind each end. */
      readonly measured: Both<boolean>
      /** By how many of a hundred results they hold. */
      readonly intervals: Readonly<Record<'50' | '80' | '90', ToldInterval>>
      readonly low1?: LowGain | undefined
      readonly processorLimits?: Both<number> | undefined
      readonly targetReached?: Both<number> | undefined
      readonly disagrees: boolean
      readonly runAgain?: boolean | undefined
      readonly atLeast?: Both<boolean> | undefined
    }
  | {
      readonly because: string
      readonly beforeFps?: number | undefined
      readonly wanted: readonly WantedRun[]
    }
) & { readonly why?: Why | undefined }

export type GainAnswer = {
  /** The verdict on the change; absent where parts were given instead of a machine. */
  readonly verdict?: Verdict | undefined
  readonly titles: readonly TitleAnswer[]
  /** Over the titles together, as the display shows it; absent where no title has a number. */
  readonly useful?: UsefulGain | undefined
}

type Ends = {
  readonly before: Fitted | undefined
  readonly after: Fitted | undefined
  readonly verdict?: Verdict
}

/** Answers asks about one shop: fitted once, machines loaded once. */
export type GainDesk = {
  /** Runs that were fitted. */
  readonly runs: number
  readonly answer: (line: GainLine, explain: boolean) => Promise<Result<GainAnswer>>
}

/** Fits the gain model to the shop's runs and lays out what asks need. `at` is now, ISO 8601 UTC: ages count to it. */
export async function gainDesk(store: Store, at: string): Promise<GainDesk> {
  const data = await loadGainData(store, await runIds(store.db), at)
  const parts = new Map((await listParts(store.db)).map((part) => [part.id, part]))
  const { policy } = await shopOrNeutral(store.db)
  const model = modelOf(fitModel(data))
  const shop: Shop = { store, parts, policy, model, at, machines: new Map(), ends: new Map() }
  return {
    runs: data.runs.length,
    answer: async (line, explain) => {
      const names = nameProblems(line, data, parts)
      if (names.length > 0) return failed(...names)
      const ends = 'machine' in line.of ? await endsOfMachine(shop, line.of) : endsOfFitted(line.of, parts)
      return ends.ok ? ok(answerFor(shop, line, ends.value, explain)) : ends
    },
  }
}

type MachineAsk = Extract<GainLine['of'], { machine: string }>

type Shop = {
  readonly store: Store
  readonly parts: ReadonlyMap<string, Part>
  readonly policy: ShopPolicy
  readonly model: GainModel
  readonly at: string
  readonly machines: Map<string, Promise<Pick<RankInput, 'machine' | 'seenMemory'> | undefined>>
  /** What was judged already: many asks are about one machine and one change. */
  readonly ends: Map<string, Result<Ends>>
}

/** Names that the shop does not have, each with those it has. */
function nameProblems({ titles, of }: GainLine, data: GainData, parts: ReadonlyMap<string, Part>): Problem[] {
  const unknown = (field: string, got: string, what: string, known: readonly string[]): Problem[] =>
    known.includes(got)
      ? []
      : [
          {
            ...{ code: 'unknown name', field, got },
            allowed: known.slice(0, NAMED_MOST).join(', ') + (known.length > NAMED_MOST ? ', ...' : ''),
            next: `The shop folder has no such ${what}.${didYouMean(got, known)}`,
          },
        ]
  const titleIds = data.titles.map(({ id }) => id)
  const settingIds = data.settings.map(({ id }) => id)
  const partIds = [...parts.keys()]
  const ofKind = (kind: Part['kind']) => partIds.filter((id) => parts.get(id)?.kind === kind)
  const inFitted = (place: string, f: Partial<Fitted>): Problem[] => [
    ...(f.processorId === undefined
      ? []
      : unknown(`${place}.processorId`, f.processorId, 'processor', ofKind('processor'))),
    ...(f.cardId === undefined ? [] : unknown(`${place}.cardId`, f.cardId, 'card', ofKind('card'))),
  ]
  return [
    ...titles.flatMap(({ titleId, settingId }, i) => [
      ...unknown(`titles[${i}].title`, titleId, 'title', titleIds),
      ...unknown(`titles[${i}].setting`, settingId, 'setting', settingIds),
    ]),
    ...('machine' in of
      ? of.add.flatMap((id, i) => unknown(`add[${i}]`, id, 'part', partIds))
      : [...inFitted('fitted', of.fitted), ...inFitted('change', of.change)]),
  ]
}

const NAMED_MOST = 40

async function endsOfMachine(shop: Shop, of: MachineAsk): Promise<Result<Ends>> {
  const key = JSON.stringify(of)
  const known = shop.ends.get(key)
  if (known !== undefined) return known
  const fresh = await judgedEnds(shop, of)
  shop.ends.set(key, fresh)
  return fresh
}

async function judgedEnds(
  shop: Shop,
  { machine: tag, add, removeIds, work }: MachineAsk,
): Promise<Result<Ends>> {
  const { store, parts, policy, model } = shop
  if (!shop.machines.has(tag)) shop.machines.set(tag, loadOne(store, tag, shop.at))
  const found = await shop.machines.get(tag)
  if (found === undefined) {
    const next = 'The shop folder has no machine with this tag. Tags are in machines.csv.'
    return failed({ code: 'not found', field: 'machine', got: tag, next })
  }
  const { machine } = found
  const change: Change = { add: add.flatMap((id) => parts.get(id) ?? []), removeIds, work }
  const inIt = fittedIds(machine)
  const absent = removeIds.findIndex((id) => !inIt.has(id))
  if (absent >= 0) {
    const allowed = [...inIt].join(', ')
    const next = `${tag} has no such part to take out. It has: ${allowed}.`
    return failed({
      code: 'unknown name',
      field: `removeIds[${absent}]`,
      got: removeIds[absent],
      allowed,
      next,
    })
  }
  const judge: RankInput['judge'] = (m, c) => judgeChange(m, c, policy)
  const input: RankInput = {
    ...{ policy, model, judge, machine, seenMemory: found.seenMemory },
    ...{ parts: [], shelf: [], work: [], tradeIns: [] },
    question: NO_QUESTION,
  }
  return ok({ ...endsOf(deskOf(input), input, change), verdict: judge(machine, change).verdict })
}

/** Only what is fitted matters here. */
const NO_QUESTION: RankInput['question'] = {
  ...{ id: '', machineTag: '', words: '', askedAt: '', wanted: [], display: {}, targetFps: 60, wishes: [] },
}

const fittedIds = ({ build }: Machine): ReadonlySet<string> => {
  const { memory, drives, fans, ...single } = build
  return new Set([...Object.values(single), ...memory, ...drives, ...fans].map(({ id }) => id))
}

async function loadOne(store: Store, tag: string, at: string) {
  const loaded = await loadMachine(store.db, tag)
  if (loaded === undefined) return undefined
  const own = ownRuns(loaded, await runsOfMachine(store.db, tag))
  return { machine: asProven({ ...loaded.machine, at }, own), seenMemory: seenMemoryOf(own) }
}

/** Another card brings its own link, unless it is said: no more than the slot gave the one before, and than it has. */
function endsOfFitted(
  { fitted, change }: Extract<GainLine['of'], { fitted: Fitted }>,
  parts: ReadonlyMap<string, Part>,
): Result<Ends> {
  const card = change.cardId === undefined ? undefined : parts.get(change.cardId)
  const { gen, lanes } = fitted.link
  const link =
    card?.kind === 'card'
      ? { gen: Math.min(gen, card.pcieGen ?? gen), lanes: Math.min(lanes, card.pcieLanes ?? lanes) }
      : fitted.link
  return ok({ before: fitted, after: { ...fitted, link, ...change } })
}

function answerFor(
  shop: Shop,
  line: GainLine,
  { before, after, verdict }: Ends,
  explain: boolean,
): GainAnswer {
  const machineTag = 'machine' in line.of ? line.of.machine : ''
  const asks = line.titles.map(({ titleId, settingId }) => ({
    titleId,
    settingId,
    machineTag,
    before,
    after,
  }))
  const gains = asks.map((ask) => shop.model.predict(ask))
  const useful = usefulGain(gains, {
    ...NO_QUESTION,
    wanted: line.titles,
    display: line.displayHz === undefined ? {} : { refreshHz: line.displayHz },
    targetFps: line.targetFps,
  })
  return {
    ...(verdict !== undefined && { verdict }),
    titles: gains.map((gain, i) => {
      const settingId = line.titles[i]?.settingId ?? ''
      const why = explain && asks[i] !== undefined ? shop.model.why?.(asks[i]) : undefined
      return { ...toldOf(gain, settingId, line.targetFps), ...(why !== undefined && { why }) }
    }),
    ...(useful !== undefined && { useful }),
  }
}

function toldOf(gain: TitleGain, settingId: string, targetFps: number): TitleAnswer {
  const { titleId, grade } = gain
  if (gain.grade === 'no number') {
    const beforeFps = gain.before?.averageFps
    return {
      ...{ titleId, settingId, grade, because: gain.because },
      ...(beforeFps !== undefined && { beforeFps }),
      wanted: gain.wanted,
    }
  }
  const { logGain, sd, sdAfter = sd, before, after } = gain
  const interval = (coverage: 50 | 80 | 90): ToldInterval => {
    const spread = Math.exp(HALF_WIDTH_SD[coverage] * sdAfter)
    return {
      ...intervalOf(gain, coverage),
      fpsLow: after.averageFps / spread,
      fpsHigh: after.averageFps * spread,
    }
  }
  return {
    ...{ titleId, settingId, grade, logGain, sd },
    gainPct: 100 * Math.expm1(logGain),
    beforeFps: before.averageFps,
    afterFps: after.averageFps,
    measured: { before: before.runIds.length > 0, after: after.runIds.length > 0 },
    intervals: { 50: interval(50), 80: interval(80), 90: interval(90) },
    low1: gain.low1,
    processorLimits: gain.processorLimits,
    targetReached: reaches(gain, targetFps),
    disagrees: gain.disagrees,
    ...(gain.runAgain && { runAgain: true }),
    ...((gain.atLeast?.before || gain.atLeast?.after) && { atLeast: gain.atLeast }),
  }
}
