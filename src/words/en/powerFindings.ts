import type { FindingWords } from './findings.ts'
import { howMany, or } from './or.ts'

type Here = Pick<
  FindingWords,
  | 'power.load'
  | 'power.plugs'
  | 'power.plug16'
  | 'power.cables'
  | 'power.peaks'
  | 'power.newSupply'
  | 'case.supplyAndCard'
>

/** How the shop comes to what it counts on: a share of the label, less something for age. */
const counted = (v: { sharePct: string; supply12VW: string; ratedW: string; ageLossPct?: string }): string =>
  [
    `${v.sharePct} of ${v.supply12VW}, label ${v.ratedW}`,
    ...(v.ageLossPct === undefined ? [] : [`${v.ageLossPct} off for age`]),
    'shop policy',
  ].join('; ')

/** The supply: load, plugs, cables, short peaks. */
export const POWER_WORDS: Here = {
  'power.load': {
    fits: (v) => ({
      owner: `With it your machine takes ${v.loadW} at full load, of the ${v.usableW} we count on.`,
      builder: `12 V ${v.loadW} of ${v.usableW} (${counted(v)})`,
    }),
    'fits after work': (v) => ({
      owner: `With it your machine takes ${v.loadW}, more than the ${v.usableW} we count on.`,
      next:
        v.ageLossPct === undefined
          ? 'It needs a stronger supply with it.'
          : `It needs a stronger supply with it. Yours is ${v.supplyYears} old, and we count on less of it: our own rule.`,
      builder: `12 V ${v.loadW} > ${v.usableW} (${counted(v)})`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how much your supply gives on 12 V, where card and processor draw.',
      builder: '12 V rating of the supply',
    }),
  },
  'power.plugs': {
    fits: (v) => ({
      owner: `Your supply has the plugs for it: it needs ${v.needPlugs}.`,
      builder: `plugs ${v.needPlugs} from ${v.havePlugs}; cables ${v.cardCables}`,
    }),
    'fits after work': (v) => ({
      owner: `It needs ${v.needPlugs}, and your supply has ${v.havePlugs}.`,
      next: 'It needs a supply with those plugs. We do not use adapters for that.',
      builder: `plugs ${v.needPlugs} vs ${v.havePlugs}; no adapters (shop policy)`,
    }),
    "can't tell": (known) => ({
      owner: `It needs ${or(known.needPlugs, 'plugs of its own')}, and we do not know which plugs your supply has.`,
      builder: `card plugs of the supply, needs ${or(known.needPlugs, '?')}`,
    }),
  },
  'power.plug16': {
    fits: (v) => ({
      owner: `It takes ${v.needW} over its 16-pin plug, and your supply’s is made for ${v.pin16W}.`,
      builder: `16-pin ${v.needW} <= ${v.pin16W} (card ${v.cardW}, slot ${v.slotW})`,
    }),
    'fits after work': (v) => ({
      owner: `It takes ${v.needW} over its 16-pin plug, and your supply’s is made for ${v.pin16W}.`,
      next: 'It needs a supply with a stronger plug.',
      builder: `16-pin ${v.needW} > ${v.pin16W} (card ${v.cardW}, slot ${v.slotW})`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how much the 16-pin plug of your supply may carry.',
      builder: 'print on the 16-pin plug: 150, 300, 450 or 600 W',
    }),
  },
  'power.cables': {
    fits: (v) => ({
      owner: `Its plugs share a cable: it takes ${v.needW} over cables, and yours carry ${v.cablesW}.`,
      builder: `${howMany(v.sockets, 'socket')} on ${howMany(v.cardCables, 'cable')}: ${v.needW} <= ${v.cablesW}`,
    }),
    'fits after work': (v) => ({
      owner: `Its plugs would share a cable: it takes ${v.needW} over cables, and yours carry ${v.cablesW}.`,
      next: 'It needs a supply with a cable for each socket.',
      builder: `${howMany(v.sockets, 'socket')} on ${howMany(v.cardCables, 'cable')}: ${v.needW} > ${v.cablesW} (150 W a cable, shop policy)`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether the cables of your supply carry what it takes.',
      builder: 'card cables of the supply',
    }),
  },
  'power.peaks': {
    fits: (v) => ({
      owner: `For a ten-thousandth of a second it may draw ${v.peakW}; your supply is built to carry ${v.carriesW} that long.`,
      builder: `100 µs ${v.peakW} (card ${v.cardPeakW}, processor ${v.processorPeakW}, rest ${v.restW}) <= ${v.carriesW} (${v.carriesPct} of ${v.ratedW}, ${v.designVersion})`,
    }),
    'fits after work': (v) => ({
      owner: `For a ten-thousandth of a second it may draw ${v.peakW}; your supply is built to carry only ${v.carriesW} that long.`,
      next: 'It needs a stronger supply with it.',
      builder: `100 µs ${v.peakW} (card ${v.cardPeakW}, processor ${v.processorPeakW}, rest ${v.restW}) > ${v.carriesW} (${v.carriesPct} of ${v.ratedW}, ${v.designVersion}, 16-pin plug ${v.plug16})`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined
        ? {
            owner: `For a ten-thousandth of a second it may draw ${or(known.peakW, 'far above its power')}. We do not know what your supply carries that long.`,
            builder: `100 µs ${or(known.peakW, '?')}; rating ${or(known.ratedW, '?')}, design version or plugs unknown`,
          }
        : {
            owner: `For a ten-thousandth of a second it may draw ${or(known.peakW, 'far above its power')}. Supplies of that design promise nothing for that.`,
            next: 'We ask the maker of the supply, or choose a newer one.',
            builder: `100 µs ${or(known.peakW, '?')}; ${or(known.designVersion, 'design version')} is sure of ${or(known.carriesW, 'its rating')} only`,
          },
  },
  'power.newSupply': {
    fits: () => ({
      owner: 'The new supply comes with its own cables, and the old cables go.',
      builder: 'new supply: its own cables only, never those of another model',
    }),
    "can't tell": () => ({
      owner: 'We do not know which cables belong to the supply.',
      builder: 'cables of the supply',
    }),
  },
  'case.supplyAndCard': {
    fits: (v) => ({
      owner: `Supply and card are ${v.bothMm} long together, and your case has ${v.roomMm} for both.`,
      builder: `supply ${v.supplyMm} + card ${v.cardMm} = ${v.bothMm} <= ${v.roomMm}`,
    }),
    'does not fit': (v) => ({
      owner: `Supply and card are ${v.bothMm} long together, ${v.overMm} too long for your case.`,
      builder: `supply ${v.supplyMm} + card ${v.cardMm} = ${v.bothMm} > ${v.roomMm}`,
    }),
    "can't tell": () => ({
      owner: 'Supply and card share one length in your case, and we do not know how long both are.',
      builder: 'length of supply and of card; they lie in one line',
    }),
  },
}
