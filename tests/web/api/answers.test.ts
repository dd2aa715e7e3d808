import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { RIGHTS } from '../../../src/web/access/rights.ts'
import { ENDPOINTS } from '../../../src/web/api/endpoints.ts'
import { exampleOf } from '../../../src/web/api/examples.ts'
import { API_PREFIX } from '../../../src/web/api/refusals.ts'
import { type DemoApi, ORIGIN, openDemoApi } from './demoApi.ts'
import { DOCUMENT, faultsOf, OPERATIONS, operationNamed, SHAPES } from './described.ts'
import { EXAMPLE_ASKS } from './exampleAsks.ts'

let api: DemoApi
beforeAll(async () => {
  api = await openDemoApi()
})
afterAll(() => api.close())

const text = (value: unknown): string => JSON.stringify(value)

describe('the description', () => {
  test('is OpenAPI 3.1 and served as it is drawn', async () => {
    const served = await api.ask('get', '/openapi.json')
    expect(served.status).toBe(200)
    expect(served.json).toEqual(JSON.parse(text(DOCUMENT)))
    expect(DOCUMENT.openapi).toBe('3.1.0')
  })

  test('has every endpoint once, with a scope that the table of rights gives it', () => {
    expect(OPERATIONS.map((o) => o.operationId).sort()).toEqual(ENDPOINTS.map((e) => e.id).sort())
    for (const { method, path, security } of OPERATIONS) {
      const pattern = `${API_PREFIX}${path.replaceAll(/\{(\w+)\}/g, ':$1')}`
      const row = RIGHTS.find((r) => r.method === method.toUpperCase() && r.path === pattern)
      expect(row?.scope, `${method} ${pattern}`).toBe(security[0]?.key[0])
      expect(row?.may).toBe('staff')
    }
  })

  // OpenAPI 3.1.0, 4.8.12: path parameters are required; every name in the path has one.
  test('names every part of a path, needed and of one type', () => {
    for (const { path, parameters = [] } of OPERATIONS) {
      const named = [...path.matchAll(/\{(\w+)\}/g)].map((m) => m[1])
      const inPath = parameters.filter((p) => p.in === 'path')
      expect(inPath.map((p) => p.name)).toEqual(named)
      for (const p of inPath) expect(p).toMatchObject({ required: true, schema: { type: 'string' } })
      for (const p of parameters.filter((q) => q.in === 'query')) expect(p.required ?? false).toBe(false)
    }
  })

  test('refers to nothing that is not there', () => {
    const refs = [...text(DOCUMENT).matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map((m) => m[1] ?? '')
    expect(refs.length).toBeGreaterThan(30)
    expect(refs.filter((name) => SHAPES[name] === undefined)).toEqual([])
  })
})

describe('what the demo shop answers is as described', () => {
  test.each(Object.entries(EXAMPLE_ASKS))('%s', async (id, { ask, body }) => {
    const operation = operationNamed(id)
    const answer = await api.ask(operation.method, ask, body)
    expect(answer.status, answer.text).toBe(operation.responses['201'] === undefined ? 200 : 201)
    expect(faultsOf(operation, answer.status, answer.json)).toEqual([])
  })

  test('for every machine, part, question and for lists whole', async () => {
    const all = async (path: string) => {
      const answer = await api.ask('get', `${path}?limit=200`)
      return (answer.json as { items: Record<string, string>[] }).items
    }
    const check = async (id: string, path: string) => {
      const answer = await api.ask('get', path)
      expect(answer.status, path).toBe(200)
      expect(faultsOf(operationNamed(id), 200, answer.json), path).toEqual([])
    }
    for (const { tag } of await all('/machines')) await check('getMachine', `/machines/${tag}`)
    api.wait(60)
    for (const { id } of await all('/parts')) await check('getPart', `/parts/${id}`)
    for (const { id } of await all('/questions')) {
      await check('getQuestion', `/questions/${id}`)
      await check('answerQuestion', `/questions/${id}/answer`)
      await check('rankQuestion', `/questions/${id}/ranking`)
    }
    for (const [id, path] of [
      ['listRules', '/rules'],
      ['listRuns', '/runs'],
      ['listShelf', '/shelf'],
      ['listParts', '/parts'],
    ] as const)
      await check(id, `${path}?limit=200`)
  })

  test('a job, its checklist and a run on the bench', async () => {
    const ranked = await api.uses.questionView('Q-0301')
    if (!ranked.ok) throw new Error('no question')
    const pick = ranked.value.answer.ranking.bestPerMoneyId ?? ranked.value.answer.ranking.ranked[0]?.id ?? ''
    const agreed = await api.uses.agreeJob('Q-0301', pick, { fittedBy: 'shop' } as never)
    expect(agreed).toMatchObject({ ok: true })
    const list = await api.ask('get', '/jobs')
    expect(faultsOf(operationNamed('listJobs'), 200, list.json)).toEqual([])
    const [line] = (list.json as { items: { id: string; machineTag: string }[] }).items
    const job = await api.ask('get', `/jobs/${line?.id}`)
    expect(job.status).toBe(200)
    expect(faultsOf(operationNamed('getJob'), 200, job.json)).toEqual([])
    const { promised } = job.json as { promised: { titleId: string; settingId: string }[] }
    const run = {
      ...{ titleId: promised[0]?.titleId, settingId: promised[0]?.settingId },
      titleVersion: '1.3.2',
      averageFps: 70,
    }
    const early = await api.ask('post', `/jobs/${line?.id}/runs`, run)
    expect(early).toMatchObject({ status: 409, json: { problems: [{ code: 'conflict', field: 'job' }] } })
    expect(await api.uses.startJob(line?.id ?? '')).toMatchObject({ ok: true })
    const noted = await api.ask('post', `/jobs/${line?.id}/runs`, run)
    expect(noted.status, noted.text).toBe(201)
    expect(faultsOf(operationNamed('recordRun'), 201, noted.json)).toEqual([])
  })

  test('the check sees a field that is not described, one that is missing and one of another type', () => {
    const operation = operationNamed('getShop')
    const shop = { name: 'a', currency: 'USD', locale: 'en', timeZone: 'UTC' }
    expect(faultsOf(operation, 200, shop)).toEqual([])
    expect(faultsOf(operation, 200, { ...shop, more: 1 })).toHaveLength(1)
    expect(faultsOf(operation, 200, { ...shop, name: undefined })).toHaveLength(1)
    expect(faultsOf(operation, 200, { ...shop, name: 1 })).toHaveLength(1)
    expect(faultsOf(operation, 404, { problems: [] })).toHaveLength(1)
  })
})

test('examples are as described, one for each endpoint that has an ask', () => {
  for (const [id, { ask }] of Object.entries(EXAMPLE_ASKS)) {
    const operation = operationNamed(id)
    const example = exampleOf(id)
    expect(example?.ask, id).toBe(ask)
    expect(
      faultsOf(operation, operation.responses['201'] === undefined ? 200 : 201, example?.answer),
      id,
    ).toEqual([])
  }
})

describe('what is written is what pages and the import would take', () => {
  test('a figure out of bounds is refused with what is allowed, all at once', async () => {
    const part = { kind: 'card', id: 'CRD-GIMLET4', name: ' spaced ', lengthMm: 20_000, pcieGen: 12 }
    expect((await api.ask('put', '/parts/CRD-GIMLET4', part)).json).toEqual({
      problems: [
        expect.objectContaining({ field: 'name', next: 'Take the space before and behind it away.' }),
        expect.objectContaining({ field: 'lengthMm', got: '20000', allowed: 'a number from 1 to 1000 (mm)' }),
        expect.objectContaining({ field: 'pcieGen', got: '12' }),
      ],
    })
  })

  test('a part is described whole and comes back; marks of its name stay only where the figure does', async () => {
    const before = (await api.ask('get', '/parts/CRD-GIMLET4')).json as { part: Record<string, unknown> }
    const kept = await api.ask('put', '/parts/CRD-GIMLET4', { ...before.part, lengthMm: 205 })
    expect(kept).toMatchObject({ status: 200, json: { id: 'CRD-GIMLET4' } })
    const after = (await api.ask('get', '/parts/CRD-GIMLET4')).json as { part: Record<string, unknown> }
    expect(after.part).toEqual({ ...before.part, lengthMm: 205 })
    expect((await api.ask('put', '/parts/OTHER', before.part)).status).toBe(422)
    expect((await api.ask('put', '/parts/NONE', { kind: 'fan', id: 'NONE', name: 'x' })).json).toMatchObject({
      problems: [{ code: 'not found', field: 'part' }],
    })
    expect(
      (await api.ask('put', '/parts/CRD-GIMLET4', { kind: 'fan', id: 'CRD-GIMLET4', name: 'x' })).json,
    ).toMatchObject({ problems: [{ field: 'kind', got: 'fan' }] })
  })

  test('a limit shows up at its machine; a hint is refused in words', async () => {
    const kept = await api.ask('post', '/machines/m-0195/limits', {
      ...{ key: 'cardRoomMm', value: 301.5, source: 'measured', note: 'tape' },
    })
    expect(kept).toMatchObject({ status: 201, json: { tag: 'M-0195' } })
    const { limits } = (await api.ask('get', '/machines/M-0195')).json as { limits: { key: string }[] }
    expect(limits.find((l) => l.key === 'cardRoomMm')).toMatchObject({
      ...{ known: true, value: 301.5, source: 'measured', unit: 'mm', note: 'tape' },
    })
    expect(
      (await api.ask('post', '/machines/M-0195/limits', { key: 'memoryMaxGB', value: 64, source: 'read' }))
        .json,
    ).toMatchObject({ problems: [{ code: 'not allowed', field: 'source', got: 'read' }] })
    expect(
      (await api.ask('post', '/machines/M-0195/limits', { key: 'pin16W', value: 70, source: 'measured' }))
        .json,
    ).toMatchObject({
      problems: [{ field: 'value', got: '70', allowed: 'a whole number from 150 to 600 (W)' }],
    })
  })

  test('a question names each title once; its machine by tag', async () => {
    const wanted = [
      { titleId: 'saffron', settingId: '1080-high' },
      { titleId: 'saffron', settingId: '1080-high' },
    ]
    expect(
      (await api.ask('post', '/questions', { machine: 'M-0195', words: 'x', wanted })).json,
    ).toMatchObject({
      problems: [{ code: 'duplicate', field: 'wanted[1].titleId' }],
    })
    expect(
      (await api.ask('post', '/questions', { machine: 'M-9999', words: 'x', wanted: [] })).json,
    ).toMatchObject({
      problems: [
        { field: 'machine', got: 'M-9999' },
        { code: 'missing', field: 'wanted' },
      ],
    })
  })

  test('a machine is added with what its names tell; a day that is none is refused', async () => {
    const body = { tag: 'M-0777', parts: [{ kind: 'processor', name: 'i5-10400F' }], soldOn: '2026-02-30' }
    expect((await api.ask('post', '/machines', body)).json).toMatchObject({
      problems: [{ field: 'soldOn', got: '2026-02-30' }],
    })
    const added = await api.ask('post', '/machines', { ...body, soldOn: '2026-02-20' })
    expect(added.status).toBe(201)
    expect((await api.ask('post', '/machines', body)).status).toBe(422)
    expect((await api.ask('post', '/machines', { ...body, soldOn: '2026-02-20' })).json).toMatchObject({
      problems: [{ code: 'duplicate', field: 'tag' }],
    })
  })

  test('fit says what the command says, in words', async () => {
    const { ask, body } = EXAMPLE_ASKS.fit ?? { ask: '' }
    const { json } = await api.ask('post', ask, body)
    // Intel product pages of the 10th generation (up to i5: DDR4-2666) and of H410 (no memory overclocking).
    expect(json).toMatchObject({ verdict: 'fits slower', judged: true })
    expect(text(json)).toMatch(/2666/)
    const nothing = { machine: { parts: [] }, change: { work: ['reinstall'], add: [] } }
    expect((await api.ask('post', '/fit', nothing)).json).toMatchObject({ verdict: "can't tell" })
    expect(
      (await api.ask('post', '/fit', { machine: { parts: [] }, change: { add: [] } })).json,
    ).toMatchObject({
      problems: [{ code: 'missing', field: 'change' }],
    })
  })
})

test('lists come in pieces', async () => {
  type List = { items: { tag: string }[]; total: number }
  const all = (await api.ask('get', '/machines?limit=200')).json as List
  const piece = (await api.ask('get', '/machines?limit=2&offset=1')).json as List
  expect(piece.total).toBe(all.total)
  expect(piece.items).toEqual(all.items.slice(1, 3))
  expect(((await api.ask('get', '/machines?offset=999999')).json as List).items).toEqual([])
})

describe('tables to take away', () => {
  const get = (path: string) => api.app.request(`${ORIGIN}${path}`)
  test('as files, in the format of the import', async () => {
    const answer = await get('/export/titles.csv')
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toMatch(/^text\/csv; charset=utf-8/)
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="titles.csv"')
    expect((await answer.text()).replace('\ufeff', '')).toMatch(
      /^title,name,versions,memory_gb,graphics_memory_gb,cap_fps\r\n/,
    )
    expect((await get('/export/customers.csv')).status).toBe(200)
  })
  test.each([
    '/export/customers',
    '/export/customers%2Ecsv.csv',
    '/export/..%2Fshop.csv',
    '/export/x.csv',
    '/export/SHOP.CSV',
  ])('%s is not there', async (path) => {
    const answer = await get(path)
    expect(answer.status).toBe(404)
    expect(answer.headers.get('content-type')).toMatch(/^text\/html/)
  })
})
