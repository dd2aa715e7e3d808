import type { AnswerInputs } from '../../src/core/answer.ts'
import { partsOf } from '../../src/core/build.ts'
import { withVersions } from '../../src/core/gain/age.ts'
import type { Odd, Reversal } from '../../src/core/gain/odd/odd.ts'
import type { Run, Setting, Title } from '../../src/core/gain/run.ts'
import { failed, ok } from '../../src/problem.ts'
import type { TitlePace } from '../../src/uses/gain/machinePace.ts'
import { noSuchRun } from '../../src/uses/runs/changeRun.ts'
import type { OddLine } from '../../src/uses/runs/oddRuns.ts'
import type { RunSheet } from '../../src/uses/runs/runSheet.ts'
import { noSuchTitle, type RunNames, type RunsView } from '../../src/uses/runs/runViews.ts'
import type { RunUses } from '../../src/web/runUses.ts'
import { measuredIn, measuredStates } from './cannedMeasured.ts'
import { NOW } from './cannedShop.ts'
import type { PageState } from './states.ts'

type Call = [name: string, ...given: unknown[]]

const machineLine = (from: AnswerInputs) => ({
  tag: from.machine.tag,
  ownerName: from.customer?.name,
  cardName: from.machine.build.card?.name,
  questions: 2,
})

const titlesOf = (from: AnswerInputs): Title[] => from.titles.map((title) => withVersions(title, from.runs))

/** A sheet of the canned machine; everything that runs need is known but what `unknown` names. */
const sheetOf = (from: AnswerInputs, unknown: readonly string[] = []): RunSheet => {
  const { build, tag } = from.machine
  const own = from.runs.filter((run) => run.machineTag === tag)
  const { memory, link, ...ids } = (own[0] ?? (from.runs[0] as Run)).fitted
  const known = { ...ids, ...memory, linkGen: link.gen, linkLanes: link.lanes }
  return {
    machines: [machineLine(from)],
    ...{ titles: titlesOf(from), settings: from.settings, parts: from.parts },
    ...{ machineTag: tag, day: NOW.slice(0, 10), isToday: true, displayInBoard: unknown.length > 0 },
    inside: partsOf(build),
    fitted: Object.fromEntries(Object.entries(known).filter(([field]) => !unknown.includes(field))),
    remembered: { runId: own[0]?.id, driverVersion: '31.2', roomC: 22, low: 'low1Fps' },
    rows: titlesOf(from).map(({ id, versions }, n) => ({
      ...{ titleId: id, settingId: '1080-high', titleVersion: versions?.at(-1)?.version },
      ...(n === 0 && { scene: 'harbour wall, second lap' }),
      kept: n === 0 ? own.slice(0, 1) : [],
    })),
  }
}

const reportsOf = (from: AnswerInputs) => [
  {
    ...{ machineTag: from.machine.tag, at: NOW, titleId: 'lantern', settingId: '1080-high' },
    ...{ averageFps: 71, low1Fps: 50, note: from.question.words },
  },
]

/** Runs as the store finds them, but for their age: what is old hangs on a clock that pages do not have. */
export const runsIn =
  (runs: readonly Run[], names: RunNames, reports: RunsView['reports'] = []): RunUses['runs'] =>
  async (asked) => {
    const { ids, titleId, machineTag, partId, processorId, cardId, age, offset = 0, most } = asked
    const found = runs.filter(
      (run) =>
        (ids === undefined || ids.includes(run.id)) &&
        (titleId === undefined || run.titleId === titleId) &&
        (machineTag === undefined || (run.machineTag ?? null) === machineTag) &&
        (processorId === undefined || run.fitted.processorId === processorId) &&
        (cardId === undefined || run.fitted.cardId === cardId) &&
        (partId === undefined || [run.fitted.processorId, run.fitted.cardId].includes(partId)) &&
        age !== 'old',
    )
    const once = <T>(all: readonly T[]): T[] => [...new Set(all)]
    return {
      ...names,
      ...{ runs: found.slice(offset, offset + most), found: found.length, all: runs.length, reports },
      choices: {
        titleIds: once(runs.map((run) => run.titleId)),
        partIds: once(runs.flatMap(({ fitted }) => [fitted.processorId, fitted.cardId])),
        machineTags: once(runs.map((run) => run.machineTag ?? null)),
      },
    }
  }

