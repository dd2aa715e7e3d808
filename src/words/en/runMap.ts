import type { Known } from '../../core/gain/measuredMap.ts'
import type { Forms } from '../say.ts'

/** The map of what was measured: processors by cards. */
export const RUN_MAP_EN = {
  title: 'What was measured',
  of: 'What was measured: {title}',
  lead: '{pairs} of {possible} pairs of {processors} processors and {cards} cards were run, {runs} runs in all.',
  none: 'No run yet, so there is nothing to draw: every gain will say “no number”.',
  begin: {
    '/runs/new': 'Note what you have measured',
    '/runs/log': 'Read a frame-time log',
    '/import': 'Import runs.csv',
  },
  cell: {
    titles: 'A number is in how many titles a pair was run.',
    runs: 'A number is how often a pair was run in {title}.',
  },
  opens: 'It opens those runs; an empty place opens the sheet for a run of that pair.',
  /** At most two digits and a sign have room. */
  manyMore: '99+',
  empty: '·',
  emptySays: 'not run',
  suggested: '+',
  suggestedSays: 'not run; would help a question',
  label: 'Processors across, cards down: what was run of each pair',
  corner: 'Card',
  key: {
    more: 'run, and more than one run is current',
    once: 'one current run: no other tells whether it was spoilt',
    old: 'old runs alone',
    never: 'never run',
  } satisfies Readonly<Record<Known, string>>,
  next: 'a run you can make now that would help a question that waits; told below',
  known: {
    more: 'more than one current run',
    once: 'one current run',
    old: 'old runs alone',
    never: 'never run',
  } satisfies Readonly<Record<Known, string>>,
  sides: {
    processors: { pages: 'Processors of the map', range: 'Processors {from} to {to} of {total}' },
    cards: { pages: 'Cards of the map', range: 'Cards {from} to {to} of {total}' },
  },
  more: { processors: 'Processors with more runs', cards: 'Cards with more runs' },
  fewer: { processors: 'Processors with fewer runs', cards: 'Cards with fewer runs' },
  ordered: 'Those with most runs come first.',
  find: { title: 'Title', all: 'all titles', go: 'Show' },
  list: {
    head: 'Every pair that was run',
    pair: 'Processor and card',
    runs: 'Runs',
    titles: 'Titles',
    last: 'Last run',
    known: 'How well',
    pages: 'Pages of pairs',
    range: '{from} to {to} of {total}',
    before: 'Previous pairs',
    after: 'Next pairs',
  },
  neverRun: {
    head: 'Never run',
    says: 'Nothing is known of these but what the others tell. One run of each, with a partner that was run often, tells most.',
    kinds: { processor: 'Processors', card: 'Cards' },
    further: { one: 'and 1 more', other: 'and {n} more' } satisfies Forms,
  },
  allRuns: 'All runs',
}
