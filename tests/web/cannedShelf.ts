import type { AnswerInputs } from '../../src/core/answer.ts'
import type { ShelfItem } from '../../src/core/shop.ts'
import { failed, ok, type Problem } from '../../src/problem.ts'
import { type ItemEdit, itemMark } from '../../src/uses/shelfItem.ts'
import type { ShelfUses } from '../../src/web/shelfUses.ts'
import type { PageState } from './states.ts'

/** S-3 had another price and count; S-5 is put aside for a job, all of it; S-6 was taken off. */
function editsOf(item: ShelfItem): ItemEdit[] {
  const dearer = { ...item, quantity: item.quantity + 1, priceMinor: item.priceMinor + 1500 }
  const removedAt = '2026-06-10T17:00:00.000Z'
  const put = {
    ...{ id: '1', at: '2026-01-10T18:00:00.000Z', after: { item: dearer } },
    before: { item: { ...dearer, quantity: 0 }, removedAt: '2026-01-10T18:00:00.000Z' },
  }
  const changed = { id: '2', at: item.at, before: { item: dearer }, after: { item } }
  const off = {
    ...{ id: '3', at: removedAt, before: { item }, because: 'scrapped' as const },
    after: { item: { ...item, quantity: 0 }, removedAt },
  }
  return item.id === 'S-3' ? [put, changed] : item.id === 'S-6' ? [put, changed, off] : []
}

/** Items of the shelf as their pages read them; `calls` notes what was asked to change. */
export function cannedShelfUses(from: AnswerInputs, calls: unknown[][]): ShelfUses {
  return {
    partsToPut: async (query) => {
      const words = query.toLowerCase()
      const found = words === '' ? [] : from.parts.filter(({ name }) => name.toLowerCase().includes(words))
      const lines = found.slice(0, 20).map((part) => ({
        part,
        shelf: from.shelf
          .filter(({ partId }) => partId === part.id)
          .map((item) => ({ item, part, standing: item.quantity, putAside: [] })),
      }))
      return { lines, total: found.length }
    },
    putOnShelf: async (part, typed) => {
      calls.push(['putOnShelf', part, typed])
      return ok({ id: 'S-3', editId: '2' })
    },
    changeShelfItem: async (id, change) => {
      calls.push(['changeShelfItem', id, change])
      return ok({ id, editId: '2' })
    },
    takeOffShelf: async (id, off) => {
      calls.push(['takeOffShelf', id, off])
      return ok({ id, editId: '3', isOff: true })
    },
    undoShelfEdit: async (id, editId) => {
      calls.push(['undoShelfEdit', id, editId])
      return ok({ id, editId: '4' })
    },
    shelfItem: async (id) => {
      const item = from.shelf.find((one) => one.id === id)
      const part = from.parts.find((one) => one.id === item?.partId)
      if (item === undefined || part === undefined)
        return failed({ code: 'not found', field: 'item', got: id, next: 'There is none.' })
      const putAside = id === 'S-5' ? [{ jobId: 'J-0001', quantity: item.quantity }] : []
      const free = putAside.length > 0 ? 0 : item.quantity
      const removedAt = id === 'S-6' ? '2026-06-10T17:00:00.000Z' : undefined
      return ok({
        ...{ item: { ...item, quantity: free }, part, standing: item.quantity, putAside, removedAt },
        prices: [
          { at: '2026-01-10T18:00:00.000Z', priceMinor: item.priceMinor + 1500 },
          { at: item.at, priceMinor: item.priceMinor },
        ],
        tradeIns: from.tradeIns.filter(({ partId }) => partId === part.id),
        edits: editsOf(item),
        alike: [],
        mark: itemMark(item, removedAt),
      })
    },
  }
}

const ITEM = { quantity: '2', priceMinor: '129', condition: 'used tested', warrantyMonths: '12' }
const STALE: Problem = {
  code: 'conflict',
  field: 'item',
  next: 'Somebody changed this item since you opened it, or a job took a piece. What you typed is kept below, beside what stands there now. Compare, then save again.',
}
const HELD: Problem = {
  code: 'conflict',
  field: 'pieces',
  got: '1',
  next: 'There are 1 on the shelf, and 1 of them are put aside for J-0001: 0 are free. Write that many at most, or call that job off first.',
}

export const SHELF_STATES: readonly PageState[] = [
  { name: 'shelf-off', path: '/shelf?off=S-6&edit=3' },
  { name: 'shelf-new', path: '/shelf/new' },
  { name: 'shelf-new-found', path: '/shelf/new?q=grit' },
  { name: 'shelf-new-none', path: '/shelf/new?q=nothing+of+ours' },
  { name: 'shelf-new-no-name', path: '/shelf/new?kind=card&name=', status: 422 },
  { name: 'shelf-new-no-kind', path: '/shelf/new?kind=sofa&name=Grit', status: 422 },
  { name: 'shelf-new-part', path: '/shelf/new?part=CRD-GRIT6' },
  { name: 'shelf-new-unknown', path: '/shelf/new?part=CRD-9', status: 404 },
  { name: 'shelf-new-new', path: '/shelf/new?kind=memory&name=2x8GB+DDR4-3200' },
  {
    name: 'shelf-new-wrong',
    path: '/shelf/new',
    status: 422,
    form: {
      ...{ kind: 'card', name: 'Scree 12', quantity: '-1', priceMinor: '1e400', condition: '' },
      ...{ 'figure.lengthMm': '33o', at: '2026-02-30' },
    },
  },
  { name: 'shelf-item', path: '/shelf/S-3' },
  { name: 'shelf-item-put', path: '/shelf/S-3?did=put&edit=2' },
  { name: 'shelf-item-undone', path: '/shelf/S-3?did=undone&edit=4' },
  { name: 'shelf-item-held', path: '/shelf/S-5' },
  { name: 'shelf-item-off', path: '/shelf/S-6' },
  { name: 'shelf-item-unknown', path: '/shelf/S-99', status: 404 },
  {
    name: 'shelf-item-wrong',
    path: '/shelf/S-3',
    status: 422,
    form: { ...ITEM, quantity: 'three', priceMinor: '12.345' },
  },
  {
    name: 'shelf-item-conflict',
    path: '/shelf/S-3',
    status: 409,
    form: { ...ITEM, note: 'second window' },
    uses: { changeShelfItem: async () => failed(STALE) },
  },
  {
    name: 'shelf-item-off-refused',
    path: '/shelf/S-3/off',
    status: 409,
    form: { pieces: '1', because: 'sold' },
    uses: { takeOffShelf: async () => failed(HELD) },
  },
]
