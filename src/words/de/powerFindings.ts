import type { OwnerFindingWords } from '../en/findings.ts'
import { or } from '../en/or.ts'

type Here = Pick<
  OwnerFindingWords,
  | 'power.load'
  | 'power.plugs'
  | 'power.plug16'
  | 'power.cables'
  | 'power.peaks'
  | 'power.newSupply'
  | 'case.supplyAndCard'
>

/** The supply: load, plugs, cables, short peaks. */
export const POWER_DE: Here = {
  'power.load': {
    fits: (v) => ({
      owner: `Damit braucht Ihr Rechner bei Volllast ${v.loadW}; wir zählen auf ${v.usableW}.`,
    }),
    'fits after work': (v) => ({
      owner: `Damit braucht Ihr Rechner ${v.loadW}, mehr als die ${v.usableW}, auf die wir zählen.`,
      next:
        v.ageLossPct === undefined
          ? 'Dazu gehört ein stärkeres Netzteil.'
          : `Dazu gehört ein stärkeres Netzteil. Ihres ist ${v.supplyYears} alt, wir zählen auf weniger davon: unsere eigene Regel.`,
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie viel Ihr Netzteil auf 12 V liefert, wo Karte und Prozessor ziehen.',
    }),
  },
  'power.plugs': {
    fits: (v) => ({ owner: `Ihr Netzteil hat die Stecker dafür: ${v.needPlugs}.` }),
    'fits after work': (v) => ({
      owner: `Die Karte braucht ${v.needPlugs}, Ihr Netzteil hat ${v.havePlugs}.`,
      next: 'Dazu gehört ein Netzteil mit diesen Steckern. Adapter verwenden wir dafür nicht.',
    }),
    "can't tell": (known) => ({
      owner: `Die Karte braucht ${or(known.needPlugs, 'eigene Stecker')}, und wir kennen die Stecker Ihres Netzteils nicht.`,
    }),
  },
  'power.plug16': {
    fits: (v) => ({
      owner: `Die Karte zieht ${v.needW} über den 16-poligen Stecker, und Ihrer ist für ${v.pin16W} gemacht.`,
    }),
    'fits after work': (v) => ({
      owner: `Die Karte zieht ${v.needW} über den 16-poligen Stecker, und Ihrer ist für ${v.pin16W} gemacht.`,
      next: 'Dazu gehört ein Netzteil mit stärkerem Stecker.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie viel der 16-polige Stecker Ihres Netzteils tragen darf.',
    }),
  },
  'power.cables': {
    fits: (v) => ({
      owner: `Die Stecker teilen sich ein Kabel: Über Kabel zieht die Karte ${v.needW}, Ihre tragen ${v.cablesW}.`,
    }),
    'fits after work': (v) => ({
      owner: `Die Stecker müssten sich ein Kabel teilen: Über Kabel zieht die Karte ${v.needW}, Ihre tragen ${v.cablesW}.`,
      next: 'Dazu gehört ein Netzteil mit einem Kabel für jede Buchse.',
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, ob die Kabel Ihres Netzteils tragen, was die Karte zieht.',
    }),
  },
  'power.peaks': {
    fits: (v) => ({
      owner: `Der Rechner zieht für Augenblicke vielleicht ${v.peakW}; so kurz hält Ihr Netzteil ${v.carriesW} aus.`,
    }),
    'fits after work': (v) => ({
      owner: `Der Rechner zieht für Augenblicke vielleicht ${v.peakW}; auch so kurz hält Ihr Netzteil nur ${v.carriesW} aus.`,
      next: 'Dazu gehört ein stärkeres Netzteil.',
    }),
    "can't tell": (known, { doubt }) => {
      const owner = `Der Rechner zieht für Augenblicke vielleicht ${or(known.peakW, 'weit mehr als sonst')}.`
      return doubt === undefined
        ? { owner: `${owner} Ob Ihr Netzteil so kurze Spitzen aushält, wissen wir nicht.` }
        : {
            owner: `${owner} Netzteile dieser Bauart versprechen dafür nichts.`,
            next: 'Wir fragen den Hersteller des Netzteils oder nehmen ein neueres.',
          }
    },
  },
  'power.newSupply': {
    fits: () => ({ owner: 'Das neue Netzteil bringt eigene Kabel mit, und die alten Kabel gehen.' }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, welche Kabel zu dem Netzteil gehören.' }),
  },
  'case.supplyAndCard': {
    fits: (v) => ({
      owner: `Netzteil und Karte sind zusammen ${v.bothMm} lang, und Ihr Gehäuse hat für beide ${v.roomMm}.`,
    }),
    'does not fit': (v) => ({
      owner: `Netzteil und Karte sind zusammen ${v.bothMm} lang, ${v.overMm} zu lang für Ihr Gehäuse.`,
    }),
    "can't tell": () => ({
      owner:
        'Netzteil und Karte teilen sich in Ihrem Gehäuse eine Länge; wie lang beide sind, wissen wir nicht.',
    }),
  },
}
