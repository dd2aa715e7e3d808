/**
 * What sets the pace in a title, in frames, never as a share of blame. To the owner and to the builder alike.
 */
export const PACE_EN = {
  head: 'What sets the pace',
  processor: {
    clear: 'The processor sets the pace here; a faster card adds {low} to {high}.',
    leaning: 'The processor mostly sets the pace here; a faster card adds {low} to {high}.',
  },
  card: {
    clear: 'The graphics card sets the pace here; a faster processor adds {low} to {high}.',
    leaning: 'The graphics card mostly sets the pace here; a faster processor adds {low} to {high}.',
  },
  both: 'Processor and card are about even here: a faster card alone adds at most {card}, a faster processor alone at most {processor}.',
  cap: 'It runs at its limit of frames here; no part adds any.',
  hidden:
    'The display shows {shown} a second and the machine makes {now}: neither a faster card nor a faster processor adds anything to be seen.',
  seen: 'Of that the display shows at most {seen}.',
  /** Before a sentence of one title, in a list. */
  title: '{title}: {says}',
  hint: 'With the parts as they are now; a faster part adds something between the two figures.',
  waiting: 'What sets the pace is being worked out. Look again in a moment.',
}
