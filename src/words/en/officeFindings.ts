import type { FindingWords } from './findings.ts'

type Here = Pick<
  FindingWords,
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
export const OFFICE_AND_WORK_WORDS: Here = {
  'case.supplyDepth': {
    fits: (v) => ({
      owner: `The supply is ${v.supplyMm} deep, and your case has room for ${v.roomMm}.`,
      builder: `supply ${v.supplyMm} <= ${v.roomMm}`,
    }),
    'does not fit': (v) => ({
      owner: `The supply is ${v.supplyMm} deep, ${v.overMm} too deep for your case.`,
      builder: `supply ${v.supplyMm} > ${v.roomMm}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether the supply is short enough for your case.',
      builder: 'depth of the supply',
    }),
  },
  'office.supplyPlug': {
    fits: () => ({
      owner: "We looked at your board's main plug: it is the standard one.",
      builder: 'brand-name board, plug ATX 24-pin (seen)',
    }),
    'does not fit': () => ({
      owner: 'Your board has a main plug of its own, and no supply of ours has that.',
      next: 'We use no adapters there: a wrong contact can burn the board.',
      builder: 'board plug of its own against ATX 24-pin; no adapters',
    }),
    "can't tell": () => ({
      owner: 'Some brand-name PCs use plugs of their own, and yours may be one.',
      next: 'Send a photo of the board plug. We check before anything is changed.',
      builder: 'brand-name board, plug not seen: do not energise',
    }),
  },
  'office.boardPlug': {
    fits: () => ({
      owner: "We looked at your supply's main plug: it is the standard one.",
      builder: 'brand-name supply, plug ATX 24-pin (seen)',
    }),
    'fits after work': () => ({
      owner: 'Your supply has a main plug of its own, which the new board does not take.',
      next: 'It needs a standard supply with it.',
      builder: 'supply plug of its own against ATX 24-pin',
    }),
    "can't tell": () => ({
      owner: 'Your supply came in a brand-name PC and may have a plug of its own.',
      next: 'Send a photo of its main plug. We check before anything is changed.',
      builder: 'brand-name supply, plug not seen: do not energise',
    }),
  },
  'office.mounting': {
    fits: () => ({
      owner: 'We looked: posts and back opening follow the standard.',
      builder: 'brand-name case or board, mounting standard (seen)',
    }),
    'does not fit': (v) => ({
      owner:
        v.boardShape === 'own'
          ? 'Your board has holes of its own and does not go into a standard case.'
          : 'Your case has posts of its own and takes no standard board.',
      builder: `board ${v.boardShape}, case ${v.caseMounting}`,
    }),
    "can't tell": () => ({
      owner: 'Brand-name PCs may have posts and openings of their own, and nobody looked at yours.',
      next: 'Send photos of posts, back opening and front plugs.',
      builder: 'posts, back opening and front plugs not known to be standard',
    }),
  },
  'office.slotPower': {
    fits: (v) => ({
      owner: `The card takes up to ${v.needSlotW} from the slot, and yours gives ${v.slotW}.`,
      builder: `slot ${v.needSlotW} <= ${v.slotW}`,
    }),
    'does not fit': (v) => ({
      owner: `The card takes up to ${v.needSlotW} from the slot, and yours gives ${v.slotW}.`,
      builder: `slot ${v.needSlotW} > ${v.slotW}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how much power the slot of this PC may give a card.',
      next: "Its maker's manual gives it, in W.",
      builder: 'slot power of a brand-name board; 75 W is not a given',
    }),
  },
  'office.firmwareList': {
    fits: (v) => ({
      owner: 'The firmware of this PC takes it.',
      builder: `list asked for ${v.asksList}, on the list ${v.onList}`,
    }),
    "can't tell": (_, { doubt }) => ({
      owner: 'Some brand-name PCs start only with parts on a list of their maker.',
      next:
        doubt === undefined
          ? 'We ask its maker, or try a lent part on our bench.'
          : 'We read its maker’s list before we promise anything.',
      builder: 'firmware with a list of parts; this part not known to be on it',
    }),
  },
  'work.memoryProfile': {
    fits: (v) => ({
      owner: `With its profile on, your memory can run at its rated ${v.runsMts}.`,
      next:
        v.runsMts === v.controllerMts || v.mayOverclock === 'no'
          ? ''
          : `Your processor is rated for ${v.controllerMts}: above it most run, but it is not guaranteed.`,
      builder: `profile ${v.runsMts}: kits ${v.slowestMts}, processor ${v.controllerMts}, board ${v.boardMts}`,
    }),
    'fits slower': (v) => ({
      owner: `With its profile on, your memory runs at ${v.runsMts}; it is rated ${v.fastestMts}.`,
      next:
        v.mayOverclock === 'no'
          ? 'Your processor and board allow no more.'
          : 'Your board or the slowest module allows no more.',
      builder: `profile ${v.runsMts}: kits ${v.slowestMts} to ${v.fastestMts}, processor ${v.controllerMts}, board ${v.boardMts}, above it ${v.mayOverclock}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how fast your memory may run with its profile on.',
      builder: 'profile: memory overclocking, processor rate or board rate',
    }),
  },
  'work.firmware': {
    fits: (v) => ({
      owner: `Your processor runs with firmware up to ${v.lastFirmware}, and we stop there.`,
      builder: `${v.generation}: last firmware ${v.lastFirmware}`,
    }),
    "can't tell": () => ({
      owner: 'The newest firmware may no longer start your processor.',
      builder: 'last firmware for this generation',
    }),
  },
}
