import type { Step } from '../../core/job/checklist.ts'
import type { Fitter, OutOutcome } from '../../core/job/job.ts'
import type { Outcome } from '../../core/job/promise.ts'
import type { JobState, JobStep } from '../../core/job/states.ts'
import type { WarrantyGiver } from '../../core/job/warranty.ts'

/** What is done by a button: its words, and what happens then. */
export type Act = { readonly name: string; readonly does: string }

const SHOP_ACTS = {
  book: {
    name: 'Book it',
    does: 'What it needs is put aside until then. Another day can be booked at any time.',
  },
  missed: {
    name: 'They did not come',
    does: 'The date goes, and what was put aside is for sale again. A new date puts it aside once more.',
  },
  start: {
    name: 'Start: it is on the bench',
    does: 'The checklist can be ticked from now on. What it needs is put aside if it is not yet.',
  },
  'put off': {
    name: 'Put it off',
    does: 'It goes back to agreed, without a date. Parts stay put aside, and ticks stay.',
  },
  fitted: {
    name: 'It is all in',
    does: 'The machine is written down with the new parts as of now. The shelf counts fewer, old parts come out, warranties begin. This can’t be taken back.',
  },
  finish: { name: 'Finish the job', does: 'The job is done. What stands on this page stays as it is.' },
  'call off': {
    name: 'Call it off',
    does: 'What was put aside is for sale again. The question can be agreed anew.',
  },
} satisfies Record<JobStep | 'fitted', Act>

