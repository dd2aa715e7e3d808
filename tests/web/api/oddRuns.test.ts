import { describe, expect, test } from 'vitest'
import type { WebUses } from '../../../src/web/webUses.ts'
import { runs } from '../cannedShop.ts'
import { appOf, ORIGIN } from '../serve.ts'
import { asDemo } from '../signedIn.ts'
import { faultsOf, operationNamed } from './described.ts'

/* What the demo shop answers is held against its description in answers.test.ts; here is what it seldom says. */
const DEMO = asDemo.everybodyIs
async function ask(uses: Partial<WebUses>, query = '') {
  const app = appOf({ name: 'odd', path: '', uses, as: DEMO, demo: true })
  const answer = await app.request(`${ORIGIN}/api/v1/runs/odd${query}`, {
    headers: { 'sec-fetch-site': 'same-origin' },
  })
  const json: unknown = await answer.json()
  expect(faultsOf(operationNamed('listOddRuns'), answer.status, json)).toEqual([])
  return { status: answer.status, json: json as { items: { says: string[] }[]; problems?: unknown[] } }
}
const [first, second] = runs.map(({ id }) => id)
const odd = (runId: string) => ({
  ...{ runId, expectedFps: 78.2, lowFps: 74.6, highFps: 82, fine: 0.2, agreeIds: [] },
  guesses: [{ kind: 'again', runId: second ?? '' } as const],
})
const told = (...list: ReturnType<typeof odd>[]): Partial<WebUses> => ({
  oddRuns: async () => ({ state: 'told', told: { odd: list, reversals: [] } }),
})

describe('runs that do not fit, for programs', () => {
  test('none: an empty list, not a refusal', async () => {
    expect(await ask(told())).toMatchObject({ status: 200, json: { items: [], total: 0, reversals: [] } })
  })

  test('each with its figure and what is said of it; two that disagree name each other', async () => {
    const { json } = await ask(told(odd(first ?? '')))
    expect(json.items).toMatchObject([{ runId: first, averageFps: 47.2, expectedFps: 78.2 }])
    const says = (json.items[0]?.says ?? []).map((one) => one.replaceAll('\u00a0', ' '))
    expect(says[0]).toBe(
      'It says 47.2 FPS, and the other run of the same parts, title and setting says 88.4 FPS.',
    )
  })

  test('who looked is nobody’s business; that somebody did is told', async () => {
    const look = { at: '2026-06-11T12:00:00.000Z', by: 'mara' }
    const { json } = await ask({
      oddRuns: async () => ({ state: 'told', told: { odd: [{ ...odd(first ?? ''), look }], reversals: [] } }),
    })
    expect(json.items).toMatchObject([{ lookedAt: look.at }])
    expect(JSON.stringify(json)).not.toContain('mara')
  })

  test('a piece of the list, and a run that was taken out meanwhile is left out', async () => {
    const { json } = await ask(told(odd(first ?? ''), odd('R-gone'), odd(second ?? '')), '?limit=1&offset=1')
    expect(json).toMatchObject({ total: 2, limit: 1, offset: 1, items: [{ runId: second }] })
  })

  test.each([
    ['under way', { state: 'under way', progress: { runs: 900, sinceMs: 10 } } as const],
    ['failed', { state: 'failed' } as const],
  ])('%s: not known is told as not known, never as an empty list', async (_, state) => {
    const refused = await ask({ oddRuns: async () => state })
    expect(refused.status).toBe(503)
    expect(refused.json.problems).toMatchObject([{ code: 'busy', field: 'gain' }])
  })
})
