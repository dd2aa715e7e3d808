import type { Forms } from '../say.ts'

const forms = (f: Forms): Forms => f

/** Beside what is offered to somebody who asked for quiet. A level is of a whole machine at one metre, under load. */
export const QUIET_EN = {
  head: 'How loud',
  level: '{dba} dB(A)',
  range: '{low} to {high} dB(A)',
  measured: forms({
    one: 'How loud: the machine that we measured with {part} had {range} at one metre, all of it together. Your case can make it more or less.',
    other:
      'How loud: in {count} runs of ours, machines with {part} had {range} at one metre, all of it together. Your case can make it more or less.',
  }),
  quiet: 'We call up to {quiet} quiet.',
  notQuiet: 'That is louder than the {quiet} that we call quiet.',
  someLoud: 'Some were louder than the {quiet} that we call quiet, so for yours we can’t tell.',
  louderThanYours: 'That is louder than what you have: we measured yours at {own}.',
  notLouderThanYours: 'That is not louder than what you have: we measured yours at {own}.',
  yours: 'We measured yours at {own}.',
  yoursUnknown: 'How loud yours is we never measured.',
  untold: 'How loud your machine is with {parts} we can’t tell: we have not measured it.',
  above: 'How loud machines with {part} were stands above.',
  leftOut: 'Even the quietest machine with {part} had {low} at one metre.',
  limit: 'We call up to {quiet} quiet.',
  limitOwn: 'That is louder than what you have: we measured yours at {own} at one metre.',
} as const
