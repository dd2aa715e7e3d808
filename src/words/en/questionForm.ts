import type { Changeable } from '../../core/asked/changed.ts'
import type { Ask, Channel, Complaint, Wish } from '../../core/question.ts'

type Who = 'shop' | 'owner'

/** Kinds of question as the shop writes them down, and as an owner would say them. */
export const ASK_WORDS: { readonly [W in Who]: { readonly [A in Ask]: string } } = {
  shop: {
    'what can I do': 'what can I do',
    'can I put this in': 'can I put this in',
    'will it run this': 'will it run this',
    'something is wrong': 'something is wrong',
    'next system version': 'next system version',
  },
  owner: {
    'what can I do': 'What could I do to make it faster?',
    'can I put this in': 'Can I put this part in?',
    'will it run this': 'Will it run these games?',
    'something is wrong': 'It got slow, hot or loud',
    'next system version': 'Can it go to the next system version?',
  },
}

export const WISH_WORDS: { readonly [W in Wish]: string } = {
  'keep the case': 'keep the case',
  'no used parts': 'no used parts',
  'no used supply': 'no used supply',
  'no untested parts': 'no untested parts',
  'only with warranty': 'only with warranty',
  quiet: 'quiet',
  'more space': 'more space for games (drives)',
}

export const CHANNEL_WORDS: { readonly [C in Channel]: string } = {
  mail: 'by mail',
  chat: 'in a chat',
  phone: 'by phone',
  'in person': 'in person',
  'owner page': 'on the owner’s page',
}

type Words = {
  readonly asks: string
  readonly part: string
  readonly partKind: string
  readonly partWords: string
  readonly partWordsHint: string
  readonly partPrice: string
  readonly partFigures: string
  readonly partFiguresHint: string
  readonly complaint: string
  readonly complaints: { readonly [C in Complaint]: string }
  readonly titles: string
  readonly titlesHint: string
  readonly target: string
  readonly budget: string
  readonly display: string
  readonly displayHint: string
  readonly planned: string
  readonly plannedHint: string
  readonly wishes: string
  readonly space: string
  readonly spaceHint: string
  readonly targetHint: string
  readonly budgetHint: string
  /** Rows of titles. */
  readonly title: string
  readonly setting: string
  readonly chooseTitle: string
  readonly chooseSetting: string
  readonly addTitle: string
  readonly width: string
  readonly height: string
  readonly refresh: string
}

const SHARED = {
  targetHint: 'Average, in each title; {fps} when left empty.',
  budgetHint: 'Left empty, every price is looked at.',
  title: 'Title {n}',
  setting: 'Setting of title {n}',
  chooseTitle: 'choose a title',
  chooseSetting: 'choose a setting',
  addTitle: 'Add a title',
  width: 'Width',
  height: 'Height',
  refresh: 'Refresh rate',
  partKind: 'What it is',
  partFigures: 'Its length, power or plugs, if known',
  complaints: { slow: 'slow', hot: 'hot', loud: 'loud' },
}

/** Labels of a question's fields: the shop writes about an owner, an owner about themselves. */
export const QUESTION_WORDS: { readonly [W in Who]: Words } = {
  shop: {
    ...SHARED,
    asks: 'What is asked',
    part: 'The part in mind',
    partWords: 'As the owner wrote it',
    partWordsHint: 'A name or key of the shop stands for that part. Figures in it are read.',
    partPrice: 'The owner’s price',
    partFiguresHint: 'What stands here counts before what the name or the shop’s record says.',
    complaint: 'What bothers',
    titles: 'Titles the owner plays',
    titlesHint:
      'Only titles and settings that the shop has kept can be chosen, because a frame rate compares at one setting alone. A row without a title does not count.',
    target: 'Wanted frame rate',
    budget: 'Budget',
    display: 'Display',
    displayHint: 'What the display cannot show is no gain. Left empty, nothing is capped.',
    planned: 'Display the owner means to buy',
    plannedHint: 'Where one is planned, the gain counts for that one.',
    wishes: 'Wishes',
    space: 'How much space',
    spaceHint:
      'With the wish for more space: drives that hold less are left out. A drive sold as 1 TB holds 1000 GB.',
  },
  owner: {
    ...SHARED,
    asks: 'What do you want to know?',
    part: 'The part you have in mind',
    partWords: 'Its name, as you know it',
    partWordsHint: 'Copy it from where you saw it. Sizes and watts in it help.',
    partPrice: 'What you can get it for',
    partFiguresHint: 'The seller’s page or the box tells them.',
    complaint: 'What bothers you?',
    titles: 'What I play',
    titlesHint: 'Choose from what we measure. Another game? Name it in your words above.',
    target: 'At least how many FPS?',
    budget: 'About how much money?',
    display: 'My display',
    displayHint: 'More than your display shows is no gain to you.',
    planned: 'A display I mean to buy',
    plannedHint: 'Then we count for that one.',
    wishes: 'Anything we should keep to?',
    space: 'How much more space?',
    spaceHint: 'If you ask for more space. A drive sold as 1 TB holds 1000 GB.',
  },
}

/** What an owner reads of the form, in one table for other languages. */
export const OWNER_FORM_EN = {
  fields: QUESTION_WORDS.owner,
  asks: ASK_WORDS.owner,
  wishes: WISH_WORDS,
  /** Above the form, for the list of what is wrong with it; by field. */
  labels: {
    wantedTitle: 'Title {n}',
    wantedSetting: 'Title {n}, setting',
    plannedWidth: 'Planned display, width',
    plannedHeight: 'Planned display, height',
    plannedRefresh: 'Planned display, refresh rate',
  },
} as const

/** What was changed about a question, inside a sentence. */
export const CHANGED_WORDS: { readonly [F in Changeable]: string } = {
  words: 'the words',
  asks: 'what is asked',
  wanted: 'titles',
  targetFps: 'wanted frame rate',
  budgetMinor: 'budget',
  display: 'display',
  plannedDisplay: 'planned display',
  wishes: 'wishes',
  spaceGB: 'how much space',
  partInMind: 'the part in mind',
  complaint: 'what bothers',
  cameBy: 'how it came',
}

/** What the letter to the owner will say, above its button. */
export const LETTER_WORDS = { recommends: 'The letter recommends:' } as const
