import { z } from 'zod'
import { USAGES } from '../core/firmwareTable/codes.ts'
import { type FirmwareTable, MOST_OF_A_KIND } from '../core/firmwareTable/table.ts'
import { CAUTION_IDS } from '../core/fit/finding.ts'
import type { WidthEvidence } from '../core/gain/reliability/widthSteps.ts'
import { STEP_KINDS, type Step } from '../core/job/checklist.ts'
import type { Job } from '../core/job/job.ts'
import type { Promised } from '../core/job/promise.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import {
  type Claim,
  LICENCES,
  LIMIT_SOURCES,
  type LimitKey,
  type LimitValues,
  SUPPORTS,
  TRUST_MODULES,
  YES_NO,
} from '../core/limits/limit.ts'
import { DISPLAY_SEATS, MAIN_PLUGS, SHAPES } from '../core/limits/state.ts'
import {
  BRACKETS,
  MEMORY_TYPES,
  PART_KINDS,
  PROCESSOR_PLUGS,
  SUPPLY_DESIGNS,
  VIDEO_SOCKETS,
} from '../core/part.ts'
import { ASKS, CHANNELS, COMPLAINTS, type PartInMind, type Question, WISHES } from '../core/question.ts'
import { partSchema, plugsSchema } from './parts.ts'

const above0 = z.number().positive()
const count = z.number().int().positive()
const word = z.string().min(1)
const some = z.number().int().nonnegative()
/** In a room, and on a processor that is alive. */
const celsius = z.number().min(0).max(150)

/** What the value of each limit may be, for claims that arrive from outside. */
export const LIMIT_VALUE_SCHEMAS: { readonly [K in LimitKey]: z.ZodType<LimitValues[K]> } = {
  socket: word,
  chipset: word,
  family: word,
  generationSupport: z.enum(SUPPORTS),
  firmware: word,
  firmwareNeeded: word,
  processorPowerW: above0,
  memoryType: z.enum(MEMORY_TYPES),
  memorySlots: count,
  memoryMaxGB: above0,
  memoryListedMaxGB: above0,
  memoryPerSlotMaxGB: above0,
  controllerRateMts: above0,
  boardRateMts: above0,
  memoryOverclock: z.enum(YES_NO),
  memoryRunsMts: above0,
  slotPcieGen: count,
  slotLanes: count,
  slotLanesShared: count,
  sharedM2Used: z.enum(YES_NO),
  largeBar: z.enum(YES_NO),
  processorPcieGen: count,
  processorPcieLanes: count,
  cardRoomMm: above0,
  cardSlots: count,
  cardBracket: z.enum(BRACKETS),
  coolerRoomMm: above0,
  supplyRatedW: above0,
  supply12VW: above0,
  supplyPlugs: plugsSchema,
  processorPlug: z.enum(PROCESSOR_PLUGS),
  supplyDesignVersion: z.enum(SUPPLY_DESIGNS),
  supplyYear: z.number().int().min(1995).max(2100),
  pin16W: above0,
  cardCables: some,
  sataPlugs: some,
  sataPorts: some,
  bays25: some,
  bays35: some,
  cardRoomFreeMm: above0,
  supplyAndCardMm: above0,
  coolingLoad: z
    .strictObject({ loadC: celsius, roomC: celsius, powerW: above0 })
    .refine(({ loadC, roomC }) => loadC > roomC, 'a loaded processor is warmer than the room'),
  processorMaxC: celsius,
  systemLicence: z.enum(LICENCES),
  diskEncrypted: z.enum(YES_NO),
  trustModule: z.enum(TRUST_MODULES),
  secureStart: z.enum(YES_NO),
  displaySocket: z.enum(VIDEO_SOCKETS),
  systemBits: z.union([z.literal(32), z.literal(64)]),
  memoryProfileOn: z.enum(YES_NO),
  modulesInBothChannels: z.enum(YES_NO),
  displayPluggedInto: z.enum(DISPLAY_SEATS),
  coolingClean: z.enum(YES_NO),
  frontFanFitted: z.enum(YES_NO),
  driversClean: z.enum(YES_NO),
  systemFresh: z.enum(YES_NO),
  systemOnFastestDrive: z.enum(YES_NO),
  largeBarOn: z.enum(YES_NO),
  processorSetW: above0,
  cardSetW: above0,
  brandBoard: z.enum(YES_NO),
  brandCase: z.enum(YES_NO),
  boardSupplyPlug: z.enum(MAIN_PLUGS),
  supplyBoardPlug: z.enum(MAIN_PLUGS),
  boardShape: z.enum(SHAPES),
  caseBoardMounting: z.enum(SHAPES),
  caseSupplyMounting: z.enum(SHAPES),
  slotPowerW: above0,
  firmwareAllowList: z.enum(YES_NO),
  supplyRoomMm: above0,
}

const claimOf = <K extends LimitKey>(key: K) =>
  z.strictObject({
    key: z.literal(key),
    value: LIMIT_VALUE_SCHEMAS[key],
    source: z.enum(LIMIT_SOURCES),
    note: z.string().optional(),
    at: z.iso.datetime().optional(),
    pinned: z.boolean().optional(),
    doubt: z.string().optional(),
  })

