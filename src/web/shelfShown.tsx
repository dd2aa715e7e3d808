import type { ShelfItem } from '../core/shop.ts'
import { SHELF_EN } from '../words/en/shelf.ts'
import type { Figures } from '../words/figures.ts'
import { type Clock, PriceAge } from './priceAge.tsx'

export const pathToItem = (id: string): string => `/shelf/${encodeURIComponent(id)}`

export const Warranty = ({
  item: { warrantyMonths, warrantyEndsWith },
}: {
  item: Pick<ShelfItem, 'warrantyMonths' | 'warrantyEndsWith'>
}) =>
  warrantyMonths === undefined ? null : (
    <small class="block">
      {warrantyMonths} months warranty{warrantyEndsWith !== undefined && `, ends with: ${warrantyEndsWith}`}
    </small>
  )

/** Takes one change of an item back. */
export const Undo = ({ id, edit, words = SHELF_EN.undo }: { id: string; edit: string; words?: string }) => (
  <form method="post" action={`${pathToItem(id)}/undo`}>
    <input type="hidden" name="edit" value={edit} />
    <button class="button quiet" type="submit">
      {words}
    </button>
  </form>
)

type PriceRow = { readonly at: string; readonly amountMinor: number }

/** Prices of one thing, the newest first. */
export const Prices = ({
  rows,
  figures,
  clock,
}: {
  rows: readonly PriceRow[]
  figures: Figures
  clock: Clock
}) => (
  <table class="list">
    <thead>
      <tr>
        <th scope="col">Priced on</th>
        <th scope="col" class="right">
          Price
        </th>
      </tr>
    </thead>
    <tbody>
      {rows.toReversed().map(({ at, amountMinor }, i) => (
        <tr>
          <td data-label="Priced on">
            {i === 0 ? <PriceAge at={at} clock={clock} figures={figures} /> : figures.shortDate(at)}
          </td>
          <td class="right num" data-label="Price">
            {figures.money(amountMinor, true)}
          </td>
        </tr>
      ))}
    </tbody>
  </table>
)
