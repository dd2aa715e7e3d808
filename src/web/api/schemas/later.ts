import { z } from '@hono/zod-openapi'
import { RULE_IDS } from '../../../core/fit/finding.ts'
import { AIMS } from '../../../core/ranking/buyBelow.ts'
import type { Later } from '../../../core/ranking/later.ts'
import { CONDITIONS } from '../../../core/shop.ts'
import { instant, key, minor, named, told } from '../describe.ts'
import { option } from './ranking.ts'

const seen = z.strictObject({ findableId: key, lowMinor: minor, highMinor: minor, at: instant })
const price = z.strictObject({ itemId: key, priceMinor: minor, at: instant })

const findable = z.strictObject({
  ...{ id: key, partId: key, condition: z.enum(CONDITIONS), lowMinor: minor, highMinor: minor, at: instant },
  ...{ warrantyMonths: z.number().optional(), place: z.string().optional(), note: z.string().optional() },
})

/** What can be done instead of buying today. */
export const later: z.ZodType<Later> = named(
  'Later',
  z.strictObject({
    wait: z
      .strictObject({
        wins: told(z.boolean(), 'Nothing on the shelf is recommended, and one of these would be.'),
        for: z.array(
          z.strictObject({
            ...{ findable, partId: key, aim: z.enum(AIMS), option },
            priceMinor: told(minor, 'Its buy-below price; absent: at any price.').optional(),
            needs: z.enum(['a find', 'a lower price']),
            isOld: z.boolean(),
            fellFrom: told(seen, 'The range before, where that was more.').optional(),
          }),
        ),
        fallen: told(
          z.array(z.strictObject({ itemId: key, partId: key, from: price, to: price })),
          'Items of the recommended option whose price went down the last time.',
        ),
      })
      .optional(),
    save: z
      .strictObject({
        state: z.enum(['wins', 'loses', "can't tell"]),
        platform: told(option, 'An exchange of the board above the budget.').optional(),
        missingMinor: minor.optional(),
        runIds: told(z.array(key), 'Runs behind the number of the platform.'),
        upgrade: told(option, 'The largest gain on the board of today for no more money.').optional(),
        stops: z.array(z.strictObject({ partId: key, rule: z.enum(RULE_IDS) })),
      })
      .optional(),
  }),
)