/** A stored or typed claim, its value checked by its key. */
export const claimSchema = z.discriminatedUnion(
  'key',
  // A list of one entry a limit, which the compiler cannot count.
  LIMIT_KEYS.map(claimOf) as unknown as [ReturnType<typeof claimOf>],
) as unknown as z.ZodType<Claim>

/** A part an owner has in mind as it is kept: its words, the owner's price, figures that somebody gave. */
export const partInMindSchema: z.ZodType<PartInMind> = z.object({
  kind: z.enum(PART_KINDS),
  words: z.string().min(1),
  priceMinor: z.number().int().nonnegative().optional(),
  part: partSchema.optional(),
  model: z.enum(['exact', 'not known']).optional(),
})

const displaySchema = z.object({
  widthPx: above0.optional(),
  heightPx: above0.optional(),
  refreshHz: above0.optional(),
})

/** A question as it was before somebody changed it. */
export const questionSchema: z.ZodType<Question> = z.object({
  id: word,
  machineTag: word,
  words: z.string(),
  askedAt: z.iso.datetime(),
  wanted: z.array(z.object({ titleId: word, settingId: word, weight: above0 })),
  display: displaySchema,
  targetFps: above0,
  budgetMinor: z.number().int().nonnegative().optional(),
  wishes: z.array(z.enum(WISHES)),
  spaceGB: above0.optional(),
  asks: z.enum(ASKS).optional(),
  cameBy: z.enum(CHANNELS).optional(),
  complaint: z.enum(COMPLAINTS).optional(),
  partInMind: partInMindSchema.optional(),
  plannedDisplay: displaySchema.optional(),
})

/** A step of a job's checklist as it is kept. */
export const stepSchema: z.ZodType<Step> = z.object({
  what: z.enum(STEP_KINDS),
  ref: z.string(),
  cautions: z.array(z.enum(CAUTION_IDS)),
})

/** What a job promised, as it is kept: a row a title. */
export const promiseSchema: z.ZodType<Promised[]> = z.array(
  z.object({
    titleId: word,
    settingId: word,
    beforeFps: above0,
    afterFps: above0,
    afterFpsLow: above0,
    afterFpsHigh: above0,
    low1Fps: above0.optional(),
    widthFactor: above0.optional(),
  }),
)

const level = z.object({
  coverage: z.union([z.literal(50), z.literal(80), z.literal(90)]),
  ...{ kept: z.number().int().nonnegative(), share: z.number().min(0).max(1) },
  honest: z.object({ low: z.number(), high: z.number() }),
})

/** What spoke for another width of intervals, as it is kept. */
export const widthEvidenceSchema: z.ZodType<WidthEvidence> = z.object({
  ...{ promises: z.number().int().nonnegative(), jobs: z.number().int().nonnegative() },
  ...{ counts: z.number().nonnegative(), seen: above0, before: z.array(level), after: z.array(level) },
})

/** What was agreed for a visit before more was agreed for it, as it is kept. */
export const agreementSchema: z.ZodType<Pick<Job, 'answerId' | 'optionId' | 'promised' | 'agreedMinor'>> =
  z.object({
    answerId: word,
    optionId: z.string(),
    promised: promiseSchema,
    agreedMinor: z.number().int(),
  })

/** A text of a firmware table: one line of what can be printed. */
const printed = z
  .string()
  .regex(/^[ -~]{1,100}$/)
  .optional()
const figure = z
  .number()
  .positive()
  .max(2 ** 53)
  .optional()
const listOf = <T>(entry: z.ZodType<T>) => z.array(entry).max(MOST_OF_A_KIND)

/**
 * A firmware table as it is kept and as a page hands it on. Strict: a serial number has no field to be in.
 */
export const firmwareTableSchema: z.ZodType<FirmwareTable> = z.strictObject({
  version: printed,
  firmware: z.strictObject({ maker: printed, version: printed, date: printed }),
  system: z.strictObject({ maker: printed, product: printed }),
  board: z.strictObject({ maker: printed, product: printed, version: printed }),
  housing: printed,
  trustModule: z.enum(['2.0', '1.2']).optional(),
  processors: listOf(
    z.strictObject({
      ...{ place: printed, maker: printed, name: printed, fitted: z.boolean(), socket: printed },
      ...{ cores: figure, threads: figure },
    }),
  ),
  arrays: listOf(z.strictObject({ maxMiB: figure, places: figure })),
  modules: listOf(
    z.strictObject({
      ...{ place: printed, bank: printed, holds: z.enum(['module', 'nothing', 'not told']), sizeMiB: figure },
      ...{ type: printed, shape: printed, ratedMts: figure, runsMts: figure },
      ...{ maker: printed, partNumber: printed, ranks: figure },
    }),
  ),
  slots: listOf(
    z.strictObject({
      ...{ name: printed, type: printed, pcieGen: figure, lengthLanes: figure, lanes: figure },
      usage: z.enum(Object.values(USAGES)).optional(),
    }),
  ),
  missingTexts: z.number().int().nonnegative(),
})
