import type { BENCH_LIMIT_WORDS } from '../en/benchLimits.ts'
import type { Translated } from '../translated.ts'

/** Supply, drives, cooling and system. */
export const BENCH_LIMIT_DE: Translated<typeof BENCH_LIMIT_WORDS> = {
  supplyDesignVersion: {
    label: 'Ausgabe der Netzteilnorm',
    meaning: 'Die Ausgabe der Norm sagt, welche kurzen Spitzen das Netzteil tragen muss.',
    findOut: 'Der Aufkleber des Netzteils oder die Herstellerseite nennt sie, etwa ATX 3.0.',
  },
  supplyYear: {
    label: 'Jahr des Netzteils',
    meaning: 'Ein älteres Netzteil liefert weniger als früher.',
    findOut: 'Der Aufkleber oder der Datumscode nennt das Jahr; sonst das Jahr der ersten Nutzung.',
  },
  pin16W: {
    label: 'Leistung des 16-poligen Steckers',
    meaning: 'Was der flache 16-polige Stecker für eine Karte tragen darf.',
    findOut: 'Es steht auf dem Stecker oder auf dem Netzteil: 150, 300, 450 oder 600 W.',
  },
  cardCables: {
    label: 'Kabel mit Kartensteckern',
    meaning: 'Zwei Stecker hintereinander an einem Kabel tragen weniger als zwei Kabel.',
    findOut: 'Zählen Sie die Kabel vom Netzteil, die in Steckern für eine Karte enden.',
  },
  sataPlugs: {
    label: 'Stromstecker für Laufwerke',
    meaning: 'Die flachen Stromstecker (SATA) an allen Kabeln des Netzteils.',
    findOut: 'Zählen Sie die flachen Laufwerksstecker am Netzteil, benutzte und lose.',
  },
  sataPorts: {
    label: 'Laufwerksanschlüsse am Mainboard',
    meaning: 'Die SATA-Anschlüsse für Laufwerke mit Kabel.',
    findOut: 'Zählen Sie die SATA-Anschlüsse am Mainboard, belegte und freie; neben jedem steht eine Nummer.',
  },
  bays25: {
    label: 'Plätze für kleine Laufwerke',
    meaning: 'Die Plätze für 2,5-Zoll-Laufwerke im Gehäuse.',
    findOut: 'Zählen Sie die Plätze für 2,5-Zoll-Laufwerke, belegte und freie.',
  },
  bays35: {
    label: 'Plätze für große Laufwerke',
    meaning: 'Die Plätze für 3,5-Zoll-Laufwerke im Gehäuse.',
    findOut: 'Zählen Sie die Plätze für 3,5-Zoll-Laufwerke, belegte und freie.',
  },
  cardRoomFreeMm: {
    label: 'Platz für eine Karte ohne Lüfter',
    meaning: 'Die freie Länge für eine Grafikkarte, wenn die vorderen Lüfter draußen sind.',
    findOut: 'Messen Sie vom Slotblech bis zur Front hinter den Lüftern, in mm.',
  },
  supplyAndCardMm: {
    label: 'Länge für Netzteil und Karte',
    meaning:
      'In manchen kleinen Gehäusen liegen Netzteil und Karte in einer Linie und teilen sich die Länge.',
    findOut: 'Messen Sie die ganze Linie, in der Netzteil und Karte liegen, in mm.',
  },
  coolingLoad: {
    label: 'Temperatur unter Last',
    meaning: 'Wie warm der Prozessor bei Volllast wird, in welchem Raum und bei welcher Leistung.',
    findOut:
      'Lassen Sie ihn 30 Minuten unter Volllast laufen; notieren Sie Temperatur, Leistung und Raumtemperatur.',
  },
  processorMaxC: {
    label: 'Höchste Temperatur des Prozessors',
    meaning: 'Die Temperatur, bei der sich der Prozessor selbst bremst.',
    findOut: 'Die Seite des Prozessorherstellers nennt sie als Höchst- oder Sperrschichttemperatur.',
  },
  systemLicence: {
    label: 'Lizenz des Systems',
    meaning: 'Ob die Lizenz des installierten Systems auf ein anderes Mainboard mitgehen darf.',
    findOut:
      'Die Einstellungen nennen es unter Aktivierung; mit dem Rechner verkauft heißt an sein Mainboard gebunden.',
  },
  diskEncrypted: {
    label: 'Laufwerk verschlüsselt',
    meaning:
      'Ein verschlüsseltes Laufwerk verlangt nach neuem Mainboard oder neuer Firmware den Wiederherstellungsschlüssel.',
    findOut: 'Die Einstellungen des Systems zeigen es unter Geräteverschlüsselung.',
  },
  trustModule: {
    label: 'Vertrauensmodul (TPM)',
    meaning: 'Ein Teil von Mainboard oder Prozessor, das neuere Systeme verlangen.',
    findOut: 'Die Einstellungen des Mainboards nennen es unter Sicherheit oder Trusted Computing.',
  },
  secureStart: {
    label: 'Sicherer Start',
    meaning: 'Ob sich die Firmware so einstellen lässt, dass nur signierte Systeme starten (Secure Boot).',
    findOut: 'Die Einstellungen des Mainboards nennen es unter Boot oder Sicherheit.',
  },
}
