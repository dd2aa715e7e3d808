import type { SPACE_EN } from '../en/space.ts'
import type { Translated } from '../translated.ts'

export const SPACE_DE: Translated<typeof SPACE_EN> = {
  head: 'Mehr Platz',
  noFrames:
    'Ein Laufwerk bringt Platz für Spiele und keine Bilder pro Sekunde: Kein Spiel läuft damit schneller, deshalb steht es in keiner Reihenfolge.',
  noneLarge: 'Wir haben im Moment kein Laufwerk im Lager, auf das {asked} oder mehr passen.',
  leftOut: 'Weggelassen, weil weniger als die gewünschten {asked} darauf passen: {parts}.',
  none: 'Wir haben im Moment kein Laufwerk im Lager.',
  what: '{part}: {gb} für {net} insgesamt, {per} je 100 GB',
  whatNoSize: '{part}, für {net} insgesamt',
  whatOut: '{part}',
  size: '{gb} GB',
  noSize: 'Wie viel darauf passt, hat niemand notiert.',
  sizeUntold:
    'Ob es die gewünschten {asked} sind, können wir noch nicht sagen; es steht auf seinem Etikett, und wir sehen nach.',
  beside:
    'Beim selben Termin wie unsere Empfehlung kommen {more} dazu: Was einmal getan wird, wird einmal bezahlt.',
  besideOut: 'Zusammen mit unserer Empfehlung geht es nicht hinein.',
  besideUnclear: 'Ob es zusammen mit unserer Empfehlung hineingeht, können wir noch nicht sagen.',
  together: 'Nur zusammen mit unserer Empfehlung: {reason}',
  more: {
    one: '{Count} weiteres Laufwerk haben wir noch.',
    other: '{Count} weitere Laufwerke haben wir noch.',
  },
}
