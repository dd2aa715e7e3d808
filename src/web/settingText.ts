import type { Setting, Title } from '../core/gain/run.ts'
import type { Language } from '../core/language.ts'
import { settingText } from '../words/settings.ts'

export { settingText }

/** The name under an id, or the id itself for one that nobody knows any more. */
export const titleName = (titles: readonly Title[], id: string): string =>
  titles.find((t) => t.id === id)?.name ?? id

export function settingName(settings: readonly Setting[], id: string, language: Language = 'en'): string {
  const setting = settings.find((s) => s.id === id)
  return setting === undefined ? id : settingText(setting, language)
}
