import type { Forms } from '../say.ts'

const forms = (f: Forms): Forms => f

/** Drives for somebody who asks for more space. */
export const SPACE_EN = {
  head: 'More space',
  noFrames:
    'A drive brings room for games and no pictures a second: no game runs faster by it, so it is not ranked.',
  noneLarge: 'We have no drive on our shelf now that holds {asked} or more.',
  leftOut: 'Left out because they hold less than the {asked} you asked for: {parts}.',
  none: 'We have no drive on our shelf now.',
  what: '{part}: {gb} for {net} in all, {per} for each 100 GB',
  whatNoSize: '{part}, for {net} in all',
  whatOut: '{part}',
  size: '{gb} GB',
  noSize: 'How much goes onto it nobody wrote down.',
  sizeUntold: 'Whether that is the {asked} you asked for we can’t tell yet; its label says it, and we look.',
  beside: 'On the same visit as what we recommend it adds {more}: what is done once is paid once.',
  besideOut: 'Together with what we recommend it does not go in.',
  besideUnclear: 'Whether it goes in together with what we recommend we can’t tell yet.',
  together: 'Only together with what we recommend: {reason}',
  more: forms({ one: '{Count} more drive is on our shelf.', other: '{Count} more drives are on our shelf.' }),
} as const
