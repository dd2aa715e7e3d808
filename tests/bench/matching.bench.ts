import { bench, describe } from 'vitest'
import { assign } from '../../src/core/matching/assign.ts'
import { checkCertificate } from '../../src/core/matching/certificate.ts'
import { matchShelf } from '../../src/core/matching/match.ts'
import { bestByHighs } from '../core/matching/highs.ts'
import { drawnCustomers } from './drawnCustomers.ts'
import { realCustomers } from './realCustomers.ts'

/** Of a core: what else the computer does counts for nothing. */
const cpuMs = (): number => process.cpuUsage().user / 1000
const seconds = (fromMs: number): string => `${((cpuMs() - fromMs) / 1000).toFixed(2)} s`

process.stdout.write(
  '\nThe shelf shared out among invented customers (500 items; one run each, seconds of one core):\n',
)
for (const customers of [1000, 10_000, 100_000]) {
  const drawn = cpuMs()
  const { table, cells, kinds } = drawnCustomers(customers, 500, 1)
  const valued = seconds(drawn)
  const began = cpuMs()
  const assigned = assign(table)
  const shared = seconds(began)
  const checking = cpuMs()
  const { holds, pairs } = checkCertificate(table, assigned)
  const checked = seconds(checking)
  const offers = assigned.itemOf.filter((j) => j >= 0).length
  const mb = Math.round(process.memoryUsage.rss() / 1e6)
  process.stdout.write(
    `  ${customers} customers, ${kinds} kinds of machine: values ${valued} (${cells} cells), ${offers} offers shared out in ${shared}, ` +
      `certificate ${holds ? 'holds' : 'FAILS'} over ${pairs} pairs in ${checked}; ${mb} MB in all\n`,
  )
}

process.stdout.write(
  'The same with the machines of the demo under the real rules and its gain model, values and reasons included:\n',
)
for (const [customers, items, kinds, companions] of [
  [1000, 500, 100, 'had again'],
  [10_000, 500, 1000, 'had again'],
  [1000, 500, 100, 'counted'],
] as const) {
  const inputs = await realCustomers({ customers, items, kinds }, companions)
  const began = cpuMs()
  const { offers, certificate, packing, machineKinds } = matchShelf(inputs)
  const gap = packing && `, worth ${((100 * packing.worth) / packing.bound).toFixed(3)} % of its bound`
  const mb = Math.round(process.memoryUsage.rss() / 1e6)
  process.stdout.write(
    `  ${customers} customers, ${machineKinds} kinds, companions ${companions}: ${offers.length} offers in ${seconds(began)}, ` +
      `certificate ${certificate.holds ? 'holds' : 'FAILS'}${gap ?? ''}; ${mb} MB in all\n`,
  )
}

describe('300 customers, 12 items; baseline: HiGHS', () => {
  const { table } = drawnCustomers(300, 12, 2)
  const plain = { ...table, waited: new Int32Array(table.customers) }
  const often = { time: 0, iterations: 5, warmupIterations: 1, warmupTime: 0 }
  bench('HiGHS', async () => void (await bestByHighs(plain)), often)
  bench('ours, with its certificate', () => void checkCertificate(plain, assign(plain)), often)
})
describe('1,000 customers, 50 items; baseline: HiGHS', () => {
  const { table } = drawnCustomers(1000, 50, 3)
  const plain = { ...table, waited: new Int32Array(table.customers) }
  const often = { time: 0, iterations: 2, warmupIterations: 0, warmupTime: 0 }
  bench('HiGHS', async () => void (await bestByHighs(plain)), often)
  bench('ours, with its certificate', () => void checkCertificate(plain, assign(plain)), often)
})
