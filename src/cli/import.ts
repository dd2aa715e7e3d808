import { readdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { EXIT, failed, ok, type Result } from '../problem.ts'
import { importShop } from '../uses/importShop.ts'
import type { Command } from './command.ts'
import { printJson, report } from './command.ts'

export const importCommand: Command = {
  name: 'import',
  operands: 'FOLDER',
  says: 'Imports a folder of CSV files: all of it, or nothing and a list of what to mend.',
  options: [],
  count: [1, 1],
  run: async ([folder = ''], flags, terminal) => {
    const files = await shopFilesIn(folder)
    if (!files.ok) return report(files.problems, flags, terminal)
    const imported = await importShop(await terminal.openStore(), files.value, terminal.now())
    if (!imported.ok) {
      if (!flags.json) terminal.err(`${imported.problems.length} to mend, so nothing was imported.\n`)
      return report(imported.problems, flags, terminal)
    }
    if (flags.json) printJson(imported.value, terminal)
    else {
      for (const t of imported.value.tables)
        terminal.out(`${t.file}: ${t.added} added, ${t.changed} changed, ${t.unchanged} unchanged\n`)
      for (const note of imported.value.notes ?? []) terminal.out(`${note}\n`)
    }
    return EXIT.done
  },
}

type ShopBytes = { readonly name: string; readonly bytes: Uint8Array }

/** The CSV files of a folder with their bytes, by name; problems where there is none, or one cannot be read. */
export async function shopFilesIn(folder: string): Promise<Result<ShopBytes[]>> {
  const names = await readdir(folder).catch(() => undefined)
  const tables = names?.filter((name) => name.toLowerCase().endsWith('.csv')).sort() ?? []
  if (tables.length === 0) {
    const why = names === undefined ? 'is not a folder that can be read.' : 'holds no CSV file.'
    const next = `${why} Give a folder of CSV files such as machines.csv.`
    return failed({ code: 'not found', field: 'FOLDER', got: folder, next })
  }
  const read = await Promise.all(tables.map((name) => readTableFile(folder, name)))
  const problems = read.flatMap((file) => (file.ok ? [] : file.problems))
  return problems.length > 0
    ? { ok: false, problems }
    : ok(read.flatMap((file) => (file.ok ? [file.value] : [])))
}

/** Asks what it is before it opens it: reading a pipe would wait for ever. */
async function readTableFile(folder: string, name: string): Promise<Result<ShopBytes>> {
  const path = join(folder, name)
  try {
    if ((await stat(path)).isFile()) return ok({ name, bytes: await readFile(path) })
  } catch {
    return failed({ code: 'unreadable', field: name, next: 'cannot be read. Check who may read this file.' })
  }
  const next = 'is not a file. Take it out of the folder, or give it another name.'
  return failed({ code: 'unreadable', field: name, next })
}
