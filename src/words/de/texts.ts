/** Wörter unter den Werten eines Befunds. Was hier fehlt, ist ein Name oder eine Zahl und bleibt, wie es ist. */
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

/** Wörter eines Werts auf Deutsch, auch in einer Aufzählung. */
export const german = (text: string): string =>
  text
    .split(', ')
    .map(
      (one) =>
        WORDS.get(one) ?? one.replace(/^(front|top|rear|back|bottom|side)\b/, (w) => WORDS.get(w) ?? w),
    )
    .join(', ')

/** „1 Kabel“, „2 Kabel“: die Zahl mit der passenden Form. */
export const counted = (figure: string, one: string, other: string): string =>
  `${figure} ${figure === '1' ? one : other}`
