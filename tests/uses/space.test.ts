import { afterAll, beforeAll, expect, test } from 'vitest'
import { rankingText } from '../../src/cli/rank.ts'
import type { Store } from '../../src/store/open.ts'
import { openStore } from '../../src/store/open.ts'
import { loadQuestion } from '../../src/store/questions.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { exportShop } from '../../src/uses/exportShop.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { letterOf } from '../../src/words/answer.ts'
import { tablesOf } from '../demo/tables.ts'
import { AT, unwrapped } from './jobs/jobShop.ts'

// The invented shop of fixtures/README.md: two drives on its shelf, 58.00 for 1 TB on M.2 and 34.00 for 1 TB on a cable.
// Opening is 15.00; what fitting a drive costs stands in work.csv.

let store: Store
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
})
afterAll(() => store.close())

const ask = async (wishes: readonly 'more space'[], spaceGB?: number) => {
  const taken = await takeQuestion(
    store,
    {
      ...{
        machineTag: 'M-0207',
        words: 'My drive is full.',
        display: {},
        targetFps: 60,
        wishes: [...wishes],
        ...(spaceGB !== undefined && { spaceGB }),
      },
      wanted: ['saffron', 'cellar'].map((titleId) => ({ titleId, settingId: '1080-high', weight: 1 })),
    },
    AT,
  )
  return unwrapped(await answerQuestion(store, unwrapped(taken).id, AT))
}

test('drives stand in the answer with what they cost by capacity, and bring no frames', async () => {
  const answer = await ask(['more space'])
  expect(answer.space?.map(({ partId }) => partId).sort()).toEqual(['DRV-M1000', 'DRV-S1000'])
  for (const row of answer.space ?? []) {
    const fitting = answer.inputs.work.find(({ work }) => work === 'fit drive')?.priceMinor ?? 0
    const part = answer.inputs.shelf.find(({ id }) => id === row.shelfItemId)?.priceMinor ?? 0
    const extra = (row.price?.lines ?? [])
      .filter(({ what }) => what === 'work')
      .reduce((sum, { amountMinor }) => sum + amountMinor, 0)
    if (row.price === undefined) expect(row.verdict).toBe('does not fit')
    else {
      expect(row.price.netMinor).toBe(part + 1500 + fitting + extra)
      expect(row.minorPerGB).toBeCloseTo(row.price.netMinor / 1000, 10)
    }
  }
  for (const text of [JSON.stringify(letterOf(answer)), rankingText(answer)]) {
    expect(text).toContain('Lathbury Drawer 1 TB')
    expect(text).toContain('no game runs faster by it')
  }
  expect(answer.ranking.ranked.some((o) => o.change.add.some(({ kind }) => kind === 'drive'))).toBe(false)
})

test('nobody asked for space: no word of drives, and the same ranking', async () => {
  const [plain, wishing] = [await ask([]), await ask(['more space'])]
  expect(plain.space).toBeUndefined()
  expect(JSON.stringify(letterOf(plain))).not.toContain('Lathbury Drawer')
  expect(JSON.stringify(wishing.ranking)).toBe(JSON.stringify(plain.ranking))
})

test('beside the pick the machine is opened once', async () => {
  const answer = await ask(['more space'])
  const pick = answer.ranking.ranked.find(({ id }) => id === answer.ranking.bestPerMoneyId)
  const opened = pick?.price.lines.some(({ what }) => what === 'opening') === true
  const beside = (answer.space ?? []).flatMap((row) =>
    row.besidePick === undefined || row.price === undefined ? [] : [{ row, ...row.besidePick }],
  )
  expect(pick === undefined || beside.length > 0).toBe(true)
  for (const { row, moreMinor, findings } of beside)
    if (findings.length === 0) expect((row.price?.netMinor ?? 0) - moreMinor).toBe(opened ? 1500 : 0)
})

test('drives that hold less than was asked for are left out, and the letter says so; a table brings the size back', async () => {
  const answer = await ask(['more space'], 1500)
  expect(answer.inputs.question.spaceGB).toBe(1500)
  expect(answer.space?.map(({ size }) => size)).toEqual(['too small', 'too small'])
  const letter = JSON.stringify(letterOf(answer)).replaceAll('\u00a0', ' ')
  expect(letter).toContain('Left out because they hold less than the 1500 GB you asked for: Lathbury')
  expect(letter).toContain('no drive on our shelf now that holds 1500 GB or more')
  const files = await exportShop(store)
  expect(files.find(({ name }) => name === 'questions')?.text).toContain('1500')
  const other = await openStore(':memory:')
  const bytes = files.map(({ name, text }) => ({
    name: `${name}.csv`,
    bytes: new TextEncoder().encode(text),
  }))
  unwrapped(await importShop(other, bytes))
  expect((await loadQuestion(other.db, answer.inputs.question.id))?.spaceGB).toBe(1500)
  other.close()
})
