import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { is, sql } from 'drizzle-orm'
import { toSnakeCase } from 'drizzle-orm/casing'
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core'
import { extractText, getDocumentProxy } from 'unpdf'
import { afterAll, beforeAll, expect, test } from 'vitest'
import * as schema from '../../../db/schema.ts'
import { LEAVABLE } from '../../../src/core/sale/steps.ts'
import { openStore, type Store } from '../../../src/store/open.ts'
import { caseLabel } from '../../../src/uses/caseLabels.ts'
import { changeOwner } from '../../../src/uses/changeOwner.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { makeOwnerLink } from '../../../src/uses/ownerLinks.ts'
import { sellUsesOf } from '../../../src/uses/sellUses.ts'
import { prepareMessage, toldOwner } from '../../../src/uses/writeMessage.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { RIGHTS } from '../../../src/web/access/rights.ts'
import { createApp } from '../../../src/web/app.ts'
import { AT, later, optionWith, shopFile, unwrapped } from '../../uses/jobs/jobShop.ts'
import { FROM_OUR_PAGE, ORIGIN } from '../serve.ts'
import { asOwner } from '../signedIn.ts'
import { wordColumns } from './hostile.ts'

// A shop in which every field of words and every amount holds a mark of its own. Whoever reads the label on a case, or has
// an owner's link, meets the marks of a short list of fields and no other. It waits on a gain fit, which is slow on a loaded computer.

type Named = { readonly table: string; readonly column: string }
type Field = Named & { readonly row: number }

/** Letters and figures only, so that it comes through HTML, PDF and JSON as it is. */
const MARK = /zq(\d+)q(\d+)qz/g

const words: readonly Named[] = wordColumns()
  .filter(({ isKey }) => !isKey)
  .map(({ table, column }) => ({ table, column }))

const amounts: readonly Named[] = Object.values(schema).flatMap((table) => {
  if (!is(table, SQLiteTable)) return []
  const { name, columns } = getTableConfig(table)
  return columns
    .map(({ name: column }) => toSnakeCase(column))
    .filter((column) => column.endsWith('_minor'))
    .map((column) => ({ table: name, column }))
})

/** Words in every row, also where there were none; but not in these tables. */
async function markWords(store: Store, but: readonly string[] = []): Promise<void> {
  await store.write(async (tx) => {
    // Words of consents and of changes never change but here.
    await tx.run(sql`drop trigger if exists consents_only_added`)
    await tx.run(sql`drop trigger if exists changes_only_added`)
    for (const [n, { table, column }] of words.entries()) {
      if (but.includes(table)) continue
      const end = column === 'email' ? '@example.org' : ''
      const [t, c] = [sql.identifier(table), sql.identifier(column)]
      await tx.run(sql`update ${t} set ${c} = ${`zq${n}q`} || rowid || ${`qz${end}`}`)
    }
  })
}

/** From here on amounts are counted; nothing else in the shop is so large. */
const AMOUNT = 71_300_000

async function markAmounts(store: Store): Promise<number> {
  await store.write(async (tx) => {
    // A table at a time, because prices of a range are held against each other.
    for (const table of new Set(amounts.map((field) => field.table))) {
      const set = amounts.flatMap((field, n) =>
        field.table === table ? [sql`${sql.identifier(field.column)} = ${AMOUNT + n * 10_000} + rowid`] : [],
      )
      await tx.run(sql`update ${sql.identifier(table)} set ${sql.join(set, sql`, `)}`)
    }
  })
  let rows = 0
  for (const { table } of amounts) {
    const [{ count } = { count: 0 }] = await store.db.all<{ count: number }>(
      sql`select count(*) as count from ${sql.identifier(table)}`,
    )
    rows += count
  }
  return rows
}

/** Every mark in a text. */
const fieldsIn = (text: string): Field[] =>
  [...text.matchAll(MARK)].flatMap(([, n, row]) => {
    const field = words[Number(n)]
    return field === undefined ? [] : [{ ...field, row: Number(row) }]
  })
/** Figures that are an amount, with or without signs between thousands and decimals. */
const amountsIn = (text: string): string[] =>
  text.replaceAll(/(?<=\d)[,.\u00a0\u202f](?=\d)/g, '').match(/\b71[3-9]\d{5}\b|\b71[3-9]\d{3}\b/g) ?? []

const TAG = 'M-0207'
const RESOLD = 'M-0195'

