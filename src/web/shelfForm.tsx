import { OFF_REASONS, type OffReason } from '../core/shelfEdit.ts'
import { CONDITIONS, type ShelfItem } from '../core/shop.ts'
import { oneOf, type Reading, writeCell } from '../input/cells.ts'
import { shelfTable } from '../input/tables/shop.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { ItemTyped } from '../uses/shelfEdits.ts'
import { SHELF_EN } from '../words/en/shelf.ts'
import { Field, Select, type Typed } from './form.tsx'
import { fieldReader } from './typed.ts'

const W = SHELF_EN.form
const CELLS = shelfTable.columns

const LABELS: Readonly<Record<string, string>> = W
/** Words for the fields of these forms. */
export const itemLabel = (field: string): string | undefined => LABELS[field]

export type FormProps = { readonly typed: Typed; readonly problems: readonly Problem[] }

const PICK = ['', '–'] as const

/** What is typed of an item; the tables of the shop folder say what each field takes. */
export const ItemFieldsOf = ({ atHint, ...form }: FormProps & { atHint: string }) => (
  <>
    <div class="grid">
      <Field {...form} name="quantity" label={W.quantity} inputmode="numeric" narrow required />
      <Field {...form} name="priceMinor" label={W.priceMinor} inputmode="decimal" narrow required />
      <Select
        {...form}
        name="condition"
        label={W.condition}
        choices={[PICK, ...CONDITIONS.map((c) => [c, c] as const)]}
        required
      />
      <Field
        {...form}
        name="warrantyMonths"
        label={W.warrantyMonths}
        unit="months"
        inputmode="numeric"
        narrow
      />
    </div>
    <div class="grid">
      <Field {...form} name="at" label={W.at} hint={atHint} type="date" narrow />
      <Field {...form} name="warrantyEndsWith" label={W.warrantyEndsWith} />
    </div>
    <Field {...form} name="note" label={W.note} rows={2} />
  </>
)

/** What was typed of an item, or everything that is wrong with it. */
export function itemFrom(typed: Typed, reading: Reading): Result<ItemTyped> {
  const reader = fieldReader(typed, reading)
  const quantity = reader.need('quantity', CELLS.quantity.cell, SHELF_EN.quantityNeeded)
  const priceMinor = reader.need('priceMinor', CELLS.price.cell, SHELF_EN.priceNeeded)
  const condition = reader.need('condition', CELLS.condition.cell, SHELF_EN.conditionNeeded)
  const rest = {
    warrantyMonths: reader.read('warrantyMonths', CELLS.warranty_months.cell),
    at: reader.read('at', CELLS.priced_on.cell),
    warrantyEndsWith: reader.read('warrantyEndsWith', CELLS.warranty_ends_with.cell),
    note: reader.read('note', CELLS.note.cell),
  }
  if (quantity === undefined || priceMinor === undefined || condition === undefined)
    return failed(...reader.problems)
  if (reader.problems.length > 0) return failed(...reader.problems)
  const known = Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== undefined))
  return ok({ quantity, priceMinor, condition, ...known })
}

/** The form as the item stands. Its day is left open: empty means that it stays or is today. */
export function typedFromItem(item: ShelfItem, standing: number, reading: Reading): Typed {
  const { condition, warrantyMonths, warrantyEndsWith = '', note = '' } = item
  const fields = {
    ...{ condition, warrantyEndsWith, note, quantity: String(standing) },
    priceMinor: writeCell(CELLS.price.cell, item.priceMinor, reading),
    warrantyMonths: warrantyMonths === undefined ? '' : String(warrantyMonths),
  }
  return new Map(Object.entries(fields).map(([name, value]) => [name, [value]]))
}

const BECAUSE = OFF_REASONS.map((reason) => [reason, SHELF_EN.because[reason]] as const)

/** How many go, and why. */
export const OffFields = (form: FormProps) => (
  <div class="grid">
    <Field {...form} name="pieces" label={W.pieces} inputmode="numeric" narrow required />
    <Select {...form} name="because" label={W.because} choices={[PICK, ...BECAUSE]} />
  </div>
)

export function offFrom(
  typed: Typed,
  reading: Reading,
): Result<{ readonly pieces: number; readonly because: OffReason }> {
  const reader = fieldReader(typed, reading)
  const pieces = reader.need('pieces', CELLS.quantity.cell, SHELF_EN.piecesNeeded)
  const because = reader.need('because', oneOf(OFF_REASONS), SHELF_EN.becauseNeeded)
  return pieces === undefined || because === undefined ? failed(...reader.problems) : ok({ pieces, because })
}
