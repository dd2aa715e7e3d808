import type { LATER_EN } from '../en/later.ts'
import type { Translated } from '../translated.ts'

export const LATER_DE: Translated<typeof LATER_EN> = {
  head: 'Oder noch nicht',
  wins: 'unser Rat heute',
  wait: {
    word: 'warten',
    what: 'Warten auf: {part}',
    lead: 'Unser Rat heute: warten. Nichts in unserem Lager ist Ihr Geld wert; ein Teil, das wir noch nicht haben, wäre es.',
    find: 'Wir haben es nicht. Gesehen haben wir es für {range}, am {date}.',
    cheaper: 'Es ist jetzt zu teuer: Gesehen haben wir es für {range}, am {date}.',
    buyBelow: 'Für {price} oder weniger, das Teil allein, würden wir es empfehlen.',
    anyPrice: 'Was es kosten darf, sagen Sie; Sie haben keinen Betrag genannt.',
    gain: 'Es brächte {pct} in Ihren Spielen, eingebaut zu diesem Preis für {net} insgesamt ({grade}).',
    gainOnly: 'Es brächte {pct} in Ihren Spielen ({grade}).',
    old: 'Dieser Preis ist alt: Wir sehen nach, bevor wir etwas versprechen.',
    fell: 'Davor, am {date}, waren es {range}. Was danach kommt, weiß niemand.',
  },
  fallen: {
    what: 'Abwarten, was dieses Teil als Nächstes kostet: {part}',
    says: 'Unser eigener Preis dafür ist von {from} ({fromDate}) auf {to} ({toDate}) gesunken. Das kann weitergehen oder aufhören; wir wissen es nicht. Unser Rat bleibt wie oben.',
  },
  save: {
    word: 'sparen',
    what: 'Sparen für eine neue Plattform (Mainboard, Prozessor, Speicher): {parts}, für {net}',
    lead: 'Unser Rat heute: für eine neue Plattform sparen.',
    missing: 'Das sind {missing} mehr, als Sie ausgeben möchten.',
    gain: 'Sie brächte {pct} in Ihren Spielen, {per} je {money} ({grade}, {runs}).',
    runs: 'unsere Testläufe {ids}',
    noRuns: 'kein Testlauf von uns dahinter',
    upgrade:
      'Das Meiste, was Ihr Mainboard für dieses Geld erlaubt: {parts}, {pct} für {net}, {per} je {money} ({grade}).',
    nothing: 'Auf Ihrem Mainboard lohnt sich für dieses Geld nichts aus unserem Lager.',
    stops: 'Auf Ihr Mainboard passen diese nicht: {parts}.',
    untold:
      'Ob sich das Sparen dafür lohnt, können wir nicht sagen: Wir haben in Ihren Spielen nichts Vergleichbares gemessen.',
    none: 'Ob sich eine neue Plattform lohnt, können wir nicht sagen: In unserem Lager ist keine mit einer Zahl für Ihre Spiele.',
    noneWhat: 'Sparen für eine neue Plattform (Mainboard, Prozessor, Speicher)',
    loses: 'Für Ihr Geld ist ein Umbau oder das Warten der bessere Weg.',
  },
  back: 'Bei diesem Preis bleibt bei uns, was aus Ihrem Rechner herauskommt; für etwas davon zahlen wir.',
  range: '{low} bis {high}',
}
