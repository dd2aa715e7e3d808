import { parseArgs } from 'node:util'
import {
  type Answered,
  answerAll,
  answeredByAll,
  CUTS,
  type Cut,
  floorOf,
  type Score,
  scoreOf,
} from '../simulator/accuracy.ts'
import { SPOILS } from '../simulator/measure.ts'
import { scoreOdd, sumOdd } from '../simulator/oddScore.ts'
import { PREDICTORS } from '../simulator/predictors.ts'
import { REPORT_SEEDS, SIZES, type SizeName, TUNING_SEEDS } from '../simulator/seeds.ts'
import { simulateShop } from '../simulator/shop.ts'

const USE = `npm run accuracy -- [--sizes small,medium,large] [--seeds tuning|report] [--by all,kind,evidence] [--only name,name] [--odd]

Simulates shops, lets each predictor learn from their runs, and compares what it says with what is so.
Tune on the tuning seeds; what is published comes from the report seeds. error: mean |predicted - true| of log gain; in50/80/90%: true gains inside the intervals; kept80%: gains as measured on the
machine inside the 80 % interval; half80: its half width in log gain; regret%: gain per dollar lost by buying what ranks first;
useful%: the same with frame rates cut at the owner's target.
--odd: instead, how many spoilt runs are told as odd, how many good ones are, and how often the kind told is the truth.
`

const { values } = parseArgs({
  options: {
    sizes: { type: 'string', default: 'small,medium' },
    seeds: { type: 'string', default: 'tuning' },
    by: { type: 'string', default: 'all,kind' },
    only: { type: 'string' },
    odd: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
})

const out = (line: string) => process.stdout.write(`${line}\n`)
const listed = <T extends string>(what: string, text: string, allowed: readonly T[]): T[] =>
  text.split(',').map((word) => {
    const found = allowed.find((name) => name === word)
    if (found === undefined) {
      process.stderr.write(`--${what}: "${word}" is none of ${allowed.join(', ')}.\n`)
      process.exit(2)
    }
    return found
  })

const percent = (x: number) => (Number.isNaN(x) ? '-' : `${(100 * x).toFixed(1)}`)
const figure = (x: number) => (Number.isNaN(x) ? '-' : x.toFixed(3))

const COLUMNS: readonly { head: string; width: number; of: (s: Score) => string }[] = [
  { head: 'asks', width: 7, of: (s) => String(s.asks) },
  { head: 'refused%', width: 9, of: (s) => percent(s.refused) },
  { head: 'error', width: 7, of: (s) => figure(s.meanError) },
  { head: 'off>15%', width: 8, of: (s) => percent(s.farOff) },
  { head: 'in50%', width: 7, of: (s) => percent(s.inHalf) },
  { head: 'in80%', width: 7, of: (s) => percent(s.inFourFifths) },
  { head: 'in90%', width: 7, of: (s) => percent(s.inNineTenths) },
  { head: 'kept80%', width: 8, of: (s) => percent(s.kept) },
  { head: 'half80', width: 7, of: (s) => figure(s.halfWidth) },
  { head: 'regret%', width: 8, of: (s) => percent(s.regret) },
  { head: 'useful%', width: 8, of: (s) => percent(s.usefulRegret) },
]
const REGRETS = new Set(['regret%', 'useful%'])

const table = (title: string, answered: readonly Answered[], names: readonly string[], cut: Cut) => {
  const { names: rows, of } = CUTS[cut]
  out(`\n${title}`)
  out(
    `${'predictor'.padEnd(24)}${'asks of'.padEnd(20)}${COLUMNS.map((c) => c.head.padStart(c.width)).join('')}`,
  )
  for (const row of rows) {
    const some = answered.filter((a) => of(a) === row)
    if (some.length === 0) continue
    for (const [i, name] of names.entries()) {
      const score = scoreOf(some, i)
      // A question is ranked over all its options, so a part of them has no regret of its own.
      const cells = COLUMNS.map((c) =>
        (cut !== 'all' && REGRETS.has(c.head) ? '' : c.of(score)).padStart(c.width),
      )
      out(`${name.padEnd(24)}${row.padEnd(20)}${cells.join('')}`)
    }
  }
}

const run = () => {
  const sizes = listed<SizeName>('sizes', values.sizes, ['small', 'medium', 'large'])
  const [seedSet] = listed('seeds', values.seeds, ['tuning', 'report'])
  const cuts = listed<Cut>('by', values.by, ['all', 'kind', 'evidence'])
  const only =
    values.only === undefined
      ? undefined
      : listed(
          'only',
          values.only,
          PREDICTORS.map((p) => p.name),
        )
  const predictors = PREDICTORS.filter((p) => only === undefined || only.includes(p.name))
  const names = predictors.map((p) => p.name)
  const seeds = seedSet === 'report' ? REPORT_SEEDS : TUNING_SEEDS
  for (const size of sizes) {
    const began = performance.now()
    const answered = seeds.flatMap((seed) => answerAll(simulateShop(seed, SIZES[size]), predictors))
    const seconds = ((performance.now() - began) / 1000).toFixed(0)
    out(`\n=== ${size}: ${SIZES[size].runs} runs, ${seedSet} seeds ${seeds.join(', ')} (${seconds} s)`)
    const floor = floorOf(answered)
    out(`measuring both ends once: error ${figure(floor.meanError)}, off>15% ${percent(floor.farOff)}`)
    for (const cut of cuts) {
      table(`All asks, by ${cut}`, answered, names, cut)
      if (predictors.length > 1) table(`Asks that all answer, by ${cut}`, answeredByAll(answered), names, cut)
    }
  }
}

const share = (some: number, all: number) => (all === 0 ? '-' : `${percent(some / all)}% (${some} of ${all})`)

const runOdd = () => {
  const sizes = listed<SizeName>('sizes', values.sizes, ['small', 'medium', 'large'])
  const [seedSet] = listed('seeds', values.seeds, ['tuning', 'report'])
  const seeds = seedSet === 'report' ? REPORT_SEEDS : TUNING_SEEDS
  for (const size of sizes) {
    const total = sumOdd(seeds.map((seed) => scoreOdd(simulateShop(seed, { ...SIZES[size], asks: 1 }))))
    const kinds = SPOILS.map((spoil) => [spoil as string, total.bySpoil[spoil]] as const)
    const all = kinds
      .map(([, score]) => score)
      .reduce((sum, one) => ({
        spoilt: sum.spoilt + one.spoilt,
        found: sum.found + one.found,
        moved: sum.moved + one.moved,
        movedFound: sum.movedFound + one.movedFound,
        kindRight: sum.kindRight + one.kindRight,
        kindAmong: sum.kindAmong + one.kindAmong,
      }))
    out(`\n=== ${size}: ${SIZES[size].runs} runs, ${seedSet} seeds ${seeds.join(', ')}`)
    out(`false alarms: ${share(total.falseAlarms, total.good)}`)
    const line = (...cells: string[]) => out(cells.map((cell, i) => cell.padEnd(i === 0 ? 18 : 24)).join(''))
    line('spoilt by', 'found', 'found, if off > 10%', 'kind right, if found', 'kind among two')
    for (const [name, s] of [...kinds, ['all', all] as const])
      line(
        name,
        share(s.found, s.spoilt),
        share(s.movedFound, s.moved),
        share(s.kindRight, s.found),
        share(s.kindAmong, s.found),
      )
  }
}

if (values.help) out(USE)
else if (values.odd) runOdd()
else run()
