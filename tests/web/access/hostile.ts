import { is, type SQL, sql } from 'drizzle-orm'
import { toSnakeCase } from 'drizzle-orm/casing'
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core'
import { parse } from 'parse5'
import * as schema from '../../../db/schema.ts'
import type { Store } from '../../../src/store/open.ts'

/** Marks that nothing of ours has: an element, an attribute, a header, a script, a placeholder. */
const MARKUP =
  '"><zz-tag zz-attr="1" onclick="zz()">\'"`</textarea></title></zz-tag><script>zz()</script><img src=zz: onerror=zz()>{{zz}} #{zz} <!-- & &amp;lt; \u202ezz\u2066'
/** Fields are filled with each of these in turn. */
export const HOSTILE = {
  markup: MARKUP,
  'line breaks': `zz\r\nX-Zz: 1\r\n\r\n<zz-tag>${MARKUP}`,
  'an address that runs': 'javascript:zz()//\u202e',
} as const

/** Words of closed lists, instants, hashes and what only the program itself writes; all else is somebody's own words. */
const NOT_WORDS = new Set([
  ...[
    'shops.locale',
    'shops.time_zone',
    'shops.currency',
    'parts.kind',
    'limits.key',
    'limits.source',
    'past_limits.key',
    'past_limits.source',
  ],
  ...['shelf_items.condition', 'findable_parts.condition', 'work_prices.work', 'runs.memory_type'],
  ...['questions.asks', 'questions.came_by'],
  ...['questions.complaint', 'questions.state', 'messages.kind', 'messages.status', 'messages.html'],
  ...[
    'messages.text',
    'owner_requests.limit_key',
    'owner_requests.state',
    'photos.taken_by',
    'photos.media_type',
  ],
  ...['jobs.fitted_by', 'jobs.state', 'parts_out.outcome', 'warranties.given_by', 'state_changes.about'],
  ...[
    'state_changes.from',
    'state_changes.to',
    'accounts.role',
    'accounts.name_key',
    'accounts.password_hash',
  ],
  ...['api_tokens.scope', 'jobs.option_id', 'state_changes.ref', 'warranties.from', 'warranties.until'],
  ...['former_owners.until', 'jobs.booked_for', 'access_log.what', 'access_log.place'],
  ...['changes.what'],
  ...['consents.kind', 'consents.standing', 'consents.source', 'consents.language', 'erase_requests.source'],
])
const isClosed = (column: string): boolean =>
  NOT_WORDS.has(column) || /(?:_at|\.at|_hash|\.sha256)$/.test(column)

type Column = { readonly table: string; readonly column: string; readonly isKey: boolean }

/** Every column that holds somebody's own words or the shop's own keys. */
export function wordColumns(): Column[] {
  return Object.values(schema).flatMap((table) => {
    if (!is(table, SQLiteTable)) return []
    const { name, columns, foreignKeys, primaryKeys } = getTableConfig(table)
    const refers = new Set(
      foreignKeys.flatMap((key) => key.reference().columns.map((c) => toSnakeCase(c.name))),
    )
    const keys = new Set(primaryKeys.flatMap((key) => key.columns.map((c) => toSnakeCase(c.name))))
    return columns
      .filter((c) => c.columnType === 'SQLiteText')
      .map((c) => ({ c, column: toSnakeCase(c.name) }))
      .filter(({ column }) => !isClosed(`${name}.${column}`))
      .map(({ c, column }) => ({
        ...{ table: name, column },
        isKey: c.primary || keys.has(column) || refers.has(column),
      }))
  })
}

/** Fills every such column: keys keep their beginning, so that what refers to them still does; words go altogether. */
export async function fillWith(store: Store, text: string): Promise<void> {
  await store.write(async (tx) => {
    await tx.run(sql`pragma defer_foreign_keys = on`)
    // Words of consents and of changes never change but here.
    await tx.run(sql`drop trigger if exists consents_only_added`)
    await tx.run(sql`drop trigger if exists changes_only_added`)
    for (const { table, column, isKey } of wordColumns()) {
      const place = sql.identifier(column)
      const value: SQL = isKey ? sql`${place} || ${text}` : sql`${text}`
      await tx.run(sql`update ${sql.identifier(table)} set ${place} = ${value} where ${place} is not null`)
    }
  })
}

