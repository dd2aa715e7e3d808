import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  CONSENT_SOURCES,
  CONSENT_STANDINGS,
  type Consent,
  mayOffer,
  standingConsent,
} from '../../src/core/consent.ts'

// General Data Protection Regulation (EU) 2016/679: consent is given by a clear act (art. 4 (11)), can be shown
// (7 (1)), and is as easy to withdraw as to give, for what comes after (7 (3)).

const DAY = ['2026-11-01', '2026-11-02', '2026-11-03', '2026-11-04'].map((day) => `${day}T12:00:00.000Z`)
const consent: fc.Arbitrary<Consent> = fc.record({
  customerId: fc.constant('C1'),
  kind: fc.constant('offers' as const),
  standing: fc.constantFrom(...CONSENT_STANDINGS),
  at: fc.constantFrom(...DAY),
  source: fc.constantFrom(...CONSENT_SOURCES),
  wording: fc.constant('Write to me.'),
  language: fc.constant('en'),
})
const inOrder = fc
  .array(consent, { maxLength: 6 })
  .map((all) => all.toSorted((a, b) => (a.at < b.at ? -1 : 1)))

test('nobody has consent who never gave it', () => {
  expect(mayOffer([], '2026-11-30T12:00:00.000Z')).toBe(false)
  fc.assert(
    fc.property(inOrder, (all) => {
      const noes = all.filter(({ standing }) => standing === 'withdrawn')
      expect(mayOffer(noes, '2026-11-30T12:00:00.000Z')).toBe(false)
    }),
  )
})

test('the newest yes or no counts, whatever was said before', () => {
  fc.assert(
    fc.property(inOrder, fc.constantFrom(...CONSENT_STANDINGS), (all, standing) => {
      const last = { ...(all[0] ?? consentAt(DAY[0])), standing, at: '2026-11-05T12:00:00.000Z' }
      expect(standingConsent([...all, last], '2026-11-30T12:00:00.000Z')).toEqual(last)
      expect(mayOffer([...all, last], '2026-11-30T12:00:00.000Z')).toBe(standing === 'given')
    }),
  )
})

test('a yes holds from its date on, a no at once', () => {
  const yes = consentAt(DAY[1])
  expect(mayOffer([yes], DAY[0] ?? '')).toBe(false)
  expect(mayOffer([yes], DAY[1] ?? '')).toBe(true)
  const no = { ...consentAt(DAY[3]), standing: 'withdrawn' as const }
  expect(mayOffer([yes, no], DAY[2] ?? '')).toBe(false)
})

test('of a yes and a no at the same instant the later in the list counts', () => {
  const yes = consentAt(DAY[1])
  const no = { ...yes, standing: 'withdrawn' as const }
  expect(mayOffer([yes, no], DAY[2] ?? '')).toBe(false)
  expect(mayOffer([no, yes], DAY[2] ?? '')).toBe(true)
})

function consentAt(at = ''): Consent {
  const words = { source: 'in person', wording: 'Write to me.', language: 'en' } as const
  return { customerId: 'C1', kind: 'offers', standing: 'given', at, ...words }
}
