/** The English of a machine as it stood on a day. */
export const MACHINE_ON_EN = {
  link: 'As it was on a day',
  head: '{tag} on {date}',
  about:
    'Parts and limits at the end of that day, as they are written down. What was told at a sale stands on the sheet that was handed out.',
  day: 'Day',
  again: 'Choose a day, and look again.',
  show: 'Show that day',
  parts: 'What was fitted',
  noParts: 'No part is known for that day.',
  limits: 'What was known of it',
  noLimits: 'Nothing was known of it by then.',
  back: 'The machine as it is now',
} as const
