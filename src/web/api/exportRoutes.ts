import type { Context, Hono } from 'hono'
import type { Problem } from '../../problem.ts'
import { noSuchTable } from '../../uses/exportShop.ts'
import { nameOf, who } from '../access/who.ts'
import { param, type Web } from '../frame.ts'
import { problemPage } from '../problem.tsx'
import { answerProblems, isProgram } from './refusals.ts'

/**
 * Tables with rights of their own: those that tell of people (who they are, what they agreed to, what was written to
 * them), and sales, which tell what machines cost.
 */
const APART: readonly string[] = ['customers', 'consents', 'handed_sheets', 'sales']

/** The shop's tables as files. */
export function exportRoutes(app: Hono, web: Web): void {
  const refuse = (c: Context, problems: readonly Problem[]) =>
    isProgram(c) ? answerProblems(c, problems) : problemPage(c, web, problems)
  const answer = async (c: Context, name: string) => {
    const table = await web.uses.exportTable(name)
    if (!table.ok) return refuse(c, table.problems)
    await web.uses.noteAccess({ what: 'table exported', by: nameOf(who(c)), about: table.value.name })
    return c.body(table.value.text, 200, {
      'Content-Type': 'text/csv; charset=utf-8; header=present',
      'Content-Disposition': `attachment; filename="${table.value.name}.csv"`,
    })
  }
  for (const name of APART) app.get(`/export/${name}.csv`, (c) => answer(c, name))
  app.get('/export/:file', (c) => {
    const file = param(c, 'file')
    const name = /^(.+)\.csv$/.exec(file)?.[1]
    // However they are written: these are given out by their own routes alone.
    if (name === undefined || APART.includes(name)) return refuse(c, [noSuchTable(file)])
    return answer(c, name)
  })
}