async function markedShop() {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-seen-'))
  const store = await openStore(`file:${await shopFile(folder)}`)
  const close = async () => {
    await store.close()
    await rm(folder, { recursive: true, force: true })
  }
  // With the runs of one title the fit is quick.
  await store.db.run(sql`delete from runs where title_id <> 'saffron'`)
  const { id } = await optionWith(store, 'Q-0301', ['S-601'])
  await markWords(store)
  const { messageId } = unwrapped(await prepareMessage(store, 'Q-0301', undefined, AT))
  unwrapped(await toldOwner(store, messageId, later(1)))
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', id, { fittedBy: 'owner' }, later(2)))
  const sell = sellUsesOf(store, () => later(3))
  unwrapped(await sell.startSale(TAG))
  for (const step of LEAVABLE) await sell.leaveOutStep(TAG, step, true)
  unwrapped(await sell.handOver(TAG))
  const sold = await ofMachine(store, RESOLD)
  unwrapped(await changeOwner(store, RESOLD, { ownerName: 'Newcomer' }, later(4)))
  // What the work above wrote gets its marks too; messages have theirs, from what they were written of.
  await markWords(store, ['messages'])
  const links = {
    own: unwrapped(await makeOwnerLink(store, TAG, later(5))).token,
    resold: unwrapped(await makeOwnerLink(store, RESOLD, later(5))).token,
  }
  const code = unwrapped(await caseLabel(store, TAG, later(5))).code
  const rows = await markAmounts(store)
  const uses = { ...usesOf(store), now: () => later(6) }
  return {
    ...{ store, close, links, code, jobId, rows, sold, own: await ofMachine(store, TAG) },
    app: createApp(uses, { demo: false }),
    staff: createApp(uses, { demo: false, ...asOwner }),
  }
}

/** Rows of a machine's owner and of the questions about it. */
async function ofMachine({ db }: Store, tag: string): Promise<{ customers: number[]; questions: number[] }> {
  const rowsOf = async (query: ReturnType<typeof sql>) =>
    (await db.all<{ row: number }>(query)).map(({ row }) => row)
  return {
    customers: await rowsOf(
      sql`select c.rowid as row from customers c join machines m on m.customer_id = c.id where m.tag = ${tag}`,
    ),
    questions: await rowsOf(sql`select rowid as row from questions where machine_tag = ${tag}`),
  }
}

let shop: Awaited<ReturnType<typeof markedShop>>
beforeAll(async () => {
  shop = await markedShop()
})
afterAll(() => shop.close())

type Seen = { readonly method: string; readonly path: string; readonly status: number; readonly text: string }

/** What is answered, as text; a paper by what can be selected in it. */
async function see(path: string, method = 'GET', app = shop.app): Promise<Seen> {
  const sent = method === 'GET' ? {} : { method, body: new URLSearchParams(), headers: FROM_OUR_PAGE }
  const answer = await app.request(`${ORIGIN}${path}`, sent)
  const { status } = answer
  if (!answer.headers.get('content-type')?.includes('pdf'))
    return { method, path, status, text: await answer.text() }
  const paper = await getDocumentProxy(new Uint8Array(await answer.arrayBuffer()))
  return { method, path, status, text: (await extractText(paper, { mergePages: true })).text }
}

/** Every route that begins so, looked at or sent to with nothing typed. */
async function seeAll(begin: '/l/' | '/o/', key: string): Promise<Seen[]> {
  const seen: Seen[] = []
  for (const { method, path } of RIGHTS)
    if (path.startsWith(begin) && !path.endsWith('*'))
      seen.push(await see(path.replace(/:(?:code|token)/, key).replace(':job', shop.jobId), method))
  return seen
}

const nameOf = ({ table, column }: Named): string => `${table}.${column}`
const namesIn = (seen: readonly Seen[]): string[] =>
  [...new Set(seen.flatMap(({ text }) => fieldsIn(text)).map(nameOf))].sort()

/** A machine, what it ran, and whose name stands on the sheet. */
const MACHINE_FACTS = [
  ...['parts.name', 'titles.name', 'settings.preset', 'settings.upscaler'],
  ...['warranties.ends_with', 'shops.name', 'shops.email'],
]
/** Besides: who they are, what they asked, who answers, and games to choose from. */
const OWNERS_OWN = ['customers.name', 'questions.words', 'shops.builder', 'settings.lowered_what']

/** What the copy of a person adds: how they are reached, what they said, and what the shop noted about them. */
const OF_THE_PERSON = [
  ...['customers.email', 'customers.phone', 'consents.wording', 'messages.told_text', 'owner_reports.note'],
  ...['questions.part_in_mind', 'handed_sheets.subject', 'handed_sheets.message'],
  ...['customers.note', 'jobs.note', 'owner_requests.note', 'photos.note'],
]
const OWN_AMOUNTS = new Set([
  ...['jobs.agreed_minor', 'jobs.deposit_minor', 'jobs.settled_minor', 'questions.budget_minor'],
])

const without = (seen: readonly Seen[], others: readonly Seen[]): Seen[] =>
  seen.filter((one) => !others.includes(one))

