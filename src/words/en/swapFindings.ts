import type { FindingWords } from './findings.ts'

type Here = Pick<FindingWords, 'swap.licence' | 'swap.encryption'>

/** What has to be done to the installed system before or after a new board. */
export const SWAP_WORDS: Here = {
  'swap.licence': {
    fits: () => ({
      owner: 'Your system needs no licence, so a new board changes nothing there.',
      builder: 'system without a licence',
    }),
    'fits after work': (v, { minutes }) => ({
      owner:
        v.licence === 'tied to the board'
          ? "Your system's licence stays with the old board, so the new one needs a new licence."
          : v.licence === 'moves'
            ? "Your system's licence moves along; it is activated again on the new board."
            : 'Your system is activated again on the new board; it may need a new licence.',
      next: `${v.licence === 'not known' ? 'Nobody has looked how your licence is bound. ' : ''}${
        minutes === undefined ? 'We do that before you get it back.' : `We do that in ${minutes}.`
      }`,
      builder: `licence ${v.licence}; new board`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how the licence of your system is bound.',
      builder: 'licence of the system',
    }),
  },
  'swap.encryption': {
    fits: (v) => ({
      owner: 'Your drive is not encrypted, so it asks for no recovery key.',
      builder: `drive encrypted ${v.encrypted}; ${v.before}`,
    }),
    'fits after work': (v) => ({
      owner: `${v.encrypted === 'yes' ? 'Your drive is encrypted' : 'Your drive may be encrypted'} and may ask for its recovery key after a ${v.before}.`,
      next: 'We pause the encryption first. Have the recovery key at hand.',
      builder: `drive encrypted ${v.encrypted}; pause before the ${v.before}, recovery key at hand`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether your drive is encrypted.',
      builder: 'encryption of the drive',
    }),
  },
}
