import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { runCommand } from '../../../src/cli/commands.ts'
import type { Answer } from '../../../src/core/answer.ts'
import { computeAnswer } from '../../../src/core/computeAnswer.ts'
import { loadAnswer, saveAnswer } from '../../../src/store/answers.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { upsertTitles } from '../../../src/store/titles.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { keptFitOf } from '../../../src/uses/gain/keptFit.ts'
import { type FitThread, fitThread } from '../../../src/uses/gain/thread.ts'
import { whyOfAnswer, whyOfQuestion } from '../../../src/uses/gain/whyNumber.ts'
import { viewAnswer } from '../../../src/uses/views.ts'
import { letterOf } from '../../../src/words/answer.ts'
import { WHY_EN } from '../../../src/words/en/why.ts'
import { demoFile } from '../../demo/preparedShop.ts'

const AT = '2026-11-24T15:00:00.000Z'
const LATER = '2031-02-03T04:05:06.789Z'

let folder: string
let store: Store
let broken: Store
let thread: FitThread
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-nofit-'))
  const open = async (name: string) => {
    await copyFile(await demoFile(), join(folder, name))
    return openStore(pathToFileURL(join(folder, name)).href)
  }
  store = await open('whole.db')
  broken = await open('broken.db')
  // The stand-in throws on a title of this name.
  await broken.write((tx) => upsertTitles(tx, [{ id: 'breaks', name: 'Breaks' }]))
  thread = fitThread(new URL('./standIn.mjs', import.meta.url))
  keptFitOf(broken, thread)
})
afterAll(async () => {
  await thread.stop()
  await store.close()
  await broken.close()
  await rm(folder, { recursive: true, force: true })
})

async function answered(from: Store, id: string): Promise<Answer> {
  const answer = await answerQuestion(from, id, AT)
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems))
  return answer.value
}
async function command(from: Store, args: string[]) {
  const said = { out: '', err: '' }
  const code = await runCommand(args, {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => '',
    openStore: async () => from,
    now: () => AT,
  })
  return { code, ...said }
}
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

test('where the fit fails the answer counts what was measured, and says so', async () => {
  const faults: unknown[] = []
  keptFitOf(broken).onFault((error) => faults.push(error))
  const answer = await answered(broken, 'Q-0301')
  expect(answer.inputs).toMatchObject({ gainFailed: true })
  expect(answer.inputs.gain).toBeUndefined()
  expect(answer.versions.gain).toBe('measured-1')
  const grades = answer.ranking.ranked.flatMap(({ gains }) => gains.map(({ grade }) => grade))
  expect([...new Set(grades)].sort()).toEqual(['measured', 'no number'])
  expect(letterOf(answer).lead.answer).toContain('191')
  expect(faults).toHaveLength(1)
})

test.each([[['answer', 'Q-0301']], [['answer', 'Q-0301', '--json']]])(
  'stillfits %j says beside its result that the fit failed, and nothing where it did not',
  async (args) => {
    const [without, whole] = [await command(broken, args), await command(store, args)]
    expect([without.code, without.err.includes(WHY_EN.failed)]).toEqual([0, true])
    expect(without.out, 'the message itself is for the owner').not.toContain(WHY_EN.failed)
    expect([whole.code, whole.err.includes(WHY_EN.failed)]).toEqual([0, false])
  },
)

test('stillfits rank says it in its list, and as JSON in a field', async () => {
  expect((await command(broken, ['rank', 'Q-0301'])).out).toContain(WHY_EN.failed)
  expect(JSON.parse((await command(broken, ['rank', 'Q-0301', '--json'])).out)).toMatchObject({
    gainFailed: true,
  })
  expect(JSON.parse((await command(store, ['rank', 'Q-0301', '--json'])).out)).not.toHaveProperty(
    'gainFailed',
  )
})

test.each(['Q-0301', 'Q-0305', 'Q-0310'])(
  '%s: a kept answer with its piece of the model computes again to the same digits',
  async (id) => {
    const answer = await answered(store, id)
    expect(answer.versions.gain).not.toBe('measured-1')
    const answerId = await store.write((tx) => saveAnswer(tx, answer))
    const kept = await loadAnswer(store.db, answerId)
    if (kept === undefined) throw new Error('not kept')
    const again = computeAnswer(kept.answer.inputs, LATER)
    expect(asJson(again.ranking)).toEqual(asJson(answer.ranking))
    expect(again.versions).toEqual(answer.versions)
    // The comparison can fail: a piece of another model is not read.
    const other = computeAnswer(
      { ...kept.answer.inputs, gain: { ...answer.inputs.gain, model: 'x' } as Answer['inputs']['gain'] },
      LATER,
    )
    expect(asJson(other.ranking)).not.toEqual(asJson(answer.ranking))
  },
)

test('why a number: as things are now with the runs that pull, of a kept answer without them and the same otherwise', async () => {
  const answer = await answered(store, 'Q-0310')
  const answerId = await store.write((tx) => saveAnswer(tx, answer))
  const [now, kept] = [
    await whyOfQuestion(store, 'Q-0310', 'S-602', AT),
    await whyOfAnswer(store, answerId, 'S-602'),
  ]
  if (!now.ok || !kept.ok) throw new Error('no why')
  const [live, old] = [now.value.whys[0], kept.value.whys[0]]
  // The only run of the fitted card in that title.
  expect(live?.pulls[0]?.runIds).toEqual(['R-0002'])
  expect(old?.pulls).toEqual([])
  expect(old?.logGain).toBeCloseTo(live?.logGain ?? Number.NaN, 12)
  const gain = now.value.option.gains[0]
  expect(gain?.grade === 'no number' ? undefined : gain?.logGain).toBeCloseTo(live?.logGain ?? Number.NaN, 9)
})

test.each([
  ['a question', () => whyOfQuestion(store, 'Q-9999', 'S-602', AT), 'question'],
  ['an option', () => whyOfQuestion(store, 'Q-0310', 'S-99', AT), 'option'],
  ['no option', () => whyOfQuestion(store, 'Q-0310', undefined, AT), 'option'],
  ['an answer', () => whyOfAnswer(store, '99999', 'S-602'), 'answer'],
] as const)('%s that is not there is a problem', async (_, ask, field) => {
  expect(await ask()).toMatchObject({ ok: false, problems: [{ code: 'not found', field }] })
})

test('why a number of a kept answer whose piece of the model was spoilt is a problem, and the answer stands', async () => {
  const answer = await answered(store, 'Q-0310')
  const { gain } = answer.inputs
  if (gain === undefined) throw new Error('no piece of the model')
  expect(gain.views.length).toBeGreaterThan(0)
  const views = gain.views.map((view) => ({ ...view, average: { ...view.average, mean: [] } }))
  const spoilt = { ...answer, inputs: { ...answer.inputs, gain: { ...gain, views } } }
  const answerId = await store.write((tx) => saveAnswer(tx, spoilt))
  const why = await whyOfAnswer(store, answerId, 'S-602')
  expect(why.ok ? [] : why.problems).toMatchObject([
    { code: 'unreadable', field: 'gain.views[0].average.mean', next: expect.stringContaining('damaged') },
  ])
  expect((await viewAnswer(store, answerId)).ok).toBe(true)
})
