import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { PartAsked } from '../../src/core/asked/asked.ts'
import { partInMindOf, recordsLike } from '../../src/core/asked/inMind.ts'
import type { Part } from '../../src/core/part.ts'
import type { Store } from '../../src/store/open.ts'
import { listParts } from '../../src/store/parts.ts'
import { loadQuestion } from '../../src/store/questions.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { describePartInMind, nameRecord, sayModel } from '../../src/uses/partInMind.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { saidAsked } from '../../src/words/answer/asked.ts'
import { dump } from '../store/temporaryStore.ts'
import { AT, copyOf, shopFile, unwrapped } from './jobs/jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** M-0207 of the invented shop has 286 mm of card room (fixtures/README.md). */
const ask = async (store: Store, words: string): Promise<string> =>
  unwrapped(
    await takeQuestion(
      store,
      {
        ...{ machineTag: 'M-0207', words: 'Can I put this one in?', wanted: [], display: {}, targetFps: 60 },
        ...{ wishes: [], asks: 'can I put this in', partInMind: { kind: 'card', words, priceMinor: 12_000 } },
      },
      AT,
    ),
  ).id

const askedOf = async (store: Store, id: string): Promise<{ asked: PartAsked; preheader: string }> => {
  const answer = unwrapped(await answerQuestion(store, id, AT))
  if (answer.asked?.ask !== 'can I put this in') throw new Error('no part was asked for')
  return { asked: answer.asked, preheader: saidAsked(answer, answer.asked).preheader }
}

const lengthFinding = ({ change }: PartAsked) =>
  (change.option ?? change).findings.find(({ rule }) => rule === 'graphics.length')

test('figures typed for a part without a record stay with the question and decide at once', async () => {
  const { store, close } = await copyOf(file)
  const id = await ask(store, 'some long card, second hand')
  const before = await askedOf(store, id)
  expect(lengthFinding(before.asked)).toMatchObject({ verdict: "can't tell" })
  expect(before.preheader).toMatch(/exact model/)

  const long: Part = { ...before.asked.part, kind: 'card', lengthMm: 298 }
  expect(await describePartInMind(store, id, long, AT)).toEqual({ ok: true, value: { id } })
  const after = await askedOf(store, id)
  // 298 - 286 = 12 mm too long
  expect(lengthFinding(after.asked)).toMatchObject({
    verdict: 'does not fit',
    values: { cardMm: 298, roomMm: 286 },
  })
  expect(after.asked).toMatchObject({ priceMinor: 12_000, part: { name: 'some long card, second hand' } })
  expect(after.preheader).not.toMatch(/exact model/)
  await close()
})

test('what only the name tells is read anew and stays marked; a typed figure is not', async () => {
  const { store, close } = await copyOf(file)
  const id = await ask(store, 'some card 8GB 260 mm')
  const { part } = (await askedOf(store, id)).asked
  expect(part).toMatchObject({ memoryGB: 8, readFromName: expect.arrayContaining(['memoryGB']) })
  unwrapped(await describePartInMind(store, id, { ...part, kind: 'card', boardPowerW: 160 }, AT))
  const after = (await askedOf(store, id)).asked.part
  expect(after).toMatchObject({ memoryGB: 8, boardPowerW: 160 })
  expect(after.readFromName).toEqual(part.readFromName)
  await close()
})

test('a figure that was given wins over the record and over its name, and is no longer one of the name', () => {
  const record: Part = {
    ...{ kind: 'card', id: 'CRD-1', name: 'Flint 8G', lengthMm: 240, memoryGB: 8 },
    readFromName: ['memoryGB'],
  }
  const given: Part = { kind: 'card', id: 'in mind', name: 'flint 8g', memoryGB: 6 }
  const inMind = { kind: 'card', words: 'flint 8g', part: given } as const
  expect(partInMindOf(inMind, [record])).toEqual({
    part: { kind: 'card', id: 'CRD-1', name: 'Flint 8G', lengthMm: 240, memoryGB: 6 },
    isKnown: true,
  })
  const alone = partInMindOf(inMind, [])
  expect(alone).toMatchObject({ isKnown: false, part: { id: 'in mind', memoryGB: 6 } })
  expect(alone.part.readFromName ?? []).not.toContain('memoryGB')
})

test('words that are like a record’s name are offered, and nothing is taken before somebody says so', async () => {
  const { store, close } = await copyOf(file)
  const id = await ask(store, 'spokeshave 8gb i think, second hand')
  expect((await askedOf(store, id)).asked.isKnown).toBe(false)
  const parts = await listParts(store.db)
  const like = (words: string) => recordsLike({ kind: 'card', words }, parts).map((part) => part.id)
  expect(like('spokeshave 8gb i think, second hand')).toEqual(['CRD-SPOKESHAVE8'])
  for (const words of ['some 8GB card', 'hobbin', 'spokeshaven', '8G', '?'])
    expect(like(words), words).toEqual([])
  expect(recordsLike({ kind: 'supply', words: 'spokeshave 8g' }, parts)).toEqual([])

  expect(await nameRecord(store, id, 'CRD-SPOKESHAVE8', AT)).toEqual({ ok: true, value: { id } })
  expect((await askedOf(store, id)).asked).toMatchObject({
    ...{ isKnown: true, priceMinor: 12_000, part: { id: 'CRD-SPOKESHAVE8', lengthMm: 236 } },
  })
  const before = await dump(store)
  for (const other of ['CRD-NONE', 'SUP-NONE', ''])
    expect(await nameRecord(store, id, other, AT)).toMatchObject({ problems: [{ field: 'record' }] })
  expect(await nameRecord(store, 'Q-0301', 'CRD-SPOKESHAVE8', AT)).toMatchObject({ ok: false })
  expect(await dump(store)).toEqual(before)
  await close()
})

test('another kind, a question without a part and no question change nothing', async () => {
  const { store, close } = await copyOf(file)
  const id = await ask(store, 'some long card')
  const before = await dump(store)
  const supply: Part = { kind: 'supply', id: 'x', name: 'x' }
  const card: Part = { kind: 'card', id: 'x', name: 'x', lengthMm: 200 }
  expect(await describePartInMind(store, id, supply, AT)).toMatchObject({
    problems: [{ code: 'not allowed' }],
  })
  for (const other of ['Q-0301', 'Q-9999'])
    expect(await describePartInMind(store, other, card, AT)).toMatchObject({
      problems: [{ code: 'not found' }],
    })
  expect(await dump(store)).toEqual(before)
  await close()
})

test('its exact model replaces its words and what was typed for others; that nobody knows it leaves both', async () => {
  const { store, close } = await copyOf(file)
  const id = await ask(store, 'some long card, second hand')
  const inMind = async () => (await loadQuestion(store.db, id))?.partInMind
  const long: Part = { kind: 'card', id: 'in mind', name: 'some long card, second hand', lengthMm: 298 }
  unwrapped(await describePartInMind(store, id, long, AT))
  unwrapped(await sayModel(store, id, 'not known', AT))
  expect(await inMind()).toMatchObject({ words: long.name, model: 'not known', part: { lengthMm: 298 } })
  unwrapped(await sayModel(store, id, { words: 'Quarrel 8G Twin rev 2' }, AT))
  expect(await inMind()).toEqual({
    ...{ kind: 'card', words: 'Quarrel 8G Twin rev 2', priceMinor: 12_000, model: 'exact' },
  })
  expect(await sayModel(store, 'Q-0301', 'not known', AT)).toMatchObject({
    problems: [{ code: 'not found' }],
  })
  await close()
})
