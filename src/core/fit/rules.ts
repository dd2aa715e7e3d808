import { caseBoard } from './case/board.ts'
import { caseSupply } from './case/supply.ts'
import { coolingHeight } from './cooling/height.ts'
import { coolingMount } from './cooling/mount.ts'
import { graphicsLength } from './graphics/length.ts'
import { graphicsLink } from './graphics/link.ts'
import { memoryChannels } from './memory/channels.ts'
import { memoryForm } from './memory/form.ts'
import { memoryGeneration } from './memory/generation.ts'
import { memoryRate } from './memory/rate.ts'
import { memorySlots } from './memory/slots.ts'
import { memoryTotal } from './memory/total.ts'
import { powerLoad } from './power/load.ts'
import { powerPlugs } from './power/plugs.ts'
import { processorBoardPower } from './processor/boardPower.ts'
import { processorFirmware } from './processor/firmware.ts'
import { processorGeneration } from './processor/generation.ts'
import { processorPicture } from './processor/picture.ts'
import { processorSocket } from './processor/socket.ts'

/** Raise it whenever a rule's verdict or values change for some input: stored answers keep the version they used. */
export const RULES_VERSION = '1'

/** The one list of rules, in the order in which findings are shown: what decides first stands first. */
export const RULES = [
  processorSocket,
  processorGeneration,
  processorFirmware,
  processorBoardPower,
  processorPicture,
  memoryGeneration,
  memoryForm,
  memorySlots,
  memoryTotal,
  memoryRate,
  memoryChannels,
  graphicsLink,
  graphicsLength,
  powerLoad,
  powerPlugs,
  coolingMount,
  coolingHeight,
  caseBoard,
  caseSupply,
] as const

type AnyRule = (typeof RULES)[number]
type RuleOf<Id extends AnyRule['id']> = Extract<AnyRule, { readonly id: Id }>

/** The verdicts a rule can give itself; "can't tell" comes on top, from the engine. */
export type VerdictOf<Id extends AnyRule['id']> = RuleOf<Id>['verdicts'][number]
/** The values of a rule's finding. */
export type ValuesOf<Id extends AnyRule['id']> = NonNullable<RuleOf<Id>['shape']>['values']
/** The values a "can't tell" of that rule may have: single figures of parts. */
export type PartlyOf<Id extends AnyRule['id']> = NonNullable<RuleOf<Id>['shape']>['partly']
