/** The English of what happened to a machine, for its owner. */
export const OWNER_HISTORY_EN = {
  title: 'Its history',
  earlier: 'Earlier',
  sold: 'Sold, with: {parts}.',
  soldBare: 'Sold.',
  in: 'Fitted: {parts}.',
  out: 'Taken out: {parts}.',
  part: '{kind} {name}',
  works: 'Done: {works}.',
  limit: '{label}: {value}.',
  limitWas: '{label}: {value}, before {before}.',
  promise: '{title}: {says}',
  read: 'Its own table was read.',
} as const
