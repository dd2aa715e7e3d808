import type { ValuesOf } from '../../core/fit/rules.ts'
import type { FindingWords } from './findings.ts'
import { or } from './or.ts'

/** Sentences of the memory rules. */
export const MEMORY_WORDS: Pick<FindingWords, Extract<keyof FindingWords, `memory.${string}`>> = {
  'memory.generation': {
    fits: (v) => ({
      owner: `It is ${v.kitGeneration}, as your board takes.`,
      builder: `${v.kitGeneration} into ${v.boardGeneration}`,
    }),
    'does not fit': (v) => ({
      owner: `It is ${v.kitGeneration}, and your board takes ${v.boardGeneration}: one does not work in the other.`,
      builder: `${v.kitGeneration} into ${v.boardGeneration}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know which memory generation your board takes.',
      builder: 'memory generation of the board',
    }),
  },
  'memory.form': {
    fits: (v) => ({
      owner: 'The modules have the length your board takes.',
      builder: `${v.kitForm} into ${v.boardForm}`,
    }),
    'does not fit': (v) => ({
      owner: 'These are laptop modules, and your board takes the long ones.',
      builder: `${v.kitForm} into ${v.boardForm}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know which length of module this is.',
      builder: 'module form',
    }),
  },
  'memory.slots': {
    fits: (v) => ({
      owner: `There is a slot for each module: ${v.modules} of ${v.slots} are then in use.`,
      builder: `${v.modules} of ${v.slots} slots`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `All ${v.slots} slots are needed, so the old modules come out.`,
      ...(minutes === undefined ? {} : { next: `That takes ${minutes}.` }),
      builder: `${v.usedSlots} of ${v.slots} slots used; old modules out, ${v.modules} in`,
    }),
    'does not fit': (v) => ({
      owner: `That makes ${v.modules} modules, and your board has ${v.slots} slots.`,
      next: 'Old modules must come out for it.',
      builder: `${v.modules} modules > ${v.slots} slots`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how many memory slots your board has.',
      builder: 'number of memory slots',
    }),
  },
  'memory.total': {
    fits: (v) => ({
      owner: `That makes ${v.totalGB}, and your board takes up to ${v.maxGB}.`,
      builder: `${v.totalGB} <= ${v.maxGB}`,
    }),
    'does not fit': (v) => ({
      owner: `That makes ${v.totalGB}, and your board stops at ${v.maxGB}.`,
      builder: `${v.totalGB} > ${v.listedGB}`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined || known.totalGB === undefined || known.maxGB === undefined
        ? {
            owner: 'We do not know how much memory your board takes in all.',
            builder: 'maximum memory',
          }
        : {
            owner: `That makes ${known.totalGB}: your board lists that much, and your processor's page ends at ${known.maxGB}.`,
            next: 'We try it on our bench, or you ask the maker of the board.',
            builder: `${known.totalGB} between processor page ${known.maxGB} and board page ${known.listedGB}`,
          },
  },
  'memory.perSlot': {
    fits: (v) => ({
      owner: `Your board lists modules of ${v.listedGB}, and these have ${v.moduleGB}.`,
      builder: `module ${v.moduleGB} <= ${v.listedGB} a slot`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined || known.moduleGB === undefined || known.listedGB === undefined
        ? {
            owner: 'We do not know how large a module one slot of your board takes.',
            builder: 'largest module a slot',
          }
        : {
            owner: `Your board's page lists ${known.listedGB} a slot; ${known.moduleGB} modules came later.`,
            next: 'We try one on our bench, or you ask the maker of the board.',
            builder: `${known.moduleGB} a slot not on the list (${known.listedGB})`,
          },
  },
  'memory.mixing': {
    fits: (v) => ({
      owner: 'These modules run together in your board today.',
      builder: `runs today: ${v.models}`,
    }),
    "can't tell": (known) => ({
      owner: 'New modules beside old ones often work and sometimes do not start.',
      next: 'We test your pair, or you take a matched kit.',
      builder: `${or(known.models, 'two models')}: parts differ`,
    }),
  },
  'memory.rate': {
    fits: (v) => ({
      owner:
        v.runsMts === v.ratedMts
          ? `The memory runs at its rated ${v.runsMts}.`
          : `The memory may run at its rated ${v.runsMts}; sure are ${v.ratedMts}.`,
      builder: `modules ${v.slowestMts}, controller ${v.controllerMts}, board ${v.boardMts}`,
    }),
    'fits slower': (v) => ({
      owner:
        v.runsMts === v.ratedMts
          ? `The memory works, at ${v.runsMts}; it is rated ${v.fastestMts}.`
          : `The memory may run at ${v.runsMts}, sure are ${v.ratedMts}; it is rated ${v.fastestMts}.`,
      next: whatSetsTheRate(v),
      builder: `modules ${v.slowestMts} to ${v.fastestMts}, controller ${v.controllerMts}, board ${v.boardMts}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how fast the memory would run in your board.',
      builder: 'memory rate of controller or board',
    }),
  },
  'memory.profile': {
    fits: (v) => ({
      owner: `It can run at ${v.profileMts}, above your processor's rated ${v.ratedMts}: most do, but it is not guaranteed.`,
      next: `We test it. If it fails, it runs at ${v.ratedMts}.`,
      builder: `profile ${v.profileMts} > ${v.ratedMts}: overclock, board allows; warranty note`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how fast the memory would run with its profile.',
      builder: 'memory rate with a profile',
    }),
  },
  'memory.channels': {
    fits: (v) => ({
      owner: "The modules use both of your processor's channels to memory.",
      builder: `${v.modules} modules, ${v.channelsUsed} of ${v.channels} channels`,
    }),
    'fits slower': (v) => ({
      owner: 'With one module your processor uses only one of its two channels.',
      next: 'A second equal module opens the other.',
      builder: `${v.modules} module, ${v.channelsUsed} of ${v.channels} channels`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how many modules that makes.',
      builder: 'number of modules',
    }),
  },
  'memory.flex': {
    fits: (v) => ({
      owner: `All ${v.totalGB} use both channels.`,
      builder: `dual ${v.dualGB} of ${v.totalGB}`,
    }),
    'fits slower': (v) => ({
      owner: `Only ${v.dualGB} of ${v.totalGB} use both channels.`,
      next: 'Equal modules in pairs use both for all of it.',
      builder: `flex: ${v.dualGB} dual, ${v.singleGB} single`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how the modules share the two channels.',
      builder: 'modules a channel',
    }),
  },
  'memory.system': {
    fits: (v) => ({
      owner: `Your system is a 32-bit one and uses up to ${v.systemGB}, which is enough for ${v.totalGB}.`,
      builder: `32-bit system, ${v.totalGB} <= ${v.systemGB}`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `Your system is a 32-bit one and can use only ${v.systemGB}.`,
      next:
        minutes === undefined
          ? 'A 64-bit system uses all of it; we install it.'
          : `A 64-bit system uses all of it; we install it in ${minutes}.`,
      builder: `32-bit system, ${v.totalGB} fitted`,
    }),
    "can't tell": () => ({
      owner: 'We do not know how much memory your system can use.',
      builder: 'memory against a 32-bit system',
    }),
  },
}

/** Which of the three sets the memory's rate; the texts are equal exactly when the figures are. */
function whatSetsTheRate(v: Readonly<Record<keyof ValuesOf<'memory.rate'>, string>>): string {
  if (v.runsMts === v.slowestMts) return 'Its slowest module sets that rate.'
  if (v.runsMts !== v.controllerMts) return 'Your board sets that rate.'
  return v.profileMts === v.runsMts
    ? 'Your processor sets that rate, and your board allows no more.'
    : `Your processor is rated for that. Your board may run it at ${v.profileMts}: that is overclocking, and never sure.`
}
