import type { OwnerFindingWords } from '../en/findings.ts'

type Here = Pick<
  OwnerFindingWords,
  | 'case.supplyDepth'
  | 'office.supplyPlug'
  | 'office.boardPlug'
  | 'office.mounting'
  | 'office.slotPower'
  | 'office.firmwareList'
  | 'work.memoryProfile'
  | 'work.firmware'
>

/** Brand-name machines, and work without a part. */
export const OFFICE_AND_WORK_DE: Here = {
  'case.supplyDepth': {
    fits: (v) => ({
      owner: `Das Netzteil ist ${v.supplyMm} tief, und Ihr Gehäuse hat Platz für ${v.roomMm}.`,
    }),
    'does not fit': (v) => ({
      owner: `Das Netzteil ist ${v.supplyMm} tief, ${v.overMm} zu tief für Ihr Gehäuse.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob das Netzteil kurz genug für Ihr Gehäuse ist.' }),
  },
  'office.supplyPlug': {
    fits: () => ({ owner: 'Wir haben den Hauptstecker Ihres Mainboards angesehen: Es ist der übliche.' }),
    'does not fit': () => ({
      owner: 'Ihr Mainboard hat einen eigenen Hauptstecker, und keines unserer Netzteile hat ihn.',
      next: 'Adapter verwenden wir dort nicht: Ein falscher Kontakt kann das Mainboard verbrennen.',
    }),
    "can't tell": () => ({
      owner: 'Manche Markenrechner haben eigene Stecker, und Ihrer ist vielleicht einer davon.',
      next: 'Senden Sie ein Foto vom Stecker des Mainboards. Wir prüfen es, bevor etwas geändert wird.',
    }),
  },
  'office.boardPlug': {
    fits: () => ({ owner: 'Wir haben den Hauptstecker Ihres Netzteils angesehen: Es ist der übliche.' }),
    'fits after work': () => ({
      owner: 'Ihr Netzteil hat einen eigenen Hauptstecker, den das neue Mainboard nicht nimmt.',
      next: 'Dazu gehört ein übliches Netzteil.',
    }),
    "can't tell": () => ({
      owner: 'Ihr Netzteil kam in einem Markenrechner und hat vielleicht einen eigenen Stecker.',
      next: 'Senden Sie ein Foto vom Hauptstecker. Wir prüfen es, bevor etwas geändert wird.',
    }),
  },
  'office.mounting': {
    fits: () => ({ owner: 'Wir haben nachgesehen: Abstandshalter und hintere Öffnung folgen der Norm.' }),
    'does not fit': (v) => ({
      owner:
        v.boardShape === 'own'
          ? 'Ihr Mainboard hat eigene Löcher und passt nicht in ein übliches Gehäuse.'
          : 'Ihr Gehäuse hat eigene Abstandshalter und nimmt kein übliches Mainboard.',
    }),
    "can't tell": () => ({
      owner: 'Markenrechner haben oft eigene Abstandshalter und Öffnungen, und Ihre hat niemand angesehen.',
      next: 'Senden Sie Fotos von Abstandshaltern, hinterer Öffnung und Frontsteckern.',
    }),
  },
  'office.slotPower': {
    fits: (v) => ({
      owner: `Die Karte zieht bis ${v.needSlotW} aus dem Steckplatz, und Ihrer liefert ${v.slotW}.`,
    }),
    'does not fit': (v) => ({
      owner: `Die Karte zieht bis ${v.needSlotW} aus dem Steckplatz, und Ihrer liefert ${v.slotW}.`,
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie viel Leistung der Steckplatz dieses Rechners einer Karte geben darf.',
      next: 'Das Handbuch des Herstellers nennt sie, in W.',
    }),
  },
  'office.firmwareList': {
    fits: () => ({ owner: 'Die Firmware dieses Rechners nimmt es an.' }),
    "can't tell": (_, { doubt }) => ({
      owner: 'Manche Markenrechner starten nur mit Teilen von einer Liste ihres Herstellers.',
      next:
        doubt === undefined
          ? 'Wir fragen den Hersteller oder probieren ein Leihteil aus.'
          : 'Wir lesen die Liste des Herstellers, bevor wir etwas versprechen.',
    }),
  },
  'work.memoryProfile': {
    fits: (v) => ({
      owner: `Mit eingeschaltetem Profil kann Ihr Speicher mit seinen ${v.runsMts} laufen.`,
      next:
        v.runsMts === v.controllerMts || v.mayOverclock === 'nein'
          ? ''
          : `Ihr Prozessor ist für ${v.controllerMts} ausgelegt: Bei den meisten geht auch mehr, garantiert ist es nicht.`,
    }),
    'fits slower': (v) => ({
      owner: `Mit eingeschaltetem Profil läuft Ihr Speicher mit ${v.runsMts}; ausgelegt ist er für ${v.fastestMts}.`,
      next:
        v.mayOverclock === 'nein'
          ? 'Mehr erlauben Ihr Prozessor und Ihr Mainboard nicht.'
          : 'Mehr erlaubt Ihr Mainboard oder das langsamste Modul nicht.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie schnell Ihr Speicher mit eingeschaltetem Profil laufen darf.',
    }),
  },
  'work.firmware': {
    fits: (v) => ({
      owner: `Ihr Prozessor läuft mit Firmware bis ${v.lastFirmware}, und dort hören wir auf.`,
    }),
    "can't tell": () => ({ owner: 'Die neueste Firmware startet Ihren Prozessor vielleicht nicht mehr.' }),
  },
}
