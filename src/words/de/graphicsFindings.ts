import type { OwnerFindingWords } from '../en/findings.ts'
import { german } from './texts.ts'

/** A graphics card, its supply aside. */
export const GRAPHICS_DE: Pick<OwnerFindingWords, Extract<keyof OwnerFindingWords, `graphics.${string}`>> = {
  'graphics.link': {
    fits: () => ({ owner: 'Ihr Steckplatz gibt dieser Karte den ganzen Datenweg, den sie hat.' }),
    'fits slower': (v) => ({
      owner: `In Ihrem Steckplatz bekommt diese Karte weniger Daten, als sie nutzen könnte: ${v.linkGBps} statt ${v.cardGBps}.`,
      next: 'Was das in einem Spiel kostet, zeigt nur ein Testlauf.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie breit der Datenweg von Steckplatz und Prozessor zu dieser Karte ist.',
    }),
  },
  'graphics.narrow': {
    fits: (v) => ({
      owner: `Diese Karte hat nur ${v.cardLanes} Datenwege, und Ihr Steckplatz gibt ihr alle.`,
    }),
    'fits slower': (v) => ({
      owner: `Diese Karte hat nur ${v.cardLanes} Datenwege, und in Ihrem älteren Steckplatz bleiben ${v.linkGBps}.`,
      next: 'Spiele, die ihren Speicher füllen, können ruckeln. Bitten Sie uns zuerst um einen Testlauf.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie viele Daten diese Karte in Ihrem Steckplatz bewegen kann.',
    }),
  },
  'graphics.sharing': {
    fits: () => ({
      owner: 'Der Steckplatz, der der Karte Datenwege nimmt, ist leer; die Karte behält alle.',
    }),
    'fits slower': (v) => ({
      owner: `Ein Laufwerk nimmt der Karte Datenwege: ${v.leftLanes} von ${v.cardLanes} bleiben.`,
      next: 'In einem anderen Steckplatz nähme es keine.',
    }),
    "can't tell": () => ({
      owner:
        'Auf Ihrem Mainboard kann ein Laufwerk der Karte Datenwege nehmen; wo Ihres sitzt, wissen wir nicht.',
    }),
  },
  'graphics.largeBar': {
    fits: () => ({
      owner: 'Ihr Mainboard gibt der Karte das große Speicherfenster, das ihr Hersteller verlangt.',
    }),
    'fits slower': () => ({
      owner: 'Sie läuft; ihr Hersteller verlangt ein großes Speicherfenster, das Ihr Mainboard nicht gibt.',
      next: 'Was das in einem Spiel kostet, zeigt nur ein Testlauf.',
    }),
    "can't tell": () => ({
      owner:
        'Ihr Hersteller verlangt ein großes Speicherfenster; ob Ihr Mainboard es gibt, wissen wir nicht.',
    }),
  },
  'graphics.length': {
    fits: (v) => ({ owner: `Die Karte ist ${v.cardMm} lang, und Ihr Gehäuse hat ${v.roomMm}.` }),
    'fits after work': (v, { minutes }) => ({
      owner: `Die Karte ist ${v.cardMm} lang; Ihr Gehäuse hat ${v.roomMm}, ohne den vorderen Lüfter ${v.freeMm}.`,
      next: `Wir versetzen diesen Lüfter${minutes === undefined ? '' : ` in ${minutes}`}.`,
    }),
    'does not fit': (v) => ({
      owner: `Die Karte ist ${v.cardMm} lang, ${v.overMm} zu lang für Ihr Gehäuse.`,
    }),
    "can't tell": (known) => ({
      owner:
        known.cardMm === undefined
          ? 'Den freien Platz für eine Karte haben wir in Ihrem Gehäuse nie nachgemessen.'
          : `Die Karte ist ${known.cardMm} lang, und den freien Platz in Ihrem Gehäuse haben wir nie nachgemessen.`,
    }),
  },
  'graphics.thickness': {
    fits: (v) => ({
      owner: `Die Karte braucht hinten die Breite von ${v.needSlots}\u00a0Steckplätzen, und Ihr Gehäuse hat ${v.haveSlots}.`,
    }),
    'does not fit': (v) => ({
      owner: `Die Karte braucht hinten die Breite von ${v.needSlots}\u00a0Steckplätzen, und Ihr Gehäuse hat ${v.haveSlots}.`,
    }),
    "can't tell": (known) => ({
      owner:
        known.thickMm === undefined
          ? 'Die Slotbleche Ihres Gehäuses hat niemand gezählt.'
          : `Die Karte ist ${known.thickMm} dick, und die Slotbleche Ihres Gehäuses hat niemand gezählt.`,
    }),
  },
  'graphics.height': {
    fits: (v) => ({
      owner: `Die Karte ist ${v.bracketMm} hoch, und Ihr Gehäuse nimmt Karten mit ${v.roomMm}.`,
    }),
    'does not fit': (v) => ({
      owner: `Ihr Gehäuse nimmt nur flache Karten mit ${v.roomMm}; diese ist ${v.bracketMm} hoch.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob Ihr Gehäuse Karten in voller Höhe nimmt.' }),
  },
  'graphics.outputs': {
    fits: (v) => ({ owner: `Sie hat den Anschluss ${v.displaySocket}, den Ihr Bildschirm braucht.` }),
    'fits after work': (v) => ({
      owner: `Ihr Bildschirm braucht ${v.displaySocket}, und die Karte hat ${german(v.cardSockets)}.`,
      next: 'Ein Wandler kommt dazwischen; er ist nicht in diesem Preis.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, welchen Anschluss Ihr Bildschirm braucht.' }),
  },
}
