import type { FindingWords } from './findings.ts'
import { or } from './or.ts'

type Here = Pick<
  FindingWords,
  'system.processor' | 'system.trustModule' | 'system.secureStart' | 'system.memory' | 'system.disk'
>

/** The next version of the system against what its maker asks for. */
export const SYSTEM_WORDS: Here = {
  'system.processor': {
    fits: (v) => ({
      owner: "Your processor's generation is on the list for the next system.",
      builder: `${v.generation}: ${v.listed}`,
    }),
    'does not fit': (v) => ({
      owner:
        "Your processor is older than the list of the system's maker, so the next system does not take it.",
      next: 'For that you would need another processor, and often a new board.',
      builder: `${v.generation}: ${v.listed}`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined
        ? {
            owner: 'We do not know of which generation your processor is.',
            builder: 'generation of the processor',
          }
        : {
            owner:
              "Some processors of that generation are on the list of the system's maker and some are not.",
            next: 'We look for your model before we promise anything.',
            builder: `${or(known.generation, 'generation')}: model against the list`,
          },
  },
  'system.trustModule': {
    fits: (v) => ({
      owner: `Your board has the trust module that the next system asks for: version ${v.haveModule}.`,
      builder: `TPM ${v.haveModule}, needs ${v.needModule}`,
    }),
    'does not fit': (v) => ({
      owner:
        v.haveModule === 'none'
          ? `Your board shows no trust module, and the next system asks for version ${v.needModule}.`
          : `Your board's trust module is version ${v.haveModule}, and the next system asks for ${v.needModule}.`,
      next:
        v.haveModule === 'none' ? "Look in the board's settings first: it may be switched off there." : '',
      builder: `TPM ${v.haveModule}, needs ${v.needModule}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether your board has the trust module that the next system asks for.',
      builder: 'version of the TPM',
    }),
  },
  'system.secureStart': {
    fits: () => ({
      owner: "Your board's firmware can start signed systems only, as the next system asks.",
      builder: 'secure boot: able',
    }),
    'does not fit': () => ({
      owner:
        "Your board's firmware cannot be set to start signed systems only, which the next system asks for.",
      builder: 'secure boot: not able',
    }),
    "can't tell": () => ({
      owner: "We do not know whether your board's firmware can start signed systems only.",
      builder: 'secure boot',
    }),
  },
  'system.memory': {
    fits: (v) => ({
      owner: `The next system asks for ${v.needGB} of memory, and your machine has ${v.totalGB}.`,
      builder: `memory ${v.totalGB} >= ${v.needGB}`,
    }),
    'fits after work': (v) => ({
      owner: `The next system asks for ${v.needGB} of memory, and your machine has ${v.totalGB}.`,
      next: 'It needs more memory first.',
      builder: `memory ${v.totalGB} < ${v.needGB}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how much memory your machine has.',
      builder: 'memory in GB',
    }),
  },
  'system.disk': {
    fits: (v) => ({
      owner: `The next system asks for a drive of ${v.needGB}, and yours has ${v.driveGB}.`,
      builder: `drive ${v.driveGB} >= ${v.needGB}; free space not judged`,
    }),
    'fits after work': (v) => ({
      owner: `The next system asks for a drive of ${v.needGB}, and your largest has ${v.driveGB}.`,
      next: 'It needs a larger drive first.',
      builder: `drive ${v.driveGB} < ${v.needGB}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know the size of the drive in your machine.',
      builder: 'size of the drive',
    }),
  },
}
