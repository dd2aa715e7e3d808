import { z } from 'zod'
import {
  BOARD_FORMS,
  BRACKETS,
  DRIVE_FORMS,
  MEMORY_TYPES,
  MODULE_FORMS,
  type Part,
  PROCESSOR_PLUGS,
  SUPPLY_FORMS,
  VIDEO_SOCKETS,
} from '../core/part.ts'

/** Parts as they arrive from outside: a database column, a JSON file. Unknown keys are refused: they are typos. */

const above0 = z.number().positive().optional()
const count = z.number().int().positive().optional()
const word = z.string().min(1).optional()
const named = {
  id: z.string().min(1),
  name: z.string().min(1),
  readFromName: z.array(z.string().min(1)).optional(),
}

export const plugsSchema = z.strictObject({
  pin6: z.number().int().nonnegative(),
  pin8: z.number().int().nonnegative(),
  pin16: z.number().int().nonnegative(),
})

export const partSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('processor'),
    ...named,
    socket: word,
    generation: word,
    processorClass: word,
    cores: count,
    limitPowerW: above0,
    integratedGraphics: z.boolean().optional(),
  }),
  z.strictObject({
    kind: z.literal('board'),
    ...named,
    socket: word,
    chipset: word,
    form: z.enum(BOARD_FORMS).optional(),
    memoryType: z.enum(MEMORY_TYPES).optional(),
    memorySlots: count,
    memoryMaxGB: above0,
    memoryPerSlotMaxGB: above0,
    memoryRateMtsMax: above0,
    slotPcieGen: count,
    slotLanes: count,
    slotLanesShared: count,
    largeBar: z.boolean().optional(),
    processorPowerW: above0,
    firmwareByGeneration: z.record(z.string().min(1), z.string().min(1)).optional(),
    lastFirmwareByGeneration: z.record(z.string().min(1), z.string().min(1)).optional(),
  }),
  z.strictObject({
    kind: z.literal('memory'),
    ...named,
    memoryType: z.enum(MEMORY_TYPES).optional(),
    form: z.enum(MODULE_FORMS).optional(),
    modules: count,
    moduleGB: above0,
    rateMts: above0,
    ranks: count,
  }),
  z.strictObject({
    kind: z.literal('card'),
    ...named,
    lengthMm: above0,
    thicknessMm: above0,
    memoryGB: above0,
    boardPowerW: above0,
    plugs: plugsSchema.optional(),
    pcieGen: count,
    pcieLanes: count,
    bracket: z.enum(BRACKETS).optional(),
    wantsLargeBar: z.boolean().optional(),
    videoSockets: z.array(z.enum(VIDEO_SOCKETS)).optional(),
  }),
  z.strictObject({
    kind: z.literal('supply'),
    ...named,
    form: z.enum(SUPPLY_FORMS).optional(),
    ratedW: above0,
    rail12VW: above0,
    plugs: plugsSchema.optional(),
    processorPlug: z.enum(PROCESSOR_PLUGS).optional(),
    lengthMm: above0,
  }),
  z.strictObject({
    kind: z.literal('case'),
    ...named,
    boardForms: z.array(z.enum(BOARD_FORMS)).optional(),
    supplyForms: z.array(z.enum(SUPPLY_FORMS)).optional(),
    cardRoomMm: above0,
    coolerRoomMm: above0,
    cardSlots: count,
    cardBracket: z.enum(BRACKETS).optional(),
  }),
  z.strictObject({
    kind: z.literal('cooler'),
    ...named,
    sockets: z.array(z.string().min(1)).optional(),
    heightMm: above0,
    ratedW: above0,
  }),
  z.strictObject({
    kind: z.literal('drive'),
    ...named,
    form: z.enum(DRIVE_FORMS).optional(),
    capacityGB: above0,
  }),
  z.strictObject({ kind: z.literal('fan'), ...named, sizeMm: above0 }),
]) satisfies z.ZodType<Part>
