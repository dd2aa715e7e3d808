import { afterAll, beforeAll, expect, test } from 'vitest'
import { rankingText } from '../../src/cli/rank.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import { loadAnswer, saveAnswer } from '../../src/store/answers.ts'
import type { Store } from '../../src/store/open.ts'
import { openStore } from '../../src/store/open.ts'
import { listRuns, upsertRuns } from '../../src/store/runs.ts'
import { loadShop, saveShop } from '../../src/store/shop.ts'
import { soundReadings } from '../../src/store/sound.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { exportShop } from '../../src/uses/exportShop.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { tablesOf } from '../demo/tables.ts'
import { AT, unwrapped } from './jobs/jobShop.ts'

// The invented shop of fixtures/README.md with levels that this test gives some of its runs.

let store: Store
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
})
afterAll(() => store.close())

const GAMES = ['saffron', 'cellar'].map((titleId) => ({ titleId, settingId: '1080-high', weight: 1 }))

async function ask(machineTag = 'M-0207') {
  const taken = await takeQuestion(
    store,
    {
      ...{ machineTag, words: 'Faster, and quiet?', wanted: GAMES, display: {}, targetFps: 60 },
      wishes: ['quiet'],
    },
    AT,
  )
  return unwrapped(taken).id
}
const answerTo = async (id: string) => unwrapped(await answerQuestion(store, id, AT))

/** Gives every run with that card, or of that machine without the lent one, a level. */
async function heard(dba: number, of: { cardId?: string; machineTag?: string }) {
  const runs = (await listRuns(store.db)).filter(
    (run) =>
      run.fitted.cardId === of.cardId ||
      (of.machineTag !== undefined &&
        run.machineTag === of.machineTag &&
        run.fitted.cardId !== 'CRD-SPOKESHAVE8'),
  )
  expect(runs.length).toBeGreaterThan(0)
  await store.write((tx) =>
    upsertRuns(
      tx,
      runs.map((run) => ({ ...run, noiseDba: dba })),
    ),
  )
}
const quietUpTo = async (quietDba: number | undefined) => {
  const shop = await loadShop(store.db)
  if (shop === undefined) throw new Error('no shop')
  await store.write((tx) => saveShop(tx, { ...shop, policy: { ...shop.policy, quietDba } }))
}

test('nothing was measured: each option says that it can’t tell, and nothing is left out', async () => {
  const answer = await answerTo(await ask())
  expect(answer.sound).toEqual({ parts: [] })
  expect(answer.ranking.ruledOut.filter(({ wish }) => wish === 'quiet')).toEqual([])
  expect(JSON.stringify(letterOf(answer))).toContain('we can’t tell: we have not measured it')
  expect(rankingText(answer)).toContain('we can’t tell: we have not measured it')
})

test('a reading knows what was in the machine then', async () => {
  await heard(47.5, { cardId: 'CRD-SPOKESHAVE8' })
  const readings = await soundReadings(store.db)
  const lent = readings.find(({ runId }) => runId === 'R-0099')
  // The card of the run, and what else is heard of fitted.csv; neither its memory and drive nor the card that was out then.
  expect(lent).toMatchObject({ machineTag: 'M-0207', dba: 47.5 })
  expect([...(lent?.partIds ?? [])].sort()).toEqual(
    ['CAS-SNUG', 'COL-KBOX', 'CPU-LARCH', 'CRD-SPOKESHAVE8', 'PSU-550'].sort(),
  )
})

test('louder than what the shop calls quiet: left out by the wish, with both figures, in the letter, the terminal and JSON', async () => {
  await quietUpTo(40)
  const id = await ask()
  const answer = await answerTo(id)
  const out = answer.ranking.ruledOut.find(({ partId }) => partId === 'CRD-SPOKESHAVE8')
  expect(out).toMatchObject({ wish: 'quiet' })
  expect(answer.ranking.ranked.some((o) => o.change.add.some((p) => p.id === 'CRD-SPOKESHAVE8'))).toBe(false)
  for (const text of [JSON.stringify(letterOf(answer)), rankingText(answer)]) {
    const plain = text.replaceAll('\u00a0', ' ')
    expect(plain).toContain('had 47.5 dB(A) at one metre')
    expect(plain).toContain('We call up to 40 dB(A) quiet.')
  }
  expect(chatTextOf(answer).length).toBeGreaterThan(0)
})

test('not louder than what they have: it stays, and says both', async () => {
  await heard(48, { machineTag: 'M-0207' })
  const answer = await answerTo(await ask())
  expect(answer.sound?.own?.dba).toBe(48)
  const kept = [...answer.ranking.ranked, ...answer.ranking.withoutNumber, ...answer.ranking.needsAFact]
  expect(kept.some((o) => o.change.add.some((p) => p.id === 'CRD-SPOKESHAVE8'))).toBe(true)
  const text = rankingText(answer).replaceAll('\u00a0', ' ')
  expect(text).toContain('That is louder than the 40 dB(A) that we call quiet.')
  expect(text).toContain('not louder than what you have: we measured yours at 48 dB(A).')
})

test('louder than what they have: left out with no figure of the shop', async () => {
  await quietUpTo(undefined)
  await heard(36, { machineTag: 'M-0207' })
  const answer = await answerTo(await ask())
  expect(answer.ranking.ruledOut).toContainEqual(
    expect.objectContaining({ partId: 'CRD-SPOKESHAVE8', wish: 'quiet' }),
  )
  expect(rankingText(answer).replaceAll('\u00a0', ' ')).toContain(
    'That is louder than what you have: we measured yours at 36 dB(A) at one metre.',
  )
})

test('a kept answer computes again to the same, whatever was measured since', async () => {
  const answer = await answerTo(await ask())
  const kept = await store.write((tx) => saveAnswer(tx, answer))
  await heard(20, { cardId: 'CRD-SPOKESHAVE8' })
  const loaded = await loadAnswer(store.db, kept)
  if (loaded === undefined) throw new Error('not kept')
  expect(computeAnswer(loaded.answer.inputs, loaded.answer.at)).toEqual(answer)
})

test('question and figure go out as tables and come in again', async () => {
  await quietUpTo(38.5)
  const files = await exportShop(store)
  const textOf = (name: string) => files.find((file) => file.name === name)?.text ?? ''
  expect(textOf('questions')).toContain('quiet')
  expect(textOf('shop')).toContain('38.5')
  const other = await openStore(':memory:')
  const bytes = files.map(({ name, text }) => ({
    name: `${name}.csv`,
    bytes: new TextEncoder().encode(text),
  }))
  unwrapped(await importShop(other, bytes))
  expect((await loadShop(other.db))?.policy.quietDba).toBe(38.5)
  expect((await exportShop(other)).find(({ name }) => name === 'questions')?.text).toBe(textOf('questions'))
  other.close()
})
