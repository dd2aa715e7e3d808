import type { OwnerProblemKind } from '../ownerProblems.ts'

/** What can be wrong with what an owner sent, in German. `{got}` is what they typed, `{allowed}` what a field takes. */
export const OWNER_PROBLEMS_DE: Readonly<Record<OwnerProblemKind, string>> = {
  'no words': 'Schreiben Sie mit eigenen Worten, was Sie wissen möchten.',
  'no games': 'Wählen Sie mindestens ein Spiel und seine Einstellung.',
  'no setting':
    'Wählen Sie die Einstellung, mit der Sie dieses Spiel spielen; Bildraten lassen sich nur bei einer Einstellung vergleichen.',
  'game twice': 'Dieses Spiel steht zweimal mit derselben Einstellung da. Nehmen Sie eines heraus.',
  'unknown game': 'Dieses Spiel kennen wir hier nicht. Wählen Sie Spiel und Einstellung aus den Listen.',
  'no part':
    'Schreiben Sie, welches Teil es ist: seinen Namen, wie ihn der Verkäufer oder der Aufkleber nennt.',
  'no part name': 'Schreiben Sie, welches Teil das kostet.',
  'no complaint': 'Sagen Sie, was Sie stört: langsam, heiß oder laut.',
  'no photo': 'Wählen Sie ein Foto.',
  'photo too large': 'Dieses Foto ist größer als 5 MB. Senden Sie ein kleineres.',
  'no picture': 'Das ist kein Bild als JPEG, PNG oder WebP. Senden Sie ein Foto.',
  'too many photos': 'Das sind zu viele Fotos. Wählen Sie die drei, die am meisten zeigen.',
  'photos of today': 'Wir haben heute schon viele Fotos. Senden Sie Ihre Frage ohne eines, oder morgen.',
  'photos enough': 'Davon haben wir schon mehrere Fotos. Geben Sie uns etwas Zeit, sie anzusehen.',
  'no value': 'Schreiben Sie, was Sie gefunden haben, oder senden Sie stattdessen ein Foto.',
  'no fps': 'Schreiben Sie den Durchschnitt, den Ihr Spiel oder Zähler zeigt.',
  'no game for it': 'Wählen Sie das Spiel, das Sie gemessen haben.',
  'nothing to report': 'Es gibt noch nichts zu melden.',
  'no consent':
    'Setzen Sie das Häkchen, wenn Sie Mails über Aufrüstungen möchten. Ohne es kommt keine, und Sie müssen nichts tun.',
  'other wording':
    'Diese Worte haben sich geändert, seit Sie die Seite geöffnet haben. Lesen Sie sie noch einmal und setzen Sie dann das Häkchen.',
  nobody: 'Der Laden hat nicht notiert, wem dieser Rechner gehört. Sagen Sie ihm zuerst, wer Sie sind.',
  'not sure':
    'Setzen Sie das Häkchen, um zu sagen, dass Sie sicher sind: Ist es ausgeführt, kann es niemand rückgängig machen.',
  'no table': 'Fügen Sie ein, was die Zeile ausgegeben hat, oder wählen Sie eine Datei.',
  'two tables': 'Es gibt einen Text und eine Datei. Geben Sie nur eines davon.',
  'no firmware table':
    'Das ist keine ganze Firmware-Tabelle. Kopieren Sie alles, was die Zeile ausgegeben hat, vom ersten bis zum letzten Buchstaben, und fügen Sie es noch einmal ein.',
  'not asked any more': 'Danach wird nicht mehr gefragt. Öffnen Sie Ihre Seite neu.',
  'not a number': '„{got}“ ist keine Zahl, die wir lesen können. Schreiben Sie {allowed}.',
  'not allowed': '„{got}“ geht hier nicht. Schreiben Sie {allowed}.',
  else: 'Das geht so nicht. Bitte sehen Sie sich dieses Feld noch einmal an.',
}

/** What a field takes, read back from how its cell says it. */
export const ALLOWED_DE = {
  number: 'eine Zahl von {least} bis {most}',
  whole: 'eine ganze Zahl von {least} bis {most}',
  unit: '{number} ({unit})',
  /** Units that are words. */
  units: { lanes: 'Datenwege', pixels: 'Pixel' } as Readonly<Record<string, string>>,
  plugs: 'Stecker wie 1x8-pin + 1x6-pin, oder none, wenn es keine gibt',
  money: 'einen Betrag wie 129 oder 129,50',
  line: 'eine Zeile von höchstens {most} Zeichen',
  lines: 'höchstens {most} Zeichen',
  load: 'Temperatur unter Last, Raum und Leistung, etwa 75 °C bei 30 °C Raum, 65 W',
  either: '{one} oder {other}',
  choice: 'eines davon: {words}',
  yesNo: 'ja oder nein',
  else: 'etwas, das dieses Feld versteht',
} as const
