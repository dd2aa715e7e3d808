import type { ConsentKind } from '../core/consent.ts'
import type { Language } from '../core/language.ts'
import { fill } from './say.ts'
import { wordsIn } from './tables.ts'

/** The words that somebody agrees to, with their language: shown so and kept so. */
export const consentWording = (
  kind: ConsentKind,
  shopName: string,
  language: Language = 'en',
): { readonly wording: string; readonly language: string } => ({
  wording: fill(wordsIn(language).consent.wording[kind], { shop: shopName }),
  language,
})

/** The words that are kept with a no. */
export const withdrawalWording = (
  language: Language = 'en',
): { readonly wording: string; readonly language: string } => ({
  wording: wordsIn(language).consent.withdrawal,
  language,
})
