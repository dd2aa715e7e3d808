import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { sql } from 'drizzle-orm'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PHOTO_MAX_BYTES } from '../../src/core/photo.ts'
import type { Question } from '../../src/core/question.ts'
import { readFirmware } from '../../src/input/firmwareBytes.ts'
import type { Store } from '../../src/store/open.ts'
import { waitingReadings } from '../../src/store/ownerReadings.ts'
import { photosOfMachine } from '../../src/store/photos.ts'
import { changeOwner } from '../../src/uses/changeOwner.ts'
import { customerUsesOf, viewFromOwners } from '../../src/uses/customerViews.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { finishFitting } from '../../src/uses/jobs/finishFitting.ts'
import { startJob } from '../../src/uses/jobs/moveJob.ts'
import { makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { askFromOwnerPage, viewOwnerPage } from '../../src/uses/ownerPage.ts'
import { consentFromOwner, languageFromOwner, partFromOwner } from '../../src/uses/ownerPerson.ts'
import {
  previewOwnerReading,
  putReadingAside,
  readingFromOwner,
  viewOwnerReading,
} from '../../src/uses/ownerReading.ts'
import { PHOTOS_A_DAY, PHOTOS_A_QUESTION, viewPhoto } from '../../src/uses/photos.ts'
import { viewReading } from '../../src/uses/readTable.ts'
import { acceptReading } from '../../src/uses/readTableAccept.ts'
import { viewMachine, viewQuestion } from '../../src/uses/views.ts'
import { figuresOf } from '../../src/words/figures.ts'
import { sayHistory } from '../../src/words/ownerHistory.ts'
import { dumpWithoutLog } from '../store/temporaryStore.ts'
import { AT, copyOf, later, optionWith, shopFile, unwrapped } from './jobs/jobShop.ts'

// What an owner of the invented shop sends with a link: pictures beside a question, and their machine's own table.

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-sends-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

const TAG = 'M-0207'
const WHO = 'C-101'

async function withLink(): Promise<{ store: Store; token: string }> {
  const { store } = await copyOf(file)
  return { store, token: unwrapped(await makeOwnerLink(store, TAG, AT)).token }
}

const question: Omit<Question, 'id' | 'askedAt' | 'machineTag' | 'cameBy'> = {
  ...{ words: 'It got loud.', asks: 'something is wrong', complaint: 'loud', wanted: [] },
  ...{ display: {}, targetFps: 60, wishes: [] },
}

const bytesOf = (hex: string): Uint8Array => new Uint8Array(Buffer.from(hex, 'hex'))
/** The first bytes of a picture (W3C PNG, 5.2 and 11.2.1), and a text chunk with its check sum left open (11.3.3.2). */
const PNG = bytesOf('89504e470d0a1a0a')
const chunk = (type: string, data: string): Uint8Array => {
  const head = Buffer.alloc(4)
  head.writeUInt32BE(data.length)
  return Buffer.concat([head, Buffer.from(type + data, 'latin1'), Buffer.alloc(4)])
}
const told = new Uint8Array(
  Buffer.concat([PNG, chunk('IHDR', '1234567890123'), chunk('tEXt', 'GPS\0Mill Lane 4'), chunk('IEND', '')]),
)

describe('pictures beside a question', () => {
  test('stand with it for the shop, without where they were taken, and nowhere else', async () => {
    const { store, token } = await withLink()
    const { id } = unwrapped(await askFromOwnerPage(store, token, question, later(1), [told, told]))
    const view = unwrapped(await viewQuestion(store, id, later(2)))
    expect(view.photos.map(({ takenBy, mediaType }) => [takenBy, mediaType])).toEqual([
      ['owner', 'image/png'],
      ['owner', 'image/png'],
    ])
    const { bytes } = unwrapped(await viewPhoto(store, view.photos[0]?.id ?? ''))
    expect(Buffer.from(bytes).toString('latin1')).not.toContain('Mill Lane')
    expect(Buffer.from(bytes).toString('latin1')).toContain('IHDR')
    const own = unwrapped(await viewOwnerPage(store, token, later(2))).questions
    expect(own.map(({ words, photos }) => [words, photos])).toContainEqual([question.words, 2])
    expect(unwrapped(await viewQuestion(store, 'Q-0301', later(2))).photos).toEqual([])
  })

  test.each([
    ['no picture', [told, new TextEncoder().encode('<svg onload=x>')], 'unreadable'],
    ['one too large', [new Uint8Array(PHOTO_MAX_BYTES + 1).fill(0xff)], 'not allowed'],
    ['too many', Array.from({ length: PHOTOS_A_QUESTION + 1 }, () => told), 'too many'],
  ])('%s: nothing is kept, the question neither', async (_, photos, code) => {
    const { store, token } = await withLink()
    const before = await dumpWithoutLog(store)
    const asked = await askFromOwnerPage(store, token, question, later(1), photos)
    expect(asked.ok ? [] : asked.problems).toMatchObject([{ code, field: 'photo' }])
    expect(await dumpWithoutLog(store)).toEqual(before)
  })

  test('a day has an end to them, a question goes on without', async () => {
    const { store, token } = await withLink()
    const send = (minute: number, count: number) =>
      askFromOwnerPage(
        store,
        token,
        question,
        later(minute),
        Array.from({ length: count }, () => told),
      )
    for (let sent = 0; sent < PHOTOS_A_DAY; sent += PHOTOS_A_QUESTION)
      unwrapped(await send(1 + sent, PHOTOS_A_QUESTION))
    const over = await send(60, 1)
    expect(over.ok ? [] : over.problems).toMatchObject([{ code: 'conflict', field: 'photo' }])
    unwrapped(await send(61, 0))
    // A day after the first of them.
    unwrapped(await send(24 * 60 + 1, 1))
    expect(await photosOfMachine(store.db, TAG)).toHaveLength(PHOTOS_A_DAY + 1)
  })
})

const textOf = (name: string) =>
  readFile(fileURLToPath(new URL(`../../fixtures/readings/${name}`, import.meta.url)), 'utf8')
const tableOf = async (name: string) => unwrapped(readFirmware(await textOf(name), 'table'))
const A_YEAR_LATER = 'M-0207-a-year-later.txt'
const AT_SALE = 'M-0207-at-sale.txt'

describe('a new reading', () => {
  test('is looked at first and stores nothing; sent, it waits and the machine stays as it is', async () => {
    const { store, token } = await withLink()
    const before = await dumpWithoutLog(store)
    const table = await tableOf(A_YEAR_LATER)
    // fixtures/README.md: a second module in the other channel, and newer firmware.
    const proposal = unwrapped(await previewOwnerReading(store, token, table, later(1)))
    expect(proposal.parts.filter(({ standing }) => standing === 'added')).toMatchObject([{ kind: 'memory' }])
    expect(await dumpWithoutLog(store)).toEqual(before)

    unwrapped(await readingFromOwner(store, token, table, later(2)))
    const { owner_readings: sent, ...rest } = await dumpWithoutLog(store)
    const { owner_readings: none, ...unchanged } = before
    expect(none).toEqual([])
    expect(sent).toHaveLength(1)
    expect(rest).toEqual(unchanged)
    expect((await viewFromOwners(store.db))?.readings).toMatchObject([
      { tag: TAG, name: 'Odile Marchbank', at: later(2) },
    ])
    expect(unwrapped(await viewMachine(store, TAG, later(3))).ownerReadings).toMatchObject([{ at: later(2) }])
  })

  test('a newer one takes its place; taken by the shop it is a reading, and its owner is told', async () => {
    const { store, token } = await withLink()
    unwrapped(await readingFromOwner(store, token, await tableOf(AT_SALE), later(1)))
    const table = await tableOf(A_YEAR_LATER)
    unwrapped(await readingFromOwner(store, token, table, later(2)))
    const [waits, ...more] = await waitingReadings(store.db, TAG)
    expect(more).toEqual([])
    const { id = '' } = waits ?? {}
    const found = unwrapped(await viewOwnerReading(store, TAG, id))
    expect(found.table).toEqual(table)
    const { basis, proposal } = unwrapped(await viewReading(store, TAG, found.table))
    const firmware = proposal.limits.find(({ key }) => key === 'firmware')?.id ?? ''
    const choices = { basis, parts: new Map(), limits: new Set([firmware]), fromOwner: id }
    unwrapped(await acceptReading(store, TAG, found.table, choices, later(3)))
    expect(await viewFromOwners(store.db)).toBeUndefined()
    const page = unwrapped(await viewOwnerPage(store, token, later(4)))
    expect(page.reading).toMatchObject({ at: later(2), takenAt: later(3) })
    expect(page.limits.firmware).toMatchObject({ known: true, value: '1.40' })
    // And it stands in the machine's history, with what was known before.
    const said = sayHistory(page.history, (title) => title, figuresOf(page.shop, undefined))
    expect(said[0]?.lines).toContain('Firmware: 1.40, before 1.20.')
    expect(said[0]?.lines).toContain('Its own table was read.')
    expect((await viewOwnerReading(store, TAG, id)).ok).toBe(false)
  })

  test('put aside it changes nothing; another machine’s page, and a second press, do nothing', async () => {
    const { store, token } = await withLink()
    unwrapped(await readingFromOwner(store, token, await tableOf(A_YEAR_LATER), later(1)))
    const [{ id } = { id: '' }] = await waitingReadings(store.db)
    expect((await viewOwnerReading(store, 'M-0195', id)).ok).toBe(false)
    expect((await putReadingAside(store, 'M-0195', id, later(2))).ok).toBe(false)
    expect((await putReadingAside(store, TAG, 'x; drop', later(2))).ok).toBe(false)
    expect(await waitingReadings(store.db)).toHaveLength(1)
    unwrapped(await putReadingAside(store, TAG, id, later(2)))
    expect((await putReadingAside(store, TAG, id, later(3))).ok).toBe(false)
    const page = unwrapped(await viewOwnerPage(store, token, later(4)))
    expect(page.reading).toMatchObject({ asideAt: later(2) })
    expect(page.limits.firmware).toMatchObject({ value: '1.20' })
  })

  test('behind a link that shows nothing any more nothing is sent; the next owner sees nothing of it', async () => {
    const { store, token } = await withLink()
    const table = await tableOf(A_YEAR_LATER)
    unwrapped(await readingFromOwner(store, token, table, later(1)))
    unwrapped(await partFromOwner(store, token, later(2)))
    expect((await readingFromOwner(store, token, table, later(3))).ok).toBe(false)
    expect((await previewOwnerReading(store, token, table, later(3))).ok).toBe(false)
    expect((await askFromOwnerPage(store, token, question, later(3), [told])).ok).toBe(false)
    unwrapped(await changeOwner(store, TAG, { ownerName: 'Petra Quill' }, later(4)))
    const next = unwrapped(await makeOwnerLink(store, TAG, later(5))).token
    const page = unwrapped(await viewOwnerPage(store, next, later(6)))
    expect(page.reading).toBeUndefined()
    expect(JSON.stringify(page)).not.toContain('Odile')
  })
})

test('erased, no picture and no table of the person is left anywhere; the record has both before', async () => {
  const { store, token } = await withLink()
  unwrapped(await askFromOwnerPage(store, token, { ...question, words: 'Ottilie asks.' }, later(1), [told]))
  unwrapped(await readingFromOwner(store, token, await tableOf(A_YEAR_LATER), later(2)))
  const uses = customerUsesOf(store, () => later(3))
  const record = unwrapped(await uses.exportCustomer(WHO))
  expect(record.photos.map(({ takenBy, bytes }) => [takenBy, bytes !== undefined])).toEqual([['owner', true]])
  expect(record.readings).toEqual([{ machineTag: TAG, at: later(2), takenAt: undefined, asideAt: undefined }])
  expect(unwrapped(await uses.customerKept(WHO)).gone).toMatchObject({ photos: 1, readings: 1 })
  unwrapped(await uses.eraseCustomer(WHO, true))
  const after = await dumpWithoutLog(store)
  expect(after.photos).toEqual([])
  expect(after.owner_readings).toEqual([])
  for (const trace of ['Odile', 'Ottilie', 'Mill Lane']) expect(JSON.stringify(after)).not.toContain(trace)
})

test('what was promised to this owner and measured stands in the history, to the next owner only the parts', async () => {
  const { store, token } = await withLink()
  await store.db.run(sql`delete from runs where title_id <> 'saffron'`)
  const { id } = await optionWith(store, 'Q-0301', ['S-601'])
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', id, { fittedBy: 'shop' }, later(1)))
  unwrapped(await startJob(store, jobId, later(2)))
  unwrapped(await finishFitting(store, jobId, {}, later(3)))
  const page = unwrapped(await viewOwnerPage(store, token, later(4)))
  const linesOf = (one: typeof page) =>
    sayHistory(one.history, (title) => title, figuresOf(one.shop, { language: one.chosen }))
      .flatMap(({ lines }) => lines)
      .join('\n')
  expect(linesOf(page)).toContain('Taken out: graphics card Hobbin Gimlet 4G.')
  expect(linesOf(page)).toContain('Fitted: graphics card Hobbin Spokeshave 8G.')
  expect(linesOf(page)).toMatch(
    /saffron: We said \d+\sFPS, between \d+ and \d+\sFPS\. Nobody measured it yet/,
  )
  expect(JSON.stringify(page.history)).not.toMatch(/Minor|S-601|note/)

  await store.db.run(sql`update jobs set state = 'done' where id = ${jobId}`)
  unwrapped(await changeOwner(store, TAG, { ownerName: 'Petra Quill' }, later(5)))
  const next = unwrapped(await makeOwnerLink(store, TAG, later(6))).token
  const seen = linesOf(unwrapped(await viewOwnerPage(store, next, later(7))))
  expect(seen).toContain('Fitted: graphics card Hobbin Spokeshave 8G.')
  expect(seen).not.toContain('We said')
})

test('in German the page and what a yes is to are German, mails too from then on, and back again', async () => {
  const { store, token } = await withLink()
  unwrapped(await languageFromOwner(store, token, 'de', later(1)))
  const page = unwrapped(await viewOwnerPage(store, token, later(2)))
  expect(page).toMatchObject({ language: 'de', chosen: 'de', person: { language: 'de' } })
  const wording = page.person?.wording ?? ''
  expect(wording).toMatch(/^Brockhollow Computers darf mir Mails .* schreiben/)
  // The words that were on the page in English are not those of this page any more.
  const english = 'Brockhollow Computers may write to me by mail'
  expect((await consentFromOwner(store, token, { yes: true, wording: english }, later(3))).ok).toBe(false)
  unwrapped(await consentFromOwner(store, token, { yes: true, wording }, later(3)))
  const { record } = unwrapped(await customerUsesOf(store, () => later(4)).customer(WHO))
  expect(record.customer.language).toBe('de')
  expect(record.consents.at(-1)).toMatchObject({ standing: 'given', wording, language: 'de' })
  unwrapped(await languageFromOwner(store, token, 'en', later(5)))
  expect(unwrapped(await viewOwnerPage(store, token, later(6))).language).toBe('en')
})