/** The field an amount stands in; the figure itself where it is none of ours. */
const nameOfAmount = (figure: string): string => {
  const field = amounts[Math.floor((Number(figure) - AMOUNT) / 10_000)]
  return field === undefined ? figure : nameOf(field)
}

/** Whatever else is seen, with where. */
const tooMuch = (seen: readonly Seen[], may: readonly string[]): string[] =>
  seen.flatMap(({ path, text }) => [
    ...fieldsIn(text)
      .map(nameOf)
      .filter((name) => !may.includes(name))
      .map((name) => `${path}: ${name}`),
    ...amountsIn(text).map((amount) => `${path}: ${nameOfAmount(amount)}`),
  ])

const rowsIn = (seen: readonly Seen[], table: string): number[] => [
  ...new Set(seen.flatMap(({ text }) => fieldsIn(text)).flatMap((f) => (f.table === table ? [f.row] : []))),
]

test('there are marks to be seen: the shop itself meets notes, addresses and amounts', async () => {
  expect(words.length).toBeGreaterThan(40)
  expect(amounts.map(nameOf)).toContain('sale_parts.cost_minor')
  expect(shop.rows).toBeGreaterThan(50)
  const seen = await Promise.all(
    [`/machines/${TAG}`, `/sell/${TAG}`, '/questions/Q-0301', `/jobs/${shop.jobId}`].map((path) =>
      see(path, 'GET', shop.staff),
    ),
  )
  expect(namesIn(seen)).toEqual(expect.arrayContaining(['machines.note', 'customers.name', 'jobs.note']))
  expect(tooMuch(seen, MACHINE_FACTS).length).toBeGreaterThan(10)
  expect(seen.flatMap(({ text }) => amountsIn(text)).length).toBeGreaterThan(5)
})

test('a label on a case opens facts of its machine, and nobody and no money', async () => {
  const seen = await seeAll('/l/', shop.code)
  expect(seen.map(({ status }) => status)).toEqual([200, 200])
  expect(namesIn(seen)).toEqual(expect.arrayContaining(['parts.name', 'shops.name', 'titles.name']))
  expect(tooMuch(seen, MACHINE_FACTS)).toEqual([])
  for (const { text } of seen) {
    expect(text).toContain(TAG)
    expect(otherTagsIn(text)).toEqual([])
  }
  const label = await see(`/machines/${TAG}/label.pdf?size=62x29`, 'GET', shop.staff)
  expect(label.status).toBe(200)
  expect(label.text).toContain(TAG)
  expect(tooMuch([label], ['shops.name'])).toEqual([])
})

test('an owner’s link shows their own name and questions, and of other people and money nothing', async () => {
  const seen = await seeAll('/o/', shop.links.own)
  const looked = seen.filter(({ method }) => method === 'GET')
  expect(looked.map(({ status }) => status)).toEqual(looked.map(() => 200))
  expect(namesIn(seen)).toEqual(expect.arrayContaining(['customers.name', 'questions.words', 'parts.name']))
  const copies = seen.filter(({ path }) => /\/mine(?:\.json)?$/.test(path))
  expect(copies).toHaveLength(2)
  expect(tooMuch(without(seen, copies), [...MACHINE_FACTS, ...OWNERS_OWN, 'consents.wording'])).toEqual([])
  // The copy of what is kept of them has their own particulars, and what they agreed to pay.
  const kept = [...MACHINE_FACTS, ...OWNERS_OWN, ...OF_THE_PERSON]
  expect(tooMuch(copies, kept).filter((found) => !OWN_AMOUNTS.has(found.split(': ')[1] ?? ''))).toEqual([])
  expect(namesIn(copies)).toEqual(
    expect.arrayContaining(['customers.email', 'customers.phone', 'customers.note']),
  )
  expect(rowsIn(seen, 'customers')).toEqual(shop.own.customers)
  for (const row of rowsIn(seen, 'questions')) expect(shop.own.questions).toContain(row)
  for (const { text } of seen) expect(otherTagsIn(text)).toEqual([])
})

test('whoever has the machine now sees nothing of who had it, asked or was told before', async () => {
  const seen = await seeAll('/o/', shop.links.resold)
  expect(shop.sold.questions.length).toBeGreaterThan(0)
  expect(tooMuch(seen, [...MACHINE_FACTS, ...OWNERS_OWN, ...OF_THE_PERSON])).toEqual([])
  expect(rowsIn(seen, 'questions')).toEqual([])
  for (const row of shop.sold.customers) expect(rowsIn(seen, 'customers')).not.toContain(row)
  // A job of another machine is none of theirs.
  expect(seen.find(({ path }) => path.includes('/sheets/'))?.status).toBe(404)
})

/** Tags of machines as the invented shop has them, but this one's. */
const otherTagsIn = (text: string): string[] =>
  [...text.matchAll(/\bM-\d{4}\b/g)].map(([tag]) => tag).filter((tag) => tag !== TAG)
