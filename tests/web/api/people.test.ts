import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { TABLE_NAMES } from '../../../src/input/shopFolder.ts'
import { API_PREFIX } from '../../../src/web/api/refusals.ts'
import { createApp } from '../../../src/web/app.ts'
import { tablesOf } from '../../demo/tables.ts'
import { type DemoApi, ORIGIN, openDemoApi } from './demoApi.ts'
import { faultsOf, OPERATIONS } from './described.ts'

/** What a key is told of people: names, addresses and phones of the invented customers, looked for in every answer. */
let api: DemoApi
let people: string[]
beforeAll(async () => {
  api = await openDemoApi({ demo: false })
  const table = (await tablesOf('demo-shop')).find(({ name }) => name === 'customers.csv')
  const text = Buffer.from(table?.bytes ?? []).toString('utf8')
  const [, ...rows] = text.trim().split(/\r?\n/)
  // The columns: customer, name, email, phone.
  people = rows.flatMap((row) => row.split(',').slice(1, 4)).filter((value) => value.length > 4)
  // The invented shop has no job on its way, and a list without a line hides nothing.
  const asked = await api.uses.questionView('Q-0301')
  const pick = asked.ok ? (asked.value.answer.ranking.ranked[0]?.id ?? '') : ''
  const agreed = await api.uses.agreeJob('Q-0301', pick, { fittedBy: 'shop' } as never)
  if (!agreed.ok) throw new Error('no job')
  const selling = await api.uses.startSale('M-0207')
  if (!selling.ok) throw new Error('no sale')
  const money = { priceMinor: 64_900, otherCostMinor: COST_MINOR, costs: new Map() }
  if (!(await api.uses.setSaleMoney('M-0207', money as never)).ok) throw new Error('no price')
})
afterAll(() => api.close())

/** No other amount of the shop has these digits. */
const COST_MINOR = 7_654_321

const KEYS = {
  blind: { name: 'blind', scopes: ['read', 'write'] },
  knows: { name: 'knows', scopes: ['read', 'write', 'people'] },
} as const

const asks = (key: keyof typeof KEYS) => {
  const app = createApp({ ...api.uses, tokenOf: async () => KEYS[key] }, { demo: false })
  return async (path: string, init: RequestInit = {}) => {
    const headers = { authorization: 'Bearer x', 'content-type': 'application/json' }
    const answer = await app.request(`${ORIGIN}${path}`, { headers, ...init })
    return { status: answer.status, text: await answer.text() }
  }
}

/** Every address that a key may read, each list whole. */
async function addresses(): Promise<{ readonly path: string; readonly id: string }[]> {
  const states = ['new', 'waiting for the owner', 'answered', 'called off'] as const
  const asked = (await api.uses.questionList({ states, most: 1000 })).lines
  const ids: Readonly<Record<string, readonly string[]>> = {
    machines: (await api.uses.machines({})).lines.map(({ tag }) => tag),
    questions: asked.map(({ id }) => id),
    parts: ['CRD-GIMLET4'],
    jobs: ['J-0001'],
  }
  return OPERATIONS.filter(({ method }) => method === 'get').flatMap(
    ({ path, operationId, parameters = [] }) => {
      const [, place = ''] = path.split('/')
      const query = parameters.some(({ name }) => name === 'limit') ? '?limit=200' : ''
      const filled = /\{/.test(path) ? (ids[place] ?? []).map((id) => path.replace(/\{\w+\}/, id)) : [path]
      return filled.map((one) => ({ path: `${API_PREFIX}${one}${query}`, id: operationId }))
    },
  )
}

/** Who is named in a text. */
const namedIn = (text: string) => people.filter((value) => text.includes(value))

describe('names and addresses of owners', () => {
  test('are told to a key with people, and in no answer to one without', async () => {
    expect(people.length).toBeGreaterThan(20)
    const [blind, knows] = [asks('blind'), asks('knows')]
    const tells = new Set<string>()
    for (const { path, id } of await addresses()) {
      const [hidden, told] = [await blind(path), await knows(path)]
      expect(hidden.status, path).toBe(told.status)
      expect(namedIn(hidden.text), path).toEqual([])
      if (namedIn(told.text).length > 0) tells.add(id)
      const operation = OPERATIONS.find(({ operationId }) => operationId === id)
      if (operation) expect(faultsOf(operation, hidden.status, JSON.parse(hidden.text)), path).toEqual([])
    }
    expect([...tells].sort()).toEqual(
      expect.arrayContaining(['getMachine', 'listJobs', 'listMachines', 'listQuestions', 'listSales']),
    )
  })

  test('sales have their price, and no key is told what a machine cost', async () => {
    const { text } = await asks('knows')(`${API_PREFIX}/sales?q=m-0207&standing=on%20its%20way`)
    expect(JSON.parse(text)).toMatchObject({
      total: 1,
      items: [{ machineTag: 'M-0207', priceMinor: 64_900 }],
    })
    for (const { path } of await addresses())
      expect((await asks('knows')(path)).text, path).not.toMatch(/7654321|76,?543\.21/)
    for (const key of ['blind', 'knows'] as const)
      expect((await asks(key)('/export/sales.csv')).status, key).toBe(403)
    const whole = await api.uses.exportTable('sales')
    expect(whole.ok && whole.value.text).toContain('76543.21')
  })

  test('cannot be asked for by a key without: not by searching, not by naming an owner', async () => {
    const owned = (await api.uses.machines({})).lines.find(({ ownerName }) => ownerName !== undefined)
    const name = owned?.ownerName ?? ''
    const total = ({ text }: { text: string }): number => JSON.parse(text).total
    const search = `${API_PREFIX}/machines?q=${encodeURIComponent(name)}`
    expect(total(await asks('knows')(search))).toBeGreaterThan(0)
    expect(total(await asks('blind')(search))).toBe(0)
    expect(total(await asks('blind')(`${API_PREFIX}/machines?q=${owned?.tag.toLowerCase()}`))).toBe(1)
    const wanted = [{ titleId: 'saffron', settingId: '1080-high' }]
    const ask = (machine: string) => ({
      method: 'POST',
      body: JSON.stringify({ machine, words: 'what can go in?', wanted }),
    })
    const named = await asks('blind')(`${API_PREFIX}/questions`, ask(name))
    const nobody = await asks('blind')(`${API_PREFIX}/questions`, ask('Nobody There'))
    expect(named.status).toBe(404)
    expect(named.text.replace(name, '')).toBe(nobody.text.replace('Nobody There', ''))
    expect((await asks('blind')(`${API_PREFIX}/questions`, ask(owned?.tag ?? ''))).status).toBe(201)
  })

  test('in tables: customers and consents take people, and no other table has any', async () => {
    for (const table of TABLE_NAMES.filter((name) => !['customers', 'consents'].includes(name))) {
      const { status, text } = await asks('blind')(`/export/${table}.csv`)
      expect(status, table).toBe(200)
      expect(namedIn(text), table).toEqual([])
    }
    for (const name of ['customers', 'consents'])
      expect((await asks('blind')(`/export/${name}.csv`)).status).toBe(403)
    expect(namedIn((await asks('knows')('/export/customers.csv')).text).length).toBe(people.length)
  })
})
