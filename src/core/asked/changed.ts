import { ASKS, CHANNELS, type Question } from '../question.ts'

/** What may change about a question; its machine and its day stay. */
export const CHANGEABLE = [
  ...([
    'words',
    'asks',
    'wanted',
    'targetFps',
    'budgetMinor',
    'display',
    'plannedDisplay',
    'wishes',
    'spaceGB',
    'partInMind',
    'complaint',
    'cameBy',
  ] as const),
]
export type Changeable = (typeof CHANGEABLE)[number]

type Changing = Pick<Question, Changeable>

/** The same text for the same value: keys in order, what is not known left out. */
const textOf = (value: unknown): string =>
  JSON.stringify(value, (_, v) =>
    typeof v === 'object' && v !== null && !Array.isArray(v)
      ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1)))
      : v,
  ) ?? ''

const told = (question: Changing): Changing => ({
  ...question,
  asks: question.asks ?? ASKS[0],
  cameBy: question.cameBy ?? CHANNELS[0],
  wishes: [...question.wishes].sort(),
})

/** What differs between two states of a question, in the order of the list; nothing where they ask the same. */
export function changedOf(before: Changing, after: Changing): Changeable[] {
  const [a, b] = [told(before), told(after)]
  return CHANGEABLE.filter((field) => textOf(a[field]) !== textOf(b[field]))
}

/** One text for all that a question asks, to tell whether somebody changed it meanwhile. */
export const askedText = (question: Changing): string =>
  textOf(CHANGEABLE.map((field) => told(question)[field] ?? null))
