import { PART_KINDS } from '../core/part.ts'
import { date, email, line, lines, money, pathKey, type Reading, whole } from '../input/cells.ts'
import { failed, ok, type Result } from '../problem.ts'
import type { NewSale } from '../uses/sell.ts'
import type { SaleMoney } from '../uses/sellSteps.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { fill } from '../words/say.ts'
import { type Typed, textOf } from './form.tsx'
import { machineLabel, PLACES_OF } from './machineForm.ts'
import { type FieldReader, fieldReader } from './typed.ts'

const w = SELL_EN.form

/** The most of one item that go into one machine. */
const MOST = 64

const LABELS: Readonly<Record<string, string>> = {
  ...{ tag: w.tag, soldOn: w.soldOn, priceMinor: w.price, otherCostMinor: w.otherCost },
  ...{ ownerName: w.ownerName, ownerEmail: w.ownerEmail, note: w.note, parts: w.parts },
}

/** Words for the fields of this form; `nameOf` gives an item's or a part's name. */
export function sellLabel(field: string, nameOf: (id: string) => string): string | undefined {
  const [kind, ...rest] = field.split('.')
  const id = rest.join('.')
  if (kind === 'take') return fill(w.take, { name: nameOf(id) })
  if (kind === 'cost') return fill(w.cost, { name: nameOf(id) })
  if (kind === 'partCost') return fill(w.cost, { name: machineLabel(`part.${id}`) ?? '' })
  return LABELS[field] ?? machineLabel(field)
}

type Stock = Pick<NewSale, 'taken' | 'brought'>

/** Parts as typed: how many of which item, and what is not from the shelf. */
function stockIn(typed: Typed, { read, problems }: FieldReader): Stock {
  const ids = [...typed.keys()].flatMap((name) => /^(?:take|cost)\.(.+)$/s.exec(name)?.[1] ?? [])
  const taken = [...new Set(ids)].flatMap((itemId) => {
    const quantity = read(`take.${itemId}`, whole(0, MOST))
    const costMinor = read(`cost.${itemId}`, money)
    const isEmpty = textOf(typed, `take.${itemId}`) === undefined
    if (isEmpty && costMinor !== undefined)
      problems.push({ code: 'missing', field: `take.${itemId}`, next: w.needQuantity })
    return quantity === undefined || quantity === 0 ? [] : [{ itemId, quantity, costMinor }]
  })
  const brought = PART_KINDS.flatMap((kind) =>
    Array.from({ length: PLACES_OF[kind] }, (_, n) => {
      const name = read(`part.${kind}.${n}`, line())
      const costMinor = read(`partCost.${kind}.${n}`, money)
      return name === undefined ? [] : [{ kind, name, costMinor }]
    }).flat(),
  )
  return { taken, brought }
}

/** A sale as typed, or everything that is wrong with it. */
export function newSaleOf(typed: Typed, reading: Reading): Result<NewSale> {
  const reader = fieldReader(typed, reading)
  const { read, problems } = reader
  const tag = reader.need('tag', pathKey, w.needTag)
  const ownerName = read('ownerName', line())
  const ownerEmail = read('ownerEmail', email)
  if (ownerEmail !== undefined && textOf(typed, 'ownerName') === undefined)
    problems.push({ code: 'missing', field: 'ownerName', next: w.needName })
  const facts = {
    soldAt: read('soldOn', date),
    priceMinor: read('priceMinor', money),
    otherCostMinor: read('otherCostMinor', money),
    note: read('note', lines()),
  }
  const stock = stockIn(typed, reader)
  return problems.length > 0 || tag === undefined
    ? failed(...problems)
    : ok({ tag, ownerName, ownerEmail, ...facts, ...stock })
}

/** More parts for a sale. */
export function morePartsOf(typed: Typed, reading: Reading): Result<Stock> {
  const reader = fieldReader(typed, reading)
  const stock = stockIn(typed, reader)
  return reader.problems.length > 0 ? failed(...reader.problems) : ok(stock)
}

/** Amounts of a sale; `ids` are the rows of its parts. What is empty is not known. */
export function saleMoneyOf(typed: Typed, reading: Reading, ids: readonly string[]): Result<SaleMoney> {
  const { read, problems } = fieldReader(typed, reading)
  const priceMinor = read('priceMinor', money)
  const otherCostMinor = read('otherCostMinor', money)
  const costs = new Map(
    ids.filter((id) => typed.has(`cost.${id}`)).map((id) => [id, read(`cost.${id}`, money)] as const),
  )
  return problems.length > 0 ? failed(...problems) : ok({ priceMinor, otherCostMinor, costs })
}
