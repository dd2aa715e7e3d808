import { expect, test } from 'vitest'
import type { Question } from '../../src/core/question.ts'
import { upsertSettings, upsertTitles } from '../../src/store/titles.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { correctMachine } from '../../src/uses/correctMachine.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { viewMachine, viewQuestions } from '../../src/uses/views.ts'
import { dump, temporaryStore } from '../store/temporaryStore.ts'

const AT = '2026-11-25T12:00:00.000Z'

/** Invented owners: two share a piece of their names, one has two machines. */
const OWNERS = [
  ['M-0001', 'Ann'],
  ['M-0002', 'Joanna Brook'],
  ['M-0003', 'Émile Strand'],
  ['M-0004', 'Odd Brook'],
  ['M-0005', 'Odd Brook'],
] as const

async function shop() {
  const store = await temporaryStore()
  for (const [tag, ownerName] of OWNERS)
    await addMachine(store, { tag, ownerName, parts: [], claims: [] }, AT)
  await store.write(async (tx) => {
    await upsertTitles(tx, [{ id: 'lantern', name: 'Lantern' }])
    await upsertSettings(tx, [
      {
        id: '1080',
        widthPx: 1920,
        heightPx: 1080,
        preset: 'high',
        rayTracing: false,
        frameGeneration: false,
      },
    ])
  })
  return store
}

const asked = (machineTag: string): Omit<Question, 'id' | 'askedAt'> => ({
  machineTag,
  words: 'Can it get to 60?',
  wanted: [{ titleId: 'lantern', settingId: '1080', weight: 1 }],
  display: {},
  targetFps: 60,
  wishes: [],
})

test.each([
  ['M-0002', 'M-0002'],
  ['m-0002', 'M-0002'],
  ['joanna', 'M-0002'], // a piece of one owner's name
  ['ANN', 'M-0001'], // a whole name comes before a piece of "Joanna"
  ['émile', 'M-0003'],
  ['ÉMILE STRAND', 'M-0003'],
])('"%s" means %s', async (typed, tag) => {
  const store = await shop()
  expect(await takeQuestion(store, asked(typed), AT)).toMatchObject({ ok: true })
  expect(await viewQuestions(store, AT)).toMatchObject({ waiting: [{ machineTag: tag }] })
})

test('several machines are named by their tags, and nothing is saved', async () => {
  const store = await shop()
  const before = await dump(store)
  for (const [typed, tags] of [
    ['Odd Brook', ['M-0004', 'M-0005']],
    ['brook', ['M-0002', 'M-0004', 'M-0005']],
  ] as const) {
    const taken = await takeQuestion(store, asked(typed), AT)
    expect(taken).toMatchObject({ ok: false, problems: [{ field: 'machineTag', got: typed }] })
    const next = taken.ok ? '' : (taken.problems[0]?.next ?? '')
    expect(next.match(/M-\d+/g)?.sort()).toEqual(tags)
  }
  expect(await dump(store)).toEqual(before)
})

test.each(['M-0009', 'nobody', ' '])('"%s" means no machine', async (typed) => {
  expect(await takeQuestion(await shop(), asked(typed), AT)).toMatchObject({
    ok: false,
    problems: [{ code: 'unknown name', field: 'machineTag' }],
  })
})

test('a tag is found whatever its case', async () => {
  const store = await shop()
  expect(await viewMachine(store, 'm-0003', AT)).toMatchObject({ value: { machine: { tag: 'M-0003' } } })
  expect(await correctMachine(store, 'm-0003', { ownerName: 'Ann', parts: [] }, AT)).toMatchObject({
    value: { tag: 'M-0003' },
  })
  const claim = { key: 'coolerRoomMm', value: 158, source: 'measured' } as const
  expect(await recordLimit(store, 'm-0003', claim, AT)).toEqual({ ok: true, value: { tag: 'M-0003' } })
  expect(await viewMachine(store, 'M-0003', AT)).toMatchObject({
    value: { limits: { coolerRoomMm: { known: true, value: 158 } } },
  })
})

test('a source that the limit does not count is refused unless it is pinned', async () => {
  const store = await shop()
  const before = await dump(store)
  const read = { key: 'memoryMaxGB', value: 32, source: 'read' } as const
  expect(await recordLimit(store, 'M-0001', read, AT)).toMatchObject({
    ok: false,
    problems: [{ field: 'source.memoryMaxGB', got: 'read' }],
  })
  expect(await dump(store)).toEqual(before)
  expect(await recordLimit(store, 'M-0001', { ...read, pinned: true }, AT)).toMatchObject({ ok: true })
  expect(await viewMachine(store, 'M-0001', AT)).toMatchObject({
    value: { limits: { memoryMaxGB: { known: true, value: 32 } } },
  })
})

test('what a ranked answer needs is known from the store', async () => {
  const bare = await temporaryStore()
  const nothing = { machines: false, titles: false, shelf: false, runs: false }
  expect(await viewQuestions(bare, AT)).toMatchObject({ emptyShop: true, ready: nothing })
  expect(await viewQuestions(await shop(), AT)).toMatchObject({
    emptyShop: false,
    ready: { ...nothing, machines: true, titles: true },
  })
})
