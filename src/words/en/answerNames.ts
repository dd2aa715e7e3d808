import type { Grade } from '../../core/gain/gain.ts'
import type { PartKind } from '../../core/part.ts'
import type { Wish } from '../../core/question.ts'
import type { Condition } from '../../core/shop.ts'
import type { Verdict } from '../../core/verdict.ts'

/** What things are called in the answer mail: verdicts, grades, parts, works, wishes, settings. */
export const ANSWER_NAMES_EN = {
  /** Small counts in running text, where no unit follows. */
  counts: [
    'none',
    'one',
    'two',
    'three',
    'four',
    'five',
    'six',
    'seven',
    'eight',
    'nine',
    'ten',
    'eleven',
    'twelve',
  ],
  verdicts: {
    fits: 'fits',
    'fits slower': 'fits, runs below its rating',
    'fits after work': 'fits after work',
    "can't tell": 'can’t tell',
    'does not fit': 'does not fit',
  } satisfies Record<Verdict, string>,
  grades: {
    measured: { word: 'measured', says: 'We ran your games with your parts, and with the new ones.' },
    'half measured': {
      word: 'half measured',
      says: 'One of the two figures is our own run, the other is worked out.',
    },
    estimated: {
      word: 'estimated',
      says: 'We worked it out from runs of similar machines. Nobody has run this pair yet.',
    },
    'no number': { word: 'no number', says: 'We have no number we would stand behind.' },
  } satisfies Record<Grade, { word: string; says: string }>,
  /** Frame rates in a sentence; what nobody measured is named an estimate in the same breath. */
  rates: {
    about: 'about {fps}',
    aboutEstimated: 'about {fps} (estimated)',
    estimated: 'an estimated {fps}',
    estimatedAfter: '{fps} (estimated, {low} to {high})',
    range: '{low} to {high}',
    between: '{fps} ({low} to {high})',
    atLeast: 'at least {fps}',
  },
  kinds: {
    processor: 'processor',
    board: 'board',
    memory: 'memory kit',
    card: 'graphics card',
    supply: 'supply',
    case: 'case',
    cooler: 'cooler',
    drive: 'drive',
    fan: 'fan',
  } satisfies Record<PartKind, string>,
  /** A part by its name and kind. */
  named: '{name} {kind}',
  conditions: {
    new: 'new',
    'open box': 'open box',
    'used tested': 'used, tested by us',
    'used untested': 'used, not tested',
    used: 'used',
  } satisfies Record<Condition, string>,
  /** How parts are named where their price stands beside them. */
  goods: {
    condition: '{part} ({condition})',
    inPlace: '{part} in place of the old modules',
    companions: '{parts}, with {companions}',
    together: '{part} together with {others}',
  },
  /** Works by name; a work that the shop named itself stands under its own name. */
  works: {
    opening: 'Opening and closing the machine',
    'firmware update': 'Firmware update',
    'remove old modules': 'Taking the old modules out',
    'move front fan': 'Moving the front fan',
    'fit bracket': 'A bracket for the small part',
    'memory profile on': 'Switching the memory profile on',
    'move modules': 'Moving the memory modules',
    'display into card': 'Plugging the display into the card',
    cleaning: 'Cleaning and new paste',
    'fan in front': 'Moving a fan to the front',
    'driver clean-up': 'Cleaning up the display drivers',
    reinstall: 'Setting the system up anew',
    'drive cloned': 'Copying the system to the faster drive',
    'mounting kit': "The cooler maker's kit for this socket",
    'move cooler fan': "Moving the cooler's fan up",
    'move drive cables': 'Moving drives to other ports',
    'pause encryption': 'Pausing the drive encryption',
    'activate system': 'Activating the system on the new board',
    'new system licence': 'A new licence for the system',
    'system upgrade': 'Bringing the system to its next version',
  } as Readonly<Record<string, string>>,
  wishes: {
    'keep the case': 'to keep the case',
    'no used parts': 'for no used parts',
    'no used supply': 'for no used supply',
    'no untested parts': 'for no untested parts',
    'only with warranty': 'for parts with a warranty only',
    quiet: 'for a quiet machine',
    'more space': 'for more space',
  } satisfies Record<Wish, string>,
  /** Names of quality presets that most games have; any other stands as the shop wrote it. */
  presets: {
    low: 'low',
    medium: 'medium',
    high: 'high',
    'very high': 'very high',
    ultra: 'ultra',
  } as Readonly<Record<string, string>>,
  /** Sliders that many games have; any other stands as the shop wrote it. */
  sliders: {
    shadows: 'shadows',
    textures: 'textures',
    reflections: 'reflections',
    lighting: 'lighting',
    effects: 'effects',
    fog: 'fog',
    water: 'water',
    crowds: 'crowds',
    'view distance': 'view distance',
    'anti-aliasing': 'anti-aliasing',
    'ambient occlusion': 'ambient occlusion',
  } as Readonly<Record<string, string>>,
  setting: {
    size: '{width}×{height}, {preset}',
    rayTracing: 'ray tracing',
    upscaler: 'upscaler {mode}',
    frameGeneration: 'frame generation',
    lowered: 'lower {what}',
    cap: 'stopped at {fps}',
  },
}
