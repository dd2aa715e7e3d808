import type { OwnerFindingWords } from '../en/findings.ts'
import { german } from './texts.ts'

type RatingTexts = Readonly<Record<'processorLimitW' | 'coolerRatedW', string>>

const ratingFits = (v: RatingTexts) => ({
  owner: `Ihr Kühler ist für ${v.coolerRatedW} gemacht, und der Prozessor braucht bis ${v.processorLimitW}.`,
})

const ratingSlower = (v: RatingTexts) => ({
  owner: `Er braucht bis ${v.processorLimitW}, und der Kühler ist für ${v.coolerRatedW} gemacht.`,
  next: 'Er kann zu heiß werden und sich selbst bremsen. Ein stärkerer Kühler verhindert das.',
})

/** A cooler: its holder, its room, its radiator and the heat it carries. */
export const COOLING_DE: Pick<OwnerFindingWords, Extract<keyof OwnerFindingWords, `cooling.${string}`>> = {
  'cooling.mount': {
    fits: (v) => ({
      owner: `Die Halterung des Kühlers passt auf ${v.boardSocket}, den Sockel Ihres Mainboards.`,
    }),
    'fits after work': (v, { minutes }) =>
      v.kit === 'none'
        ? {
            owner: `Die Halterung Ihres Kühlers ist nicht für ${v.boardSocket} gemacht.`,
            next: 'Dazu gehört ein Kühler, der es ist.',
          }
        : {
            owner: `Die Halterung des Kühlers braucht den Montagesatz seines Herstellers für ${v.boardSocket}.`,
            next: minutes === undefined ? 'Wir bauen den Satz ein.' : `Wir bauen den Satz in ${minutes} ein.`,
          },
    'does not fit': (v) => ({
      owner: `Die Halterung dieses Kühlers ist nicht für ${v.boardSocket} gemacht, den Sockel Ihres Mainboards.`,
    }),
    "can't tell": () => ({
      owner: 'Wir wissen nicht, auf welchen Sockel die Halterung des Kühlers passen muss.',
    }),
  },
  'cooling.height': {
    fits: (v) => ({ owner: `Der Kühler ist ${v.coolerMm} hoch, und Ihr Gehäuse hat Platz für ${v.roomMm}.` }),
    'does not fit': (v) => ({
      owner: `Der Kühler ist ${v.coolerMm} hoch, ${v.overMm} zu hoch für Ihr Gehäuse.`,
    }),
    "can't tell": (known) => ({
      owner:
        known.coolerMm === undefined
          ? 'Den Platz für einen Kühler haben wir in Ihrem Gehäuse nie nachgemessen.'
          : `Der Kühler ist ${known.coolerMm} hoch, und den Platz in Ihrem Gehäuse haben wir nie nachgemessen.`,
    }),
  },
  'cooling.memoryRoom': {
    fits: (v) => ({
      owner: `Der Speicher ist ${v.moduleMm} hoch und passt unter den Lüfter des Kühlers, der ${v.underFanMm} frei lässt.`,
    }),
    "can't tell": () => ({
      owner: 'Der Lüfter des Kühlers sitzt über dem Speicher, und wir kennen die Höhe des Speichers nicht.',
    }),
  },
  'cooling.fanUp': {
    fits: (v) => ({
      owner: `Der Speicher ist ${v.moduleMm} hoch, und der Lüfter des Kühlers sitzt schon so hoch.`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Der Speicher ist ${v.upMm} höher als der Platz unter dem Lüfter des Kühlers.`,
      next: `Wir setzen den Lüfter${minutes === undefined ? '' : ` in ${minutes}`} höher; Ihr Gehäuse hat Platz dafür.`,
    }),
    'does not fit': (v) => ({
      owner: `Der Speicher ist zu hoch für den Lüfter des Kühlers, und zum Höhersetzen fehlen ${v.overMm}.`,
      next: 'Flacherer Speicher oder ein kleinerer Kühler passt.',
    }),
    "can't tell": () => ({
      owner:
        'Der Speicher ist zu hoch für den Lüfter des Kühlers, und den Platz darüber haben wir nie nachgemessen.',
    }),
  },
  'cooling.radiator': {
    fits: (v) => ({
      owner: `Der Radiator mit ${v.radiatorMm} hat in Ihrem Gehäuse einen Platz: ${german(v.radiatorPlaces)}.`,
    }),
    'does not fit': (v) => ({ owner: `Ihr Gehäuse hat keinen Platz für den Radiator mit ${v.radiatorMm}.` }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wo Ihr Gehäuse einen Radiator nimmt.' }),
  },
  'cooling.radiatorFront': {
    fits: (v) => ({
      owner: `Mit dem Radiator vorn behält die Karte mit ${v.cardMm} Länge in Ihrem Gehäuse genug Platz.`,
    }),
    'does not fit': (v) => ({
      owner: `Der Radiator passt nur vorn, und dort ist die Karte mit ${v.cardMm} um ${v.overMm} zu lang.`,
    }),
    "can't tell": () => ({
      owner: 'Der Radiator passt nur vorn, und die freie Länge für eine Karte haben wir nie nachgemessen.',
    }),
  },
  'cooling.measured': {
    fits: (v) => ({
      owner: `Ihr Kühler hält ihn bei ${v.roomC} Raumtemperatur nahe ${v.predictedC}; er darf bis ${v.maxC}.`,
      next: 'Das haben wir aus den Temperaturen Ihres Rechners berechnet.',
    }),
    'fits slower': (v) => ({
      owner: `Bei ${v.roomC} Raumtemperatur würde er mit ${v.processorLimitW} zu heiß und bremst sich selbst.`,
      next: 'Ein stärkerer Kühler verhindert das.',
    }),
    "can't tell": () => ({ owner: 'Wir wissen nicht, wie heiß dieser Prozessor würde.' }),
  },
  'cooling.rating': {
    fits: ratingFits,
    'fits slower': ratingSlower,
    "can't tell": () => ({
      owner: 'Wir haben keine Temperatur Ihres Rechners bei Volllast und keine Angabe zu seinem Kühler.',
    }),
  },
  'cooling.noMaximum': {
    fits: ratingFits,
    'fits slower': ratingSlower,
    "can't tell": () => ({
      owner: 'Wir wissen nicht, wie heiß dieser Prozessor werden darf, noch was Ihr Kühler schafft.',
    }),
  },
}
