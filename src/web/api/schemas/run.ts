import { z } from '@hono/zod-openapi'
import type { Fitted, Run, Setting, Title } from '../../../core/gain/run.ts'
import { MEMORY_TYPES } from '../../../core/part.ts'
import { instant, key, named, told } from '../describe.ts'

const fps = z.number().positive()

export const title: z.ZodType<Title> = named(
  'Title',
  z.strictObject({
    id: key,
    name: z.string(),
    versions: told(
      z.array(z.strictObject({ version: z.string(), at: instant })),
      'The oldest first; the last is the one people play now.',
    ).optional(),
    memoryGB: z.number().positive().optional(),
    graphicsMemoryGB: z.number().positive().optional(),
    capFps: told(fps, 'The engine itself goes no faster.').optional(),
  }),
)

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
    lowered: told(
      z.strictObject({ fromSettingId: key, what: z.string() }),
      'Set where this one is a step below another: which, and what is lower.',
    ).optional(),
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
    largeBar: told(z.boolean(), 'Resizable BAR; absent where nobody looked.').optional(),
    processorLimitW: told(z.number().positive(), 'Absent: as the part came.').optional(),
    cardLimitW: z.number().positive().optional(),
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
    low1Fps: told(fps, '1000 / 99th percentile of frame times in ms (type 7).').optional(),
    low1MeanFps: told(fps, '1000 / mean of the slowest 1 % of frame times in ms.').optional(),
    low01Fps: fps.optional(),
    low01MeanFps: fps.optional(),
    driverVersion: z.string().optional(),
    scene: z.string().optional(),
    roomC: z.number().optional(),
    processorLoadC: z.number().optional(),
    cardLoadC: z.number().optional(),
    noiseDba: z.number().optional(),
    logId: told(z.string(), 'The kept frame-time log.').optional(),
    note: z.string().optional(),
  }),
)
