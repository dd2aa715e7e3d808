import { expect, test } from 'vitest'
import type { Part } from '../../../src/core/part.ts'
import type { Store } from '../../../src/store/open.ts'
import { upsertParts } from '../../../src/store/parts.ts'
import { upsertRuns } from '../../../src/store/runs.ts'
import { upsertSettings, upsertTitles } from '../../../src/store/titles.ts'
import { askAgain, lookedAt, remarksOn, viewOdd } from '../../../src/uses/runs/oddRuns.ts'
import { fitted, runOf } from '../../core/gain/model/small.ts'
import { benchWith, CARDS, PROCESSORS, settings, timeOf } from '../../core/gain/odd/shop.ts'
import { temporaryStore } from '../../store/temporaryStore.ts'

const NOW = '2026-06-01T12:00:00.000Z'
const LATER = '2026-06-01T13:00:00.000Z'
const ODD_ID = 'even-C2-G2-high'
const meant = Math.round(10_000 / timeOf('even', 'C2', 'G2')) / 10

/** One shop and one fit for all that is looked at here: a fit takes a thread and its time. */
async function benchStore(): Promise<Store> {
  const store = await temporaryStore()
  const runs = benchWith({ [ODD_ID]: { averageFps: Math.round(meant * 100) / 10 } })
  await store.write(async (tx) => {
    await upsertParts(tx, [
      ...Object.keys(PROCESSORS).map((id) => ({ id, kind: 'processor', name: id }) as Part),
      ...Object.keys(CARDS).map((id) => ({ id, kind: 'card', name: id }) as Part),
    ])
    await upsertTitles(
      tx,
      [...new Set(runs.map(({ titleId }) => titleId))].map((id) => ({ id, name: id })),
    )
    await upsertSettings(tx, settings)
    await upsertRuns(
      tx,
      runs.map(({ machineTag: _, ...run }) => run),
    )
  })
  return store
}

const oddIn = async (store: Store) => {
  const view = await viewOdd(store, NOW)
  return view.state === 'told' ? view.told.odd : undefined
}

test('an odd run is told until somebody has looked, and again once there is other evidence; a typed one before it is kept', async () => {
  const store = await benchStore()
  const oddNow = () => oddIn(store)
  await remarksComeBeforeRunsAreKept(store)
  await onlyOddRunsAreLookedAt(store)
  expect(await oddNow()).toMatchObject([{ runId: ODD_ID, guesses: [{ kind: 'digit' }] }])
  expect((await oddNow())?.[0]?.look).toBeUndefined()

  expect(await lookedAt(store, ODD_ID, 'mara', LATER)).toEqual({ ok: true, value: { id: ODD_ID } })
  expect((await oddNow())?.[0]?.look).toEqual({ at: LATER, by: 'mara' })

  await askAgain(store, ODD_ID)
  expect((await oddNow())?.[0]?.look).toBeUndefined()

  // A repeat is other evidence: what was looked at before says nothing of it.
  await lookedAt(store, ODD_ID, undefined, LATER)
  expect((await oddNow())?.[0]?.look).toEqual({ at: LATER, by: undefined })
  const repeat = runOf('even', fitted('C2', 'G2'), 1000 / meant, { id: 'repeat', at: '2026-05-20T12:00:00Z' })
  await store.write((tx) => upsertRuns(tx, [repeat]))
  expect(await oddNow()).toMatchObject([{ runId: ODD_ID }])
  expect((await oddNow())?.[0]?.look).toBeUndefined()
})

/** A run that fits, or is not there, is nothing to look at. */
async function onlyOddRunsAreLookedAt(store: Store) {
  for (const id of ['even-C1-G1-high', 'no such run'])
    expect(await lookedAt(store, id, 'mara', LATER)).toMatchObject({ ok: false })
}

/** A row of a sheet is remarked by the row it stands in. */
async function remarksComeBeforeRunsAreKept(store: Store) {
  const row = (ref: string, averageFps: number) => ({
    ...{ ref, titleId: 'even', settingId: 'high', titleVersion: '1.0', averageFps },
  })
  const { processorId, cardId, memory, link } = fitted('C1', 'G2')
  const usual = Math.round(10_000 / timeOf('even', 'C1', 'G2')) / 10
  const sheet = {
    at: NOW,
    fitted: { processorId, cardId, ...memory, linkGen: link.gen, linkLanes: link.lanes },
    rows: [row('0', usual), row('1', usual * 10)],
  }
  const remarks = await remarksOn(store, sheet, NOW, 60_000)
  expect(remarks).toMatchObject([{ ref: '1', odd: { guesses: [{ kind: 'digit', fps: usual }] } }])
  // Where it is not told in time nobody waits for it, and nothing stands in the way.
  expect(await remarksOn(store, { ...sheet, rows: [] }, NOW, 0)).toEqual([])
}
