import type { Table } from '../../../src/core/matching/table.ts'
import { openHighs } from '../highs.ts'

/** The largest sum of values by HiGHS, a general solver (Huangfu & Hall, Mathematical Programming Computation 10, 2018). */
export async function bestByHighs({ customers, items, values, places }: Table): Promise<number> {
  const highs = await openHighs()
  const of = (i: number, j: number) => values[i * items + j] as number
  const all = (n: number) => Array.from({ length: n }, (_, at) => at)
  const pairs = all(customers).flatMap((i) =>
    all(items).flatMap((j) => (of(i, j) > 0 ? [[i, j] as const] : [])),
  )
  const name = ([i, j]: readonly [number, number]) => `x${i}_${j}`
  const rows = [
    ...all(customers).map((i) => ({ list: pairs.filter(([k]) => k === i), most: 1 })),
    ...all(items).map((j) => ({ list: pairs.filter(([, k]) => k === j), most: places[j] as number })),
  ].filter(({ list }) => list.length > 0)
  const text = [
    'Maximize',
    ` obj: ${pairs.map((pair) => `${of(...pair)} ${name(pair)}`).join(' + ')}`,
    'Subject To',
    ...rows.map(({ list, most }, i) => ` r${i}: ${list.map(name).join(' + ')} <= ${most}`),
    'Bounds',
    ...pairs.map((pair) => ` 0 <= ${name(pair)} <= 1`),
    'End',
  ].join('\n')
  const solved = highs.solve(text)
  // A text that is no model has the status Empty and no error.
  if (solved.Status !== 'Optimal') throw new Error(`HiGHS says ${solved.Status}`)
  return solved.ObjectiveValue
}
