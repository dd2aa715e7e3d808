import { parseArgs } from 'node:util'
import { answerAll, type Cut } from '../simulator/accuracy.ts'
import { SPOILS } from '../simulator/measure.ts'
import { courseOf, WAYS, type Way, waitingIn } from '../simulator/nextRun.ts'
import { scoreOdd, sumOdd } from '../simulator/oddScore.ts'
import { PREDICTORS } from '../simulator/predictors.ts'
import { PROMISE_SEEDS, REPORT_SEEDS, SIZES, type SizeName, TUNING_SEEDS } from '../simulator/seeds.ts'
import { simulateShop } from '../simulator/shop.ts'
import { accuracyLines, percent } from './accuracyTable.ts'
import { drawnLines, promisesLines } from './promisesTable.ts'

const USE = `npm run accuracy -- [--sizes small,medium,large] [--seeds tuning|report] [--by all,kind,evidence] [--only name,name] [--next] [--odd] [--promises]

With --next: regret of waiting questions before and after runs that the program suggests, that chance takes, or that are
made most often anyway.

With --promises: small shops' promises of one fit against runs made after the work, honest and biased on purpose: how many
are told as what. Seeds and sizes are its own.

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
    next: { type: 'boolean', default: false },
    promises: { type: 'boolean', default: false },
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

/** Questions that wait at once, runs that are made for them, and how often chance is asked. */
const NEXT = { questions: 12, groups: 3, runs: 4, draws: 2 } as const

/** Regret left after runs that were chosen in three ways. */
const next = () => {
  const [seedSet] = listed('seeds', values.seeds, ['tuning', 'report'])
  const seeds = seedSet === 'report' ? REPORT_SEEDS : TUNING_SEEDS
  for (const size of listed<SizeName>('sizes', values.sizes, ['small', 'medium', 'large'])) {
    const of = new Map<Way, (readonly number[])[]>()
    for (const seed of seeds) {
      const shop = simulateShop(seed, { ...SIZES[size], asks: 500 })
      for (let group = 0; group < NEXT.groups; group++) {
        const waiting = waitingIn(shop, NEXT.questions, group * NEXT.questions)
        for (const way of WAYS)
          for (let draw = 0; draw < (way === 'suggested' ? 1 : NEXT.draws); draw++) {
            const { regrets } = courseOf(shop, SIZES[size], waiting, way, NEXT.runs, draw)
            of.set(way, [...(of.get(way) ?? []), regrets])
          }
      }
    }
    out(`\n=== ${size}, ${seedSet} seeds ${seeds.join(', ')}: regret % of ${NEXT.questions} questions`)
    out(`${'chosen'.padEnd(16)}${['before', '1 run', '2', '3', '4'].map((h) => h.padStart(8)).join('')}`)
    for (const [way, courses] of of) {
      const mean = (n: number) => courses.reduce((sum, c) => sum + (c[n] ?? 0), 0) / courses.length
      const cells = Array.from({ length: NEXT.runs + 1 }, (_, n) => percent(mean(n)).padStart(8))
      out(`${way.padEnd(16)}${cells.join('')}`)
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

/** Enough jobs of two titles for a shop whose titles miss half as one. */
const PROMISE_JOBS = [60, 240] as const

const promises = () => {
  for (const jobs of PROMISE_JOBS) {
    out(`\n=== small, seeds ${PROMISE_SEEDS.join(', ')}: ${jobs} jobs of two titles`)
    for (const line of promisesLines(PROMISE_SEEDS, jobs)) out(line)
  }
  out('\n=== another width proposed')
  for (const line of drawnLines()) out(line)
}

if (values.help) out(USE)
else if (values.odd) runOdd()
else if (values.next) next()
else if (values.promises) promises()
else run()
