import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { openStore, type Store } from '../../../src/store/open.ts'
import { listQuestions } from '../../../src/store/questionLines.ts'
import { nextRunsWorkedOut, viewNextRuns } from '../../../src/uses/measure/nextRuns.ts'
import { callOffQuestion } from '../../../src/uses/questionState.ts'
import { demoFile } from '../../demo/preparedShop.ts'

/* The invented shop with two of its questions still open, one fit for all: it waits for the gain model. */
const AT = '2026-11-24T15:00:00.000Z'
const OPEN = ['Q-0301', 'Q-0305']

async function callOffAllBut(store: Store, ids: readonly string[]): Promise<void> {
  for (const { id, state } of await listQuestions(store.db))
    if (!ids.includes(id) && state === 'new') await callOffQuestion(store, id, undefined, AT)
}

test('nobody waits for the next runs; they follow the questions that are open, the bench and the shelf', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-next-'))
  const file = join(folder, 'shop.db')
  await copyFile(await demoFile(), file)
  const store = await openStore(`file:${file}`)
  try {
    await callOffAllBut(store, OPEN)
    expect(await viewNextRuns(store, AT)).toEqual({ state: 'under way' })
    const first = await nextRunsWorkedOut(store, AT)
    if (first.state !== 'told') throw new Error(first.state)
    expect(first.isStale).toBe(false)
    const { view } = first
    expect(view.questions.map(({ id }) => id).sort()).toEqual(OPEN)
    expect(view.hasBench).toBe(true)
    expect(view.runs.length).toBeGreaterThan(0)
    expect(view.runs.length).toBeLessThanOrEqual(20)
    for (const { helps, titleId, settingId, partIds, fitted, machineTag } of view.runs) {
      expect(helps.every(({ questionId }) => OPEN.includes(questionId))).toBe(true)
      expect(view.titles.map(({ id }) => id)).toContain(titleId)
      expect(view.settings.map(({ id }) => id)).toContain(settingId)
      // What goes into the bench for it is what is run there.
      if (machineTag === undefined) expect([[], [fitted.cardId]]).toContainEqual(partIds)
      expect(view.parts.map(({ id }) => id)).toContain(fitted.cardId)
    }
    // The best for each minute at the bench comes first; 10 minutes for the run itself (see nextRuns.ts).
    const perMinute = view.runs.map(({ removed, minutes = 0 }) => removed / (10 + minutes))
    expect(perMinute).toEqual(perMinute.toSorted((a, b) => b - a))

    // Something changes: the old view stands until the new one is there.
    await callOffAllBut(store, ['Q-0305'])
    expect(await viewNextRuns(store, AT)).toMatchObject({ state: 'told', isStale: true, view: { at: AT } })
    const second = await nextRunsWorkedOut(store, AT)
    expect(second).toMatchObject({ state: 'told', isStale: false, view: { questions: [{ id: 'Q-0305' }] } })

    await callOffAllBut(store, [])
    expect(await nextRunsWorkedOut(store, AT)).toMatchObject({
      state: 'told',
      view: { questions: [], runs: [], hasBench: true },
    })
  } finally {
    await store.close()
    await rm(folder, { recursive: true, force: true })
  }
}, 180_000)
