import type { EndMark, Grade, TitleGain } from '../../core/gain/gain.ts'

type NoNumber = Extract<TitleGain, { grade: 'no number' }>['because']

/** What stands behind a number, as the builder reads it. Figures are put in already formatted. */
export const WHY_EN = {
  head: 'Why this number?',
  of: '{option}, for {tag}',
  back: 'Back to the answer',
  price: 'Price',
  rules: 'What the machine says to it',
  handsIn: 'Before hands go in',
  quotient: '{after} ÷ {before} gives {rise}; four of five results lie between {low} and {high} FPS.',
  failed:
    'The gain model could not be fitted just now, so this answer counts measured runs alone. What nobody measured has no number.',
  /** Where an end stands in a line. */
  estimate: 'an estimate: nobody ran it',
  alone: 'its runs alone say {fps}; ',
  /** Shown while the model is fitted. */
  waiting: {
    head: 'Working out the numbers',
    says: 'What our runs say together is being computed anew, because they have changed. This page shows the answer by itself as soon as it is done.',
    ranking:
      'The shelf has many parts, and every way to put them into this machine is being gone through. This page shows the answer by itself as soon as it is done.',
    /** Over an answer that can be read meanwhile. */
    soFar:
      'Being computed: what our runs say together. Until it is done, only what we measured on both sides has a number here. The rest comes by itself.',
    /** After a form was sent. */
    notYet: 'Nothing was kept yet: the numbers it counts on are being computed. Send it again in a moment.',
    sendAgain: 'Send it again',
    /** In a list, where the answer in one line will stand. */
    line: 'Its new answer is being computed.',
    since: 'From {runs} runs, for {seconds} s now.',
    usual: 'The last time it took {seconds} s.',
    progress: 'How far it is',
    open: 'Look again',
    terminal: 'Working out what {runs} runs say{usual}.',
    terminalUsual: '; the last time it took {seconds} s',
  },
  grades: {
    measured:
      'Measured: both ends have runs of our own. The number is their runs blended with what all other runs say, because one run scatters by about 2%.',
    'half measured':
      'Half measured: one end has runs of our own that count in full. The other is worked out from runs of other machines, or its runs are old or doubtful.',
    estimated:
      'Estimated: nobody ran this title on either end. Both are worked out from runs of other machines and titles.',
    'no number': 'No number: nothing here is sure enough to stand behind.',
  } satisfies Record<Grade, string>,
  because: {
    'nothing fitted': 'A part or a rate of this machine is not known, so no run can be matched to it.',
    'no run before': 'There is no run of this machine’s parts as they are now.',
    'no run after': 'There is no run of these parts with the change.',
    'no run': 'There is no run of this title at all.',
    'too far apart': 'The runs lie too far apart, in days or in title version, to be compared.',
    'not told by runs':
      'Runs are told apart by parts, memory and link. Run this machine before the work and after it.',
    'unknown part': 'A part that changes has neither a run nor a nominal figure.',
    'too uncertain':
      'What other runs tell leaves too much open: the result could lie more than 28% to either side.',
  } satisfies Record<NoNumber, string>,
  marks: {
    old: 'Its latest run is older than the window for measured numbers.',
    'other version': 'Its runs were made in an older version of the title.',
    flagged: 'A run of it does not fit what everything else says: run it again.',
  } satisfies Record<EndMark, string>,
  runAgain: 'The runs alone and the blend lie far apart: run it again before promising anything.',
  disagrees:
    'Runs of one end disagree by more than 15%, and nothing tells which is right. It counts for nothing.',
  capped: 'It runs at a cap there: without it the frame rate would be at least this.',
  today: 'Today',
  after: 'After the change',
  intervals: {
    head: 'How sure',
    caption: 'Where the result lands, average FPS after the change and gain',
    of: 'Results that land there',
    rows: { 50: 'five of ten', 80: 'eight of ten', 90: 'nine of ten' },
    width:
      'They are {factor} times as wide as the model gives them: the shop’s kept and missed promises called for it.',
    promises: 'How promises were kept',
    fps: 'FPS after',
    gain: 'Gain',
    from: '{low} to {high}',
  },
  picture: {
    caption:
      'Thin bar: today. Thick bar: after. Whiskers: five, eight and nine of ten results. Dots: what runs of these parts said.',
  },
  ends: {
    head: 'What each end says',
    end: 'End',
    own: 'Its runs alone',
    model: 'By the formula, from all runs',
    shared:
      'Where machines that differ in memory or link alone were run, what the formula gets wrong there counts here too. So the last column need not lie between the first two.',
    share: 'Weight of the runs',
    blend: 'Together',
    says: 'Together is the formula, put right by runs: those of these parts, and a little by those of machines that differ in memory or link alone. The weight says how much they count. One run never counts for all, because it scatters.',
    noRun: 'no run',
  },
  runs: {
    head: 'Runs of these parts',
    none: 'None: nobody ran this title with these parts at this setting.',
    run: 'Run',
    end: 'End',
    on: 'On',
    fps: 'Average',
    off: 'Away from “Together”',
  },
  under: 'under {share}',
  over: 'over {share}',
  pulls: {
    head: 'Other runs that move it',
    says: 'What the gain would do, had one of these runs shown one percent more frames. The strongest come first.',
    little: 'None moves it by a tenth of that: its own runs decide.',
    none: 'None is kept with this answer. Open the question as things are now to see them.',
    runs: 'Runs',
    title: 'Title',
    parts: 'Parts',
    fps: 'Average',
    moves: 'The gain then moves by',
    doubted: 'doubted: it looks spoilt',
  },
  sides: {
    head: 'What sets the pace',
    frame: '{end}: a frame costs the processor {processor} ms and the card {card} ms, as the model sees it.',
    processor: '{end}: the chance that even a card without limits would add less than 5% is {share}.',
    card: '{end}: the chance that even a processor without limits would add less than 5% is {share}.',
    both: 'The two work at the same time, so the longer one sets the pace.',
  },
  target: {
    head: 'The {target} wanted',
    says: 'The chance that it is reached is {before} today and {after} after the change.',
    rule: 'From 80% on it counts as reached; from 30% on it may.',
    runAgain: 'Nothing is said of it before this title is run again, here, in the letter or in a job.',
  },
  low1: '1% low: {before} today, {after} after; eight of ten results lie between {low} and {high}.',
  wanted: {
    head: 'The run that would help most',
    run: '{title} at {setting}, with {processor}, {card}, {memory}.',
    memory: '{total} at {rate}, {channels}',
    channels: { 1: 'one channel', 2: 'two channels' } as Readonly<Record<number, string>>,
    note: 'Note this run',
    tells: 'No number for {title} yet. A run of it with {processor} and {card} would tell.',
  },
  /** Over the titles. */
  together: 'All games together',
  /** Titles that are left out of the mean, or counted in it without a promise. */
  useful: {
    without: 'No number for {titles}, so it is left out.',
    disagrees: 'Runs of {titles} disagree, so it is left out until they are run again.',
    runAgain:
      'A run of {titles} does not fit the others. It counts in this mean, and nothing is promised in it before it is run again.',
  },
  method:
    'The model: a frame takes about as long as the longer of what the processor and what the card need for it. It is fitted to every run of the shop, with what scatters, and says where the result lands.',
} as const
