import { bench, describe } from 'vitest'
import { answerAll } from '../simulator/accuracy.ts'
import { PREDICTORS } from '../simulator/predictors.ts'
import { REPORT_SEEDS, SIZES } from '../simulator/seeds.ts'
import { simulateShop } from '../simulator/shop.ts'
import { accuracyLines } from './accuracyTable.ts'

/** A quarter of what `npm run accuracy` asks of each small shop; medium and large ones are asked there. */
const ASKS = 1500
const shops = REPORT_SEEDS.map((seed) => simulateShop(seed, { ...SIZES.small, asks: ASKS }))
const answered = shops.flatMap((shop) => answerAll(shop, PREDICTORS))
process.stdout.write(
  [
    `\nHow far predictions are off in simulated shops: ${shops.length} of ${SIZES.small.runs} runs, seeds ${REPORT_SEEDS.join(', ')}, up to ${ASKS} asks each.`,
    ...accuracyLines(
      answered,
      PREDICTORS.map(({ name }) => name),
      ['all', 'kind'],
    ),
    '',
  ].join('\n'),
)

describe(`learning a shop of ${SIZES.small.runs} runs; baseline: additive ridge`, () => {
  const [shop] = shops
  if (shop === undefined) throw new Error('no shop')
  for (const { name, learn } of PREDICTORS)
    bench(name, () => void learn(shop), { time: 0, iterations: 5, warmupIterations: 1, warmupTime: 0 })
})
