import { caseBoard } from './case/board.ts'
import { caseFans } from './case/fans.ts'
import { caseFrontPanel } from './case/frontPanel.ts'
import { caseSupply } from './case/supply.ts'
import { caseSupplyAndCard } from './case/supplyAndCard.ts'
import { caseSupplyDepth } from './case/supplyDepth.ts'
import { coolingFanUp } from './cooling/fanUp.ts'
import { coolingHeight } from './cooling/height.ts'
import { coolingMeasured } from './cooling/measured.ts'
import { coolingMemoryRoom } from './cooling/memoryRoom.ts'
import { coolingMount } from './cooling/mount.ts'
import { coolingNoMaximum } from './cooling/noMaximum.ts'
import { coolingRadiator } from './cooling/radiator.ts'
import { coolingRadiatorFront } from './cooling/radiatorFront.ts'
import { coolingRating } from './cooling/rating.ts'
import { graphicsHeight } from './graphics/height.ts'
import { graphicsLargeBar } from './graphics/largeBar.ts'
import { graphicsLength } from './graphics/length.ts'
import { graphicsLink } from './graphics/link.ts'
import { graphicsNarrow } from './graphics/narrow.ts'
import { graphicsOutputs } from './graphics/outputs.ts'
import { graphicsSharing } from './graphics/sharing.ts'
import { graphicsThickness } from './graphics/thickness.ts'
import { memoryChannels } from './memory/channels.ts'
import { memoryFlex } from './memory/flex.ts'
import { memoryForm } from './memory/form.ts'
import { memoryGeneration } from './memory/generation.ts'
import { memoryMixing } from './memory/mixing.ts'
import { memoryPerSlot } from './memory/perSlot.ts'
import { memoryProfile } from './memory/profile.ts'
import { memoryRate } from './memory/rate.ts'
import { memorySlots } from './memory/slots.ts'
import { memorySystem } from './memory/system.ts'
import { memoryTotal } from './memory/total.ts'
import { officeBoardPlug } from './office/boardPlug.ts'
import { officeFirmwareList } from './office/firmwareList.ts'
import { officeMounting } from './office/mounting.ts'
import { officeSlotPower } from './office/slotPower.ts'
import { officeSupplyPlug } from './office/supplyPlug.ts'
import { powerCables } from './power/cables.ts'
import { powerLoad } from './power/load.ts'
import { powerNewSupply } from './power/newSupply.ts'
import { powerPeaks } from './power/peaks.ts'
import { powerPlug16 } from './power/plug16.ts'
import { powerPlugs } from './power/plugs.ts'
import { processorBoardPower } from './processor/boardPower.ts'
import { processorFirmware } from './processor/firmware.ts'
import { processorGeneration } from './processor/generation.ts'
import { processorPicture } from './processor/picture.ts'
import { processorPlug } from './processor/plug.ts'
import { processorSocket } from './processor/socket.ts'
import { processorUpdate } from './processor/update.ts'
import { storageBays } from './storage/bays.ts'
import { storageLink } from './storage/link.ts'
import { storageM2 } from './storage/m2.ts'
import { storagePorts } from './storage/ports.ts'
import { storagePower } from './storage/power.ts'
import { storageSharing } from './storage/sharing.ts'
import { swapEncryption } from './swap/encryption.ts'
import { swapLicence } from './swap/licence.ts'
import { systemDisk } from './system/disk.ts'
import { systemMemory } from './system/memory.ts'
import { systemProcessor } from './system/processor.ts'
import { systemSecureStart } from './system/secureStart.ts'
import { systemTrustModule } from './system/trustModule.ts'
import { workFirmware } from './work/firmware.ts'
import { workMemoryProfile } from './work/memoryProfile.ts'

/** Raise it whenever a rule's verdict or values change for some input: stored answers keep the version they used. */
export const RULES_VERSION = '3'

/** The one list of rules, in the order in which findings are shown: what decides first stands first. */
export const RULES = [
  processorSocket,
  processorGeneration,
  processorFirmware,
  processorUpdate,
  processorBoardPower,
  processorPlug,
  processorPicture,
  memoryGeneration,
  memoryForm,
  memorySlots,
  memoryTotal,
  memoryPerSlot,
  memoryMixing,
  memoryRate,
  memoryProfile,
  memoryChannels,
  memoryFlex,
  memorySystem,
  graphicsLink,
  graphicsNarrow,
  graphicsSharing,
  graphicsLargeBar,
  graphicsLength,
  graphicsThickness,
  graphicsHeight,
  graphicsOutputs,
  powerLoad,
  powerPlugs,
  powerPlug16,
  powerCables,
  powerPeaks,
  powerNewSupply,
  coolingMount,
  coolingHeight,
  coolingMemoryRoom,
  coolingFanUp,
  coolingRadiator,
  coolingRadiatorFront,
  coolingMeasured,
  coolingRating,
  coolingNoMaximum,
  storageM2,
  storageLink,
  storageSharing,
  storagePorts,
  storagePower,
  storageBays,
  caseBoard,
  caseSupply,
  caseSupplyDepth,
  caseSupplyAndCard,
  caseFans,
  caseFrontPanel,
  officeSupplyPlug,
  officeBoardPlug,
  officeMounting,
  officeSlotPower,
  officeFirmwareList,
  workMemoryProfile,
  workFirmware,
  swapLicence,
  swapEncryption,
  systemProcessor,
  systemTrustModule,
  systemSecureStart,
  systemMemory,
  systemDisk,
] as const

type AnyRule = (typeof RULES)[number]
type RuleOf<Id extends AnyRule['id']> = Extract<AnyRule, { readonly id: Id }>

/** The verdicts a rule can give itself; "can't tell" comes on top, from the engine. */
export type VerdictOf<Id extends AnyRule['id']> = RuleOf<Id>['verdicts'][number]
/** The values of a rule's finding. */
export type ValuesOf<Id extends AnyRule['id']> = NonNullable<RuleOf<Id>['shape']>['values']
/** The values a "can't tell" of that rule may have: single figures of parts. */
export type PartlyOf<Id extends AnyRule['id']> = NonNullable<RuleOf<Id>['shape']>['partly']
