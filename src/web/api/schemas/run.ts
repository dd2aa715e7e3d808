import { z } from '@hono/zod-openapi'
import type { Fitted, Run, Setting, Title } from '../../../core/gain/run.ts'
import { MEMORY_TYPES } from '../../../core/part.ts'
import { instant, key, named } from '../describe.ts'

const fps = z.number().positive()

export const title: z.ZodType<Title> = named('Title', z.strictObject({ id: key, name: z.string() }))

export const setting: z.ZodType<Setting> = named(
  'Setting',
  z.strictObject({
    id: key,
    widthPx: z.int(),
    heightPx: z.int(),
    preset: z.string(),
    rayTracing: z.boolean(),
    upscaler: z.string().optional(),
    frameGeneration: z.boolean(),
    capFps: fps.optional(),
  }),
)

export const fitted: z.ZodType<Fitted> = named(
  'Fitted',
  z.strictObject({
    processorId: key,
    cardId: key,
    memory: z.strictObject({
      memoryType: z.enum(MEMORY_TYPES),
      rateMts: z.number(),
      channels: z.int(),
      totalGB: z.number(),
    }),
    link: z.strictObject({ gen: z.int(), lanes: z.int() }),
  }),
)

/** One measurement by the shop. */
export const run: z.ZodType<Run> = named(
  'Run',
  z.strictObject({
    id: key,
    at: instant,
    machineTag: key.optional(),
    fitted,
    titleId: key,
    titleVersion: z.string(),
    settingId: key,
    averageFps: fps,
    low1Fps: fps.optional(),
    note: z.string().optional(),
  }),
)
