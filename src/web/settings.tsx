import type { Context, Hono } from 'hono'
import type { Shop } from '../core/answer.ts'
import { PRICE_STALE_DAYS } from '../core/shop.ts'
import { shopTable } from '../input/tables/shop.ts'
import type { Problem } from '../problem.ts'
import { failed, ok, type Result, STATUS_OF } from '../problem.ts'
import { BACKUPS_EN } from '../words/en/backups.ts'
import { WORK_PRICES_EN } from '../words/en/workPrices.ts'
import { mayDo, who } from './access/who.ts'
import { BackupWarning } from './backups.tsx'
import { Field, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

type Ask = {
  label: string
  hint?: string
  unit?: string
  rows?: number
  numeric?: boolean
  yesNo?: boolean
  optional?: boolean
}
type Column = keyof typeof shopTable.columns

/** Who writes the mails. */
const WHO: Partial<Record<Column, Ask>> = {
  name: { label: 'Name of the shop' },
  builder: { label: 'Who signs the mails' },
  email: { label: 'E-mail address of the shop' },
  address: { label: 'Postal address', hint: 'Stands at the foot of every mail.', rows: 2 },
  currency: { label: 'Currency', hint: 'ISO 4217 code, such as USD. All prices are in it.' },
  locale: {
    label: 'Language and region',
    hint: 'How figures and dates are written, such as en-US or en-GB.',
  },
  time_zone: {
    label: 'Time zone',
    hint: 'Such as America/Chicago. If you change it, days that are stored stay the same days.',
  },
}

/** The shop's own rules: policy, not standards. */
const POLICY: Partial<Record<Column, Ask>> = {
  supply_share_pct: {
    label: 'Share of a supply to count on',
    hint: 'Of its 12 V rating; the rest is for age and short peaks.',
    unit: '%',
    numeric: true,
  },
  rest_of_machine_w: {
    label: 'What the rest of a machine takes from 12 V',
    hint: 'Board, memory, drives and fans together.',
    unit: 'W',
    numeric: true,
  },
  supply_full_years: {
    label: 'How long a supply counts in full',
    unit: 'years',
    numeric: true,
  },
  supply_loss_pct_per_year: {
    label: 'What it loses each year after that',
    hint: 'In points of the share above.',
    unit: '%',
    numeric: true,
  },
  room_c: {
    label: 'Room temperature to count on',
    hint: 'Left empty: the hottest room in your records.',
    unit: '°C',
    numeric: true,
    optional: true,
  },
  cooling_margin_c: {
    label: 'Margin below the highest temperature',
    unit: '°C',
    numeric: true,
  },
  smallest_gain_pct: {
    label: 'Smallest gain worth a visit',
    hint: 'Options below it are shown and never recommended.',
    unit: '%',
    numeric: true,
  },
  run_window_days: {
    label: 'How far apart two runs may lie',
    hint: 'Further apart they are not compared.',
    unit: 'days',
    numeric: true,
  },
  price_valid_days: { label: 'How long a written price holds', unit: 'days', numeric: true },
  quiet_dba: {
    label: 'What counts as quiet',
    hint: 'Of a whole machine under load, at one metre, as runs note it; at half a metre a meter shows up to 6 dB(A) more. Left empty: what the owner’s machine was measured at.',
    unit: 'dB(A)',
    numeric: true,
    optional: true,
  },
}

/** What is put on prices. */
const PRICES: Partial<Record<Column, Ask>> = {
  sales_tax_pct: {
    label: 'Sales tax',
    hint: '0 where you add none. Your own rate: ask whoever does your taxes.',
    unit: '%',
    numeric: true,
  },
  tax_included: {
    label: 'Prices hold the tax already',
    hint: 'No: it is added in a line of its own.',
    yesNo: true,
  },
  tax_on_work: { label: 'Work and fee are taxed too', yesNo: true },
  trade_ins_lower_tax: {
    label: 'What comes out lowers what is taxed',
    hint: 'Tax on the difference alone.',
    yesNo: true,
  },
  price_stale_days: { label: 'A price counts as old after', unit: 'days', numeric: true },
}

const ASKS = { ...WHO, ...POLICY, ...PRICES }
const labelOf = (field: string): string | undefined => ASKS[field as Column]?.label

const yesOrNo = (answer: boolean | undefined): string => (answer === true ? 'yes' : 'no')

/** What stands in the form before anything was typed. */
function typedFrom({ policy, ...shop }: Shop): Typed {
  const fields: Record<Column, string> = {
    name: shop.name,
    address: shop.address,
    email: shop.email,
    builder: shop.builder,
    currency: policy.currency,
    locale: shop.locale,
    time_zone: shop.timeZone,
    supply_share_pct: String(Math.round(policy.supplyShare * 1000) / 10),
    rest_of_machine_w: String(policy.restOfMachineW),
    supply_full_years: String(policy.supplyFullYears),
    supply_loss_pct_per_year: String(policy.supplyLossPctPerYear),
    room_c: policy.roomC === undefined ? '' : String(policy.roomC),
    quiet_dba: policy.quietDba === undefined ? '' : String(policy.quietDba),
    cooling_margin_c: String(policy.coolingMarginC),
    smallest_gain_pct: String(policy.smallestGainPct),
    run_window_days: String(policy.runWindowDays),
    price_valid_days: String(policy.priceValidDays),
    sales_tax_pct: String((policy.salesTaxBp ?? 0) / 100),
    tax_included: yesOrNo(policy.taxIncluded),
    tax_on_work: yesOrNo(policy.taxOnWork),
    trade_ins_lower_tax: yesOrNo(policy.tradeInsLowerTax),
    price_stale_days: String(policy.priceStaleDays ?? PRICE_STALE_DAYS),
  }
  return new Map(Object.entries(fields).map(([name, value]) => [name, [value]]))
}

/** The shop as typed, or everything that is wrong with it. */
function shopOf(typed: Typed, shop: Shop): Result<Shop> {
  const { need, read, problems } = fieldReader(typed, readingFor(shop))
  const { columns } = shopTable
  const give = 'Give this; it must not be empty.'
  const name = need('name', columns.name.cell, give)
  const address = need('address', columns.address.cell, give)
  const email = need('email', columns.email.cell, give)
  const builder = need('builder', columns.builder.cell, give)
  const currency = need('currency', columns.currency.cell, give)
  const locale = need('locale', columns.locale.cell, give)
  const timeZone = need('time_zone', columns.time_zone.cell, give)
  const supplyShare = need('supply_share_pct', columns.supply_share_pct.cell, give)
  const restOfMachineW = need('rest_of_machine_w', columns.rest_of_machine_w.cell, give)
  const supplyFullYears = need('supply_full_years', columns.supply_full_years.cell, give)
  const lossColumn = columns.supply_loss_pct_per_year
  const supplyLossPctPerYear = need('supply_loss_pct_per_year', lossColumn.cell, give)
  const roomC = read('room_c', columns.room_c.cell)
  const quietDba = read('quiet_dba', columns.quiet_dba.cell)
  const coolingMarginC = need('cooling_margin_c', columns.cooling_margin_c.cell, give)
  const smallestGainPct = need('smallest_gain_pct', columns.smallest_gain_pct.cell, give)
  const runWindowDays = need('run_window_days', columns.run_window_days.cell, give)
  const priceValidDays = need('price_valid_days', columns.price_valid_days.cell, give)
  const salesTaxBp = need('sales_tax_pct', columns.sales_tax_pct.cell, give)
  const taxIncluded = need('tax_included', columns.tax_included.cell, give)
  const taxOnWork = need('tax_on_work', columns.tax_on_work.cell, give)
  const tradeInsLowerTax = need('trade_ins_lower_tax', columns.trade_ins_lower_tax.cell, give)
  const priceStaleDays = need('price_stale_days', columns.price_stale_days.cell, give)
  if (
    problems.length > 0 ||
    name === undefined ||
    address === undefined ||
    email === undefined ||
    builder === undefined ||
    currency === undefined ||
    locale === undefined ||
    timeZone === undefined ||
    supplyShare === undefined ||
    restOfMachineW === undefined ||
    supplyFullYears === undefined ||
    supplyLossPctPerYear === undefined ||
    coolingMarginC === undefined ||
    smallestGainPct === undefined ||
    runWindowDays === undefined ||
    priceValidDays === undefined ||
    salesTaxBp === undefined ||
    taxIncluded === undefined ||
    taxOnWork === undefined ||
    tradeInsLowerTax === undefined ||
    priceStaleDays === undefined
  )
    return failed(...problems)
  const policy = {
    ...{ currency, supplyShare, restOfMachineW, supplyFullYears, supplyLossPctPerYear, coolingMarginC },
    ...{ smallestGainPct, runWindowDays, priceValidDays, priceStaleDays },
    ...{ salesTaxBp, taxIncluded, taxOnWork, tradeInsLowerTax },
    ...(roomC !== undefined && { roomC }),
    ...(quietDba !== undefined && { quietDba }),
  }
  return ok({ name, address, email, builder, locale, timeZone, policy })
}

const YES_NO = [
  ['no', 'no'],
  ['yes', 'yes'],
] as const

const Asked = (props: { asks: Partial<Record<Column, Ask>>; typed: Typed; problems: readonly Problem[] }) => (
  <div class="grid">
    {Object.entries(props.asks).map(([name, { label, hint, unit, rows, numeric, yesNo, optional }]) => {
      const { typed, problems } = props
      return yesNo ? (
        <Select {...{ name, label, hint, typed, problems }} choices={YES_NO} />
      ) : (
        <Field
          {...{ name, label, hint, unit, rows, typed, problems }}
          inputmode={numeric ? 'decimal' : undefined}
          narrow={numeric}
          required={optional !== true}
        />
      )
    })}
  </div>
)

export function settingsRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (c: Context, shop: Shop, typed: Typed, problems: readonly Problem[], saved: boolean) => {
    const first = problems[0]
    const backups = await uses.backups()
    return page(
      c,
      { title: 'Settings', place: 'Settings', demo: options.demo, shopName: shop.name },
      <form method="post" action="/settings" class="card form">
        <h1>Who the shop is, and its rules</h1>
        {!options.demo && (
          <BackupWarning view={backups} at={uses.now()}>
            <a href="/settings/backups">{BACKUPS_EN.toThem}</a>
          </BackupWarning>
        )}
        {saved && (
          <p class="done" role="status">
            Saved.
          </p>
        )}
        <ProblemSummary problems={problems} labels={labelOf} />
        <Asked asks={WHO} typed={typed} problems={problems} />
        <fieldset>
          <legend>Shop policy</legend>
          <p class="hint">Your own rules, not standards. Pages and mails say so where they decide.</p>
          <Asked asks={POLICY} typed={typed} problems={problems} />
        </fieldset>
        <fieldset>
          <legend>Tax and the age of prices</legend>
          <p class="hint">
            Each line of a price is taxed and rounded by itself, half a unit up. A fixed fee stands under{' '}
            <a href="/settings/work">what your work costs</a>, charged once wherever hands go in.
          </p>
          <Asked asks={PRICES} typed={typed} problems={problems} />
        </fieldset>
        <p class="actions">
          <button class="button" type="submit">
            Save the settings
          </button>
          <a href="/settings/work">{WORK_PRICES_EN.title}</a>
          <a href="/settings/backups">Backups</a>
          <a href="/settings/changes">Who changed what</a>
          {mayDo(who(c), { may: 'accounts' }) && (
            <>
              <a href="/settings/accounts">Accounts</a>
              <a href="/settings/tokens">Keys of programs</a>
              <a href="/settings/access">Who did what</a>
            </>
          )}
        </p>
      </form>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/settings', async (c) => {
    const shop = await uses.shop()
    return show(c, shop, typedFrom(shop), [], c.req.query('saved') !== undefined)
  })

  app.post('/settings', async (c) => {
    const typed = typedOf(await readForm(c))
    const shop = await uses.shop()
    const read = shopOf(typed, shop)
    const saved = read.ok ? await uses.describeShop(read.value) : read
    return saved.ok ? c.redirect('/settings?saved', 303) : show(c, shop, typed, saved.problems, false)
  })
}