type Node = {
  readonly nodeName: string
  readonly tagName?: string
  readonly attrs?: readonly { readonly name: string; readonly value: string }[]
  readonly childNodes?: readonly Node[]
  readonly content?: Node
  readonly value?: string
}

const elementsIn = (node: Node): Node[] => [
  ...(node.tagName === undefined ? [] : [node]),
  ...(node.childNodes ?? []).flatMap(elementsIn),
  ...(node.content === undefined ? [] : elementsIn(node.content)),
]

/** The page as a browser builds it (HTML Standard, 13.2; parse5 follows it). */
export const elementsOf = (html: string): Node[] => elementsIn(parse(html) as unknown as Node)

const ADDRESSES = [
  'href',
  'src',
  'action',
  'formaction',
  'data',
  'poster',
  'xlink:href',
  'srcdoc',
  'cite',
  'ping',
]
/** What our own addresses begin with; a browser drops control characters and space before it looks (URL Standard, 4.4). */
const OURS = /^(?:\/(?![/\\])|#|\?|mailto:|tel:|$)/

/** What in a page came from data and is more than text. */
export function breachesIn(html: string, isMail = false): string[] {
  return elementsOf(html).flatMap(({ tagName = '', attrs = [] }) => {
    const at = (name: string) => attrs.find((a) => a.name === name)?.value
    const found: string[] = []
    if (/zz/.test(tagName)) found.push(`<${tagName}>`)
    if (tagName === 'script' && !/^\/assets\/app\.js\?v=[0-9a-f]{12}$/.test(at('src') ?? ''))
      found.push('<script>')
    if (['object', 'embed', 'base', 'link'].includes(tagName) && !/^\/assets\//.test(at('href') ?? ''))
      if (!isMail || tagName !== 'link') found.push(`<${tagName}>`)
    if (tagName === 'img' && !/^(?:\/photos\/|\/o\/|data:image\/)/.test(at('src') ?? '')) found.push('<img>')
    for (const { name, value } of attrs) {
      if (/^on|zz/.test(name)) found.push(`${tagName} ${name}=`)
      const plain = [...value].filter((sign) => sign > ' ').join('')
      if (
        ADDRESSES.includes(name) &&
        tagName !== 'img' &&
        !OURS.test(plain) &&
        !(isMail && /^https?:/.test(plain))
      )
        found.push(`${tagName} ${name}="${value.slice(0, 60)}"`)
    }
    return found
  })
}

/** Forms of a page: where each is sent, and the names of its fields with what stands in them. */
export function formsIn(
  html: string,
): { readonly action: string; readonly fields: ReadonlyMap<string, string> }[] {
  return elementsOf(html)
    .filter(({ tagName, attrs = [] }) => tagName === 'form' && attrs.some((a) => a.name === 'method'))
    .map((form) => ({
      action: form.attrs?.find((a) => a.name === 'action')?.value ?? '',
      fields: new Map(
        elementsIn(form).flatMap(({ attrs = [] }) => {
          const name = attrs.find((a) => a.name === 'name')?.value
          return name === undefined ? [] : [[name, attrs.find((a) => a.name === 'value')?.value ?? '']]
        }),
      ),
    }))
}

const RIGHT_LETTER = /[\p{Script=Hebrew}\p{Script=Arabic}]/u

/**
 * Text of a page from right to left that is not kept apart: neither in a <bdi> (HTML Standard, 4.5.24) nor between the
 * signs for that (UAX #9, 2.7); and every other sign that turns directions. What stands in a text field is the person's.
 */
export function looseIn(html: string): string[] {
  const found: string[] = []
  const walk = (node: Node, isApart: boolean): void => {
    const name = node.tagName ?? ''
    if (['textarea', 'script', 'style'].includes(name)) return
    const text = (node.value ?? '').replaceAll(/\u2068[^\u2068\u2069]*\u2069/gu, '')
    if (node.nodeName === '#text' && !isApart && RIGHT_LETTER.test(text))
      found.push(`text ${text.slice(0, 60)}`)
    if (/\p{Bidi_Control}/u.test(text)) found.push(`a sign in ${text.slice(0, 60)}`)
    for (const { name: attr, value } of node.attrs ?? [])
      if (/\p{Bidi_Control}/u.test(value)) found.push(`a sign in ${attr}`)
    for (const child of node.childNodes ?? []) walk(child, isApart || name === 'bdi')
    if (node.content !== undefined) walk(node.content, isApart)
  }
  walk(parse(html) as unknown as Node, false)
  return found
}
