import type { Context, Hono } from 'hono'
import { noSuchTable } from '../../uses/exportShop.ts'
import { param, type Web } from '../frame.ts'
import { problemPage } from '../problem.tsx'

/** The shop's tables as files. People's names and addresses have a row of their own in the rights. */
export function exportRoutes(app: Hono, web: Web): void {
  const answer = async (c: Context, name: string) => {
    const table = await web.uses.exportTable(name)
    if (!table.ok) return problemPage(c, web, table.problems)
    return c.body(table.value.text, 200, {
      'Content-Type': 'text/csv; charset=utf-8; header=present',
      'Content-Disposition': `attachment; filename="${table.value.name}.csv"`,
    })
  }
  app.get('/export/customers.csv', (c) => answer(c, 'customers'))
  app.get('/export/:file', (c) => {
    const file = param(c, 'file')
    const name = /^(.+)\.csv$/.exec(file)?.[1]
    // However it is written: customers are given out by their own route alone.
    if (name === undefined || name === 'customers') return problemPage(c, web, [noSuchTable(file)])
    return answer(c, name)
  })
}
