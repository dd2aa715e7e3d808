import type { Weakness } from '../../core/gain/modelCard/modelCard.ts'
import type { Reliability, ReliabilityVerdict } from '../../core/gain/reliability/reliability.ts'

/** What the shop's measurements teach: the next run, promises, the model's card. Figures are put in already formatted. */
export const MEASURE_EN = {
  next: {
    head: 'What to measure next',
    says: 'Runs you can make now, by how much they would help the questions that wait, for each minute at the bench.',
    run: '{title}, {setting}',
    onMachine: 'on {tag}',
    onBench: 'on the test bench: {processor}, {card}',
    withParts: 'with {parts} from the shelf',
    minutes: 'It takes about {minutes}.',
    helps: { one: 'Helps 1 question: {first}.', other: 'Helps {n} questions, {first} most.' },
    loses: 'Choosing without it loses {share} of the best gain for the money, on average.',
    gives: 'It gives a number where there is none now.',
    note: 'Note this run',
    underWay: 'Being worked out. It stands here when you come back to this page.',
    stale: 'Something has changed since; it is being worked out anew.',
    failed: 'The gain model could not be fitted just now, so nothing can be said about the next run.',
    none: 'No run that you can make now would change what is best for a question that waits.',
    noHand:
      'No machine stands in the shop, and no run was made on a test bench. So there is nothing to measure on.',
    noQuestion: 'No question waits that a run could help.',
    links: {
      promises: 'How promises were kept',
      card: 'What the model knows',
      map: 'What was measured',
    },
  },
  promises: {
    head: 'Promises',
    none: 'No promise has been measured yet. After a job, note a run of each promised title on its page.',
    unmeasured: {
      one: '1 promise has not been measured yet.',
      other: '{n} promises have not been measured yet.',
    },
    counts:
      '{promises} measured, of {jobs}. Promises of one job miss together, and so may those in one title: they count as {counts} independent ones.',
    verdicts: {
      'too few': 'Too few to say: from {least} independent ones on there is a verdict.',
      'as stated': 'Kept as often as stated, as far as so many can tell.',
      'too narrow': 'Kept more rarely than stated: the intervals are too narrow.',
      'too wide': 'Kept more often than stated: the intervals are too wide.',
    } satisfies Record<ReliabilityVerdict, string>,
    lean: {
      slower: '{slower} of {n} came out slower than the middle of the promise, which is more than chance.',
      faster: '{faster} of {n} came out faster than the middle of the promise, which is more than chance.',
    } satisfies Record<NonNullable<Reliability['lean']>, string>,
    middle: 'In the middle, results lie {off} from what was promised.',
    picture: {
      caption:
        'Stated against kept. On the line: kept as often as stated. Inside the band: what chance does to so many promises in 19 of 20 cases.',
      label: 'How often promises were kept, against how often they were meant to be',
      stated: 'stated',
      kept: 'kept',
    },
    table: {
      stated: 'Stated',
      kept: 'Kept',
      honest: 'Honest shops',
      of: '{kept} of {n}',
      range: '{low} to {high}',
    },
    factor: {
      head: 'Width of the intervals',
      tooFew: 'From {least} independent promises on, the width of intervals is compared with what they were.',
      fits: 'Nothing calls for another width.',
      asModel: 'Intervals are as wide as the gain model gives them.',
      inForce: {
        first: 'Since {date} intervals are {factor} times as wide as the gain model gives them.',
        later:
          'Since {date} intervals are {factor} times as wide as the gain model gives them; before that, {was} times.',
      },
      basis:
        'It stands on {promises} promises of {jobs}, which count as {counts} independent ones. Alone they showed {seen}.',
      jobs: { one: '1 job', other: '{n} jobs' },
      calls: {
        first: 'The promises call for intervals {factor} times as wide as the model gives them.',
        later:
          'The promises call for intervals {factor} times as wide as the model gives them, instead of {was} times.',
      },
      says: 'Alone they show {seen}; what is seen is drawn toward 1, as if 40 more promises had been as stated.',
      with: { own: 'As the model gives them', other: '{factor} times as wide' },
      look: 'Look at the runs behind the misses first: a spoilt run is no reason for other intervals.',
      effect:
        'Frame rates and gains stay as they are. Intervals that are told from then on count with it, also when titles reach a target and options tie; a gain that is then too uncertain has no number. Kept answers and letters stay as they were told.',
      take: 'Make them {factor} times as wide from now on',
      back: 'Take it back',
      backTo: {
        first: 'Then intervals are again as the model gives them.',
        later: 'Then intervals are {was} times as wide again.',
      },
      owner: 'The owner of the shop decides this, signed in with their own account.',
      earlier: 'Earlier changes',
      step: '{date}: from {was} to {factor}{by}, after {promises} promises.',
      by: ' by {name}',
      takenBack: 'Taken back on {date}.',
    },
    groups: {
      kind: 'By what went in',
      title: 'By title',
      part: 'By part',
      what: 'What',
      n: 'Measured',
      share: 'Four in five',
      middle: 'Middle',
      verdict: 'Says',
      short: {
        'too few': 'too few to say',
        'as stated': 'as stated',
        'too narrow': 'kept too rarely',
        'too wide': 'kept more often',
      } satisfies Record<ReliabilityVerdict, string>,
    },
    list: {
      head: 'Every promise',
      job: 'Job',
      title: 'Title and setting',
      promised: 'Promised',
      measured: 'Measured',
      became: 'Promise',
      more: '{n} older ones stand on the pages of their jobs.',
    },
  },
  card: {
    head: 'What the gain model knows',
    none: 'No runs yet, so the model knows nothing of this shop.',
    made: '{model}, for {date}.',
    width:
      'Its intervals are {factor} times as wide as it gives them by itself: kept and missed promises called for it.',
    counts: '{runs} runs of {cells} different machines, titles and settings together; {from} to {until}.',
    of: '{titles} titles, {settings} settings, {processors} processors, {cards} cards.',
    leftHead: 'How well it foretells runs it has not heard',
    left: 'Each of {cells} places was left out once and foretold by all others. The frame rate was missed by {error} on average; the interval of four in five reached {half} to each side.',
    untold: 'For {n} more the rest of the runs tells too little for a number.',
    some: 'Only {n} of all were left out, evenly: more would tell the same.',
    levels: { stated: 'Stated', held: 'Held', honest: 'If intervals are right' },
    weakHead: 'Weak spots',
    weakNone: 'No title and no part stands out.',
    weak: {
      'few runs': 'few runs',
      untold: 'mostly without a number',
      wide: 'wide intervals',
      'held too rarely': 'misses more often than stated',
    } satisfies Record<Weakness, string>,
    columns: { what: 'Title or part', cells: 'Left out', error: 'Missed by', half: 'Interval', why: 'Why' },
    help: 'What would help',
  },
} as const
