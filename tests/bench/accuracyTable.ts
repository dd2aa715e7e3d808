import {
  type Answered,
  answeredByAll,
  CUTS,
  type Cut,
  floorOf,
  type Score,
  scoreOf,
} from '../simulator/accuracy.ts'

export const percent = (x: number) => (Number.isNaN(x) ? '-' : `${(100 * x).toFixed(1)}`)
export const figure = (x: number) => (Number.isNaN(x) ? '-' : x.toFixed(3))

type Column = { readonly head: string; readonly width: number; readonly of: (s: Score) => string }

const COLUMNS: readonly Column[] = [
  { head: 'asks', width: 7, of: (s) => String(s.asks) },
  { head: 'refused%', width: 9, of: (s) => percent(s.refused) },
  { head: 'error', width: 7, of: (s) => figure(s.meanError) },
  { head: 'off>15%', width: 8, of: (s) => percent(s.farOff) },
  { head: 'in50%', width: 7, of: (s) => percent(s.inHalf) },
  { head: 'in80%', width: 7, of: (s) => percent(s.inFourFifths) },
  { head: 'in90%', width: 7, of: (s) => percent(s.inNineTenths) },
  { head: 'kept80%', width: 8, of: (s) => percent(s.kept) },
  { head: 'half80', width: 7, of: (s) => figure(s.halfWidth) },
]
/** A question is ranked over all its options, so a part of them has no regret of its own. */
const OVER_QUESTIONS: readonly Column[] = [
  { head: 'questions', width: 10, of: (s) => String(s.questions) },
  { head: 'regret%', width: 8, of: (s) => percent(s.regret) },
  { head: 'useful%', width: 8, of: (s) => percent(s.usefulRegret) },
]

/** Errors are told as shares of its own too. */
export const BASELINE = 'additive ridge'

function table(title: string, answered: readonly Answered[], names: readonly string[], cut: Cut): string[] {
  const { names: rows, of } = CUTS[cut]
  const columns = cut === 'all' ? [...COLUMNS, ...OVER_QUESTIONS] : COLUMNS
  const base = names.indexOf(BASELINE)
  const ratioOf = (s: Score, some: readonly Answered[]) =>
    base < 0 ? '' : (s.meanError / scoreOf(some, base).meanError).toFixed(2)
  const head = [...columns.map((c) => c.head.padStart(c.width)), 'error x base'.padStart(13)].join('')
  return [
    `\n${title}; base: ${BASELINE}`,
    `${'predictor'.padEnd(24)}${'asks of'.padEnd(20)}${head}`,
    ...rows.flatMap((row) => {
      const some = answered.filter((a) => of(a) === row)
      return some.length === 0
        ? []
        : names.map((name, i) => {
            const score = scoreOf(some, i)
            const cells = [
              ...columns.map((c) => c.of(score).padStart(c.width)),
              ratioOf(score, some).padStart(13),
            ]
            return `${name.padEnd(24)}${row.padEnd(20)}${cells.join('')}`
          })
    }),
  ]
}

/** What each predictor is worth, over all asks and over those that all of them answer, by each cut. */
export function accuracyLines(
  answered: readonly Answered[],
  names: readonly string[],
  cuts: readonly Cut[],
): string[] {
  const floor = floorOf(answered)
  return [
    `measuring both ends once: error ${figure(floor.meanError)}, off>15% ${percent(floor.farOff)}`,
    ...cuts.flatMap((cut) => [
      ...table(`All asks, by ${cut}`, answered, names, cut),
      ...(names.length > 1
        ? table(`Asks that all answer, by ${cut}`, answeredByAll(answered), names, cut)
        : []),
    ]),
  ]
}
