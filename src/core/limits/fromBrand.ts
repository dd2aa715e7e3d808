import type { Build } from '../build.ts'
import { byPart, byPlatform } from './claim.ts'
import { CHANNELS } from './known.ts'
import type { Claim, Resolved } from './limit.ts'

/** What the standard gives the slot of a graphics card: 75 W (PCI Express CEM 1.1, x16 graphics). */
export const STANDARD_SLOT_W = 75

const CHECK = 'parts of brand-name machines may be of their own kind: look before anything is changed'

/**
 * Parts that are sold one by one follow the published standards. In a brand-name machine nobody knows until somebody
 * looked: the standard is then in doubt (common practice, repair handbooks: verify before the supply or the board of
 * an office machine is changed).
 */
export function fromBrand(
  { board, case: box, supply }: Build,
  brandBoard: Resolved<'brandBoard'>,
  brandCase: Resolved<'brandCase'>,
): Claim[] {
  const isBrand = (brand: Resolved<'brandBoard'> | Resolved<'brandCase'>) =>
    brand.known && brand.value === 'yes'
  const note = 'as parts are sold one by one'
  const ofBoard = { note, doubt: isBrand(brandBoard) ? CHECK : undefined }
  const ofCase = { note, doubt: isBrand(brandCase) ? CHECK : undefined }
  return [
    ...(board === undefined
      ? []
      : [
          ...byPlatform('boardSupplyPlug', 'ATX 24-pin', ofBoard),
          ...byPlatform('boardShape', 'standard', ofBoard),
          ...byPlatform('slotPowerW', STANDARD_SLOT_W, { ...ofBoard, note: 'PCI Express CEM, x16 graphics' }),
          ...byPlatform('firmwareAllowList', 'no', ofBoard),
        ]),
    ...(box === undefined
      ? []
      : [
          ...byPlatform('caseBoardMounting', 'standard', ofCase),
          ...byPlatform('caseSupplyMounting', 'standard', ofCase),
        ]),
    ...(supply === undefined ? [] : byPlatform('supplyBoardPlug', 'ATX 24-pin', ofCase)),
  ]
}

/** Modules in every slot are in both channels, wherever the channels' slots are. */
export function fullSlots({ board, memory }: Build): Claim[] {
  const modules = memory.reduce((sum, kit) => sum + (kit.modules ?? Number.NaN), 0)
  const isFull = modules >= CHANNELS && modules === board?.memorySlots
  return isFull ? byPart('modulesInBothChannels', 'yes', { note: 'every slot is in use' }) : []
}