export function cannedRunUses(from: AnswerInputs, calls: Call[]): RunUses {
  const names = { parts: from.parts, titles: titlesOf(from), settings: from.settings }
  const run = (id: string) => from.runs.find((one) => one.id === id)
  const told =
    <T>(name: string, value: T) =>
    async (...given: unknown[]) => {
      calls.push([name, ...given])
      return ok(value)
    }
  return {
    runs: runsIn(from.runs, names, reportsOf(from)),
    measured: measuredIn(from),
    run: async (id) => {
      const found = run(id)
      return found === undefined
        ? failed(noSuchRun(id))
        : ok({ ...names, run: found, repeats: from.runs.filter((one) => one.id !== id).slice(0, 2) })
    },
    runSheet: async () => ok(sheetOf(from)),
    recordRuns: async (sheet, day) => {
      calls.push(['recordRuns', sheet, day])
      return ok({ runIds: sheet.rows.map(({ ref }) => `R-${ref}`), copies: [] })
    },
    editRun: async (id, edit) => {
      calls.push(['editRun', id, edit])
      return ok({ id })
    },
    undoRunEdit: async (id) => {
      calls.push(['undoRunEdit', id])
      return ok({ id })
    },
    takeOutRun: async (id) => {
      calls.push(['takeOutRun', id])
      return ok({ id })
    },
    bringBackRun: async (id) => {
      calls.push(['bringBackRun', id])
      return ok({ id })
    },
    oddRuns: async () => ({ state: 'told', told: { odd: [], reversals: [] } }),
    oddRunsNow: async () => ({ state: 'told', told: { odd: [], reversals: [] } }),
    paceOfMachine: async () => ({ state: 'told', told: PACES }),
    lookedAt: async (id, by) => {
      calls.push(['lookedAt', id, by])
      return ok({ id })
    },
    askAgain: async (id) => {
      calls.push(['askAgain', id])
      return ok({ id })
    },
    remarks: async () => [],
    titles: async () => ({
      titles: names.titles.map((title) => ({ title, runs: 5, oldRuns: 1 })),
      settings: names.settings.map((setting) => ({ setting, runs: 5, questions: 1 })),
    }),
    title: async (id) => {
      const title = names.titles.find((one) => one.id === id)
      if (title === undefined) return failed(noSuchTitle(id))
      const runs = from.runs.filter(({ titleId }) => titleId === id)
      const ofVersion = new Map((title.versions ?? []).map(({ version }) => [version, runs.length]))
      return ok({
        ...{ ...names, title, isListed: false, runs, ofVersion, reports: reportsOf(from) },
        found: runs.length,
      })
    },
    saveTitle: told('saveTitle', { id: 'lantern' }),
    saveSetting: told('saveSetting', { id: '1080-high' }),
  }
}

const LOW: Setting = {
  ...{ id: '1080-high-shadows', widthPx: 1920, heightPx: 1080, preset: 'high', rayTracing: false },
  ...{ frameGeneration: false, lowered: { fromSettingId: '1080-high', what: 'shadows' } },
}

/** A run with everything it can carry: at its cap, old, from a log. */
const fullRun = (from: AnswerInputs): Run => ({
  ...(from.runs[0] as Run),
  ...{ id: 'R-full', settingId: '1440-ultra', averageFps: 118, low1Fps: 80, low1MeanFps: 75.5 },
  ...{ low01Fps: 60, low01MeanFps: 48.2, driverVersion: '31.2', scene: 'pier', roomC: 22, logId: 'L-1' },
  ...{ processorLoadC: 71, cardLoadC: 66, noiseDba: 38.5, note: 'warm day', at: '2024-01-05T18:00:00.000Z' },
})

const fullView = (from: AnswerInputs, takenOutAt?: string): Partial<RunUses> => ({
  run: async () =>
    ok({
      ...{ parts: from.parts, titles: titlesOf(from), settings: [...from.settings, LOW] },
      ...{ run: fullRun(from), repeats: [] },
      ...(takenOutAt !== undefined && { takenOutAt }),
    }),
})

