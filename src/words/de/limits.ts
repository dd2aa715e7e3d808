import type { LimitKey } from '../../core/limits/limit.ts'
import type { LIMIT_FRAMES, LimitWords, SOURCE_WORDS, SUPPORT_WORDS } from '../en/limits.ts'
import type { Translated } from '../translated.ts'
import { BENCH_LIMIT_DE } from './benchLimits.ts'
import { STATE_LIMIT_DE } from './stateLimits.ts'

/** Heading, meaning, and one sentence on how to find it out. */
export const LIMIT_DE: Readonly<Record<LimitKey, LimitWords>> = {
  socket: {
    label: 'Sockel',
    meaning: 'Wo der Prozessor steckt.',
    findOut: 'Der Name steht auf dem Mainboard; die Seite seines Herstellers nennt den Sockel.',
  },
  chipset: {
    label: 'Chipsatz',
    meaning: 'Der Steuerchip des Mainboards, der entscheidet, welche Prozessoren laufen.',
    findOut: 'Der Name steht auf dem Mainboard; die Seite seines Herstellers nennt den Chipsatz.',
  },
  family: {
    label: 'Plattformfamilie',
    meaning: 'Mainboards mit gleichen Kontakten können zu Familien gehören, die einander ausschließen.',
    findOut: 'Sie folgt aus dem Chipsatz, den die Seite des Mainboard-Herstellers nennt.',
  },
  generationSupport: {
    label: 'Ob das Mainboard diese Prozessorgeneration annimmt',
    meaning: 'Ob der Chipsatz des Mainboards die Generation des Prozessors nimmt.',
    findOut: 'Sehen Sie in der Prozessorliste des Mainboard-Herstellers nach.',
  },
  firmware: {
    label: 'Firmware',
    meaning: 'Die Version des BIOS auf dem Mainboard.',
    findOut: 'Der erste Bildschirm beim Start zeigt sie; ein Foto genügt.',
  },
  firmwareNeeded: {
    label: 'Nötige Firmware',
    meaning: 'Die erste Firmware, mit der der Prozessor läuft.',
    findOut: 'Die Prozessorliste des Mainboard-Herstellers nennt die Version neben jedem Prozessor.',
  },
  processorPowerW: {
    label: 'Leistung für den Prozessor',
    meaning: 'Was das Mainboard dem Prozessor über Stunden liefern kann.',
    findOut: 'Suchen Sie in der Prozessorliste des Herstellers die höchste Leistungsklasse.',
  },
  memoryType: {
    label: 'Speicherart',
    meaning: 'Die Speichergeneration, für die das Mainboard gekerbt ist.',
    findOut: 'Der Aufkleber eines Moduls im Rechner nennt sie, etwa DDR4.',
  },
  memorySlots: {
    label: 'Speichersteckplätze',
    meaning: 'Wie viele Module auf das Mainboard gehen.',
    findOut: 'Zählen Sie die langen Steckplätze neben dem Prozessor, volle und leere.',
  },
  memoryMaxGB: {
    label: 'Größter Speicher',
    meaning: 'So viel Speicher, wie Mainboard und Prozessor zusammen nutzen können.',
    findOut: 'Die Seite des Mainboard-Herstellers nennt den größten Speicher, in GB.',
  },
  memoryListedMaxGB: {
    label: 'Größter Speicher laut Mainboard-Seite',
    meaning: 'Was die Seite des Mainboards über die Zahl des Prozessors hinaus nennt.',
    findOut: 'Die Seite des Mainboard-Herstellers nennt den größten Speicher, in GB.',
  },
  memoryPerSlotMaxGB: {
    label: 'Größtes Modul',
    meaning: 'Das größte Modul, das ein Steckplatz nimmt.',
    findOut: 'Die Seite des Mainboard-Herstellers nennt das größte Modul, in GB.',
  },
  controllerRateMts: {
    label: 'Speicherrate des Prozessors',
    meaning: 'Die Rate, für die der Prozessor mit so vielen Modulen ausgelegt ist.',
    findOut: 'Die Seite des Herstellers nennt eine Rate, oft nur für zwei Module; mit mehr prüfen wir es.',
  },
  boardRateMts: {
    label: 'Speicherrate des Mainboards',
    meaning: 'Die Rate, über die das Mainboard ohne Profil nicht geht.',
    findOut: 'Die Seite des Mainboard-Herstellers nennt die höchste Rate, in MT/s.',
  },
  memoryOverclock: {
    label: 'Speicher über der Nennrate',
    meaning:
      'Ob das Mainboard den Speicher mit einem Profil schneller laufen lässt als der Prozessor vorsieht.',
    findOut: 'Es folgt aus dem Chipsatz, den die Seite des Mainboard-Herstellers nennt.',
  },
  memoryRunsMts: {
    label: 'Speicherrate jetzt',
    meaning: 'Die Rate, mit der der Speicher heute läuft.',
    findOut:
      'Der Task-Manager des Systems zeigt die Rate unter Speicher; manche Programme zeigen die Hälfte.',
  },
  slotPcieGen: {
    label: 'Generation des Grafiksteckplatzes',
    meaning: 'Wie schnell ein Datenweg des Grafiksteckplatzes ist.',
    findOut:
      'Die Seite des Mainboard-Herstellers nennt sie für den ersten langen Steckplatz, oft je Prozessor.',
  },
  slotLanes: {
    label: 'Datenwege des Grafiksteckplatzes',
    meaning: 'Wie viele Datenwege der Grafiksteckplatz hat.',
    findOut:
      'Die Seite des Mainboard-Herstellers nennt die Anbindung des ersten langen Steckplatzes, etwa x16.',
  },
  slotLanesShared: {
    label: 'Datenwege neben einem Laufwerk',
    meaning:
      'Wie viele Datenwege dem Grafiksteckplatz bleiben, wenn im M.2-Steckplatz daneben ein Laufwerk sitzt.',
    findOut: 'Die Seite des Herstellers sagt, welcher M.2-Steckplatz dem Grafiksteckplatz Datenwege nimmt.',
  },
  sharedM2Used: {
    label: 'Laufwerk im geteilten Steckplatz',
    meaning: 'Ob in dem M.2-Steckplatz ein Laufwerk sitzt, der dem Grafiksteckplatz Datenwege nimmt.',
    findOut: 'Wir sehen nach, oder Sie senden ein Foto des Mainboards.',
  },
  largeBar: {
    label: 'Großes Fenster für eine Karte',
    meaning: 'Ob der Prozessor den ganzen Speicher einer Karte auf einmal erreicht.',
    findOut:
      'In den Einstellungen des Mainboards heißt es Resizable BAR; die Herstellerseite sagt, ab welcher Firmware.',
  },
  processorPcieGen: {
    label: 'Grafikanbindung des Prozessors, Generation',
    meaning: 'Wie schnell ein Datenweg auf der Seite des Prozessors ist.',
    findOut: 'Die Seite des Prozessorherstellers nennt die PCI-Express-Version.',
  },
  processorPcieLanes: {
    label: 'Grafikanbindung des Prozessors, Datenwege',
    meaning: 'Wie viele Datenwege der Prozessor einer Grafikkarte gibt.',
    findOut: 'Die Seite des Mainboard-Herstellers sagt, wie viele der Steckplatz mit jedem Prozessor hat.',
  },
  cardRoomMm: {
    label: 'Platz für eine Grafikkarte',
    meaning: 'Die freie Länge für eine Grafikkarte, mit den vorderen Lüftern.',
    findOut: 'Messen Sie vom Blech hinten an den Steckplätzen bis zum ersten Hindernis, in mm.',
  },
  cardSlots: {
    label: 'Slotbleche',
    meaning: 'Wie viele Steckplätze breit eine Karte in diesem Gehäuse sein darf.',
    findOut: 'Zählen Sie hinten die Slotbleche von der Grafikkarte abwärts.',
  },
  cardBracket: {
    label: 'Bauhöhe von Karten',
    meaning: 'Ob das Gehäuse Karten in voller Höhe nimmt oder nur flache.',
    findOut: 'Messen Sie hinten eine Slotöffnung: 120 mm ist volle Höhe, 79 mm ist flach.',
  },
  coolerRoomMm: {
    label: 'Platz für einen Kühler',
    meaning: 'Die freie Höhe über dem Prozessor.',
    findOut: 'Messen Sie den Spalt vom Kühler zur Seitenwand, in mm, und zählen Sie die Kühlerhöhe dazu.',
  },
  supplyRatedW: {
    label: 'Nennleistung des Netzteils',
    meaning: 'Was das Netzteil insgesamt liefern soll.',
    findOut: 'Sie steht auf dem Aufkleber des Netzteils, in W; ein Foto genügt.',
  },
  supply12VW: {
    label: 'Netzteil auf 12 V',
    meaning: 'Was das Netzteil Prozessor und Karte liefert.',
    findOut: 'Der Aufkleber des Netzteils nennt es in der 12-V-Spalte, in W; ein Foto genügt.',
  },
  supplyPlugs: {
    label: 'Kartenstecker',
    meaning: 'Die Stromkabel für eine Grafikkarte.',
    findOut: 'Zählen Sie die Kartenstecker am Netzteil: 6-, 8- und 16-polig, benutzte und lose.',
  },
  processorPlug: {
    label: 'Prozessorstecker',
    meaning: 'Der größere der Stecker, die den Prozessor versorgen.',
    findOut: 'Sehen Sie auf den Stecker neben dem Prozessor: vier Kontakte, acht, oder zwei Hälften zu vier.',
  },
  displaySocket: {
    label: 'Anschluss des Bildschirms',
    meaning: 'Der Anschluss, den der Bildschirm braucht.',
    findOut: 'Sehen Sie auf den Stecker des Bildschirmkabels, oder senden Sie ein Foto davon.',
  },
  systemBits: {
    label: 'System, 32 oder 64 Bit',
    meaning: 'Ein 32-Bit-System kann nur 4 GB Speicher nutzen.',
    findOut: 'Die Einstellungen des Systems nennen es unter Info als Systemtyp.',
  },
  ...BENCH_LIMIT_DE,
  ...STATE_LIMIT_DE,
}

