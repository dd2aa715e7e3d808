import { setTimeout as pause } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { askThread } from '../../../src/uses/threads/askThread.ts'

type Asked = { readonly what: 'who' }
const ENTRY = new URL('./whoAmI.mjs', import.meta.url)

test('a thread that keeps nothing ends when nothing is asked of it, and the next ask starts another', async () => {
  const thread = askThread<Asked, { who: number }>(ENTRY, 60_000, 200)
  const first = await thread.ask({ what: 'who' })
  expect(await thread.ask({ what: 'who' })).toBe(first)
  expect(thread.generation()).toBe(0)
  while (thread.generation() === 0) await pause(20)
  const second = await thread.ask({ what: 'who' })
  expect(second).not.toBe(first)
  await thread.stop()
})

test('without such a span it stays, with all that it keeps', async () => {
  const thread = askThread<Asked, { who: number }>(ENTRY, 60_000)
  const first = await thread.ask({ what: 'who' })
  await pause(400)
  expect(await thread.ask({ what: 'who' })).toBe(first)
  expect(thread.generation()).toBe(0)
  await thread.stop()
})
