import type { ValuesOf } from '../../core/fit/rules.ts'
import type { OwnerFindingWords } from '../en/findings.ts'

/** Sentences of the memory rules. */
export const MEMORY_DE: Pick<OwnerFindingWords, Extract<keyof OwnerFindingWords, `memory.${string}`>> = {
  'memory.generation': {
    fits: (v) => ({ owner: `Das ist ${v.kitGeneration}, wie Ihr Mainboard es nimmt.` }),
    'does not fit': (v) => ({
      owner: `Das ist ${v.kitGeneration}, und Ihr Mainboard nimmt ${v.boardGeneration}: Das eine läuft nicht im anderen.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, welche Speichergeneration Ihr Mainboard nimmt.' }),
  },
  'memory.form': {
    fits: () => ({ owner: 'Die Module haben die Länge, die Ihr Mainboard nimmt.' }),
    'does not fit': () => ({ owner: 'Das sind Notebook-Module, und Ihr Mainboard nimmt die langen.' }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, welche Länge diese Module haben.' }),
  },
  'memory.slots': {
    fits: (v) => ({
      owner: `Für jedes Modul ist ein Steckplatz da: ${v.modules} von ${v.slots} sind dann belegt.`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Alle ${v.slots} Steckplätze werden gebraucht, die alten Module kommen also heraus.`,
      ...(minutes === undefined ? {} : { next: `Das dauert ${minutes}.` }),
    }),
    'does not fit': (v) => ({
      owner: `Das sind ${v.modules} Module, und Ihr Mainboard hat ${v.slots} Steckplätze.`,
      next: 'Dafür müssen alte Module heraus.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie viele Speichersteckplätze Ihr Mainboard hat.' }),
  },
  'memory.total': {
    fits: (v) => ({ owner: `Das sind zusammen ${v.totalGB}, und Ihr Mainboard nimmt bis ${v.maxGB}.` }),
    'does not fit': (v) => ({ owner: `Das sind zusammen ${v.totalGB}, und bei ${v.maxGB} ist Schluss.` }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined || known.totalGB === undefined || known.maxGB === undefined
        ? { owner: 'Wir wissen nicht, wie viel Speicher Ihr Mainboard insgesamt nimmt.' }
        : {
            owner: `Das sind ${known.totalGB}: Das Mainboard nennt so viel, die Seite Ihres Prozessors endet bei ${known.maxGB}.`,
            next: 'Wir probieren es aus, oder Sie fragen den Hersteller des Mainboards.',
          },
  },
  'memory.perSlot': {
    fits: (v) => ({ owner: `Ihr Mainboard nennt Module mit ${v.listedGB}, und diese haben ${v.moduleGB}.` }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined || known.moduleGB === undefined || known.listedGB === undefined
        ? { owner: 'Wir wissen nicht, wie groß ein Modul auf Ihrem Mainboard sein darf.' }
        : {
            owner: `Die Seite Ihres Mainboards nennt ${known.listedGB} je Steckplatz; Module mit ${known.moduleGB} kamen später.`,
            next: 'Wir probieren eines aus, oder Sie fragen den Hersteller des Mainboards.',
          },
  },
  'memory.mixing': {
    fits: () => ({ owner: 'Diese Module laufen heute schon zusammen auf Ihrem Mainboard.' }),
    "can't tell": () => ({
      owner: 'Neue Module neben alten laufen oft, und manchmal startet der Rechner nicht.',
      next: 'Wir probieren Ihr Paar aus, oder Sie nehmen ein abgestimmtes Kit.',
    }),
  },
  'memory.rate': {
    fits: (v) => ({
      owner:
        v.runsMts === v.ratedMts
          ? `Der Speicher läuft mit seinen ${v.runsMts}.`
          : `Der Speicher läuft vielleicht mit seinen ${v.runsMts}; sicher sind ${v.ratedMts}.`,
    }),
    'fits slower': (v) => ({
      owner:
        v.runsMts === v.ratedMts
          ? `Der Speicher läuft mit ${v.runsMts}; ausgelegt ist er für ${v.fastestMts}.`
          : `Der Speicher läuft vielleicht mit ${v.runsMts}, sicher mit ${v.ratedMts}; ausgelegt ist er für ${v.fastestMts}.`,
      next: whatSetsTheRate(v),
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie schnell der Speicher auf Ihrem Mainboard liefe.' }),
  },
  'memory.profile': {
    fits: (v) => ({
      owner: `Er kann mit ${v.profileMts} laufen, über den ${v.ratedMts} Ihres Prozessors: Bei den meisten geht das, garantiert ist es nicht.`,
      next: `Wir prüfen es. Klappt es nicht, läuft er mit ${v.ratedMts}.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie schnell der Speicher mit seinem Profil liefe.' }),
  },
  'memory.channels': {
    fits: () => ({ owner: 'Die Module nutzen beide Kanäle Ihres Prozessors zum Speicher.' }),
    'fits slower': () => ({
      owner: 'Mit einem Modul nutzt Ihr Prozessor nur einen seiner beiden Kanäle.',
      next: 'Ein zweites gleiches Modul öffnet den anderen.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie viele Module das sind.' }),
  },
  'memory.flex': {
    fits: (v) => ({ owner: `Alle ${v.totalGB} nutzen beide Kanäle.` }),
    'fits slower': (v) => ({
      owner: `Nur ${v.dualGB} von ${v.totalGB} nutzen beide Kanäle.`,
      next: 'Gleiche Module in Paaren nutzen beide für alles.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie sich die Module auf die beiden Kanäle verteilen.' }),
  },
  'memory.system': {
    fits: (v) => ({
      owner: `Ihr System ist ein 32-Bit-System und nutzt bis ${v.systemGB}; das genügt für ${v.totalGB}.`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Ihr System ist ein 32-Bit-System und kann nur ${v.systemGB} nutzen.`,
      next:
        minutes === undefined
          ? 'Ein 64-Bit-System nutzt alles; wir richten es ein.'
          : `Ein 64-Bit-System nutzt alles; wir richten es in ${minutes} ein.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie viel Speicher Ihr System nutzen kann.' }),
  },
}

/** Which of the three sets the memory's rate; the texts are equal exactly when the figures are. */
function whatSetsTheRate(v: Readonly<Record<keyof ValuesOf<'memory.rate'>, string>>): string {
  if (v.runsMts === v.slowestMts) return 'Das langsamste Modul bestimmt diese Rate.'
  if (v.runsMts !== v.controllerMts) return 'Ihr Mainboard bestimmt diese Rate.'
  return v.profileMts === v.runsMts
    ? 'Ihr Prozessor bestimmt diese Rate, und Ihr Mainboard erlaubt nicht mehr.'
    : `Dafür ist Ihr Prozessor ausgelegt. Ihr Mainboard kann ${v.profileMts} versuchen: Das ist Übertaktung und nie sicher.`
}
