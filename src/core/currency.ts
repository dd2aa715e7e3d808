import type { Minor } from './money.ts'

/**
 * Digits of the minor unit where they are not 2, as ISO 4217 list one of 2024-06-25 gives them. Not taken from the
 * runtime's locale data: that shows what is *customary* to print (no digits for HUF or IDR), which would change what
 * an integer amount means.
 */
const MINOR_DIGITS: Readonly<Record<string, number>> = {
  BIF: 0,
  CLP: 0,
  DJF: 0,
  GNF: 0,
  ISK: 0,
  JPY: 0,
  KMF: 0,
  KRW: 0,
  PYG: 0,
  RWF: 0,
  UGX: 0,
  UYI: 0,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
  BHD: 3,
  IQD: 3,
  JOD: 3,
  KWD: 3,
  LYD: 3,
  OMR: 3,
  TND: 3,
  CLF: 4,
  UYW: 4,
}

/** Decimal digits of the currency's minor unit by ISO 4217: USD 2, JPY 0, KWD 3. A code not listed has 2. */
export const minorDigitsOf = (currency: string): number => MINOR_DIGITS[currency] ?? 2

/** Minor units in one major unit: 100 cents in a dollar, 1 in a yen, 1000 fils in a Kuwaiti dinar. */
export const minorPerMajor = (currency: string): Minor => 10 ** minorDigitsOf(currency)
