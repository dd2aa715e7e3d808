/** The English of the sheet for an owner who fits the parts at home; the cautions have a table of their own. */
export const HOME_SHEET_EN = {
  title: 'Fitting it yourself',
  about: 'For machine {tag}: {what}. Read it through before you start.',
  oursHead: 'What we do first',
  ours: 'Not by yourself: {works}. Bring the machine for it, or ask us before you start.',
  stepsHead: 'In this order',
  close: 'Close the case, plug everything in again, and start the machine.',
  after:
    'If it does not start: switch it off, pull the mains plug, and write to us. Force nothing that does not go in easily.',
  tell: 'Tell us when it is in, and what your games run at now: on your page, or in a reply.',
  wayOut: 'Rather not? Stop at any point and bring it in. We do it.',
  print: 'To have it beside you, print this page.',
} as const
