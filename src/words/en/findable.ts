import type { Aim } from '../../core/ranking/buyBelow.ts'
import type { Chance } from '../../core/ranking/hunt.ts'
import type { Forms } from '../say.ts'

/** What could be bought, what it has to cost, and how old a price is. */
export const FINDABLE_EN = {
  range: '{low} to {high}',
  age: {
    today: 'today',
    yesterday: 'yesterday',
    days: { other: '{n} days ago' } satisfies Forms,
    weeks: { one: '{n} week ago', other: '{n} weeks ago' } satisfies Forms,
    months: { one: '{n} month ago', other: '{n} months ago' } satisfies Forms,
  },
  old: 'old price',
  couldBuy: 'could be bought for {range} (seen {age})',
  list: {
    head: 'What could be bought',
    about: 'Parts that are not on the shelf. They are never ranked as if they were; pages show them apart.',
    empty:
      'No part is on the list. Add what you saw at a market or a reseller: you are then told what it has to cost.',
    add: 'Add a part',
    hunt: 'What to hunt for today',
    removed: '{id} is off the list.',
    bringBack: 'Bring it back',
    backAgain: '{id} is on the list again.',
  },
  form: {
    newHead: 'A part that could be bought',
    kind: 'What it is',
    partName: 'Maker and model',
    partNameHint:
      'As you know it, or its key. A name that is new makes a part, with what the name tells for sure.',
    condition: 'Condition',
    lowMinor: 'Seen for',
    highMinor: 'Up to',
    highMinorHint: 'Left empty: it was one price.',
    at: 'Seen on',
    warrantyMonths: 'Warranty a buyer has',
    place: 'Where',
    note: 'Note',
    save: 'Save it',
    saved: 'Saved.',
    remove: 'Take it off the list',
    all: 'All that could be bought',
    part: 'Figures of the part',
    seenHead: 'What it was seen for',
    isOff: 'It is off the list since {date}.',
  },
  hunt: {
    head: 'What to hunt for today',
    about:
      'For each part: the price at which it starts to beat the best that your shelf can do for somebody who waits. It is what your customer would pay for the part{beforeTax}: what you want to earn comes off it.',
    beforeTax: ', before sales tax',
    onePiece: 'One piece serves one question. With a second piece the second price counts.',
    noList: 'No part is on the list of what could be bought.',
    noQuestions: 'No question with games waits for an answer, so there is nothing to hunt for.',
    counted: {
      one: '{n} open question was looked at.',
      other: '{n} open questions were looked at.',
    } satisfies Forms,
    chances: {
      'as seen': 'Worth it at what it was seen for',
      'at the low end': 'Worth it at the low end of what it was seen for',
      'for less': 'Worth it only for less than it was seen for',
      nobody: 'Helps nobody who waits now',
    } satisfies Record<Chance, string>,
    below: 'buy below {price}',
    anyPrice: 'at any price',
    aims: {
      'per money': 'most gain for the money',
      'in budget': 'most gain within {budget}',
    } satisfies Record<Aim, string>,
    why: '{aim}, up to {price}: {option}, {gain} for {net}.',
    whyAny: '{aim}, at any price: the shelf has nothing to recommend here.',
    beats: 'It must beat {option}, {gain} for {net}.',
    beatsNothing: 'The shelf has nothing to recommend here.',
    waiting: 'Working out what each part has to cost',
    progress: '{done} of {of} questions looked at.',
    open: 'Look again',
    workedOut: 'Worked out on {dateTime}.',
    stale: 'Something has changed since; it is being worked out anew.',
    comesAgain: 'This page comes again by itself.',
    failed: 'It cannot be worked out now. It is tried again when something changes.',
  },
  shelfItem: {
    history: 'Every price it had',
    tradeIn: 'What you give for one in exchange',
    noTradeIn: 'Nothing: its owner keeps it.',
    now: 'today’s',
    all: 'All of the shelf',
    sells: 'What may it cost so that it sells?',
  },
}
