import { access, mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { EXIT, failed, ok, type Result } from '../problem.ts'
import { noteOne } from '../uses/access/accessLog.ts'
import { type ExportedTable, exportShop } from '../uses/exportShop.ts'
import type { Command } from './command.ts'
import { printJson, report } from './command.ts'

export const exportCommand: Command = {
  name: 'export',
  operands: 'FOLDER',
  says: 'Writes the whole shop as CSV files that import reads again; never over a file that is there.',
  options: [],
  count: [1, 1],
  run: async ([folder = ''], flags, terminal) => {
    const store = await terminal.openStore()
    const tables = await exportShop(store)
    if (tables.length === 0) {
      const next = 'There is nothing to export: the shop is empty.'
      return report([{ code: 'not found', field: 'shop', next }], flags, terminal)
    }
    await noteOne(store, {
      ...{ at: terminal.now(), what: 'table exported', by: 'the terminal', about: 'all tables' },
    } as const)
    const written = await writeTables(folder, tables)
    if (!written.ok) return report(written.problems, flags, terminal)
    const files = tables.map(({ name, rows }) => ({ file: `${name}.csv`, rows }))
    if (flags.json) printJson({ tables: files }, terminal)
    else for (const { file, rows } of files) terminal.out(`${file}: ${rows} ${rows === 1 ? 'row' : 'rows'}\n`)
    return EXIT.done
  },
}

/** All files or, where one is there already, none: an older export may be the only copy. */
async function writeTables(folder: string, tables: readonly ExportedTable[]): Promise<Result<undefined>> {
  const refuse = (next: string) => failed({ code: 'not allowed', field: 'FOLDER', got: folder, next })
  try {
    await mkdir(folder, { recursive: true })
  } catch {
    return refuse('cannot be made or is no folder. Give the path of a folder that you may write to.')
  }
  const there = await Promise.all(
    tables.map(({ name }) =>
      access(join(folder, `${name}.csv`)).then(
        () => [`${name}.csv`],
        () => [],
      ),
    ),
  )
  const [first] = there.flat()
  if (first !== undefined) {
    const next = `${first} is in this folder already. Give an empty folder, so that nothing is written over.`
    return failed({ code: 'conflict', field: 'FOLDER', got: folder, next })
  }
  try {
    // `wx`: never over a file, not even one that came meanwhile. They hold people's names, so they are their owner's alone.
    for (const { name, text } of tables)
      await writeFile(join(folder, `${name}.csv`), text, { flag: 'wx', mode: 0o600 })
    return ok(undefined)
  } catch {
    return refuse('cannot be written to. Give a folder that you may write to, with room for the tables.')
  }
}
