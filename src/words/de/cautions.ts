import type { CautionId } from '../../core/fit/finding.ts'
import type { CautionWords } from '../en/cautions.ts'

/** A caution is an order; the long form adds how and why. */
export const CAUTION_DE: Readonly<Record<CautionId, CautionWords>> = {
  unplug: {
    short: 'Herunterfahren. Netzteil ausschalten. Netzstecker und alle anderen Kabel ziehen.',
    long: 'Fahren Sie den Rechner herunter, schalten Sie das Netzteil hinten aus und ziehen Sie den Netzstecker. Ziehen Sie auch Bildschirme und andere Kabel mit Strom ab.',
  },
  discharge: {
    short: 'Bei gezogenem Stecker den Einschaltknopf 5 Sekunden drücken.',
    long: 'Drücken Sie bei gezogenem Stecker den Einschaltknopf 5 Sekunden. Das entlädt, was das Netzteil noch für das Mainboard hält.',
  },
  'psu-closed': {
    short: 'Niemals das Netzteil öffnen.',
    long: 'Öffnen Sie niemals das Netzteil. Teile darin können töten, auch nach dem Ausschalten. Stecken Sie kein Metall in seine Öffnungen.',
  },
  'psu-cables': {
    short: 'Niemals Kabel eines anderen Netzteilmodells verwenden, auch wenn der Stecker passt.',
    long: 'Verwenden Sie niemals Kabel eines anderen Netzteilmodells. Der Stecker kann passen, während die Adern anders belegt sind. Das zerstört Laufwerke und Mainboards. Nehmen Sie nur die Kabel, die zu diesem Netzteil gehören.',
  },
  esd: {
    short: 'Blankes Metall des Gehäuses berühren. Karten an den Kanten halten.',
    long: 'Arbeiten Sie auf einem leeren Tisch, berühren Sie geerdetes Metall oder tragen Sie ein Erdungsband. Lassen Sie Teile bis zum Einbau in ihren Beuteln.',
  },
  'one-cable': {
    short: 'Jeder Buchse der Karte ein eigenes Kabel geben.',
    long: 'Geben Sie jeder Buchse der Karte ein eigenes Kabel. Zwei Stecker hintereinander teilen sich ein Kabel, und das wird heiß.',
  },
  'seat-connector': {
    short: 'Den 16-poligen Stecker ganz hineindrücken. Nahe dabei nicht scharf biegen.',
    long: 'Drücken Sie den 16-poligen Stecker ganz hinein. Lassen Sie hinter ihm etwa 35 mm gerade.',
  },
  'hot-parts': {
    short: 'Erst abkühlen lassen. An Kanten und Lüfterblättern kann man sich schneiden.',
    long: 'Karte und Kühler bleiben nach dem Betrieb heiß. Lassen Sie sie erst abkühlen. An Kanten und Lüfterblättern kann man sich schneiden.',
  },
  backup: {
    short: 'Zuerst die Dateien auf ein anderes Laufwerk kopieren.',
    long: 'Kopieren Sie zuerst Ihre Dateien auf ein anderes Laufwerk. Ein Wechsel von Laufwerk, Mainboard, Prozessor oder Firmware kann Daten kosten.',
  },
  'recovery-key': {
    short:
      'Laufwerk verschlüsselt? Vorher den Wiederherstellungsschlüssel notieren, den Code zum Entsperren.',
    long: 'Ist Ihr Laufwerk verschlüsselt, kann das System nach neuer Firmware oder neuem Mainboard den Wiederherstellungsschlüssel verlangen. Suchen Sie ihn heraus und halten Sie den Schutz an. Schalten Sie ihn danach sofort wieder ein.',
  },
  'no-power-loss': {
    short: 'Während der Firmware-Aktualisierung niemals den Strom trennen.',
    long: 'Trennen Sie während der Firmware-Aktualisierung niemals den Strom. Nehmen Sie die Datei für genau dieses Mainboard und diese Revision. Nicht bei Gewitter.',
  },
  'one-way': {
    short: 'Manche Aktualisierung lässt sich nicht zurücknehmen.',
    long: 'Manche Aktualisierung lässt sich nicht zurücknehmen: Gehen Sie davon aus, dass diese dazugehört. Ältere Prozessoren laufen danach vielleicht nicht mehr. Machen Sie es mit dem Prozessor, der jetzt steckt.',
  },
  proprietary: {
    short: 'Büro-PC einer Marke? Fragen Sie uns, bevor Mainboard oder Netzteil gewechselt wird.',
    long: 'Büro-PC einer Marke? Fragen Sie uns, bevor Mainboard oder Netzteil gewechselt wird. Manche Stecker sehen aus wie die üblichen und sind anders belegt.',
  },
  defer: {
    short:
      'Brandgeruch, Flüssigkeit oder ein heißer Stecker: aufhören und nichts davon anfassen. Den Strom an der Sicherung abschalten, wenn das gefahrlos geht, und uns schreiben. Rauch oder Feuer: weggehen und den Notruf wählen.',
    long: 'Brandgeruch, Flüssigkeit oder ein heißer Stecker: Hören Sie auf, und fassen Sie nichts davon an. Schalten Sie den Strom an der Sicherung ab, wenn das gefahrlos geht, und schreiben Sie uns. Rauch oder Feuer: Gehen Sie weg und wählen Sie den Notruf. Steckdosen und Hausleitungen sind Sache einer Elektrofachkraft.',
  },
}