const adds = (mostFps: number) => ({ ceilingFps: mostFps / 2, mostFps, mostSeenFps: mostFps })
const PACES: readonly TitlePace[] = [
  {
    ...{ titleId: 'lantern', settingId: '1080-high' },
    pace: {
      ...{ side: 'processor', sure: 'clear', nowFps: 61, displayHides: false },
      ...{ card: adds(2.6), processor: adds(44), processorLimits: 0.97, cardLimits: 0.01 },
    },
  },
]

/** A run that was typed ten times too high, and one that says what another day must confirm. */
const ODD: Odd = {
  ...{ runId: 'R-full', expectedFps: 78.2, lowFps: 74.6, highFps: 82, fine: 0.001 },
  guesses: [{ kind: 'digit', slip: 'ten times', fps: 88.1 }],
  agreeIds: [],
}
const HARD: Odd = {
  ...ODD,
  guesses: [
    { kind: 'setting', settingId: '1440-ultra' },
    { kind: 'slowed', side: 'processor' },
  ],
  agreeIds: ['R-0031'],
}
const reversalOf = (from: AnswerInputs, isFact: boolean): Reversal => {
  const [one, other] = from.parts.filter(({ kind }) => kind === 'card')
  return {
    ...{ titleId: 'lantern', settingId: '1080-high', slowerId: one?.id ?? '', fasterId: other?.id ?? '' },
    ...{ slowerFps: 61.2, fasterFps: 70.4, slowerRunIds: ['R-full'], fasterRunIds: ['R-0009'], isFact },
  }
}
const oddView = (odd: readonly OddLine[], reversals: readonly Reversal[] = []): Partial<RunUses> => ({
  oddRuns: async () => ({ state: 'told', told: { odd, reversals } }),
})
const today = (odd: Odd): Odd => ({ ...odd, runId: 'R-today-1' })

