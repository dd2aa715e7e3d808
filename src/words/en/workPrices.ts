import type { Forms } from '../say.ts'

/** What the shop charges for work, as a page asks for it. */
export const WORK_PRICES_EN = {
  title: 'What your work costs',
  lead: 'Answers, offers and jobs add these to what parts cost. A work without a price is listed, and has no place by money.',
  groups: { visit: 'Every visit', fitting: 'Fitting a part', other: 'Other work' },
  fee: 'Fixed fee of a visit',
  minutes: 'Minutes',
  price: 'Price',
  ofWork: '{work}: {field}',
  needMinutes: 'Say how many minutes it takes, 0 where it takes none; or leave both empty.',
  needPrice: 'Say what it costs, 0 where you do it for nothing; or leave both empty.',
  unpriced: {
    one: '{n} work has no price yet.',
    other: '{n} works have no price yet.',
  } satisfies Forms,
  save: 'Save the prices',
  back: 'All settings',
  undo: 'Undo',
  did: {
    saved: 'Saved. Answers are worked out with this from now on; what was agreed stays as it was agreed.',
    undone: 'Taken back: the prices are again what they were.',
    same: 'Nothing was changed.',
  },
}
