import type { Shop } from '../../core/answer.ts'
import { WORK_IDS } from '../../core/fit/finding.ts'
import { PART_KINDS } from '../../core/part.ts'
import {
  CONDITIONS,
  FEE_WORK,
  type Findable,
  fittingWork,
  type ItemPrice,
  OPENING_WORK,
  PRICE_STALE_DAYS,
  type SeenPrice,
  type ShelfItem,
  type ShopPolicy,
  type TradeIn,
  type WorkPrice,
} from '../../core/shop.ts'
import {
  type Cell,
  date,
  email,
  key,
  languageTag,
  line,
  lines,
  money,
  number,
  oneOf,
  pathKey,
  percentAsBasisPoints,
  percentAsShare,
  whole,
  yesNo,
} from '../cells.ts'
import { didYouMean } from '../closest.ts'
import { may, need, table } from '../csv/table.ts'
import { Refusal } from '../refusal.ts'

/** The shop in one row. */
export type ShopFields = Omit<Shop, 'policy'> & ShopPolicy

/** Shop policy, not standards: what a shop starts with. */
export const POLICY_DEFAULTS = {
  supplyShare: 0.8,
  restOfMachineW: 50,
  supplyFullYears: 5,
  supplyLossPctPerYear: 2,
  coolingMarginC: 5,
  smallestGainPct: 5,
  runWindowDays: 400,
  priceValidDays: 14,
  salesTaxBp: 0,
  taxIncluded: false,
  taxOnWork: false,
  tradeInsLowerTax: false,
  priceStaleDays: PRICE_STALE_DAYS,
} satisfies Omit<ShopPolicy, 'currency' | 'roomC' | 'quietDba'>

/** ISO 4217 codes that this Node knows. */
const currency: Cell<string> = {
  allowed: 'an ISO 4217 currency code, such as USD',
  read: (text) => {
    const codes = Intl.supportedValuesOf('currency')
    const code = text.toUpperCase()
    if (codes.includes(code)) return code
    return new Refusal(
      'unknown name',
      `Write an ISO 4217 currency code, such as USD.${didYouMean(code, codes)}`,
    )
  },
}

const timeZone: Cell<string> = {
  allowed: 'a time zone (IANA), such as America/Chicago',
  read: (text) => {
    try {
      return new Intl.DateTimeFormat('en', { timeZone: text }).resolvedOptions().timeZone
    } catch {
      const hint = didYouMean(text, Intl.supportedValuesOf('timeZone'))
      return new Refusal('unknown name', `Write a time zone (IANA), such as America/Chicago.${hint}`)
    }
  },
}

export const shopTable = table<ShopFields>()({
  name: 'shop',
  key: [],
  columns: {
    name: need('name', line()),
    address: need('address', lines(500)),
    email: need('email', email),
    builder: need('builder', line()),
    currency: need('currency', currency),
    locale: need('locale', languageTag),
    time_zone: need('timeZone', timeZone),
    supply_share_pct: may('supplyShare', percentAsShare, POLICY_DEFAULTS.supplyShare),
    rest_of_machine_w: may('restOfMachineW', number(0, 1000, 'W'), POLICY_DEFAULTS.restOfMachineW),
    supply_full_years: may('supplyFullYears', number(0, 30, 'years'), POLICY_DEFAULTS.supplyFullYears),
    supply_loss_pct_per_year: may(
      'supplyLossPctPerYear',
      number(0, 50, '%'),
      POLICY_DEFAULTS.supplyLossPctPerYear,
    ),
    room_c: may('roomC', number(10, 50, '°C')),
    cooling_margin_c: may('coolingMarginC', number(0, 40, '°C'), POLICY_DEFAULTS.coolingMarginC),
    smallest_gain_pct: may('smallestGainPct', number(0, 100, '%'), POLICY_DEFAULTS.smallestGainPct),
    run_window_days: may('runWindowDays', whole(1, 10_000, 'days'), POLICY_DEFAULTS.runWindowDays),
    price_valid_days: may('priceValidDays', whole(1, 365, 'days'), POLICY_DEFAULTS.priceValidDays),
    sales_tax_pct: may('salesTaxBp', percentAsBasisPoints, POLICY_DEFAULTS.salesTaxBp),
    tax_included: may('taxIncluded', yesNo, POLICY_DEFAULTS.taxIncluded),
    tax_on_work: may('taxOnWork', yesNo, POLICY_DEFAULTS.taxOnWork),
    trade_ins_lower_tax: may('tradeInsLowerTax', yesNo, POLICY_DEFAULTS.tradeInsLowerTax),
    price_stale_days: may('priceStaleDays', whole(1, 3650, 'days'), POLICY_DEFAULTS.priceStaleDays),
    quiet_dba: may('quietDba', number(10, 80, 'dB(A)')),
  },
})

export const shelfTable = table<ShelfItem>()({
  name: 'shelf',
  key: ['item'],
  columns: {
    item: need('id', pathKey),
    part: need('partId', key),
    condition: need('condition', oneOf(CONDITIONS)),
    quantity: need('quantity', whole(0, 100_000)),
    price: need('priceMinor', money),
    warranty_months: may('warrantyMonths', whole(0, 240, 'months')),
    warranty_ends_with: may('warrantyEndsWith', line()),
    priced_on: need('at', date),
    note: may('note', lines()),
  },
})

/** Everything a shop can put a price on. */
export const WORKS: readonly string[] = [OPENING_WORK, FEE_WORK, ...PART_KINDS.map(fittingWork), ...WORK_IDS]

export const workTable = table<WorkPrice>()({
  name: 'work',
  key: ['work'],
  columns: {
    work: need('work', oneOf(WORKS)),
    minutes: need('minutes', number(0, 10_000, 'minutes')),
    price: need('priceMinor', money),
  },
})

export const tradeInTable = table<TradeIn>()({
  name: 'trade_ins',
  key: ['part', 'priced_on'],
  columns: { part: need('partId', key), credit: need('creditMinor', money), priced_on: need('at', date) },
})

/** Earlier prices of the shelf; rows are only added. */
export const shelfPriceTable = table<ItemPrice>()({
  name: 'shelf_prices',
  key: ['item', 'priced_on', 'price'],
  columns: { item: need('itemId', key), price: need('priceMinor', money), priced_on: need('at', date) },
})

export const findableTable = table<Findable>()({
  name: 'findable',
  key: ['findable'],
  columns: {
    findable: need('id', key),
    part: need('partId', key),
    condition: need('condition', oneOf(CONDITIONS)),
    price_low: need('lowMinor', money),
    price_high: need('highMinor', money),
    seen_on: need('at', date),
    warranty_months: may('warrantyMonths', whole(0, 240, 'months')),
    place: may('place', line()),
    note: may('note', lines()),
  },
})

/** Earlier prices of findable parts; rows are only added. */
export const findablePriceTable = table<SeenPrice>()({
  name: 'findable_prices',
  key: ['findable', 'seen_on', 'price_low', 'price_high'],
  columns: {
    findable: need('findableId', key),
    price_low: need('lowMinor', money),
    price_high: need('highMinor', money),
    seen_on: need('at', date),
  },
})
