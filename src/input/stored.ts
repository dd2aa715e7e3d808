import { z } from 'zod'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import { type Claim, LIMIT_SOURCES, type LimitKey, type LimitValues, SUPPORTS } from '../core/limits/limit.ts'
import { MEMORY_TYPES } from '../core/part.ts'
import { plugsSchema } from './parts.ts'

const above0 = z.number().positive()
const count = z.number().int().positive()
const word = z.string().min(1)

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
  memoryPerSlotMaxGB: above0,
  controllerRateMts: above0,
  boardRateMts: above0,
  memoryRunsMts: above0,
  slotPcieGen: count,
  slotLanes: count,
  processorPcieGen: count,
  processorPcieLanes: count,
  cardRoomMm: above0,
  coolerRoomMm: above0,
  supplyRatedW: above0,
  supply12VW: above0,
  supplyPlugs: plugsSchema,
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
export const claimSchema: z.ZodType<Claim> = z
  .object({ key: z.enum(LIMIT_KEYS) })
  .loose()
  .transform((claim, ctx): Claim => {
    const read = (claimOf(claim.key) as z.ZodType<Claim>).safeParse(claim)
    if (read.success) return read.data
    for (const { path, message } of read.error.issues) ctx.addIssue({ code: 'custom', path, message })
    return z.NEVER
  })
