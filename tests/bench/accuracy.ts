import { parseArgs } from 'node:util'
import { answerAll, type Cut } from '../simulator/accuracy.ts'
import { SPOILS } from '../simulator/measure.ts'
import { scoreOdd, sumOdd } from '../simulator/oddScore.ts'
import { PREDICTORS } from '../simulator/predictors.ts'
import { REPORT_SEEDS, SIZES, type SizeName, TUNING_SEEDS } from '../simulator/seeds.ts'
import { simulateShop } from '../simulator/shop.ts'
import { accuracyLines, percent } from './accuracyTable.ts'

const USE = `npm run accuracy -- [--sizes small,medium,large] [--seeds tuning|report] [--by all,kind,evidence] [--only name,name] [--odd]

Simulates shops, lets each predictor learn from their runs, and compares what it says with what is so.
Tune on the tuning seeds; what is published comes from the report seeds. error: mean |predicted - true| of log gain; in50/80/90%: true gains inside the intervals; kept80%: gains as measured on the
machine inside the 80 % interval; half80: its half width in log gain; regret%: gain per dollar lost by buying what ranks first;
useful%: the same with frame rates cut at the owner's target; error x base: the error as a share of the additive log model's over the same asks.
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
    for (const line of accuracyLines(answered, names, cuts)) out(line)
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
