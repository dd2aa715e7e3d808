import { z } from '@hono/zod-openapi'
import type { Sound } from '../../../core/ranking/quiet.ts'
import { instant, key, named, told } from '../describe.ts'

/** Levels in dB(A) of whole machines at one metre, under load. */
export const sound: z.ZodType<Sound> = named(
  'Sound',
  z.strictObject({
    quietDba: told(z.number(), 'What the shop calls quiet; absent where it set nothing.').optional(),
    own: told(
      z.strictObject({ runId: key, at: instant, dba: z.number() }),
      'The last level of the machine as it is; absent where nobody measured it.',
    ).optional(),
    parts: told(
      z.array(
        z.strictObject({
          partId: key,
          lowestDba: z.number(),
          highestDba: z.number(),
          runIds: z.array(key),
        }),
      ),
      'Of machines with that part. A part that is not here was not measured, which does not make it quiet.',
    ),
  }),
)
