/** Languages that owners read us in, by their BCP 47 primary subtag. Pages for builders are English. */
export const LANGUAGES = ['en', 'de'] as const
export type Language = (typeof LANGUAGES)[number]

const ofLocale = (locale: string): string => {
  try {
    return new Intl.Locale(locale).language
  } catch {
    return ''
  }
}

/** What an owner reads: the language they chose, else that of the shop's locale, else English. */
export const languageFor = (shopLocale: string, chosen: Language | undefined): Language =>
  chosen ?? LANGUAGES.find((language) => language === ofLocale(shopLocale)) ?? 'en'

/** BCP 47 tag of words in that language: with the shop's country where the shop's own language it is. */
export const tagFor = (shopLocale: string, language: Language): string =>
  ofLocale(shopLocale) === language ? shopLocale : language
