import type { FRAMES, OwnerFindingWords } from '../en/findings.ts'
import { or } from '../en/or.ts'
import type { Translated } from '../translated.ts'
import { CASE_DE } from './caseFindings.ts'
import { COOLING_DE } from './coolingFindings.ts'
import { GRAPHICS_DE } from './graphicsFindings.ts'
import { MEMORY_DE } from './memoryFindings.ts'
import { OFFICE_AND_WORK_DE } from './officeFindings.ts'
import { POWER_DE } from './powerFindings.ts'
import { STORAGE_DE } from './storageFindings.ts'
import { SYSTEM_DE } from './systemFindings.ts'

/** Sentences around all rules; the builder's stay English. */
export const FRAMES_DE: Translated<typeof FRAMES> = {
  ofEarlierRules: (rule, verdict) => ({
    owner: 'So sagte es eine frühere Ausgabe unserer Regeln.',
    builder: `${rule}: ${verdict}, by an earlier edition of the rules`,
  }),
  notLookedUp: 'Wir haben noch nicht alle Daten dieses Teils nachgeschlagen.',
  notLookedUpOf: (partName) => `Wir haben noch nicht alle Daten von ${partName} nachgeschlagen.`,
  weLookUp: 'Das tun wir, bevor wir etwas versprechen.',
  restIsOurs: 'Den Rest schlagen wir selbst nach.',
  noPart: (label) => `Wir wissen nicht, ${label}.`,
  unknown: (labels) => `not known: ${labels.join(', ')}`,
  check: (doubt) => `check: ${doubt}`,
  atLeast: (labels) => `at least, not measured: ${labels.join(', ')}`,
}

/** The chipset by name, where the name is known. */
const chipset = (name: string | undefined): string =>
  name === undefined || name === 'not known' ? 'Chipsatz' : `Chipsatz ${name}`

export const FINDING_DE: OwnerFindingWords = {
  'processor.socket': {
    fits: () => ({ owner: 'Er passt auf Ihr Mainboard, so wie es ist.' }),
    'does not fit': (v) => ({
      owner: `Er braucht einen anderen Sockel: ${v.needSocket}, und Ihr Mainboard hat ${v.haveSocket}.`,
      next: 'Dafür bräuchten Sie ein neues Mainboard; der Kühler braucht vielleicht eine andere Halterung.',
    }),
    "can't tell": (known) => ({
      owner: `Er braucht ${or(known.needSocket, 'seinen Sockel')}, und wir wissen nicht, welchen Sockel Ihr Mainboard hat.`,
    }),
  },
  'processor.generation': {
    fits: (v) => ({ owner: `Der ${chipset(v.chipset)} Ihres Mainboards nimmt diese Generation.` }),
    'does not fit': (v) => ({
      owner: `Der ${chipset(v.chipset)} Ihres Mainboards nimmt diese Generation nicht, trotz gleichem Sockel.`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined
        ? { owner: 'Wir wissen nicht, ob der Chipsatz Ihres Mainboards diese Generation nimmt.' }
        : {
            owner: `Manche Mainboards mit dem ${chipset(known.chipset)} nehmen ihn, andere nicht.`,
            next: 'Wir lesen die Liste Ihres Mainboards, bevor wir etwas versprechen.',
          },
  },
  'processor.firmware': {
    fits: (v) => ({
      owner: `Ihre Firmware genügt: nötig ist ${v.needFirmware}, Ihr Mainboard hat ${v.haveFirmware}.`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Das Mainboard braucht zuerst neuere Firmware: Version ${v.needFirmware} oder neuer; jetzt hat es ${v.haveFirmware}.`,
      next: minutes === undefined ? 'Das machen wir vor dem Einbau.' : `Das machen wir in ${minutes}.`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined || known.needFirmware === undefined
        ? {
            owner:
              'Er braucht vielleicht neuere Firmware; wir wissen nicht, welche Ihr Mainboard hat oder braucht.',
          }
        : {
            owner: `Er braucht Firmware ${known.needFirmware}; ob ${or(known.haveFirmware, 'Ihre Version')} älter ist, können wir nicht sagen.`,
            next: 'Wir lesen die Daten auf der Seite des Mainboard-Herstellers.',
          },
  },
  'processor.update': {
    fits: (v) => ({
      owner: `Ihre Firmware genügt schon: nötig ist ${v.needFirmware}, Ihr Mainboard hat ${v.haveFirmware}.`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Er braucht Firmware ${v.needFirmware} oder neuer; die Aktualisierung kommt hier zuerst.`,
      ...(minutes === undefined ? {} : { next: `Die Aktualisierung dauert ${minutes}.` }),
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ab welcher Firmware er auf Ihrem Mainboard läuft.' }),
  },
  'processor.boardPower': {
    fits: (v) => ({
      owner: `Ihr Mainboard kann ihn versorgen: Er braucht bis ${v.processorLimitW}, und es liefert ${v.boardProcessorW}.`,
    }),
    'fits slower': (v) => ({
      owner: `Er läuft, aber auf ${v.boardProcessorW} begrenzt; für volles Tempo bräuchte er ${v.processorLimitW}.`,
      next: 'Was das kostet, zeigt nur ein Testlauf.',
    }),
    "can't tell": (known) => ({
      owner: `Er braucht bis ${or(known.processorLimitW, 'zu seiner Grenze')}; wie viel das Mainboard über Stunden liefert, sagt sein Hersteller nicht.`,
    }),
  },
  'processor.plug': {
    fits: (v) => ({
      owner: `Der Prozessorstecker Ihres Netzteils genügt: nötig sind ${v.drawW}, er trägt ${v.plugW}.`,
    }),
    'fits after work': (v) => ({
      owner: `Er braucht ${v.drawW}, und der Prozessorstecker Ihres Netzteils trägt ${v.plugW}.`,
      next: 'Dazu gehört ein Netzteil mit größerem Stecker.',
    }),
    "can't tell": () => ({
      owner:
        'Er braucht mehr, als ein kleiner Prozessorstecker trägt, und wir kennen den Stecker Ihres Netzteils nicht.',
    }),
  },
  'processor.picture': {
    fits: () => ({ owner: 'Er hat eigene Grafik, Ihr Bildschirm läuft also ohne Karte.' }),
    'does not fit': () => ({
      owner: 'Er hat keine eigene Grafik, ohne Karte bleibt Ihr Bildschirm dunkel.',
      next: 'Bleibt eine Grafikkarte drin, passt er.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob er ohne Karte ein Bild zeigt.' }),
  },
  ...MEMORY_DE,
  ...GRAPHICS_DE,
  ...POWER_DE,
  ...COOLING_DE,
  ...STORAGE_DE,
  ...CASE_DE,
  ...OFFICE_AND_WORK_DE,
  ...SYSTEM_DE,
}
