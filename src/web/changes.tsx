import type { Context, Hono } from 'hono'
import { CHANGE_KINDS, CHANGES_KEPT_DAYS, type Change, type TypedSearch } from '../uses/changes.ts'
import { CHANGES_EN as W } from '../words/en/changes.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, Select, type Typed } from './form.tsx'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'

const FIELDS = ['by', 'kind', 'record', 'from', 'until'] as const

const searchIn = (c: Context): TypedSearch => ({
  ...Object.fromEntries(FIELDS.map((name) => [name, c.req.query(name)])),
  before: c.req.query('before'),
})

/** The same search in an address, with what is other. */
function query(search: TypedSearch, more: Readonly<Record<string, string>> = {}): string {
  const params = new URLSearchParams()
  for (const name of FIELDS) {
    const value = search[name]
    if (value !== undefined && value !== '') params.set(name, value)
  }
  for (const [name, value] of Object.entries(more)) params.set(name, value)
  const text = params.toString()
  return text === '' ? '' : `?${text}`
}

const kindWords = (kind: string): string =>
  Object.hasOwn(W.kinds, kind) ? W.kinds[kind as keyof typeof W.kinds] : kind

const Line = ({ change, figures }: { change: Change; figures: Figures }) => (
  <tr>
    <td>{figures.dateTime(change.at)}</td>
    <td data-label={W.kind}>
      <b>{kindWords(change.kind)}</b> {W.whats[change.what]}
      {change.record !== undefined && <small class="block">{change.record}</small>}
      {change.rows !== 1 && <small class="block">{fill(W.rows, { rows: figures.count(change.rows) })}</small>}
      {change.fields !== undefined && change.fields !== '' && (
        <small class="block">{change.fields.replaceAll(',', ', ').replaceAll('_', ' ')}</small>
      )}
    </td>
    <td data-label={W.by}>{change.by ?? <span class="soft">{W.nobody}</span>}</td>
  </tr>
)

/** Who changed what, for the owner. */
export function changeRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/settings/changes', async (c) => {
    const search = searchIn(c)
    const [shop, view] = await Promise.all([uses.shop(), uses.changes(search)])
    const figures = figuresOf(shop)
    const typed: Typed = new Map(FIELDS.map((name) => [name, [search[name] ?? '']]))
    const unread = view.unread.map((name) => W[name])
    return page(
      c,
      { title: W.title, place: 'Settings', demo: options.demo, shopName: shop.name },
      <div class="stack">
        <div class="head">
          <h1>{W.title}</h1>
          <a href="/settings">Back to the settings</a>
        </div>
        <p class="hint">
          {fill(W.lead, { days: String(CHANGES_KEPT_DAYS) })} {W.imports} {W.signIns}
        </p>
        <form method="get" action="/settings/changes" class="card form">
          <div class="grid">
            <Field name="by" label={W.by} hint={W.byHint} typed={typed} problems={[]} />
            <Select
              name="kind"
              label={W.kind}
              choices={[['', W.all], ...CHANGE_KINDS.map((kind) => [kind, kindWords(kind)] as const)]}
              typed={typed}
              problems={[]}
            />
            <Field name="record" label={W.record} hint={W.recordHint} typed={typed} problems={[]} />
            <Field name="from" label={W.from} hint={W.dayHint} typed={typed} problems={[]} narrow />
            <Field name="until" label={W.until} hint={W.dayHint} typed={typed} problems={[]} narrow />
          </div>
          {unread.length > 0 && <p role="alert">{fill(W.unread, { fields: unread.join(', ') })}</p>}
          <p class="actions">
            <button class="button" type="submit">
              {W.find}
            </button>
            <a href={`/settings/changes.csv${query(search)}`}>{W.save}</a>
          </p>
        </form>
        {view.changes.length === 0 ? (
          <p class="card empty">{W.none}</p>
        ) : (
          <table class="list">
            <thead>
              <tr>
                <th scope="col">{W.when}</th>
                <th scope="col">{W.kind}</th>
                <th scope="col">{W.by}</th>
              </tr>
            </thead>
            <tbody>
              {view.changes.map((change) => (
                <Line change={change} figures={figures} />
              ))}
            </tbody>
          </table>
        )}
        {view.olderThan !== undefined && (
          <p class="actions">
            <a
              class="button quiet"
              href={`/settings/changes${query(search, { before: String(view.olderThan) })}`}
            >
              {W.older}
            </a>
          </p>
        )}
      </div>,
    )
  })

  app.get('/settings/changes.csv', async (c) => {
    const text = await uses.changesTable(searchIn(c))
    await uses.noteAccess({ what: 'table exported', by: nameOf(who(c)), about: 'changes' })
    return c.body(text, 200, {
      'Content-Type': 'text/csv; charset=utf-8; header=present',
      'Content-Disposition': 'attachment; filename="changes.csv"',
    })
  })
}