export const SOURCE_DE: Translated<typeof SOURCE_WORDS> = {
  part: { by: 'aus dem Datenblatt', subject: 'das Datenblatt' },
  platform: { by: 'aus veröffentlichten Tabellen', subject: 'die veröffentlichte Tabelle' },
  read: { by: 'aus dem Rechner gelesen', subject: 'die Tabelle des Rechners' },
  measured: { by: 'gemessen', subject: 'eine Messung' },
  entered: { by: 'eingetippt, ohne Beleg', subject: 'ein eingetippter Wert' },
}

export const SUPPORT_DE: Translated<typeof SUPPORT_WORDS> = {
  native: 'ja',
  'firmware update': 'ja, auf älteren Mainboards mit neuerer Firmware',
  'board by board': 'auf manchen Mainboards',
  'not supported': 'nein',
}

export const LIMIT_FRAMES_DE: Translated<typeof LIMIT_FRAMES> = {
  notKnown: 'nicht bekannt',
  pinned: 'vom Händler entschieden',
  nobody: 'niemand hat es gesagt',
  doubt: (doubt) => `im Zweifel: ${doubt}`,
  atLeast: (value, note) => `mindestens ${value}${note === undefined ? '' : ` (${note})`}`,
  hint: (subject, value) => `${subject} sagt ${value}, das ist nur ein Hinweis`,
  says: (subject, value) => `${subject} sagt ${value}`,
  conflict: (says, used) =>
    `${says.length === 2 ? 'Zwei Quellen' : 'Quellen'} widersprechen sich: ${says.join(', ')}. Wir zählen auf ${used}.`,
}
