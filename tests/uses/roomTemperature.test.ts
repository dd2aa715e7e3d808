import { expect, test } from 'vitest'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import type { Claim } from '../../src/core/limits/limit.ts'
import { POLICY_DEFAULTS } from '../../src/input/tables/shop.ts'
import { loadAnswer, saveAnswer } from '../../src/store/answers.ts'
import { upsertClaims } from '../../src/store/machines.ts'
import type { Store } from '../../src/store/open.ts'
import { hottestRoomC } from '../../src/store/roomTemperature.ts'
import { saveShop } from '../../src/store/shop.ts'
import { upsertSettings, upsertTitles } from '../../src/store/titles.ts'
import { addMachine } from '../../src/uses/addMachine.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { temporaryStore } from '../store/temporaryStore.ts'

// The shop's rule: cooling is judged for its set room temperature, or for the hottest room it ever measured in.

const AT = '2026-11-25T12:00:00.000Z'
const measured = (roomC: number): Claim => ({
  ...{ key: 'coolingLoad', source: 'measured', at: AT },
  value: { loadC: 75, roomC, powerW: 65 },
})

/** A shop whose machines were measured in these rooms, and a question about the first one. */
async function shopWith(rooms: readonly (number | undefined)[]): Promise<readonly [Store, string]> {
  const store = await temporaryStore()
  for (const [n, roomC] of rooms.entries()) {
    const claims = roomC === undefined ? [] : [measured(roomC)]
    await addMachine(store, { tag: `M-000${n + 1}`, ownerName: `Owner ${n}`, parts: [], claims }, AT)
  }
  await store.write(async (tx) => {
    await upsertTitles(tx, [{ id: 'lantern', name: 'Lantern' }])
    const plain = { preset: 'high', rayTracing: false, frameGeneration: false }
    await upsertSettings(tx, [{ id: '1080', widthPx: 1920, heightPx: 1080, ...plain }])
  })
  const asked = await takeQuestion(
    store,
    {
      ...{ machineTag: 'M-0001', words: 'Can it get to 60?', display: {}, targetFps: 60, wishes: [] },
      wanted: [{ titleId: 'lantern', settingId: '1080', weight: 1 }],
    },
    AT,
  )
  if (!asked.ok) throw new Error('not taken')
  return [store, asked.value.id]
}

async function inputsOf(store: Store, question: string) {
  const answer = await answerQuestion(store, question, AT)
  if (!answer.ok) throw new Error('no answer')
  return answer.value
}

test.each([
  [[undefined, undefined], undefined],
  [[22.5], 22.5],
  [[22.5, undefined, 31, 9], 31],
  // As text 9 would come after 31.
  [[31, 9], 31],
])('rooms of %j: the hottest is %s', async (rooms, hottest) => {
  const [store, question] = await shopWith(rooms)
  expect(await hottestRoomC(store.db)).toBe(hottest)
  expect((await inputsOf(store, question)).inputs.shop.policy.roomC).toBe(hottest)
})

test('a room that the shop set counts, however hot another was', async () => {
  const [store, question] = await shopWith([22.5, 34])
  const policy = { ...POLICY_DEFAULTS, currency: 'USD', roomC: 28 }
  const shop = { name: 'Shop', address: 'Here', email: 'a@b.example', builder: 'B' }
  await store.write((tx) => saveShop(tx, { ...shop, locale: 'en-US', timeZone: 'UTC', policy }))
  expect((await inputsOf(store, question)).inputs.shop.policy.roomC).toBe(28)
})

test('the kept snapshot holds the room and the instant it was judged at', async () => {
  const [store, question] = await shopWith([30])
  const answer = await inputsOf(store, question)
  const id = await store.write((tx) => saveAnswer(tx, answer))
  await store.write((tx) => upsertClaims(tx, [{ machineTag: 'M-0001', claim: measured(35) }]))
  const kept = (await loadAnswer(store.db, id))?.answer
  expect(kept?.inputs.machine).toMatchObject({ tag: 'M-0001', at: AT })
  expect(kept?.inputs.shop.policy.roomC).toBe(30)
  if (kept !== undefined) expect(computeAnswer(kept.inputs, kept.at)).toEqual(kept)
  expect((await inputsOf(store, question)).inputs.shop.policy.roomC).toBe(35)
})
