import type { FORM_EN } from '../en/form.ts'
import type { Translated } from '../translated.ts'

/** The German around any form. */
export const FORM_DE: Translated<typeof FORM_EN> = {
  wrong: { one: 'Eine Angabe stimmt noch nicht', other: '{count} Angaben stimmen noch nicht' },
  kept: 'Noch ist nichts gespeichert. Was Sie geschrieben haben, steht noch da.',
  needed: '(nötig)',
  photo: 'Foto',
  photoHint: 'JPEG, PNG oder WebP, höchstens 5 MB.',
  sendPhoto: 'Foto senden',
  copy: {
    button: 'Text kopieren',
    done: 'Kopiert.',
    refused: 'Dieser Browser lässt keine Seite kopieren. Markieren Sie den Text und kopieren Sie ihn.',
  },
  skip: 'Zum Inhalt',
  demo: {
    head: 'Beispielladen:',
    says: 'Menschen, Teile und Preise sind erfunden. Nichts davon wird verschickt.',
  },
}
