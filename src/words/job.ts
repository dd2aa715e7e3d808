import type { TitleGain } from '../core/gain/gain.ts'
import type { Setting, Title } from '../core/gain/run.ts'
import type { Step } from '../core/job/checklist.ts'
import type { Fitter, Job, OutOutcome } from '../core/job/job.ts'
import type { Kept, Outcome, Promised } from '../core/job/promise.ts'
import type { JobState, JobStep } from '../core/job/states.ts'
import type { Touched, Warranty } from '../core/job/warranty.ts'
import type { Language } from '../core/language.ts'
import { type Act, JOB_EN } from './en/job.ts'
import { type Figures, outwards, wholeOf } from './figures.ts'
import { fill } from './say.ts'
import { wordsIn } from './tables.ts'

const words = JOB_EN

/** What sentences about a job are filled with. */
export type JobNames = {
  partName(id: string): string
  titleName(id: string): string
  settingName(id: string): string
}

/** Of a job that the owner fits at home: it is with them only until it is in. */
export const sayJobState = ({
  state,
  fittedBy,
  fittedAt,
}: Pick<Job, 'state' | 'fittedBy' | 'fittedAt'>): string =>
  fittedBy === 'owner' && state === 'on the bench' && fittedAt !== undefined
    ? words.inAtHome
    : words.states[fittedBy][state]

/** One step of a job's history: what happened, by the states it joins. */
export function sayHappened(from: string, to: string, fittedBy: Fitter): string {
  const states: Readonly<Record<string, string>> = words.states[fittedBy] satisfies Record<JobState, string>
  return words.happened[`${from}>${to}`] ?? states[to] ?? to
}

/** A step that left the state as it was, another day apart, is told by what was written beside it. */
export const isToldByItself = (from: string, to: string, because: string | undefined): because is string =>
  from === to && because !== undefined && (from !== 'booked' || because.startsWith(sayJoined('')))

/** Why a step stands in the history: the day and time it is about. */
export const sayBookedFor = (day: string, time: string): string =>
  fill(words.bookedFor, { when: `${day} ${time}` })

/** What joined a visit, as its history keeps it. */
export const sayJoined = (what: string): string => fill(words.joined, { what })

/** Why a step stands in the history, as it was kept: its days in words. */
export const sayBecause = (because: string, figures: Figures): string =>
  because.replaceAll(/\b(\d{4}-\d{2}-\d{2})(?: (\d{2}:\d{2}))?\b/g, (_, day: string, time?: string) =>
    [figures.day(day), time].filter(Boolean).join(', '),
  )

/** The button of a step, and what happens when it is pressed. */
export const sayAct = (step: JobStep | 'fitted', fittedBy: Fitter): Act => words.acts[fittedBy][step]

export const sayStepName = (step: JobStep | 'fitted', fittedBy: Fitter): string => sayAct(step, fittedBy).name

export const sayFitter = (fittedBy: Fitter): string => words.fitters[fittedBy]

/** What is agreed, as a shop says it: "$191", or "we pay $28". */
export const sayPrice = (minor: number, figures: Figures): string =>
  minor < 0 ? fill(words.wePay, { amount: figures.money(-minor) }) : figures.money(minor)

export const sayOutcomeOfPart = (outcome: OutOutcome): string => words.outcomes[outcome]

/** A work as a bench reads it; one that the shop named itself stays as it is. */
export const workName = (work: string, language: Language = 'en'): string =>
  wordsIn(language).answer.works[work] ?? work

/** One step of the checklist. */
export function sayChecklistStep({ what, ref }: Step, names: JobNames, language: Language = 'en'): string {
  const line = wordsIn(language).jobSteps[what]
  if (what === 'work') return fill(line, { what: workName(ref, language) })
  if (what === 'measure') {
    const [title = '', setting = ''] = ref.split('@')
    const at = fill(words.at, { title: names.titleName(title), setting: names.settingName(setting) })
    return fill(line, { what: at })
  }
  return fill(line, { what: ref === '' ? '' : names.partName(ref) })
}

