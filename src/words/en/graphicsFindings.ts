import type { FindingWords } from './findings.ts'
import { or } from './or.ts'

/** Sentences of the rules about a graphics card, its supply aside. */
export const GRAPHICS_WORDS: Pick<FindingWords, Extract<keyof FindingWords, `graphics.${string}`>> = {
  'graphics.link': {
    fits: (v) => ({
      owner: 'Your slot gives this card all the data road it has.',
      builder: `gen ${v.linkGen} x${v.linkLanes} = ${v.linkGBps}, card ${v.cardGBps}`,
    }),
    'fits slower': (v) => ({
      owner: `Your slot carries less data than this card could use: ${v.linkGBps} of ${v.cardGBps}.`,
      next: 'What that costs in a game, only a run can say.',
      builder: `card gen ${v.cardGen} x${v.cardLanes} in gen ${v.slotGen} x${v.slotLanes}: ${v.linkGBps}, ${v.lostGBps} lost`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how wide a data road your slot and processor give this card.',
      builder: 'generation or lanes of slot or processor',
    }),
  },
  'graphics.narrow': {
    fits: (v) => ({
      owner: `This card has only ${v.cardLanes} lanes, and your slot gives them all it can use.`,
      builder: `x${v.cardLanes} at gen ${v.slotGen}: ${v.linkGBps}`,
    }),
    'fits slower': (v) => ({
      owner: `This card has only ${v.cardLanes} lanes, and in your older slot that leaves ${v.linkGBps}.`,
      next: 'Games that fill its memory can stutter. Ask us for a run first.',
      builder: `x${v.cardLanes} in gen ${v.slotGen}: ${v.linkGBps}, card memory ${v.cardMemory}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how much data this card could move in your slot.',
      builder: 'link of a cut-down card',
    }),
  },
  'graphics.sharing': {
    fits: (v) => ({
      owner: 'The slot that takes lanes from the card is empty, so the card keeps all of them.',
      builder: `sharing M.2 slot empty; with a drive x${v.leftLanes} of x${v.cardLanes}`,
    }),
    'fits slower': (v) => ({
      owner: `A drive takes lanes from the card: ${v.leftLanes} of ${v.cardLanes} are left.`,
      next: 'In another slot the drive would take none.',
      builder: `sharing M.2 slot in use: x${v.leftLanes} of x${v.cardLanes}`,
    }),
    "can't tell": () => ({
      owner: 'On your board a drive can take lanes from the card, and we do not know where yours sits.',
      builder: 'which M.2 slot holds the drive',
    }),
  },
  'graphics.largeBar': {
    fits: () => ({
      owner: 'Your board gives the card the large window into its memory that its maker asks for.',
      builder: 'resizable BAR there',
    }),
    'fits slower': () => ({
      owner: 'It works; its maker asks for a large window into its memory, which your board does not give.',
      next: 'What that costs in a game, only a run can say.',
      builder: 'card wants resizable BAR, board has none',
    }),
    "can't tell": () => ({
      owner:
        'Its maker asks for a large window into its memory, and we do not know whether your board gives it.',
      builder: 'resizable BAR of the board',
    }),
  },
  'graphics.length': {
    fits: (v) => ({
      owner: `It is ${v.cardMm} long, and your case has ${v.roomMm}.`,
      builder: `${v.cardMm} <= ${v.roomMm}`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `It is ${v.cardMm} long; your case has ${v.roomMm}, and ${v.freeMm} without the front fan.`,
      next: `We move that fan${minutes === undefined ? '' : ` in ${minutes}`}.`,
      builder: `${v.cardMm} > ${v.roomMm}; front fan out -> ${v.freeMm}`,
    }),
    'does not fit': (v) => ({
      owner: `It is ${v.cardMm} long, ${v.overMm} too long for your case.`,
      builder: `${v.cardMm} > ${v.freeMm}`,
    }),
    "can't tell": (known) => ({
      owner: `It is ${or(known.cardMm, 'so')} long, and we never measured the free length in your case.`,
      builder: `free length for a card, needs ${or(known.cardMm, '?')}`,
    }),
  },
  'graphics.thickness': {
    fits: (v) => ({
      owner: `It takes the room of ${v.needSlots} slots, and your case has ${v.haveSlots}.`,
      builder: `ceil(${v.thickMm} / 20.32) = ${v.needSlots} <= ${v.haveSlots}`,
    }),
    'does not fit': (v) => ({
      owner: `It takes the room of ${v.needSlots} slots, and your case has ${v.haveSlots}.`,
      builder: `ceil(${v.thickMm} / 20.32) = ${v.needSlots} > ${v.haveSlots}`,
    }),
    "can't tell": (known) => ({
      owner: `It is ${or(known.thickMm, 'so')} thick, and nobody counted the slot covers of your case.`,
      builder: `slot covers of the case, card ${or(known.thickMm, '?')}`,
    }),
  },
  'graphics.height': {
    fits: (v) => ({
      owner: `It is ${v.bracketMm} high, and your case takes cards of ${v.roomMm}.`,
      builder: `bracket ${v.bracketMm} <= ${v.roomMm}`,
    }),
    'does not fit': (v) => ({
      owner: `Your case takes low cards only: ${v.roomMm}; this one is ${v.bracketMm} high.`,
      builder: `bracket ${v.bracketMm}, case ${v.roomMm}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether your case takes cards of full height.',
      builder: 'height of cards in this case',
    }),
  },
  'graphics.outputs': {
    fits: (v) => ({
      owner: `It has the ${v.displaySocket} connector that your screen needs.`,
      builder: `screen ${v.displaySocket}, card ${v.cardSockets}`,
    }),
    'fits after work': (v) => ({
      owner: `Your screen needs ${v.displaySocket}, and the card has ${v.cardSockets}.`,
      next: 'A converter goes between; it is not in this price.',
      builder: `screen ${v.displaySocket}, card ${v.cardSockets}: converter`,
    }),
    "can't tell": () => ({
      owner: 'We do not know which connector your screen needs.',
      builder: 'socket of the screen',
    }),
  },
}
