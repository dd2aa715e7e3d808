import { describe, expect, test } from 'vitest'
import { STANDINGS } from '../../../src/core/round/states.ts'
import { createApp } from '../../../src/web/app.ts'
import { cannedUses } from '../cannedUses.ts'
import { ORIGIN } from './demoApi.ts'
import { faultsOf, operationNamed } from './described.ts'

const KEYS = {
  knows: { name: 'desk', scopes: ['read', 'write', 'people'] },
  blind: { name: 'desk', scopes: ['read', 'write'] },
  reads: { name: 'desk', scopes: ['read'] },
} as const

/** The canned shop with rounds in every state, behind its API, asked with a key. */
function asking(key: keyof typeof KEYS) {
  const { uses, calls } = cannedUses()
  const app = createApp({ ...uses, tokenOf: async () => KEYS[key] }, { demo: false })
  const ask = async (path: string, body?: unknown) => {
    const answer = await app.request(`${ORIGIN}/api/v1${path}`, {
      method: body === undefined ? 'GET' : 'POST',
      headers: { authorization: 'Bearer x', 'content-type': 'application/json' },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    })
    return { status: answer.status, json: (await answer.json()) as Record<string, unknown> }
  }
  return { ask, calls }
}

type Numbers = { readonly what: string; readonly seatIds: readonly string[] }[]

describe('rounds', () => {
  test('are listed with how many stand where, each one once, and by state', async () => {
    const { ask } = asking('knows')
    const { json } = await ask('/rounds?limit=200')
    expect(faultsOf(operationNamed('listRounds'), 200, json)).toEqual([])
    const items = json.items as { id: string; state: string; standings: { standing: string }[] }[]
    expect(items.length).toBeGreaterThan(5)
    for (const { standings } of items) expect(standings.map(({ standing }) => standing)).toEqual(STANDINGS)
    const drafts = (await ask('/rounds?state=draft')).json.items as { state: string }[]
    expect(drafts.length).toBe(items.filter(({ state }) => state === 'draft').length)
    expect((await ask('/rounds?state=lost')).status).toBe(422)
  })

  test('each is told as described; its numbers lead to its customers, and its money adds up', async () => {
    const { ask } = asking('knows')
    for (let n = 1; n <= 11; n += 1) {
      const { status, json } = await ask(`/rounds/O-00${String(n).padStart(2, '0')}`)
      expect(status).toBe(200)
      expect(faultsOf(operationNamed('getRound'), 200, json), `round ${n}`).toEqual([])
    }
    const { json } = await ask('/rounds/O-0001')
    const { numbers, toComeMinor } = json.result as { numbers: Numbers; toComeMinor: number }
    const seats = json.seats as { id: string; standing: string; dueMinor: number }[]
    const ids = (what: string) => numbers.find((one) => one.what === what)?.seatIds ?? []
    const held = seats.filter(({ standing }) => standing === 'held')
    expect(ids('reserved')).toEqual(held.map(({ id }) => id))
    expect(toComeMinor).toBe(held.reduce((sum, { dueMinor }) => sum + dueMinor, 0))
    expect(ids('asked').length).toBe(seats.filter(({ standing }) => standing !== 'left out').length)
    // What pieces cost is told to no key, nor what lets it be worked out.
    expect(JSON.stringify(json)).not.toMatch(/cost|margin/i)
    expect((await ask('/rounds/O-9999')).status).toBe(404)
  })

  test('name their customers to a key that may know people, and to no other', async () => {
    const named = async (key: keyof typeof KEYS) =>
      JSON.stringify((await asking(key).ask('/rounds/O-0001')).json)
    expect(await named('knows')).toContain('Isolde Kray')
    const blind = await named('blind')
    expect(blind).not.toMatch(/Isolde|Kray|isolde@|customerName/)
    expect(blind).toContain('"customerId":"CU-1"')
  })
})

describe('what a program may do to a round', () => {
  test.each(['pause', 'resume', 'stop'] as const)('%s, in the name of its key', async (step) => {
    const { ask, calls } = asking('knows')
    const done = await ask('/rounds/O-0001/steps', { step })
    expect(done.status).toBe(200)
    expect(faultsOf(operationNamed('stepRound'), 200, done.json)).toEqual([])
    expect(calls).toContainEqual([`${step}Round`, 'O-0001', 'key desk'])
  })

  test('write down a yes, with a day, or a no', async () => {
    const { ask, calls } = asking('knows')
    const day = '2026-12-03T16:00:00.000Z'
    const said = '/rounds/O-0001/seats/5/said'
    expect((await ask(said, { says: 'yes', bookedFor: day })).status).toBe(200)
    expect((await ask(said, { says: 'yes' })).status).toBe(200)
    expect((await ask(said, { says: 'no', bookedFor: day })).status).toBe(200)
    expect(calls.filter(([name]) => name === 'sayFor')).toEqual([
      ['sayFor', 'O-0001', '5', 'yes', day, 'key desk'],
      ['sayFor', 'O-0001', '5', 'yes', undefined, 'key desk'],
      ['sayFor', 'O-0001', '5', 'no', undefined, 'key desk'],
    ])
  })

  test('is refused where it is no such thing, or its key may only read; nothing is sent off by a program', async () => {
    const { ask, calls } = asking('knows')
    for (const body of [{ step: 'begin' }, { step: 'call off' }, {}, { step: 'pause', more: 1 }])
      expect((await ask('/rounds/O-0001/steps', body)).status).toBe(422)
    for (const body of [{ says: 'maybe' }, { says: 'yes', bookedFor: 'soon' }, {}])
      expect((await ask('/rounds/O-0001/seats/5/said', body)).status).toBe(422)
    const reads = asking('reads')
    expect((await reads.ask('/rounds/O-0001/steps', { step: 'stop' })).status).toBe(403)
    expect((await reads.ask('/rounds/O-0001/seats/5/said', { says: 'no' })).status).toBe(403)
    expect((await reads.ask('/rounds/O-0001')).status).toBe(200)
    expect([...calls, ...reads.calls]).toEqual([])
  })
})
