/** Words among the values of a finding. What is not here is a name or a figure and stays as it is. */
const WORDS = new Map(
  Object.entries({
    front: 'vorn',
    top: 'oben',
    rear: 'hinten',
    back: 'hinten',
    bottom: 'unten',
    side: 'an der Seite',
    none: 'keine',
    'not known': 'nicht bekannt',
    'full height': 'volle Höhe',
    'low profile': 'flach',
  }),
)

/** The words of a value in German, in a list too. */
export const german = (text: string): string =>
  text
    .split(', ')
    .map(
      (one) =>
        WORDS.get(one) ?? one.replace(/^(front|top|rear|back|bottom|side)\b/, (w) => WORDS.get(w) ?? w),
    )
    .join(', ')

/** A formatted count with the form of its noun: one, or several. */
export const counted = (figure: string, one: string, other: string): string =>
  `${figure} ${figure === '1' ? one : other}`
