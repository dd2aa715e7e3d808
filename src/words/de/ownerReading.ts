import type { OWNER_READING_EN } from '../en/ownerReading.ts'
import type { Translated } from '../translated.ts'

/** The German of a firmware table that an owner sends from their page. */
export const OWNER_READING_DE: Translated<typeof OWNER_READING_EN> = {
  link: 'Ihren Rechner neu auslesen',
  about: 'Nach einer Änderung oder vor einer größeren Frage: Dann wissen wir genau, was heute darin steckt.',
  title: 'Ihren Rechner neu auslesen',
  says: 'Jeder PC führt eine Tabelle seiner Teile: Mainboard, Firmware, Prozessor, Speicher, Steckplätze. Eine Zeile gibt sie aus. Fügen Sie sie hier ein, sehen Sie sich an, was darin steht, und senden Sie sie uns. An Ihrem Rechner ändert das nichts.',
  caution:
    'Die Zeile liest nur und ändert nichts, und niemand muss das Gehäuse öffnen. Führen Sie in so einem Fenster nur Zeilen aus, die Sie von jemandem haben, dem Sie vertrauen, und nur auf diesem Rechner.',
  windows: 'Unter Windows',
  windowsSteps: [
    'Öffnen Sie das Startmenü, tippen Sie PowerShell und öffnen Sie es. Administrator müssen Sie nicht sein.',
    'Kopieren Sie die Zeile unten, fügen Sie sie dort ein und drücken Sie Enter.',
    'Markieren Sie, was erscheint, ein paar tausend Buchstaben, und kopieren Sie alles.',
    'Fügen Sie es in das Feld unten ein.',
  ],
  windowsLine: 'Zeile für Windows PowerShell',
  linux: 'Unter Linux oder aus einer Datei',
  linuxSays:
    'Diese Zeile gibt unter Linux dasselbe aus. Sie fragt nach Ihrem Passwort, weil die Tabelle dem System gehört.',
  linuxLine: 'Zeile für Linux',
  files: 'Eine Datei mit der Tabelle wird so genommen, wie sie ist.',
  table: 'Was die Zeile ausgegeben hat',
  file: 'Oder eine Datei',
  read: 'Erst ansehen',
  notKept:
    'Nichts wurde aufbewahrt, weder ein Text noch eine Datei. Fügen Sie den Text ein oder wählen Sie die Datei, und senden Sie noch einmal.',
  unread:
    'In der Tabelle stehen auch Seriennummern und die Nummer des Rechners. Sie werden nicht gelesen, nicht gezeigt und nicht aufbewahrt.',
  preview: 'Was ausgelesen wurde',
  previewSays: 'Sehen Sie nach, ob es der richtige Rechner ist. Noch ist nichts gesendet.',
  otherMachine:
    'Mainboard und Prozessor sind beide andere, als wir notiert haben. Stammt es von diesem Rechner? Wenn nicht, lassen Sie es.',
  agrees: 'Alles ist so, wie wir es notiert haben.',
  differs: 'Anders, als wir es notiert haben',
  new: 'Noch nicht notiert',
  same: 'So, wie wir es notiert haben',
  written: '{read}. Notiert haben wir: {written}.',
  plain: '{read}',
  added: '{read}: eines mehr, als wir notiert haben.',
  gone: 'Nicht in der Tabelle. Notiert haben wir: {written}.',
  mayBeSame: 'Es kann dasselbe Teil unter anderem Namen sein.',
  send: 'An uns senden',
  leave: 'Nicht senden',
  sent: {
    waits:
      'Am {date} haben Sie uns eine Tabelle gesendet. Wir sehen sie an; eine neuere tritt an ihre Stelle.',
    taken: 'Ihre Tabelle vom {date} haben wir übernommen.',
    aside: 'Ihre Tabelle vom {date} haben wir angesehen und alles so gelassen, wie es notiert ist.',
  },
  done: 'Danke. Wir haben Ihre Tabelle und sehen sie an. Bis dahin bleibt das Blatt Ihres Rechners, wie es ist.',
}
