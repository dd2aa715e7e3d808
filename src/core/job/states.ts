/** How far a question is before the owner's yes; from then on its job tells. */
export const QUESTION_STATES = ['new', 'waiting for the owner', 'answered', 'called off'] as const
export type QuestionState = (typeof QUESTION_STATES)[number]

/** How far an agreed change is. */
export const JOB_STATES = ['agreed', 'booked', 'on the bench', 'done', 'called off'] as const
export type JobState = (typeof JOB_STATES)[number]

/**
 * What can happen to a question. `asked back`: one thing is needed from its owner; `heard`: it came. `changed`: it asks
 * something else now.
 */
export const QUESTION_STEPS = [
  ...(['asked back', 'heard', 'answered', 'changed', 'called off', 'taken up again'] as const),
]
export type QuestionStep = (typeof QUESTION_STEPS)[number]

/** What can happen to a job. `missed`: the owner did not come. `put off`: it leaves the bench for another day. */
export const JOB_STEPS = ['book', 'missed', 'start', 'put off', 'finish', 'call off'] as const
export type JobStep = (typeof JOB_STEPS)[number]

/** Where each step leads; a step that is not there cannot be taken. */
export const QUESTION_ROADS: {
  readonly [S in QuestionState]: { readonly [E in QuestionStep]?: QuestionState }
} = {
  new: {
    'asked back': 'waiting for the owner',
    answered: 'answered',
    changed: 'new',
    'called off': 'called off',
  },
  'waiting for the owner': {
    'asked back': 'waiting for the owner',
    heard: 'new',
    answered: 'answered',
    changed: 'waiting for the owner',
    'called off': 'called off',
  },
  // What comes after the answer opens it again: the answer may be another one now.
  answered: {
    'asked back': 'waiting for the owner',
    answered: 'answered',
    changed: 'new',
    'called off': 'called off',
  },
  'called off': { 'taken up again': 'new' },
}

export const JOB_ROADS: { readonly [S in JobState]: { readonly [E in JobStep]?: JobState } } = {
  agreed: { book: 'booked', start: 'on the bench', 'call off': 'called off' },
  booked: {
    book: 'booked',
    missed: 'agreed',
    start: 'on the bench',
    'call off': 'called off',
  },
  'on the bench': { 'put off': 'agreed', finish: 'done', 'call off': 'called off' },
  done: {},
  'called off': {},
}

/** What becomes of the shelf items that a job holds. */
export type StockEffect = 'hold' | 'release' | 'use' | 'as it is'

/**
 * Agreed parts are put aside at the yes. An owner who does not come gives them back to the shelf; a new date puts
 * them aside again if they are still there. What is fitted leaves the shelf for good, as soon as it is in the machine;
 * a job can't be finished before that, and from then on it can be neither put off nor called off.
 */
export const STOCK_EFFECTS: { readonly [E in JobStep]: StockEffect } = {
  book: 'hold',
  missed: 'release',
  start: 'hold',
  'put off': 'as it is',
  finish: 'use',
  'call off': 'release',
}

/** The state after a step, or undefined where that step cannot be taken. */
export const questionAfter = (state: QuestionState, step: QuestionStep): QuestionState | undefined =>
  QUESTION_ROADS[state][step]

export const jobAfter = (state: JobState, step: JobStep): JobState | undefined => JOB_ROADS[state][step]

/** What a question shows: its job's state once there is a job, its own before. */
export const shownState = (question: QuestionState, job: JobState | undefined): QuestionState | JobState =>
  job ?? question

/** Steps that can be taken now, in the order of the list. */
export const jobStepsFrom = (state: JobState): readonly JobStep[] =>
  JOB_STEPS.filter((step) => JOB_ROADS[state][step] !== undefined)

export const isOver = (state: JobState): boolean => jobStepsFrom(state).length === 0
