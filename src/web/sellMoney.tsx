import { majorText } from '../input/numbers.ts'
import type { Problem } from '../problem.ts'
import type { SaleView } from '../uses/sellViews.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill, formOf } from '../words/say.ts'
import { Field, ProblemSummary, type Typed } from './form.tsx'
import { sellLabel } from './sellForm.ts'
import { pathToSale } from './sellPaths.ts'

const w = SELL_EN.money
const plurals = new Intl.PluralRules('en')

type MoneyProps = { view: SaleView; figures: Figures; typed: Typed; problems: readonly Problem[] }

/** What it cost and brought, summed up; what is not known is said. */
export const Sums = ({
  view: { sale, sums, fittingMinor },
  figures,
}: Pick<MoneyProps, 'view' | 'figures'>) => {
  const money = (minor: number | undefined) => (minor === undefined ? w.unknown : figures.money(minor, true))
  const { costMinor, unknownCosts, priceMinor, taxMinor, marginMinor, marginBp } = sums
  const isBound = unknownCosts > 0
  const share = marginBp === undefined ? undefined : figures.ratePct(marginBp)
  return (
    <>
      <table class="price">
        <tbody>
          {sale.otherCostMinor !== undefined && (
            <tr>
              <th scope="row">{w.other}</th>
              <td class="right num">{money(sale.otherCostMinor)}</td>
            </tr>
          )}
          <tr>
            <th scope="row">{w.all}</th>
            <td class="right num">{money(costMinor)}</td>
          </tr>
          <tr>
            <th scope="row">{w.price}</th>
            <td class="right num">{money(priceMinor)}</td>
          </tr>
          {taxMinor !== undefined && (
            <tr>
              <th scope="row">{w.tax}</th>
              <td class="right num">{money(taxMinor)}</td>
            </tr>
          )}
          <tr class="sum">
            <th scope="row">{w.margin}</th>
            <td class="right num">
              {marginMinor !== undefined && isBound
                ? fill(w.atMost, { amount: money(marginMinor) })
                : money(marginMinor)}
              {share !== undefined && (
                <small class="block">
                  {fill(taxMinor === undefined ? w.shareBare : w.share, {
                    share: isBound ? fill(w.atMost, { amount: share }) : share,
                  })}
                </small>
              )}
            </td>
          </tr>
        </tbody>
      </table>
      {priceMinor === undefined && <p class="soft">{w.noPrice}</p>}
      {priceMinor !== undefined && isBound && (
        <p class="soft">
          {fill(formOf(w.unknownCosts, unknownCosts, plurals), { n: figures.number(unknownCosts) })}
        </p>
      )}
      {marginMinor !== undefined && sale.otherCostMinor === undefined && fittingMinor !== undefined && (
        <p class="soft">{fill(w.fittingNotCounted, { amount: figures.money(fittingMinor, true) })}</p>
      )}
      <p class="soft">{w.onlyYou}</p>
    </>
  )
}

/** How the field for other costs stands against what fitting is by the work table. */
const fittingStands = (otherCostMinor: number | undefined, isNew: boolean) =>
  otherCostMinor !== undefined ? 'filled' : isNew ? 'proposed' : 'empty'

/** The amounts to type, each as it stands. */
export const MoneyForm = ({ view, figures, typed, problems }: MoneyProps) => {
  const { sale, parts, fittingMinor } = view
  // Once amounts were written down, an empty field is meant to be empty.
  const isNew = sale.priceMinor === undefined && sale.otherCostMinor === undefined
  const nameOf = (id: string) => parts.find((row) => row.id === id)?.part.name ?? id
  const amount = (minor: number | undefined) =>
    minor === undefined ? '' : majorText(minor, figures.minorDigits)
  const own: Typed =
    typed.size > 0
      ? typed
      : new Map([
          ['priceMinor', [amount(sale.priceMinor)]],
          ['otherCostMinor', [amount(sale.otherCostMinor ?? (isNew ? fittingMinor : undefined))]],
          ...parts.map(({ id, costMinor }) => [`cost.${id}`, [amount(costMinor)]] as const),
        ])
  const fields = { typed: own, problems, inputmode: 'decimal', narrow: true } as const
  return (
    <details open={problems.length > 0}>
      <summary>{w.edit}</summary>
      <form method="post" action={`${pathToSale(sale.machineTag)}/money`} class="form">
        <ProblemSummary problems={problems} labels={(field) => sellLabel(field, nameOf)} />
        <Field {...fields} name="priceMinor" label={w.price} />
        <Field
          {...fields}
          name="otherCostMinor"
          label={w.other}
          hint={
            fittingMinor === undefined
              ? w.otherHint
              : fill(w.fittingHint[fittingStands(sale.otherCostMinor, isNew)], {
                  amount: figures.money(fittingMinor, true),
                })
          }
        />
        {parts.map(({ id, part }) => (
          <Field
            {...fields}
            name={`cost.${id}`}
            label={fill(SELL_EN.form.cost, { name: part.name })}
            hint={KIND_WORDS[part.kind]}
          />
        ))}
        <p class="actions">
          <button class="button quiet" type="submit">
            {w.save}
          </button>
        </p>
      </form>
    </details>
  )
}
