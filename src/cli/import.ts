import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { EXIT, failed } from '../problem.ts'
import { importShop } from '../uses/importShop.ts'
import type { Command } from './command.ts'
import { printJson, report } from './command.ts'

export const importCommand: Command = {
  name: 'import',
  operands: 'FOLDER',
  says: 'Imports a folder of CSV files: all of it, or nothing and a list of what to mend.',
  count: [1, 1],
  run: async ([folder = ''], flags, terminal) => {
    const files = await shopFilesIn(folder)
    if (files === undefined || files.length === 0) {
      const next = files === undefined ? 'is not a folder that can be read.' : 'holds no CSV file.'
      const problem = failed({
        code: 'not found',
        field: 'FOLDER',
        got: folder,
        next: `${next} Give a folder of CSV files such as machines.csv.`,
      })
      return report(problem.problems, flags, terminal)
    }
    const imported = await importShop(await terminal.openStore(), files)
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

/** The CSV files of a folder with their bytes, by name; undefined when it is no folder that can be read. */
export async function shopFilesIn(
  folder: string,
): Promise<{ name: string; bytes: Uint8Array }[] | undefined> {
  try {
    const names = (await readdir(folder)).filter((name) => name.toLowerCase().endsWith('.csv')).sort()
    return await Promise.all(names.map(async (name) => ({ name, bytes: await readFile(join(folder, name)) })))
  } catch {
    return undefined
  }
}
