import type { STATE_LIMIT_WORDS } from '../en/stateLimits.ts'
import type { Translated } from '../translated.ts'

/** How a machine stands today, and brand-name machines. */
export const STATE_LIMIT_DE: Translated<typeof STATE_LIMIT_WORDS> = {
  memoryProfileOn: {
    label: 'Speicherprofil eingeschaltet',
    meaning: 'Ob der Speicher mit seinem Profil läuft, über den üblichen Raten.',
    findOut: 'Die erste Seite der Mainboard-Einstellungen zeigt es, unter XMP oder EXPO.',
  },
  modulesInBothChannels: {
    label: 'Module in beiden Kanälen',
    meaning: 'Ob die Module so stecken, dass der Prozessor beide Kanäle zum Speicher nutzt.',
    findOut:
      'Sehen Sie, in welchen Steckplätzen Module stecken; das Handbuch sagt, welche zu einem Kanal gehören.',
  },
  displayPluggedInto: {
    label: 'Bildschirm angeschlossen an',
    meaning: 'Ob das Bildschirmkabel in der Karte oder im Mainboard steckt.',
    findOut: 'Sehen Sie hinten nach: Die Anschlüsse der Karte liegen tiefer und quer.',
  },
  coolingClean: {
    label: 'Kühlung sauber',
    meaning: 'Ob Kühler, Lüfter und Filter frei von Staub sind.',
    findOut: 'Herunterfahren und durch Filter und Kühlrippen sehen; ein Foto genügt.',
  },
  frontFanFitted: {
    label: 'Lüfter vorn',
    meaning: 'Ob vorn ein Lüfter hineinbläst.',
    findOut: 'Sehen Sie hinter die Front, oder halten Sie einen Papierstreifen davor.',
  },
  driversClean: {
    label: 'Grafiktreiber sauber',
    meaning: 'Ob die Treiber einer früheren Karte weg sind.',
    findOut: 'Die Programmliste des Systems zeigt, was frühere Karten zurückgelassen haben.',
  },
  systemFresh: {
    label: 'System frisch aufgesetzt',
    meaning: 'Ob das System auf diesem Mainboard aufgesetzt wurde, ohne Reste aus Jahren.',
    findOut: 'Die Infoseite des Systems zeigt, wann es aufgesetzt wurde.',
  },
  systemOnFastestDrive: {
    label: 'System auf dem schnellsten Laufwerk',
    meaning: 'Ob System und Spiele auf dem schnellsten Laufwerk des Rechners liegen.',
    findOut: 'Die Laufwerksliste des Systems zeigt, auf welchem es liegt.',
  },
  largeBarOn: {
    label: 'Großes Fenster eingeschaltet',
    meaning: 'Ob der Prozessor den ganzen Speicher der Karte auf einmal erreicht (Resizable BAR).',
    findOut: 'Die Einstellungen des Mainboards und die Seite des Kartentreibers zeigen es beide.',
  },
  processorSetW: {
    label: 'Eingestellte Prozessorleistung',
    meaning: 'Eine andere Leistungsgrenze als ab Werk, eingestellt in der Firmware.',
    findOut: 'Die Einstellungen des Mainboards zeigen sie als PL2 oder PPT, in W.',
  },
  cardSetW: {
    label: 'Eingestellte Kartenleistung',
    meaning: 'Eine andere Leistungsgrenze als ab Werk, eingestellt im Treiber.',
    findOut: 'Die Seite des Kartentreibers zeigt die Leistungsgrenze, in W oder Prozent.',
  },
  brandBoard: {
    label: 'Mainboard eines Markenrechners',
    meaning: 'Solche Mainboards können eigene Stecker, Umrisse und Firmware haben.',
    findOut:
      'Gemeint ist eines, das der Hersteller nie einzeln verkauft hat; der Aufkleber des Rechners sagt es.',
  },
  brandCase: {
    label: 'Gehäuse eines Markenrechners',
    meaning: 'Solche Gehäuse können eigene Abstandshalter und Öffnungen haben.',
    findOut:
      'Gemeint ist eines, das der Hersteller nie einzeln verkauft hat; der Aufkleber des Rechners sagt es.',
  },
  boardSupplyPlug: {
    label: 'Netzteilanschluss des Mainboards',
    meaning: 'Der Hauptstecker, den das Mainboard vom Netzteil nimmt.',
    findOut:
      'Senden Sie ein Foto vom Hauptstecker des Mainboards; wir zählen die Kontakte, bevor etwas geändert wird.',
  },
  supplyBoardPlug: {
    label: 'Mainboard-Stecker des Netzteils',
    meaning: 'Der Hauptstecker, den das Netzteil dem Mainboard gibt.',
    findOut:
      'Senden Sie ein Foto vom Hauptstecker des Netzteils; wir zählen die Kontakte, bevor etwas geändert wird.',
  },
  boardShape: {
    label: 'Form des Mainboards',
    meaning: 'Ob Umriss, Löcher und Rückblende der Norm folgen.',
    findOut: 'Wir vergleichen die Löcher mit der Normzeichnung; ein Foto von oben genügt für den Anfang.',
  },
  caseBoardMounting: {
    label: 'Abstandshalter des Gehäuses',
    meaning: 'Ob Abstandshalter, hintere Öffnung und Frontstecker der Norm folgen.',
    findOut: 'Mainboard ausbauen oder Fotos senden: Abstandshalter, hintere Öffnung und Frontstecker.',
  },
  caseSupplyMounting: {
    label: 'Netzteilöffnung des Gehäuses',
    meaning: 'Ob die Öffnung und ihre Schrauben zu einem üblichen Netzteil passen.',
    findOut: 'Messen Sie die Öffnung für das Netzteil und die Abstände der Schrauben, in mm.',
  },
  slotPowerW: {
    label: 'Leistung aus dem Grafiksteckplatz',
    meaning: 'Was der Steckplatz einer Karte liefern darf; nach der Norm 75 W.',
    findOut: 'Das Handbuch des Herstellers nennt sie für den langen Steckplatz, in W.',
  },
  firmwareAllowList: {
    label: 'Firmware mit Teileliste',
    meaning: 'Ob der Rechner nur mit Teilen von der Liste seines Herstellers startet.',
    findOut: 'Handbuch oder Kundendienst des Herstellers sagt es; ein Leihteil bei uns zeigt es.',
  },
  supplyRoomMm: {
    label: 'Platz für ein Netzteil',
    meaning: 'Die freie Tiefe für ein Netzteil mit seinen Kabeln.',
    findOut: 'Messen Sie von der Rückwand bis zum ersten Hindernis, in mm.',
  },
}
