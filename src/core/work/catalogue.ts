import { WORK_IDS, type WorkId } from '../fit/finding.ts'
import type { Claim, LimitKey } from '../limits/limit.ts'
import type { StateValues } from '../limits/state.ts'
import type { FactSource } from '../source.ts'
import type { WorkRow } from './row.ts'
import {
  displayState,
  firmwareState,
  onlyWhenAsked,
  profileState,
  seatState,
  unlessDone,
  where,
} from './states.ts'

const PRACTICE: FactSource = { kind: 'common practice', text: 'repair and bench practice' }

const saying = <K extends keyof StateValues>(key: K, value: StateValues[K], note: string): Claim =>
  ({ key, value, source: 'entered', note }) as Claim

/** A state and its work: undone before, done after. */
const turns = <K extends keyof StateValues>(key: K, from: StateValues[K], to: StateValues[K]) => ({
  leaves: [saying(key, to, 'as the work leaves it')],
  undone: saying(key, from, 'if it is not done yet'),
})

const PLAIN = { moves: 'nothing', newPartsLackIt: false, ends: [], leaves: [], source: PRACTICE } as const
const INSIDE = { handsIn: true, skill: 'careful hands' } as const
const OUTSIDE = { handsIn: false, skill: 'anyone' } as const

const ROWS: { readonly [Id in WorkId]: Omit<WorkRow, 'id'> } = {
  'memory profile on': {
    ...{ ...PLAIN, ...OUTSIDE, ...turns('memoryProfileOn', 'no', 'yes') },
    does: 'runs the memory by the profile of its maker, as fast as board and processor allow',
    cautions: ['backup'],
    moves: 'memory',
    newPartsLackIt: true,
    ends: ['memoryRunsMts'],
    stateOf: profileState,
    source: {
      kind: 'vendor',
      text: 'board manuals: memory starts at a standard rate; a profile above the processor page is overclocking',
    },
  },
  'move modules': {
    ...{ ...PLAIN, ...INSIDE, ...turns('modulesInBothChannels', 'no', 'yes') },
    does: 'moves the modules so that both channels to the memory are in use',
    cautions: ['esd'],
    moves: 'memory',
    stateOf: seatState,
    source: {
      kind: 'vendor',
      text: 'Intel datasheets vol. 1, system memory organisation; board manuals, slots',
    },
  },
  'display into card': {
    ...{ ...PLAIN, ...OUTSIDE, ...turns('displayPluggedInto', 'board', 'card') },
    does: 'moves the cable of the display from the board to the graphics card',
    cautions: [],
    stateOf: displayState,
  },
  'firmware update': {
    ...{ ...PLAIN, handsIn: false, skill: 'shop' },
    does: 'brings the firmware of the board to the version that the processor needs',
    cautions: ['backup', 'recovery-key', 'no-power-loss', 'one-way'],
    stateOf: firmwareState,
    source: {
      kind: 'vendor',
      text: "board maker's processor list: first firmware version for each processor",
    },
  },
  cleaning: {
    ...{ ...PLAIN, ...INSIDE, ...turns('coolingClean', 'no', 'yes') },
    does: 'clears cooler, fans and filters of dust and puts new paste on the processor',
    cautions: ['hot-parts', 'esd'],
    stateOf: unlessDone('coolingClean'),
  },
  'fan in front': {
    ...{ ...PLAIN, ...INSIDE, ...turns('frontFanFitted', 'no', 'yes') },
    does: 'moves a fan of the machine to the front, blowing in',
    cautions: ['hot-parts'],
    // A fan in front stands where a long card ends.
    ends: ['cardRoomMm'],
    stateOf: where((build) => build.fans.length > 0, unlessDone('frontFanFitted')),
  },
  'driver clean-up': {
    ...{ ...PLAIN, ...OUTSIDE, ...turns('driversClean', 'no', 'yes') },
    does: 'takes out drivers of earlier cards and installs the current one',
    cautions: ['backup'],
    stateOf: where((build) => build.card !== undefined, unlessDone('driversClean')),
  },
  reinstall: {
    ...{ ...PLAIN, handsIn: false, skill: 'shop', ...turns('systemFresh', 'no', 'yes') },
    does: 'sets the system up anew',
    cautions: ['backup', 'recovery-key'],
    stateOf: unlessDone('systemFresh'),
  },
  'drive cloned': {
    ...{ ...PLAIN, handsIn: false, skill: 'shop', ...turns('systemOnFastestDrive', 'no', 'yes') },
    does: 'copies system and games to the fastest drive of the machine',
    cautions: ['backup', 'recovery-key'],
    stateOf: where((build) => build.drives.length > 1, unlessDone('systemOnFastestDrive')),
  },
  'remove old modules': {
    ...{ ...PLAIN, ...INSIDE },
    does: 'takes the old modules out',
    cautions: ['esd'],
    stateOf: onlyWhenAsked,
  },
  'move front fan': {
    ...{ ...PLAIN, ...INSIDE },
    does: 'moves the fan in front out of the way of a card',
    cautions: ['hot-parts'],
    // The air takes another way: what the thermometer said before says too little. Cleaning only makes it cooler.
    ends: ['cardRoomMm', 'frontFanFitted', 'coolingLoad'],
    stateOf: onlyWhenAsked,
  },
  'mounting kit': {
    ...{ ...PLAIN, ...INSIDE },
    does: "fits the cooler maker's own kit for the socket",
    cautions: ['hot-parts'],
    stateOf: onlyWhenAsked,
  },
  'move cooler fan': {
    ...{ ...PLAIN, ...INSIDE },
    does: 'moves the fan of the cooler up, over the memory',
    cautions: ['hot-parts'],
    stateOf: onlyWhenAsked,
  },
  'move drive cables': {
    ...{ ...PLAIN, ...INSIDE },
    does: 'moves drives to ports that stay alive',
    cautions: ['esd', 'backup'],
    stateOf: onlyWhenAsked,
  },
  'pause encryption': {
    ...{ ...PLAIN, ...OUTSIDE },
    does: 'pauses the encryption of the drive and keeps its recovery key at hand',
    cautions: ['backup', 'recovery-key'],
    stateOf: onlyWhenAsked,
    source: {
      kind: 'vendor',
      text: 'system vendor, pausing drive encryption before firmware and board changes',
    },
  },
  'activate system': {
    ...{ ...PLAIN, handsIn: false, skill: 'shop' },
    does: 'activates the installed system on the new board',
    cautions: ['backup'],
    stateOf: onlyWhenAsked,
  },
  'new system licence': {
    ...{ ...PLAIN, handsIn: false, skill: 'shop' },
    does: 'brings a new licence, because the old one stays with its board',
    cautions: ['backup'],
    stateOf: onlyWhenAsked,
  },
  'system upgrade': {
    ...{ ...PLAIN, handsIn: false, skill: 'shop' },
    does: 'brings the system to its next version, with files and games kept',
    cautions: ['backup', 'recovery-key', 'no-power-loss'],
    stateOf: onlyWhenAsked,
  },
  'fit bracket': {
    ...{ ...PLAIN, ...INSIDE },
    does: 'fits a small supply or drive into a larger place with a bracket',
    cautions: ['psu-closed'],
    stateOf: onlyWhenAsked,
  },
}

/** Every work that can be part of a change, one row each. */
export const WORK_CATALOGUE: readonly WorkRow[] = WORK_IDS.map((id) => ({ id, ...ROWS[id] }))

const byId: ReadonlyMap<string, WorkRow> = new Map(WORK_CATALOGUE.map((row) => [row.id, row]))

/** The row of a work, or undefined for a name that the catalogue does not know. */
export const workNamed = (id: string): WorkRow | undefined => byId.get(id)

/** Whether hands go into the machine for it; a work that nobody knows is taken to be one inside. */
export const opensMachine = (id: string): boolean => workNamed(id)?.handsIn ?? true

type Effect = { readonly ends: ReadonlySet<LimitKey>; readonly leaves: readonly Claim[] }
const NO_EFFECT: Effect = { ends: new Set(), leaves: [] }

/** What the works of a change do to what is claimed about the machine. */
export function effectOf(work: readonly string[]): Effect {
  if (work.length === 0) return NO_EFFECT
  const rows = work.flatMap((id) => workNamed(id) ?? [])
  const leaves = rows.flatMap((row) => row.leaves)
  return { ends: new Set([...rows.flatMap((row) => row.ends), ...leaves.map(({ key }) => key)]), leaves }
}
