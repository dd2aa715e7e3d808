import { z } from '@hono/zod-openapi'
import { ok } from '../../../problem.ts'
import { named, told } from '../describe.ts'
import { endpoint, PAGE_DEFAULT, pageOf, paging, pieceOf } from '../endpoint.ts'
import { run, setting, title } from '../schemas/run.ts'

const filter = (description: string) => z.string().max(200).optional().openapi({ description })

const shop = named(
  'Shop',
  z.strictObject({
    name: z.string(),
    currency: told(z.string(), 'ISO 4217; every amount is in its minor units.'),
    locale: z.string(),
    timeZone: told(z.string(), 'IANA; a day is a day there.'),
  }),
)

export const runEndpoints = [
  endpoint({
    id: 'listRuns',
    ...{ method: 'get', path: '/runs', group: 'Runs', scope: 'read' },
    says: 'Measurements of the shop, the newest first.',
    query: z.strictObject({
      machine: filter('Only those on the machine with this tag.'),
      title: filter('Only those of the title with this key.'),
      setting: filter('Only those at the setting with this key.'),
      ...paging,
    }),
    answer: pageOf(run),
    run: async ({ uses }, { query: { machine, title: titleId, setting: settingId, ...piece } }) => {
      const { limit = PAGE_DEFAULT, offset = 0 } = piece
      const asked = { machineTag: machine, titleId, settingId, offset, most: limit }
      const { runs, found } = await uses.runs(asked)
      return ok({ items: runs, total: found, limit, offset })
    },
  }),
  endpoint({
    id: 'listTitles',
    ...{ method: 'get', path: '/titles', group: 'Runs', scope: 'read' },
    says: 'Titles that runs and questions name.',
    query: z.strictObject(paging),
    answer: pageOf(title),
    run: async ({ uses }, { query }) => ok(pieceOf((await uses.known()).titles, query)),
  }),
  endpoint({
    id: 'listSettings',
    ...{ method: 'get', path: '/settings', group: 'Runs', scope: 'read' },
    says: 'Picture settings; runs compare at one setting alone.',
    query: z.strictObject(paging),
    answer: pageOf(setting),
    run: async ({ uses }, { query }) => ok(pieceOf((await uses.known()).settings, query)),
  }),
  endpoint({
    id: 'getShop',
    ...{ method: 'get', path: '/shop', group: 'Runs', scope: 'read' },
    says: 'How amounts and days of this shop are to be read.',
    answer: shop,
    run: async ({ uses }) => {
      const { name, locale, timeZone, policy } = await uses.shop()
      return ok({ name, currency: policy.currency, locale, timeZone })
    },
  }),
]
