import { z } from '@hono/zod-openapi'
import type { SpaceRow } from '../../../core/ranking/space.ts'
import { key, minor, named, told } from '../describe.ts'
import { finding, price, verdict } from './ranking.ts'

/** A drive of the shelf in this machine. */
export const spaceRow: z.ZodType<SpaceRow> = named(
  'SpaceRow',
  z.strictObject({
    ...{ shelfItemId: key, partId: key, verdict, findings: z.array(finding) },
    capacityGB: z.number().optional(),
    size: told(
      z.enum(['enough', 'too small', "can't tell"]),
      'Against the size that was asked for; absent where none was.',
    ).optional(),
    price: told(price, 'With fitting; absent where it does not fit.').optional(),
    minorPerGB: told(z.number(), 'Net price by capacity, in minor units; not rounded.').optional(),
    besidePick: told(
      z.strictObject({
        ...{ optionId: z.string(), verdict },
        findings: told(z.array(finding), 'What is worse together than each by itself.'),
        moreMinor: told(minor, 'What it adds on the same visit.'),
      }),
      'Put in with the option that is the most for the money.',
    ).optional(),
  }),
)