/** The English of jobs. Figures are put in already formatted; a second language is a second table of this shape. */
export const JOB_EN = {
  states: {
    shop: {
      agreed: 'agreed',
      booked: 'booked',
      'on the bench': 'on the bench',
      done: 'done',
      'called off': 'called off',
    },
    owner: {
      agreed: 'agreed',
      booked: 'booked for pick-up',
      'on the bench': 'with the owner',
      done: 'done',
      'called off': 'called off',
    },
  } satisfies Record<Fitter, Record<JobState, string>>,
  inAtHome: 'in, at the owner’s',
  /** A price below zero: what the owner gets for the old part is more than what is done. */
  wePay: 'we pay {amount}',
  acts: {
    shop: SHOP_ACTS,
    owner: {
      ...SHOP_ACTS,
      book: {
        name: 'Book the pick-up',
        does: 'The parts are put aside until then. Another day can be booked at any time.',
      },
      start: {
        name: 'Hand over the parts',
        does: 'The owner has them and fits them at home. They stay put aside until the owner says they are in.',
      },
      'put off': {
        name: 'Take the parts back',
        does: 'It goes back to agreed, without a date. The parts stay put aside.',
      },
      fitted: { ...SHOP_ACTS.fitted, name: 'The owner says it is all in' },
    },
  } satisfies Record<Fitter, Record<JobStep | 'fitted', Act>>,
  /** A step of the history by the states it joins; one that is not here is told by where it led. */
  happened: {
    'booked>agreed': 'they did not come',
    'on the bench>agreed': 'put off',
    'booked>booked': 'another day',
  } as Readonly<Record<string, string>>,
  bookedFor: 'for {when}',
  /** What was agreed later for the same visit; as the history keeps it. */
  joined: 'agreed for the same visit: {what}',
  /** The page where a yes is written down. */
  yes: {
    promised: 'This is promised, and measured again afterwards:',
    rise: '{title}: from {before} to {after}, between {low} and {high}',
    stays: '{title}: stays at {after}, between {low} and {high}',
    again: '{title}: not promised. A run of it does not fit the others, so it is run again first.',
    without: '{title}: not promised, because it has no number.',
    lookFirst: 'Nothing is promised: first somebody looks whether there is anything to do.',
    none: 'No title has a number that counts, so no frame rate is promised.',
    /** A visit is open already in which nothing is promised: what is agreed now is done in it. */
    joins: 'It joins the visit {job}, {what}, {when}: one visit, one checklist, one price.',
    when: {
      agreed: 'which has no date yet',
      booked: 'booked for {date}',
      'on the bench': 'which is on the bench now',
    },
    sum: 'Agreed so far: {before}. With this it is {sum} in all; opening, fee and works in both are paid once.',
    by: '{by}, as agreed for the visit.',
    date: 'A date, if there is one',
    otherDate: 'Another day, if this one does not do',
    keepsDate: 'Left empty, it stays {date}.',
    depositMore: 'On top of the {deposit} left before.',
  },
  fitters: { shop: 'fitted by us', owner: 'fitted by the owner at home' } satisfies Record<Fitter, string>,
  steps: {
    opening: 'Open the machine',
    work: '{what}',
    'take out': 'Take out: {what}',
    fit: 'Fit: {what}',
    measure: 'Measure {what}',
    'test what came out': 'Test what came out: {what}',
    settle: 'Settle the price',
    'tell the owner': 'Tell the owner',
  } satisfies Record<Step['what'], string>,
  at: '{title} at {setting}',
  promise: {
    said: {
      kept: 'We said {promised}, between {low} and {high}. We measured {measured}. Promise kept.',
      'missed, better':
        'We said {promised}, at most {high}. We measured {measured}. Better than we promised, so our number was off.',
      'missed, worse':
        'We said {promised}, between {low} and {high}. We measured {measured}. Promise missed by {missed}.',
      'not measured':
        'We said {promised}, between {low} and {high}. Nobody measured it yet, so this promise stays open.',
    } satisfies Record<Outcome, string>,
    /** Kept, though a little outside what was said: repeats of one run differ by that much. */
    scatter:
      'We said {promised}, between {low} and {high}. We measured {measured}, as near as repeats of a run agree. Promise kept.',
    words: {
      kept: 'kept',
      'missed, better': 'better than promised',
      'missed, worse': 'missed',
      'not measured': 'open',
    } satisfies Record<Outcome, string>,
    overall: {
      kept: 'The promise is kept.',
      'missed, better': 'It is better than promised, so our number was off.',
      'missed, worse': 'The promise is missed.',
      'not measured': 'Not every promised title was measured yet, so the promise stays open.',
    } satisfies Record<Outcome, string>,
    none: 'No frame rate was promised.',
    stillOpen:
      'Not measured yet: {titles}. These promises stay open; a run can still be noted once the job is done.',
  },
  outcomes: {
    'to test': 'to test',
    'on the shelf': 'on the shelf',
    'given back': 'given back',
    scrapped: 'scrapped',
  } satisfies Record<OutOutcome, string>,
  warranty: {
    givers: { shop: 'our warranty', maker: 'its maker’s warranty' } satisfies Record<WarrantyGiver, string>,
    runs: '{part}: {giver} until {date}.',
    under: '{part} is under {giver} until {date}.',
    ends: 'What ends it, as noted: {ends}.',
    staysOut: 'Nothing is noted that ends it, so taking it out does not.',
    staysIn: 'Nothing is noted that ends it, so this work does not.',
  },
  miss: {
    head: 'The promise is missed: what the owner can choose',
    says: 'It goes into the mail as you write it. The owner reads {language}.',
    checked: 'What you checked',
    checkedHint: 'A short list, such as: driver, temperatures, what runs beside it; all as it should be.',
    choices: 'What they can choose',
    choicesHint: 'One a line.',
    save: 'Keep it for the mail',
    notSaved: 'The lines above are proposed; they count once you keep them.',
    saved: 'Kept. A mail that is written from now on has it.',
  },
  mailIt: 'Write it as a mail',
  mailItSays: 'It lies in the outbox and goes out when you approve it.',
  told: {
    greeting: 'Hello {name},',
    greetingPlain: 'Hello,',
    ready: 'Your machine {tag} is ready.',
    home: 'Thank you for fitting it yourself in {tag}.',
    what: 'What was done: {what}.',
    promise: '{title}: before {before}. {says}',
    miss: 'That is our miss. Reply, and we say what we checked and what you can choose.',
    reported: '{title}: you measured {reported} at home.',
    price: 'The price is {price}, as agreed.',
    priceOther: 'The price came to {price}; we had agreed on {agreed}.',
    pays: 'We pay you {price}.',
    deposit: 'You left a deposit of {deposit}, so {due} is left to pay.',
    depositOver: 'You left a deposit of {deposit}, so you get {due} back.',
    depositBack: 'Your deposit of {deposit} comes back too, so you get {due} in all.',
    depositEven: 'Your deposit of {deposit} paid it.',
    out: {
      'to test': 'We still test your old {part}.',
      'on the shelf': 'Your old {part} stays with us. We took {credit} off the price for it.',
      'on the shelf, no credit': 'Your old {part} stays with us.',
      'given back': 'Your old {part} comes back to you.',
      scrapped: 'Your old {part} goes to scrap.',
    },
    warranty: 'Our warranty on the {part} runs until {date}.',
    warrantyEnds: 'It ends with: {ends}.',
    reply: 'Anything odd? Reply to this.',
    regards: 'Kind regards,',
    sign: '{builder}, {shop}',
  },
}
