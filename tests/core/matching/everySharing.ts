import type { SharedStock, SharedWay } from '../../../src/core/matching/sharedStock.ts'
import { openHighs } from '../highs.ts'

type Column = SharedWay & { readonly i: number; readonly j: number }

function columnsOf({ table, ways }: SharedStock): Column[] {
  return [...table.values].flatMap((value, pair) => {
    const [i, j] = [Math.floor(pair / table.items), pair % table.items]
    const list = ways.get(pair) ?? [{ value, uses: [] }]
    return list.flatMap((way) => (way.value > 0 ? [{ ...way, i, j }] : []))
  })
}

/** The largest worth of any sharing out, by trying them all. */
export function bestShared(shared: SharedStock): number {
  const columns = columnsOf(shared)
  const [places, stock] = [[...shared.table.places], [...shared.stock]]
  const take = (list: number[], at: number, n: number) => {
    list[at] = (list[at] as number) - n
  }
  const from = (i: number): number => {
    if (i === shared.table.customers) return 0
    let best = from(i + 1)
    for (const { i: mine, j, uses, value } of columns) {
      if (mine !== i || (places[j] as number) <= 0 || uses.some((r) => (stock[r] as number) <= 0)) continue
      take(places, j, 1)
      for (const r of uses) take(stock, r, 1)
      best = Math.max(best, value + from(i + 1))
      take(places, j, -1)
      for (const r of uses) take(stock, r, -1)
    }
    return best
  }
  return from(0)
}

/** The same by HiGHS, a general solver, in whole numbers. */
export async function sharedByHighs(shared: SharedStock): Promise<number> {
  const highs = await openHighs()
  const columns = columnsOf(shared)
  const most = new Map<string, number>()
  const rows = new Map<string, number[]>()
  const note = (row: string, n: number, at: number) => {
    most.set(row, n)
    rows.set(row, [...(rows.get(row) ?? []), at])
  }
  columns.forEach(({ i, j, uses }, at) => {
    note(`c${i}`, 1, at)
    note(`p${j}`, shared.table.places[j] as number, at)
    for (const r of uses) note(`s${r}`, shared.stock[r] as number, at)
  })
  const text = [
    'Maximize',
    ` obj: ${columns.map(({ value }, at) => `${value} x${at}`).join(' + ')}`,
    'Subject To',
    ...[...rows].map(
      ([row, list]) => ` ${row}: ${list.map((at) => `x${at}`).join(' + ')} <= ${most.get(row)}`,
    ),
    'Binary',
    ...columns.map((_, at) => ` x${at}`),
    'End',
  ].join('\n')
  const solved = highs.solve(text, { mip_rel_gap: 0 })
  if (solved.Status !== 'Optimal') throw new Error(`HiGHS says ${solved.Status}`)
  return solved.ObjectiveValue
}
