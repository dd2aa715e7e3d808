import type { RuleId } from '../../core/fit/finding.ts'
import type { Complaint } from '../../core/question.ts'
import type { Verdict } from '../../core/verdict.ts'

/**
 * The English of answers to what was asked by name: a part in mind, a complaint, the next system version, titles against
 * the target. Read on pages and in letters alike; a second language is a second table of this shape.
 */
export const ASKED_EN = {
  part: {
    lead: {
      fits: 'Yes, it goes into your machine as it is.',
      'fits slower': 'Yes, it goes in, and part of it runs slower than it could.',
      'fits after work': 'Yes, it goes in, after some work.',
      "can't tell": 'We can’t tell yet whether it goes in.',
      'does not fit': 'No, it does not go in.',
    } satisfies Record<Verdict, string>,
    leadWith: 'Yes, with {parts} beside it.',
    leadMaybeWith: 'We can’t tell yet. It would need {parts} beside it.',
    lacks: 'We do not know {figures}. The seller’s page, its box or a photo of its label tells.',
    whichModel:
      'Which exact model is it? Copy the seller’s whole line, or what is written on the part. Then we look up the rest.',
    weLook: 'We look up its figures and write to you.',
    noFigures: 'So we have worked out no price and no FPS for it.',
    noFiguresYet: 'Until then we can tell no price and no FPS for it.',
    back: 'You get from us',
    reply: 'To have it fitted, reply “yes, fit it”. Any question is welcome, and no answer is fine too.',
    sure: 'If you would rather not look: with {parts} it goes in, and you pay us {price}.',
    leadLacking: 'Not with our shelf of today: it needs {kinds}, and we have none that would do.',
    subject: {
      fits: '{tag}: yes, your part goes in',
      'fits slower': '{tag}: yes, your part goes in',
      'fits after work': '{tag}: your part goes in after some work',
      "can't tell": '{tag}: your part, and what we must know',
      'does not fit': '{tag}: your part does not go in, and why',
    } satisfies Record<Verdict, string>,
    preheader: 'What decides it, what it would cost in all, and what our shelf does for that.',
    modelFirst: 'Which exact model is it? With that we look up the rest.',
    onlyName: 'We know it by its name alone. Its length, power and plugs would tell more.',
    yours: '{part}, bought by you',
    total: 'In all, with your part',
    ours: 'You pay us',
    noPrice: 'What the part costs you comes on top; you did not say how much.',
    better: {
      best: 'For the same {spend} our shelf has {option}, for {price}.',
      gain: 'With it, {title} goes from {before} to {after}: {grade}.',
      yours: 'With your part, {title} goes from {before} to {after}: {grade}.',
      yoursUnknown: 'For your part we have no number.',
      none: 'For {spend} in all, nothing on our shelf does better.',
      'no titles': 'Tell us the games you play; then we can say whether our shelf does better for {spend}.',
      'no runs': 'We have no run that tells whether our shelf does better for {spend}.',
      'no price': 'Tell us what it costs you; then we can compare it with our shelf.',
      same: 'The same part stands on our shelf, for {price}.',
      head: 'For the same money',
      shelf: 'our shelf',
      nothingBetter: 'nothing better',
    },
    instead: 'Of our shelf, {option} goes in, for {price}.',
  },
  /** A road out of a "does not fit", where the number that decides gives one. */
  roads: {
    'graphics.length': 'A card of up to {roomMm} goes in.',
    'graphics.thickness': 'A card for {haveSlots} slots goes in.',
    'cooling.height': 'A cooler of up to {roomMm} goes in.',
    'memory.total': 'Up to {maxGB} in all goes in.',
    'memory.generation': 'A kit of {boardGeneration} goes in.',
  } as Readonly<Partial<Record<RuleId, string>>>,
  system: {
    lead: {
      fits: 'Yes, your machine can go to the next system version.',
      'fits slower': 'Yes, your machine can go to the next system version.',
      'fits after work': 'Yes, it can go to the next system version, after some work.',
      "can't tell": 'We can’t tell yet whether it can go to the next system version.',
      'does not fit': 'No, this machine can’t go to the next system version as it is.',
    } satisfies Record<Verdict, string>,
    subject: '{tag}: the next system version',
    preheader: 'What it asks for, what your machine has, and what the change costs.',
    head: 'What the next system version asks for',
    what: 'Next system version',
  },
  complaint: {
    lead: {
      slow: 'Before you buy anything: these are the likely reasons for a slow machine.',
      hot: 'Before you buy anything: these are the likely reasons for a hot machine.',
      loud: 'Before you buy anything: these are the likely reasons for a loud machine.',
    } satisfies Record<Complaint, string>,
    /** What to look at before anything is done. */
    lookFirst: {
      slow: [
        'Note since when it is slow, and whether it is slow in every game or in one.',
        'What was changed or installed just before is the first thing to look at.',
      ],
      hot: [
        'Look whether dust sits in front of the fans, and whether every fan turns.',
        'A machine in a closed desk or on a carpet draws warm air.',
      ],
      loud: [
        'Listen with the side panel off, hands and cables out while it runs: which fan is it, and does a cable touch it?',
        'A rattle is mostly a fan or a loose screw; a steady roar is mostly heat.',
      ],
    } satisfies Record<Complaint, readonly string[]>,
    subject: '{tag}: what to look at first',
    preheader: 'What to look at, what costs nothing, and which parts help if it does not.',
    head: 'Work first',
    states: {
      'to do': 'to do',
      'check first': 'look first',
      'nothing to do': 'nothing to do',
    },
    free: 'It costs nothing.',
    price: 'We do it for {price}.',
    unpriced: 'We say what it costs when we have looked.',
    done: 'As far as we know, nothing is to do here.',
    parts: 'If that does not help',
    part: '{option}, {price}',
    partNote: 'It goes in. How much cooler or quieter it gets, nobody measured.',
    source: 'Order: likeliest reason first, as repair practice has it.',
  },
  titles: {
    yes: 'Yes: it averages {target} or more today.',
    yesEstimated: 'Yes, by our estimate: it averages {target} or more today.',
    some: 'At {target} or more on average today: {count} of {m} games.',
    no: 'Not today: it averages less than {target}.',
    may: 'We would not promise it: today it averages about {target}.',
    runAgain: 'We would not promise it yet: our runs do not agree, so we run it again.',
    unknown: 'We have not measured it on your parts, so we don’t know yet.',
    subject: '{tag}: will it run at {target}?',
    words: {
      yes: 'yes',
      may: 'near it',
      no: 'not today',
      'run again': 'to be run again',
      'not known': 'not measured',
      road: 'with a change',
    },
    today: 'Today it averages {fps}.',
    again: 'Our runs give {fps} today, and they do not agree. We run it again before we promise.',
    near: 'Today it averages {fps}, too near {target} to promise.',
    road: 'With {option}, for {price}, it averages {fps}: {grade}.',
    elsewhere: 'What a change brings was measured on another machine with these parts.',
    noRoad: 'Nothing on our shelf that we have a number for brings it there.',
    head: 'Each game against {target}',
  },
  why: 'What decides it',
  and: 'and',
} as const
