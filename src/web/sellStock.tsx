import { PART_KINDS, type Part, type PartKind } from '../core/part.ts'
import type { Problem } from '../problem.ts'
import type { SaleStock } from '../uses/sellViews.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { capital, fill } from '../words/say.ts'
import { Field, FieldProblems, idOf, type Typed } from './form.tsx'
import { machineLabel, PLACES_OF } from './machineForm.ts'

const w = SELL_EN.form

export type StockProps = {
  stock: SaleStock
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

/** A small field inside of a table: its label is read out, and stands above it on a phone. */
const Cell = (props: {
  name: string
  label: string
  typed: Typed
  problems: readonly Problem[]
  inputmode: 'numeric' | 'decimal'
}) => {
  const { name, label, typed, problems, inputmode } = props
  const isWrong = problems.some(({ field }) => field === name)
  return (
    <div class={isWrong ? 'bad' : undefined}>
      <label class="unseen" for={idOf(name)}>
        {label}
      </label>
      <input
        id={idOf(name)}
        name={name}
        inputmode={inputmode}
        autocomplete="off"
        value={typed.get(name)?.[0] ?? ''}
        aria-invalid={isWrong ? 'true' : undefined}
        aria-describedby={isWrong ? `${idOf(name)}-wrong` : undefined}
      />
      <FieldProblems name={name} problems={problems} />
    </div>
  )
}

/** What stands on the shelf, by kind, with how many go in and what one of them cost. */
export const FromShelf = ({ stock, figures, typed, problems }: StockProps) => {
  if (stock.shelf.length === 0)
    return (
      <fieldset id="shelf">
        <legend>{w.shelf}</legend>
        <p class="empty">
          {w.emptyShelf} <a href="/shelf/new">{w.putOnShelf}</a> · <a href="/import">{w.importShelf}</a>
        </p>
      </fieldset>
    )
  const kinds = PART_KINDS.filter((kind) => stock.shelf.some(({ part }) => part.kind === kind))
  return (
    <fieldset id="shelf">
      <legend>{w.shelf}</legend>
      <p class="hint">{w.shelfHint}</p>
      {kinds.map((kind) => (
        <>
          <h3>{capital(KIND_WORDS[kind], 'en')}</h3>
          <table class="list stock">
            <thead>
              <tr>
                <th scope="col">{w.parts}</th>
                <th scope="col" class="right">
                  {w.price}
                </th>
                <th scope="col">{w.howMany}</th>
                <th scope="col">{w.costs}</th>
              </tr>
            </thead>
            <tbody>
              {stock.shelf
                .filter(({ part }) => part.kind === kind)
                .map(({ item, part, standing }) => {
                  const name = `${part.name} (${item.id})`
                  const aside = standing - item.quantity
                  return (
                    <tr>
                      <td>
                        <b>{part.name}</b>
                        <small class="block">
                          {item.condition} <span class="num">{item.id}</span>,{' '}
                          {fill(w.free, { n: figures.number(item.quantity) })}
                          {aside > 0 && `, ${fill(w.aside, { n: figures.number(aside) })}`}
                        </small>
                      </td>
                      <td class="right num" data-label={w.price}>
                        {figures.money(item.priceMinor)}
                      </td>
                      <td data-label={w.howMany}>
                        <Cell
                          {...{ typed, problems }}
                          name={`take.${item.id}`}
                          label={fill(w.take, { name })}
                          inputmode="numeric"
                        />
                      </td>
                      <td data-label={w.costs}>
                        <Cell
                          {...{ typed, problems }}
                          name={`cost.${item.id}`}
                          label={fill(w.cost, { name })}
                          inputmode="decimal"
                        />
                      </td>
                    </tr>
                  )
                })}
            </tbody>
          </table>
        </>
      ))}
    </fieldset>
  )
}

const Names = ({ kind, parts }: { kind: PartKind; parts: readonly Part[] }) => (
  <datalist id={`parts-${kind}`}>
    {parts
      .filter((part) => part.kind === kind)
      .map((part) => (
        <option value={part.name} />
      ))}
  </datalist>
)

/** Parts that never stood on the shelf, by name, each with what it cost. */
export const NotFromShelf = ({ stock, typed, problems, isOpen }: StockProps & { isOpen: boolean }) => {
  const fields = (
    <>
      <p class="hint">{w.broughtHint}</p>
      {PART_KINDS.flatMap((kind) =>
        Array.from({ length: PLACES_OF[kind] }, (_, n) => {
          const label = machineLabel(`part.${kind}.${n}`) ?? KIND_WORDS[kind]
          return (
            <div class="row brought">
              <Field
                name={`part.${kind}.${n}`}
                label={label}
                list={`parts-${kind}`}
                typed={typed}
                problems={problems}
              />
              <Field
                name={`partCost.${kind}.${n}`}
                label={fill(w.cost, { name: label })}
                inputmode="decimal"
                typed={typed}
                problems={problems}
                narrow
              />
            </div>
          )
        }),
      )}
      {PART_KINDS.map((kind) => (
        <Names kind={kind} parts={stock.parts} />
      ))}
    </>
  )
  if (isOpen)
    return (
      <fieldset id="brought">
        <legend>{w.parts}</legend>
        {fields}
      </fieldset>
    )
  const hasSome = [...typed].some(
    ([name, [text = '']]) => /^part(?:Cost)?\./.test(name) && text.trim() !== '',
  )
  return (
    <details id="brought" open={hasSome || problems.some(({ field }) => field.startsWith('part'))}>
      <summary>{w.brought}</summary>
      {fields}
    </details>
  )
}
