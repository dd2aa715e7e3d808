import { z } from 'zod'
import {
  BOARD_FORMS,
  BRACKETS,
  CASE_PLACES,
  DRIVE_FORMS,
  DRIVE_INTERFACES,
  FRONT_PLUGS,
  M2_KEYS,
  M2_SOCKET_KEYS,
  MEMORY_TYPES,
  MODULE_FORMS,
  type Part,
  PROCESSOR_PLUGS,
  SUPPLY_DESIGNS,
  SUPPLY_FORMS,
  VIDEO_SOCKETS,
} from '../core/part.ts'
import type { Problem } from '../problem.ts'

/** Parts as they arrive from outside: a database column, a JSON file. Unknown keys are refused: they are typos. */

const above0 = z.number().positive().optional()
const count = z.number().int().positive().optional()
const word = z.string().min(1).optional()
const named = {
  id: z.string().min(1),
  name: z.string().min(1),
  readFromName: z.array(z.string().min(1)).optional(),
}

/** A nominal figure says nothing without what was measured or quoted. */
export const nominalProblem = (part: Part): Problem | undefined => {
  if (part.kind !== 'processor' && part.kind !== 'card') return undefined
  const { nominalFigure: figure, nominalSource: source } = part
  if ((figure === undefined) === (source === undefined)) return undefined
  const next =
    'Give the nominal figure and where it comes from both, or neither: a bare number compares with nothing.'
  return { code: 'missing', field: figure === undefined ? 'nominalFigure' : 'nominalSource', next }
}

const nominal = { nominalFigure: above0, nominalSource: word }

export const plugsSchema = z.strictObject({
  pin6: z.number().int().nonnegative(),
  pin8: z.number().int().nonnegative(),
  pin16: z.number().int().nonnegative(),
})

const none = z.number().int().nonnegative().optional()
const frontPlugs = z.array(z.enum(FRONT_PLUGS)).optional()

export const m2SocketSchema = z.strictObject({
  name: z.string().min(1),
  key: z.enum(M2_SOCKET_KEYS),
  lengthsMm: z.array(z.number().positive()),
  pcieGen: count,
  lanes: count,
  sata: z.boolean(),
  sataPortsOff: z.array(z.string().min(1)).optional(),
  sharesSlot: z.literal(true).optional(),
})

const place = { place: z.enum(CASE_PLACES), sizeMm: z.number().positive() }

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
    ...nominal,
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
    m2Sockets: z.array(m2SocketSchema).optional(),
    sataPorts: none,
    frontHeaders: frontPlugs,
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
    heightMm: above0,
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
    ...nominal,
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
    designVersion: z.enum(SUPPLY_DESIGNS).optional(),
    pin16W: above0,
    cardCables: none,
    sataPlugs: none,
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
    supplyRoomMm: above0,
    supplyAndCardMm: above0,
    bays25: none,
    bays35: none,
    fanPlaces: z.array(z.strictObject({ ...place, count: z.number().int().positive() })).optional(),
    radiatorPlaces: z.array(z.strictObject(place)).optional(),
    frontPlugs,
  }),
  z.strictObject({
    kind: z.literal('cooler'),
    ...named,
    sockets: z.array(z.string().min(1)).optional(),
    kitSockets: z.array(z.string().min(1)).optional(),
    heightMm: above0,
    memoryRoomMm: above0,
    radiatorMm: above0,
    radiatorThicknessMm: above0,
    ratedW: above0,
  }),
  z.strictObject({
    kind: z.literal('drive'),
    ...named,
    form: z.enum(DRIVE_FORMS).optional(),
    capacityGB: above0,
    interface: z.enum(DRIVE_INTERFACES).optional(),
    m2Key: z.enum(M2_KEYS).optional(),
    lengthMm: above0,
    pcieGen: count,
    pcieLanes: count,
  }),
  z.strictObject({ kind: z.literal('fan'), ...named, sizeMm: above0, depthMm: above0 }),
]) satisfies z.ZodType<Part>
