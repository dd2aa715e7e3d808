import type { OWNER_HISTORY_EN } from '../en/ownerHistory.ts'
import type { Translated } from '../translated.ts'

/** The German of what happened to a machine, for its owner. */
export const OWNER_HISTORY_DE: Translated<typeof OWNER_HISTORY_EN> = {
  title: 'Was an ihm gemacht wurde',
  earlier: 'Früher',
  sold: 'Verkauft, mit: {parts}.',
  soldBare: 'Verkauft.',
  in: 'Eingebaut: {parts}.',
  out: 'Ausgebaut: {parts}.',
  part: '{kind} {name}',
  works: 'Gemacht: {works}.',
  limit: '{label}: {value}.',
  limitWas: '{label}: {value}, vorher {before}.',
  promise: '{title}: {says}',
  read: 'Seine eigene Tabelle wurde ausgelesen.',
}
