import { expect, test } from 'vitest'
import { ok } from '../../src/problem.ts'
import { jobViewAt } from './cannedJobs.ts'
import { cannedUses } from './cannedUses.ts'
import { answerTo } from './serve.ts'
import type { PageState } from './states.ts'

const htmlOf = async (path: string, more: Partial<PageState> = {}): Promise<string> =>
  (await answerTo({ name: path, path, ...more })).text()
const wordsIn = (html: string): string => html.replace(/<[^>]+>/g, ' ').replace(/[\s\u00a0]+/g, ' ')
const wordsOf = async (path: string): Promise<string> => wordsIn(await htmlOf(path))

test('who stands in line of a deal is not told to be counted in, and can take the yes back', async () => {
  const line = await wordsOf('/y/line')
  expect(line).toContain('You are in line.')
  expect(line).not.toContain('You are counted in')
  expect(line).toContain('take my yes back')
  expect(await wordsOf('/y/late')).toContain('take my yes back')
})

test('a yes that is taken back says nothing of a shelf, where a part of a deal never stood', async () => {
  expect(await wordsOf('/y/back')).not.toContain('shelf')
})

test('what came back is kept for the first in line: their page does not say that whoever is first gets it', async () => {
  expect(await wordsOf('/y/asked')).toContain('Who says yes first gets it')
  expect(await wordsOf('/y/again')).not.toContain('Who says yes first gets it')
})

test('a draft says how many are free on the shelf, not only how many of these it offers', async () => {
  expect(await wordsOf('/rounds/O-0002')).toContain('2 pieces to offer, 3 free.')
})

test('a draft that was dropped asked nobody', async () => {
  const dropped = await wordsOf('/rounds/O-0011')
  expect(dropped).toContain('dropped; nobody was asked.')
  expect(dropped).toContain('not asked')
  expect(dropped).not.toMatch(/one was asked|1 was asked|no answer yet/)
  expect(await wordsOf('/rounds/O-0008')).toContain('3 were asked')
})

test('a round whose mails are all out does not say that they go out; the mail with the day stands beside the day', async () => {
  const canned = await cannedUses().uses.round('O-0001')
  if (!canned.ok) throw new Error('no canned round')
  const view = canned.value
  const seats = view.seats.map((seat) =>
    seat.standing === 'held' ? { ...seat, job: { ...jobViewAt('booked').job, id: 'J-0007' } } : seat,
  )
  const uses = {
    round: async () =>
      ok({ ...view, seats, result: { ...view.result, of: { ...view.result.of, waiting: [] } } }),
  }
  const out = await htmlOf('/rounds/O-0001', { uses })
  expect(wordsIn(out)).toContain('No mail waits any more, and yeses are taken.')
  expect(out).toContain('action="/jobs/J-0007/outbox"')
  const going = await htmlOf('/rounds/O-0001')
  expect(wordsIn(going)).toContain('Mails go out, and yeses are taken.')
  expect(going).not.toContain('/outbox"><button')
})
