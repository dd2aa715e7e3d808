import type { FindingWords } from './findings.ts'
import { or } from './or.ts'

/** Sentences of the rules about a cooler: its holder, its room, its radiator and the heat it carries. */
export const COOLING_WORDS: Pick<FindingWords, Extract<keyof FindingWords, `cooling.${string}`>> = {
  'cooling.mount': {
    fits: (v) => ({
      owner: `The cooler's holder fits ${v.boardSocket}, your board's socket.`,
      builder: `mount ${v.boardSocket} in ${v.coolerSockets}`,
    }),
    'fits after work': (v, { minutes }) =>
      v.kit === 'none'
        ? {
            owner: `Your cooler's holder is not made for ${v.boardSocket}.`,
            next: 'It needs a cooler that is.',
            builder: `mount ${v.coolerSockets} -> ${v.boardSocket}`,
          }
        : {
            owner: `The cooler's holder needs its maker's own kit for ${v.boardSocket}.`,
            next: minutes === undefined ? 'We fit the kit.' : `We fit the kit in ${minutes}.`,
            builder: `mount ${v.boardSocket}: kit of its maker (${v.kitSockets}), in the box ${or(v.coolerSockets, 'none')}`,
          },
    'does not fit': (v) => ({
      owner: `This cooler's holder is not made for ${v.boardSocket}, your board's socket.`,
      builder: `mount ${v.coolerSockets} on ${v.boardSocket}`,
    }),
    "can't tell": () => ({
      owner: "We do not know which socket the cooler's holder must fit.",
      builder: 'board socket for the cooler',
    }),
  },
  'cooling.height': {
    fits: (v) => ({
      owner: `The cooler is ${v.coolerMm} high, and your case has room for ${v.roomMm}.`,
      builder: `${v.coolerMm} <= ${v.roomMm}`,
    }),
    'does not fit': (v) => ({
      owner: `The cooler is ${v.coolerMm} high, ${v.overMm} too high for your case.`,
      builder: `${v.coolerMm} > ${v.roomMm}`,
    }),
    "can't tell": (known) => ({
      owner: `The cooler is ${or(known.coolerMm, 'so')} high, and we never measured the room in your case.`,
      builder: `room above the processor, needs ${or(known.coolerMm, '?')}`,
    }),
  },
  'cooling.memoryRoom': {
    fits: (v) => ({
      owner: `The memory is ${v.moduleMm} high and goes under the cooler's fan, which leaves ${v.underFanMm}.`,
      builder: `module ${v.moduleMm} <= ${v.underFanMm} under the fan`,
    }),
    "can't tell": (known) => ({
      owner: "The cooler's fan sits over the memory, and we do not know how high the memory is.",
      builder: `module height, ${or(known.underFanMm, '?')} under the fan`,
    }),
  },
  'cooling.fanUp': {
    fits: (v) => ({
      owner: `The memory is ${v.moduleMm} high, and the cooler's fan sits that high already.`,
      builder: `module ${v.moduleMm} > ${v.underFanMm}; fan is up for ${v.freeTodayMm} today`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `The memory is ${v.upMm} higher than the room under the cooler's fan.`,
      next: `We move the fan up${minutes === undefined ? '' : ` in ${minutes}`}; your case has room for that.`,
      builder: `module ${v.moduleMm} > ${v.underFanMm}; fan up needs ${v.needMm} of ${v.roomMm}`,
    }),
    'does not fit': (v) => ({
      owner: `The memory is too high for the cooler's fan, and your case lacks ${v.overMm} to move it up.`,
      next: 'Lower memory or a smaller cooler fits.',
      builder: `module ${v.moduleMm} > ${v.underFanMm}; fan up needs ${v.needMm} of ${v.roomMm}`,
    }),
    "can't tell": () => ({
      owner: "The memory is too high for the cooler's fan, and we never measured the room to move it up.",
      builder: 'fan up: room above the processor',
    }),
  },
  'cooling.radiator': {
    fits: (v) => ({
      owner: `Its ${v.radiatorMm} radiator has a place in your case: ${v.radiatorPlaces}.`,
      builder: `radiator ${v.radiatorMm}: ${v.radiatorPlaces}`,
    }),
    'does not fit': (v) => ({
      owner: `Your case has no place for its ${v.radiatorMm} radiator.`,
      builder: `radiator ${v.radiatorMm}: no place of that size`,
    }),
    "can't tell": (known) => ({
      owner: 'We do not know where your case takes a radiator.',
      builder: `places for a radiator of ${or(known.radiatorMm, '?')}`,
    }),
  },
  'cooling.radiatorFront': {
    fits: (v) => ({
      owner: `With the radiator in front your case leaves the ${v.cardMm} card its room.`,
      builder: `card ${v.cardMm} + radiator ${v.thickMm} = ${v.needMm} <= ${v.roomMm}`,
    }),
    'does not fit': (v) => ({
      owner: `The radiator goes only in front, and there the ${v.cardMm} card is ${v.overMm} too long.`,
      builder: `card ${v.cardMm} + radiator ${v.thickMm} = ${v.needMm} > ${v.roomMm}`,
    }),
    "can't tell": (known) => ({
      owner: 'The radiator goes only in front, and we never measured the free length for a card.',
      builder: `card ${or(known.cardMm, '?')} + radiator ${or(known.thickMm, '?')} in the free length`,
    }),
  },
  'cooling.measured': {
    fits: (v) => ({
      owner: `Your cooler keeps it near ${v.predictedC} in a ${v.roomC} room; it may reach ${v.maxC}.`,
      next: "We worked that out from your machine's own temperatures.",
      builder: measuredLine(v, '<='),
    }),
    'fits slower': (v) => ({
      owner: `In a ${v.roomC} room it would get too hot at ${v.processorLimitW} and slow itself down.`,
      next: 'A stronger cooler prevents that.',
      builder: `${measuredLine(v, '>')}; holds ${v.holdsW}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how hot this processor would get.',
      builder: "own load point there, processor's limit not",
    }),
  },
  'cooling.rating': {
    fits: (v) => ratingFits(v, 'rating, no own measurement'),
    'fits slower': (v) => ratingSlower(v, 'rating, no own measurement'),
    "can't tell": () => ({
      owner: 'We have no temperature of your machine at full load, and no rating of its cooler.',
      builder: "no load point (T_load, T_room, P), or processor's limit or cooler's rating unknown",
    }),
  },
  'cooling.noMaximum': {
    fits: (v) => ratingFits(v, "rating; own load point there, processor's maximum not"),
    'fits slower': (v) => ratingSlower(v, "rating; own load point there, processor's maximum not"),
    "can't tell": () => ({
      owner: 'We do not know how hot this processor may get, nor the rating of your cooler.',
      builder: "own load point there; processor's maximum, its limit or cooler's rating unknown",
    }),
  },
}

type RatingTexts = Readonly<Record<'processorLimitW' | 'coolerRatedW', string>>

const ratingFits = (v: RatingTexts, road: string) => ({
  owner: `Your cooler is made for ${v.coolerRatedW}, and the processor takes up to ${v.processorLimitW}.`,
  builder: `limit ${v.processorLimitW} <= cooler ${v.coolerRatedW} (${road})`,
})

const ratingSlower = (v: RatingTexts, road: string) => ({
  owner: `It takes up to ${v.processorLimitW}, and the cooler is made for ${v.coolerRatedW}.`,
  next: 'It may get too hot and slow itself down. A stronger cooler prevents that.',
  builder: `limit ${v.processorLimitW} > cooler ${v.coolerRatedW} (${road})`,
})

type MeasuredTexts = Readonly<
  Record<
    | 'thetaKW'
    | 'loadC'
    | 'loadRoomC'
    | 'loadW'
    | 'processorLimitW'
    | 'predictedC'
    | 'roomC'
    | 'maxC'
    | 'marginC',
    string
  >
>

/** Which road it took, with every figure of it. */
const measuredLine = (v: MeasuredTexts, sign: '<=' | '>'): string =>
  `theta ${v.thetaKW} (${v.loadC} at ${v.loadRoomC} and ${v.loadW}); ${v.processorLimitW}: ${v.predictedC} at ${v.roomC} ${sign} ${v.maxC} - ${v.marginC} margin (shop policy)`
