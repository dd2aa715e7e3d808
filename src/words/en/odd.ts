import type { OddKind, Slip } from '../../core/gain/odd/odd.ts'

/** Runs that do not fit, as the builder reads it. No run is blamed for sure: each sentence says what would explain it. */
export const ODD_EN = {
  head: 'To run again',
  /** Of the run, in one line. */
  flag: 'to run again',
  short: {
    digit: 'a digit?',
    slowed: 'slowed?',
    memory: 'memory?',
    setting: 'another setting?',
    title: 'another title?',
    machine: 'another machine?',
    driver: 'the driver?',
    again: 'two runs disagree',
    unknown: 'does not fit',
  } satisfies Record<OddKind, string>,
  /** What does not fit: the run against what all other runs say of it. */
  off: 'It says {fps}. From all other runs about {expected} are expected, between {low} and {high} in four of five cases.',
  offAgain: 'It says {fps}, and the other run of the same parts, title and setting says {other}.',
  slips: {
    'ten times': 'That is about ten times the like. Perhaps the point is one place off: {meant}?',
    'a tenth': 'That is about a tenth of the like. Perhaps the point is one place off: {meant}?',
    swapped: 'Perhaps two digits changed places: {meant}?',
    'digit twice': 'Perhaps a digit was typed twice: {meant}?',
    'digit missing': 'Perhaps a digit is missing.',
  } satisfies Record<Slip, string>,
  guesses: {
    slowed: {
      processor:
        'Something may have slowed the processor: another program, or the first run after a start. Close what runs beside it, run the title once to warm up, and measure again.',
      card: 'Something may have slowed the card: heat, or a fan that stands. Look at its load temperature, and measure again.',
    },
    memory: {
      channels:
        'It fits one memory channel. Look whether both modules are seen and sit in the slots that the board asks for.',
      rate: 'It fits memory at {rate}, without its profile. Look in the firmware whether the profile is on.',
    },
    setting: 'It fits “{setting}” far better. Was that the setting?',
    title: 'It fits {title} at that setting, which was run the same day. Were two rows mixed up?',
    machine: 'It fits {machine} with {processor} and {card}. Was that the machine?',
    driver: {
      one: 'Another run of this card with driver {driver} is off in the same way ({runs}). Try another driver version.',
      other:
        'Other runs of this card with driver {driver} are off in the same way ({runs}). Try another driver version.',
    },
    again: 'Nothing tells which of the two is right. Run it a third time.',
    unknown: 'Nothing we know of explains it. Run it again.',
  },
  /** After a first explanation. */
  or: 'Or: {guess}',
  agree: {
    one: 'A run of the same day and machine says the same ({runs}). Restart, and run it another day: then it is a fact.',
    other:
      'Runs of the same day and machine say the same ({runs}). Restart, and run it another day: then it is a fact.',
  },
  kept: 'Nothing is dropped: the run stays and counts for less, the further off the less.',
  again: 'Run it again',
  correct: 'Correct it',
  correctTo: 'Correct it to {meant}',
  so: 'Looked at: it is so',
  soHint: 'Then it is no longer asked for, until there is other evidence.',
  looked: 'Looked at on {date}{by}: it is so. It is asked for again when there is other evidence.',
  lookedBy: ' by {name}',
  lookedShort: 'looked at: it is so',
  askAgain: 'Ask for it again',
  /** On the list. */
  count: { one: '{n} run to run again', other: '{n} runs to run again' },
  none: 'Every run fits what the others say.',
  waiting: 'Which runs do not fit is being worked out. Look again in a moment.',
  ofOne: {
    waiting: 'Whether it fits the others is being worked out. Look again in a moment.',
    failed: 'Whether it fits the others could not be worked out just now.',
  },
  failed: 'Which runs do not fit could not be worked out just now.',
  filter: { label: 'Fits the others', again: 'to run again', so: 'looked at: it is so' },
  /** A part that is slower in one title than one it beats elsewhere. */
  reversal: {
    head: 'Slower here than elsewhere',
    says: '{slower} makes {slowerFps} here and {faster} {fasterFps}, with everything else the same. Over all titles it is the other way round.',
    fact: 'Both sides were repeated on another day or machine, so it is a fact. Every gain counts with it.',
    open: 'It stands on single runs. Run both sides once more on another day before you count on it.',
  },
  /** Before a figure is kept. */
  remark: {
    head: 'Please look once more',
    says: 'Kept as it is, or corrected: both are fine.',
    row: '{title}: {fps}? About {expected} are expected.',
    kept: 'it does not fit; about {expected} are expected.',
    keep: 'Keep as typed',
  },
} as const