/** Runs, titles and settings: the list, the sheet, one run in every state. */
export const runStates = (inputs: AnswerInputs, empty: Partial<RunUses>): readonly PageState[] => [
  { name: 'runs', path: '/runs' },
  { name: 'runs-none', path: '/runs', uses: empty },
  ...measuredStates(inputs),
  { name: 'runs-of-pair', path: '/runs?processor=CPU-NONE&card=CRD-FLINT8' },
  { name: 'runs-found-none', path: '/runs?title=nothing&age=old' },
  { name: 'run', path: '/runs/R-today-1' },
  { name: 'run-corrected', path: '/runs/R-today-1?saved=1' },
  { name: 'run-undone', path: '/runs/R-today-1?saved=undone' },
  { name: 'runs-new-of-sale', path: '/runs/new?machine=T-0007&sale=1' },
  { name: 'run-full', path: '/runs/R-full', uses: fullView(inputs) },
  { name: 'runs-odd', path: '/runs', uses: oddView([today(ODD)]) },
  { name: 'runs-odd-found', path: '/runs?fits=again', uses: oddView([today(ODD)]) },
  {
    name: 'runs-odd-waiting',
    path: '/runs',
    uses: { oddRuns: async () => ({ state: 'under way', progress: { runs: 12, sinceMs: 900 } }) },
  },
  { name: 'run-odd', path: '/runs/R-today-1', uses: oddView([today(ODD)]) },
  { name: 'run-odd-unsure', path: '/runs/R-today-1', uses: oddView([today(HARD)]) },
  {
    name: 'run-odd-looked',
    path: '/runs/R-full',
    uses: {
      ...fullView(inputs),
      ...oddView([{ ...ODD, look: { at: NOW, by: 'mara' } }], [reversalOf(inputs, true)]),
    },
  },
  {
    name: 'run-slower-here',
    path: '/runs/R-full',
    uses: { ...fullView(inputs), ...oddView([], [reversalOf(inputs, false)]) },
  },
  { name: 'run-taken-out', path: '/runs/R-full', uses: fullView(inputs, NOW) },
  { name: 'run-unknown', path: '/runs/R-nothing', status: 404 },
  { name: 'run-correct', path: '/runs/R-full/correct', uses: fullView(inputs) },
  {
    name: 'run-correct-wrong',
    ...{ path: '/runs/R-full/correct', status: 422, uses: fullView(inputs) },
    form: {
      title: 'lantern',
      setting: '1080-high',
      titleVersion: '1.4',
      averageFps: '0.4',
      day: '2026-06-11',
    },
  },
  { name: 'sheet', path: '/runs/new' },
  { name: 'sheet-kept', path: '/runs/new?kept=R-0108,R-0109&twice=R-0003' },
  { name: 'sheet-kept-odd', path: '/runs/new?kept=R-full,R-0109', uses: oddView([ODD]) },
  {
    name: 'sheet-remarks',
    path: '/runs/new',
    form: {
      ...{ machine: 'T-0007', day: '2026-06-12', rows: '1', low: 'low1Fps' },
      ...{ 'title.0': 'lantern', 'setting.0': '1080-high', 'titleVersion.0': '1.4', 'averageFps.0': '880.5' },
    },
    uses: { remarks: async () => [{ ref: '0', odd: ODD, run: { ...fullRun(inputs), averageFps: 880.5 } }] },
  },
  {
    name: 'sheet-unknown',
    path: '/runs/new',
    uses: { runSheet: async () => ok(sheetOf(inputs, ['rateMts', 'linkGen'])) },
  },
  {
    name: 'sheet-bench',
    path: '/runs/new?machine=',
    uses: {
      runSheet: async () => {
        const { machineTag: _, ...sheet } = sheetOf(inputs, ['rateMts'])
        return ok({
          ...sheet,
          ...{ inside: [], fitted: {}, displayInBoard: false, remembered: {}, rows: [] },
        })
      },
    },
  },
  {
    name: 'sheet-no-titles',
    path: '/runs/new',
    uses: { runSheet: async () => ok({ ...sheetOf(inputs), titles: [], settings: [], rows: [] }) },
  },
  {
    name: 'sheet-wrong',
    ...{ path: '/runs/new', status: 422 },
    form: {
      ...{ machine: 'T-0007', day: '2026-06-12', rows: '2', low: 'low1Fps' },
      ...{ 'title.0': 'lantern', 'setting.0': '1080-high', 'titleVersion.0': '1.4', 'averageFps.0': '60' },
      ...{ 'lowFps.0': '64', 'title.1': '', 'averageFps.1': '2100' },
    },
    uses: {
      recordRuns: async () =>
        failed({
          ...{ code: 'not allowed', field: 'low1Fps.0', got: '64' },
          next: 'is above the average of 60 FPS. The 1% low is what 99 of 100 frames beat: correct one of the two.',
        }),
    },
  },
  {
    name: 'sheet-low-refused',
    ...{ path: '/runs/new', status: 422 },
    form: {
      ...{ machine: 'T-0007', day: '2026-06-12', rows: '1', low: 'low1Fps' },
      ...{ 'title.0': 'lantern', 'setting.0': '1080-high', 'titleVersion.0': '1.4', 'averageFps.0': '60' },
      'lowFps.0': '64',
    },
    uses: {
      recordRuns: async () =>
        failed({
          ...{ code: 'not allowed', field: 'low1Fps.0', got: '64' },
          next: 'is above the average of 60 FPS. The 1% low is what 99 of 100 frames beat: correct one of the two.',
        }),
    },
  },
  { name: 'titles', path: '/titles' },
  { name: 'title', path: '/titles/lantern' },
  { name: 'title-unknown', path: '/titles/nothing', status: 404 },
  { name: 'title-new', path: '/titles/new' },
  {
    name: 'title-new-wrong',
    path: '/titles/new',
    status: 422,
    form: { capFps: '0', newVersionOn: '2026-01-01' },
  },
  { name: 'setting-new', path: '/titles/settings/new?from=1080-high' },
  {
    name: 'setting-new-wrong',
    ...{ path: '/titles/settings/new', status: 422 },
    form: { widthPx: '19', heightPx: '1080', preset: 'high', loweredFromId: '1080-high' },
  },
]
