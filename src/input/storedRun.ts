import { z } from 'zod'
import type { Run } from '../core/gain/run.ts'
import { MEMORY_TYPES } from '../core/part.ts'

const text = z.string().optional()
const figure = z.number().optional()

/** A run as it stood before somebody corrected it. */
export const runSchema: z.ZodType<Run> = z.object({
  ...{ id: z.string(), at: z.string(), machineTag: text, titleId: z.string(), titleVersion: z.string() },
  ...{ settingId: z.string(), averageFps: z.number(), low1Fps: figure, low1MeanFps: figure },
  ...{ low01Fps: figure, low01MeanFps: figure, driverVersion: text, scene: text, roomC: figure },
  ...{ processorLoadC: figure, cardLoadC: figure, noiseDba: figure, logId: text, note: text },
  fitted: z.object({
    ...{ processorId: z.string(), cardId: z.string(), largeBar: z.boolean().optional() },
    ...{ processorLimitW: figure, cardLimitW: figure },
    memory: z.object({
      ...{ memoryType: z.enum(MEMORY_TYPES), rateMts: z.number(), channels: z.number(), totalGB: z.number() },
    }),
    link: z.object({ gen: z.number(), lanes: z.number() }),
  }),
})
