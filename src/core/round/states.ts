/**
 * How far a round is.
 *
 * - draft: put together and looked at; nobody was written to
 * - going out: mails are written and sent, and yeses are taken
 * - paused: what waits to be sent waits on; who has the mail can say yes
 * - stopped: no further mail goes out; who has the mail can say yes
 * - ended: nobody can say yes any more; what was put aside stays so
 * - called off: a draft that was dropped, or parts that were not bought
 */
export const ROUND_STATES = ['draft', 'going out', 'paused', 'stopped', 'ended', 'called off'] as const
export type RoundState = (typeof ROUND_STATES)[number]

export const ROUND_STEPS = ['begin', 'pause', 'resume', 'stop', 'end', 'call off'] as const
export type RoundStep = (typeof ROUND_STEPS)[number]

/** Where each step leads; a step that is not there cannot be taken. */
export const ROUND_ROADS: { readonly [S in RoundState]: { readonly [E in RoundStep]?: RoundState } } = {
  draft: { begin: 'going out', 'call off': 'called off' },
  'going out': { pause: 'paused', stop: 'stopped', end: 'ended', 'call off': 'called off' },
  paused: { resume: 'going out', stop: 'stopped', end: 'ended', 'call off': 'called off' },
  stopped: { end: 'ended', 'call off': 'called off' },
  ended: {},
  'called off': {},
}

/** What a round is about: what stands on the shelf, or a part that is bought only if enough people want it. */
export const ROUND_KINDS = ['shelf', 'deal'] as const
export type RoundKind = (typeof ROUND_KINDS)[number]

/**
 * Where one customer of a round stands.
 *
 * - asked: gets the mail, or has it, and said nothing yet
 * - left out: gets none
 * - said no
 * - counted: yes to a part that is not bought yet
 * - held: yes, and everything it needs is put aside in a job
 * - too late: yes, when nothing was left; they stand in line
 * - to settle: yes, and something about the machine stops the shop from taking it by itself
 * - let go: what was put aside or counted was given back
 * - not bought: yes to a part that the shop did not buy in the end
 * - done: the parts are in
 */
export const STANDINGS = [
  'asked',
  'left out',
  'said no',
  'counted',
  'held',
  'too late',
  'to settle',
  'let go',
  'not bought',
  'done',
] as const
export type Standing = (typeof STANDINGS)[number]
