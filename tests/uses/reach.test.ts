import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { runs } from '../../db/schema.ts'
import type { ReachAsk, ReachInputs } from '../../src/core/reach/ask.ts'
import { planLook } from '../../src/core/reach/look.ts'
import { endWork, insertWork, startWork } from '../../src/store/longWork.ts'
import { openStore, type Store } from '../../src/store/open.ts'
import { longWork } from '../../src/uses/longWork/loaders.ts'
import { askLook, callOffLook, forgetLook, viewLook, viewLooks } from '../../src/uses/reach/looks.ts'
import { TWO } from '../core/reach/twoPlatforms.ts'
import { demoFile } from '../demo/preparedShop.ts'

/* The store of the invented shop; what is worked out is the hand-worked case, so no gain model is waited for. */
const AT = '2026-11-24T15:00:00.000Z'
const ASK: ReachAsk = { ...TWO.ask, platforms: [{ name: 'A', parts: [{ partId: 'NOWHERE' }] }] }

let folder: string
let store: Store
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-reach-'))
  const file = join(folder, 'shop.db')
  await copyFile(await demoFile(), file)
  store = await openStore(`file:${file}`)
})
afterAll(async () => {
  longWork(store).halt()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

test('names that the shop does not have are told before anything is begun', async () => {
  const asked = await askLook(store, { ask: ASK, typed: [] }, 'wrong', AT)
  expect(asked).toMatchObject({ ok: false })
  const fields = asked.ok ? [] : asked.problems.map(({ field }) => field)
  expect(fields).toEqual(['platforms.0.parts.0.partId', 'wanted.0.titleId'])
  expect((await viewLooks(store)).looks).toEqual([])
})

test('how often each title was run at each setting, the most often first, counted by hand from the runs', async () => {
  const { runCounts } = await viewLooks(store)
  const times = new Map<string, number>()
  for (const { titleId, settingId } of await store.db.select().from(runs)) {
    const both = `${titleId} ${settingId}`
    times.set(both, (times.get(both) ?? 0) + 1)
  }
  expect(times.size).toBeGreaterThan(5)
  expect(new Map(runCounts.map((one) => [`${one.titleId} ${one.settingId}`, one.runs]))).toEqual(times)
  expect(runCounts.map((one) => one.runs)).toEqual(runCounts.map((one) => one.runs).sort((a, b) => b - a))
})

test('what a stop left goes on from what it began with; what was called off does not', async () => {
  const inputs: ReachInputs = { ...TWO, ask: { ...TWO.ask, upToMinor: 40_000 } }
  const asked = { ask: inputs.ask, typed: [] }
  const left = await store.write(async (tx) => {
    const id = await insertWork(tx, { kind: 'reach', ask: asked, askedAt: AT, name: 'A or B' })
    await startWork(tx, id, inputs)
    return id
  })
  const off = await store.write((tx) => insertWork(tx, { kind: 'reach', ask: asked, askedAt: AT }))
  await callOffLook(store, off, AT)
  expect(await forgetLook(store, left)).toMatchObject({ ok: false })
  // The next start.
  longWork(store).goOn(() => AT)
  await longWork(store).idle()
  const told = await viewLook(store, left)
  if (!told.ok) throw new Error('not there')
  expect(told.value.work).toMatchObject({ state: 'done', name: 'A or B' })
  expect(told.value.look).toEqual(JSON.parse(JSON.stringify(planLook(inputs))))
  expect(await viewLook(store, off)).toMatchObject({ ok: true, value: { work: { state: 'called off' } } })
  // Saved under its name until it is taken away.
  expect((await viewLooks(store)).looks.map(({ name }) => name)).toContain('A or B')
  for (const id of [left, off]) expect(await forgetLook(store, id)).toMatchObject({ ok: true })
  expect((await viewLooks(store)).looks).toEqual([])
  expect(await viewLook(store, left)).toMatchObject({ ok: false, problems: [{ code: 'not found' }] })
}, 60_000)

test('a plan of the first version is still shown, without the titles behind its levels', async () => {
  const look = planLook(TWO)
  const platforms = look.reach.platforms.map((platform) => ({
    ...platform,
    now: { ...platform.now, points: platform.now.points.map(({ titles: _, ...point }) => point) },
  }))
  const id = await store.write(async (tx) => {
    const one = await insertWork(tx, { kind: 'reach', ask: { ask: TWO.ask, typed: [] }, askedAt: AT })
    await startWork(tx, one, TWO)
    await endWork(tx, one, {
      state: 'done',
      at: AT,
      result: { ...look, reach: { ...look.reach, platforms } },
    })
    return one
  })
  const told = await viewLook(store, id)
  if (!told.ok) throw new Error('not there')
  expect(told.value.look?.reach.platforms[0]?.now.points.map(({ titles }) => titles)).toEqual([
    [],
    [],
    [],
    [],
  ])
})
