import { expect, test } from 'vitest'
import { minorDigitsOf, minorPerMajor } from '../../src/core/currency.ts'

/**
 * ISO 4217 list one (current currencies and funds) as published on 2024-06-25, column "minor unit", all codes; metals
 * and test codes, whose minor unit is "N.A.", are left out. Behind them what Node still knows: XCG (amendment 176) and
 * the withdrawn HRK, SLL and ZWL of list three, from memory. HUF and IDR have 2 although nobody prints them.
 */
const ISO_4217: Readonly<Record<number, string>> = {
  0: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF',
  2: `
    AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF
    CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG
    HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK
    MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE
    SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD YER ZAR ZMW ZWG
    XCG HRK SLL ZWL`,
  3: 'BHD IQD JOD KWD LYD OMR TND',
  4: 'CLF UYW',
}
const rows = Object.entries(ISO_4217).flatMap(([digits, codes]) =>
  codes
    .trim()
    .split(/\s+/)
    .map((code) => [code, Number(digits)] as const),
)

test('every currency has the minor digits of ISO 4217', () => {
  expect(rows.map(([code]) => [code, minorDigitsOf(code)])).toEqual(rows)
  expect(rows.map(([code]) => minorPerMajor(code))).toEqual(rows.map(([, digits]) => 10 ** digits))
})

test('every currency that a shop can choose is in that list', () => {
  const listed = new Set(rows.map(([code]) => code))
  const metalsAndTests = /^X(A[GU]|B[A-D]|DR|P[DT]|SU|TS|UA|XX)$/
  const chosen = Intl.supportedValuesOf('currency').filter((code) => !metalsAndTests.test(code))
  expect(chosen.filter((code) => !listed.has(code))).toEqual([])
})