/** What a job is about, from its checklist: what goes in, then the works. */
export function sayJobWhat(
  steps: readonly Step[],
  partName: (id: string) => string,
  language: Language = 'en',
): string {
  const of = (what: Step['what']) => steps.filter((s) => s.what === what).map(({ ref }) => ref)
  const parts = of('fit').map(partName)
  const works = of('work').map((work) => workName(work, language))
  return [...parts, ...works].join(' + ') || wordsIn(language).answer.work.nothing
}

/** Every figure of a promise as it is told beside the rate that the owner wants. */
export function promiseFigures(promised: Promised, figures: Figures, targetFps: number) {
  const { low, high } = outwards(promised.afterFpsLow, promised.afterFpsHigh)
  return {
    before: figures.numberAgainst(promised.beforeFps, targetFps),
    promised: figures.numberAgainst(promised.afterFps, targetFps),
    low: figures.number(low),
    high: figures.number(high),
  }
}

/** What is promised in one title, before it is agreed. */
export function sayPromised(promised: Promised, title: string, figures: Figures, targetFps: number): string {
  const { before, promised: rate, low, high } = promiseFigures(promised, figures, targetFps)
  const after = figures.fpsAgainst(promised.afterFps, targetFps)
  return fill(before === rate ? words.yes.stays : words.yes.rise, { title, before, after, low, high })
}

/** Why nothing is promised in a title. */
export const sayNotPromised = (gain: TitleGain, title: string): string =>
  fill(gain.grade === 'no number' ? words.yes.without : words.yes.again, { title })

/** A promise and what became of it, in one or two sentences; the interval stands as it was said. */
export function sayKept(kept: Kept, figures: Figures, targetFps: number): string {
  const { promised, outcome, measuredFps } = kept
  const { low, high } = outwards(promised.afterFpsLow, promised.afterFpsHigh)
  const measured = wholeOf(measuredFps ?? 0)
  const isOutside = outcome === 'kept' && (measured < low || measured > high)
  const { said, scatter } = wordsIn(figures.language).promise
  return fill(isOutside ? scatter : said[outcome], {
    promised: figures.fpsAgainst(promised.afterFps, targetFps),
    low: figures.number(low),
    high: figures.fps(high),
    measured: measuredFps === undefined ? '' : figures.fpsAgainst(measuredFps, targetFps),
    missed: figures.fps(Math.max(1, low - measured)),
  })
}

export const sayOutcome = (outcome: Outcome): string => words.promise.words[outcome]
export const sayOverall = (outcome: Outcome, promised: number): string =>
  promised === 0 ? words.promise.none : words.promise.overall[outcome]

/** "Flint 8G: our warranty until 1 May 2027. What ends it, as noted: ..." */
export function sayWarranty(warranty: Warranty, partName: string, figures: Figures): string {
  const { givers, runs, ends } = words.warranty
  const { givenBy, until, endsWith } = warranty
  const line = fill(runs, { part: partName, giver: givers[givenBy], date: figures.date(until) })
  return endsWith === undefined ? line : `${line} ${fill(ends, { ends: bare(endsWith) })}`
}

/** A warranty that a change touches: until when, by whom, and whether the change ends it as far as is noted. */
export function sayTouched({ warranty, how }: Touched, partName: string, figures: Figures): string {
  const { givers, under, ends, staysOut, staysIn } = words.warranty
  const { givenBy, until, endsWith } = warranty
  const line = fill(under, { part: partName, giver: givers[givenBy], date: figures.date(until) })
  const end =
    endsWith === undefined ? (how === 'comes out' ? staysOut : staysIn) : fill(ends, { ends: bare(endsWith) })
  return `${line} ${end}`
}

/** Without the full stop that the sentence brings itself. */
export const bare = (text: string): string => text.replace(/[.\s]+$/, '')

/** Names from what is known; an id nobody knows any more stays an id. */
export const namesFrom = (
  parts: readonly { readonly id: string; readonly name: string }[],
  titles: readonly Title[],
  settings: readonly Setting[],
  settingText: (setting: Setting) => string,
): JobNames => ({
  partName: (id) => parts.find((p) => p.id === id)?.name ?? id,
  titleName: (id) => titles.find((t) => t.id === id)?.name ?? id,
  settingName: (id) => {
    const setting = settings.find((s) => s.id === id)
    return setting === undefined ? id : settingText(setting)
  },
})
