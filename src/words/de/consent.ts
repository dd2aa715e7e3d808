import type { CONSENT_EN } from '../en/consent.ts'
import type { Translated } from '../translated.ts'

/** The German of consents: what is agreed to, word by word. */
export const CONSENT_DE: Translated<typeof CONSENT_EN> = {
  wording: {
    offers:
      '{shop} darf mir Mails über Aufrüstungen für meinen Rechner schreiben, wenn ein Teil auftaucht, das passt und seinen Preis wert ist. Ich kann das jederzeit zurücknehmen, auf meiner Seite oder mit dem Link in jeder solchen Mail.',
  },
  withdrawal: 'Bitte keine Angebote mehr.',
  sources: {
    'owner page': 'auf der Seite des Rechners',
    'in person': 'persönlich gesagt',
    mail: 'per Mail oder Chat gesagt',
    unsubscribe: 'mit dem Link in einer Mail',
    import: 'aus einer Tabelle',
    erase: 'wollte gelöscht werden',
  },
}
