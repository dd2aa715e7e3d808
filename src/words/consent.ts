import type { ConsentKind } from '../core/consent.ts'
import { CONSENT_EN } from './en/consent.ts'
import { fill } from './say.ts'

/** The words that somebody agrees to, with their language: shown so and kept so. */
export const consentWording = (
  kind: ConsentKind,
  shopName: string,
): { readonly wording: string; readonly language: string } => ({
  wording: fill(CONSENT_EN.wording[kind], { shop: shopName }),
  language: 'en',
})

/** The words that are kept with a no. */
export const withdrawalWording = (): { readonly wording: string; readonly language: string } => ({
  wording: CONSENT_EN.withdrawal,
  language: 'en',
})
