import type { OwnerFindingWords } from '../en/findings.ts'
import { german } from './texts.ts'

/** Board form, fans, front panel and supply in a case. */
export const CASE_DE: Pick<
  OwnerFindingWords,
  'case.board' | 'case.fans' | 'case.frontPanel' | 'case.supply'
> = {
  'case.board': {
    fits: (v) => ({ owner: `Das Mainboard hat die Form ${v.boardForm}, und das Gehäuse nimmt sie.` }),
    'does not fit': (v) => ({
      owner: `Das Mainboard hat die Form ${v.boardForm}, und das Gehäuse nimmt ${v.caseForms}.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob das Mainboard in das Gehäuse passt.' }),
  },
  'case.fans': {
    fits: (v) => ({ owner: `Das Gehäuse hat für jeden Lüfter einen Platz: ${v.fanSizes}.` }),
    'does not fit': (v) => ({ owner: `Das Gehäuse hat nicht für jeden dieser Lüfter Platz: ${v.fanSizes}.` }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wo Ihr Gehäuse Lüfter nimmt.' }),
  },
  'case.frontPanel': {
    fits: () => ({ owner: 'Das Mainboard hat für jeden Frontstecker einen Anschluss.' }),
    'fits slower': (v) => ({
      owner: `Es läuft, und vorn bleibt tot: ${german(v.deadPlugs)}.`,
      next: 'Dafür hat das Mainboard keinen Anschluss.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob das Mainboard die Anschlüsse für die Front hat.' }),
  },
  'case.supply': {
    fits: (v) => ({ owner: `Das Netzteil hat die Bauform ${v.supplyForm}, und das Gehäuse nimmt sie.` }),
    'fits after work': (v, { minutes }) => ({
      owner: `Das Netzteil hat die kleine Bauform ${v.supplyForm} und braucht in Ihrem Gehäuse eine Halterung.`,
      next: minutes === undefined ? 'Wir bauen sie ein.' : `Wir bauen sie in ${minutes} ein.`,
    }),
    'does not fit': (v) => ({
      owner:
        v.mounting === 'own'
          ? 'Die Öffnung Ihres Gehäuses ist für das Netzteil seines Herstellers gemacht.'
          : `Das Netzteil hat die Bauform ${v.supplyForm}, und das Gehäuse nimmt ${v.caseForms}.`,
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, ob das Netzteil in das Gehäuse passt.' }),
  },
}
