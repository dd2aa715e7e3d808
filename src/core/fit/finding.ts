import type { LimitKey } from '../limits/limit.ts'
import type { PartKind, Plugs } from '../part.ts'
import type { FactSource } from '../source.ts'
import type { Verdict } from '../verdict.ts'

/** A value that a rule compared. Names end in their unit: `cardMm`, `runsMts`, `loadW`. */
export type Value = number | string | boolean | Plugs | readonly string[]
export type Values = Readonly<Record<string, Value>>

/**
 * What was missing for an answer: a limit of the machine, or a figure of a part's data sheet. Where the part itself
 * is not known to be in the machine, `spec`, `partId` and `partName` are all its kind, such as `processor`.
 */
export type Missing =
  | { readonly limit: LimitKey; readonly doubt?: string | undefined }
  | {
      readonly spec: string
      readonly partId: string
      readonly partName: string
      readonly doubt?: string | undefined
    }

/** Something that must be done or added before the change works. Work is priced by the shop, parts by the shelf. */
export type Need = { readonly work: WorkId } | { readonly part: PartKind }

/** Work that a change can hold or a rule can ask for: what each is, core/work; minutes and price, the shop's table. */
export const WORK_IDS = [
  'firmware update',
  'remove old modules',
  'move front fan',
  'fit bracket',
  'memory profile on',
  'move modules',
  'display into card',
  'cleaning',
  'fan in front',
  'driver clean-up',
  'reinstall',
  'drive cloned',
  'mounting kit',
  'move cooler fan',
  'move drive cables',
  'pause encryption',
  'activate system',
  'new system licence',
  'system upgrade',
] as const
export type WorkId = (typeof WORK_IDS)[number]

/** What one rule says about one change on one machine. Plain data: the sentences are in words/. */
export type Finding = {
  readonly rule: RuleId
  readonly verdict: Verdict
  /** The part the finding is about, for a heading; absent when it is about the whole machine. */
  readonly partId?: string | undefined
  readonly values: Values
  readonly missing: readonly Missing[]
  /** Limits that are not known and whose least value is enough; it stands among the values. */
  readonly atLeast?: readonly LimitKey[] | undefined
  readonly needs: readonly Need[]
  readonly cautions: readonly CautionId[]
  readonly source: FactSource
}

/** Rule ids are paths: `memory.rate` is core/fit/memory/rate.ts. */
export const RULE_IDS = [
  'processor.socket',
  'processor.generation',
  'processor.firmware',
  'processor.update',
  'processor.boardPower',
  'processor.plug',
  'processor.picture',
  'memory.generation',
  'memory.form',
  'memory.slots',
  'memory.total',
  'memory.perSlot',
  'memory.mixing',
  'memory.rate',
  'memory.profile',
  'memory.channels',
  'memory.flex',
  'memory.system',
  'graphics.link',
  'graphics.narrow',
  'graphics.sharing',
  'graphics.largeBar',
  'graphics.length',
  'graphics.thickness',
  'graphics.height',
  'graphics.outputs',
  'power.load',
  'power.plugs',
  'power.plug16',
  'power.cables',
  'power.peaks',
  'power.newSupply',
  'cooling.mount',
  'cooling.height',
  'cooling.memoryRoom',
  'cooling.fanUp',
  'cooling.radiator',
  'cooling.radiatorFront',
  'cooling.measured',
  'cooling.rating',
  'cooling.noMaximum',
  'storage.m2',
  'storage.link',
  'storage.sharing',
  'storage.ports',
  'storage.power',
  'storage.bays',
  'case.board',
  'case.supply',
  'case.supplyDepth',
  'case.supplyAndCard',
  'case.fans',
  'case.frontPanel',
  'office.supplyPlug',
  'office.boardPlug',
  'office.mounting',
  'office.slotPower',
  'office.firmwareList',
  'work.memoryProfile',
  'work.firmware',
  'swap.licence',
  'swap.encryption',
  'system.processor',
  'system.trustModule',
  'system.secureStart',
  'system.memory',
  'system.disk',
] as const
export type RuleId = (typeof RULE_IDS)[number]

/** Cautions for hands in a machine; their words are in words/cautions. */
export const CAUTION_IDS = [
  // What needs the machine running stands before the power goes off.
  'backup',
  'recovery-key',
  'unplug',
  'discharge',
  'psu-closed',
  'psu-cables',
  'esd',
  'one-cable',
  'seat-connector',
  'hot-parts',
  'no-power-loss',
  'one-way',
  'proprietary',
  'defer',
] as const
export type CautionId = (typeof CAUTION_IDS)[number]
