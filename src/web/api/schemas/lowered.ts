import { z } from '@hono/zod-openapi'
import type { Lowered } from '../../../core/ranking/lowered.ts'
import { key, named, told } from '../describe.ts'
import { end } from './ranking.ts'

/** A wanted title at a setting some steps below the wanted one. */
export const lowered: z.ZodType<Lowered> = named(
  'Lowered',
  z.strictObject({
    titleId: key,
    settingId: told(key, 'The setting the owner wants.'),
    loweredId: told(key, 'The lower one.'),
    what: told(z.array(z.string()), 'What is lower, the first step first.'),
    before: end,
    after: end,
    logGain: z.number(),
    sd: z.number(),
    afterFpsLow: z.number(),
    afterFpsHigh: z.number(),
    isAtLeast: told(z.boolean(), 'It runs at its cap there, so it may be more.'),
    reachesTarget: told(z.boolean(), 'It averages the wanted rate there and does not today.'),
  }),
)
