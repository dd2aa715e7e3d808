import type { Build, Change } from '../build.ts'
import { partsOut } from '../build.ts'
import type { CautionId, Finding, WorkId } from '../fit/finding.ts'
import type { PartKind } from '../part.ts'
import type { Wanted } from '../question.ts'
import { opensMachine, workNamed } from '../work/catalogue.ts'

export const STEP_KINDS = [
  'opening',
  'work',
  'take out',
  'fit',
  'measure',
  'test what came out',
  'settle',
  'tell the owner',
] as const

/** One thing to do on the bench, with the cautions that belong beside it. */
export type Step = {
  readonly what: (typeof STEP_KINDS)[number]
  /** Work id, part id, or title and setting as `title@setting`; '' where there is nothing to name. */
  readonly ref: string
  readonly cautions: readonly CautionId[]
}

/** When a work is done: before the machine is opened, with hands inside, or once it runs again. */
type Phase = 'before' | 'inside, before parts' | 'inside, after parts' | 'after'

/**
 * Common practice of the bench: firmware comes with the old processor in, encryption is paused before firmware or
 * board change; drivers, profile, licence and copies need a machine that runs.
 */
const PHASES: { readonly [W in WorkId]: Phase } = {
  'pause encryption': 'before',
  'firmware update': 'before',
  'remove old modules': 'inside, before parts',
  'move front fan': 'inside, before parts',
  'fit bracket': 'inside, before parts',
  'mounting kit': 'inside, before parts',
  'move drive cables': 'inside, before parts',
  cleaning: 'inside, before parts',
  'move modules': 'inside, after parts',
  'move cooler fan': 'inside, after parts',
  'fan in front': 'inside, after parts',
  'display into card': 'after',
  'memory profile on': 'after',
  'drive cloned': 'after',
  reinstall: 'after',
  'system upgrade': 'after',
  'activate system': 'after',
  'new system licence': 'after',
  'driver clean-up': 'after',
}

/** What goes in first: the case around everything, the board before what sits on it (common practice). */
const FITTING_ORDER: readonly PartKind[] = [
  ...(['case', 'supply', 'board', 'processor', 'cooler', 'memory', 'drive', 'fan', 'card'] as const),
]

/** Cautions of every opened machine; those of the findings come on top. */
const OPENING: readonly CautionId[] = ['unplug', 'discharge', 'psu-closed', 'esd', 'defer']

const isWork = (id: string): id is WorkId => id in PHASES

/**
 * The work of a job as a checklist, in the order of the bench: what is prepared while the machine still runs, opening,
 * parts out, work inside, parts in, what needs a running machine, the promised titles measured again, what came out
 * tested, the price settled, the owner told. A work that nobody knows is done inside.
 *
 * @param build what is fitted today
 * @param findings of the change: their cautions stand beside the part they are about, the rest beside the opening
 * @param promised titles to measure again
 */
export function checklist(
  build: Build,
  change: Change,
  findings: readonly Finding[],
  promised: readonly Pick<Wanted, 'titleId' | 'settingId'>[],
): Step[] {
  const out = partsOut(build, change)
  const order = (kind: PartKind) => FITTING_ORDER.indexOf(kind)
  const parts = [...change.add].sort((a, b) => order(a.kind) - order(b.kind))
  const phase = (wanted: Phase): Step[] =>
    change.work
      .filter((id) => (isWork(id) ? PHASES[id] : 'inside, before parts') === wanted)
      .map((id) => step('work', id, workNamed(id)?.cautions ?? []))
  const of = (partId: string | undefined): CautionId[] =>
    unique(findings.filter((f) => f.partId === partId).flatMap((f) => f.cautions))
  const fitted = new Set(parts.map(({ id }) => id))
  const elsewhere = unique(
    findings.filter(({ partId }) => partId === undefined || !fitted.has(partId)).flatMap((f) => f.cautions),
  )
  const handsIn = parts.length > 0 || out.length > 0 || change.work.some(opensMachine)
  return [
    ...phase('before'),
    ...(handsIn ? [step('opening', '', unique([...OPENING, ...elsewhere]))] : []),
    ...out.map(({ id }) => step('take out', id)),
    ...phase('inside, before parts'),
    ...parts.map(({ id }) => step('fit', id, of(id))),
    ...phase('inside, after parts'),
    ...phase('after'),
    ...promised.map(({ titleId, settingId }) => step('measure', `${titleId}@${settingId}`)),
    ...out.map(({ id }) => step('test what came out', id)),
    step('settle', ''),
    step('tell the owner', ''),
  ]
}

const step = (what: Step['what'], ref: string, cautions: readonly CautionId[] = []): Step => ({
  ...{ what, ref, cautions },
})

const unique = <T>(list: readonly T[]): T[] => [...new Set(list)]
