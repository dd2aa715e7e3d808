import { folderGuide } from '../input/folderGuide.ts'
import { EXIT } from '../problem.ts'
import type { Command } from './command.ts'
import { printJson } from './command.ts'

export const tablesCommand: Command = {
  name: 'tables',
  operands: '',
  says: 'Lists the tables of a shop folder: each column, and what a cell of it takes (* = needed).',
  options: [],
  count: [0, 0],
  run: async (_, flags, terminal) => {
    const guide = folderGuide()
    if (flags.json) printJson(guide, terminal)
    else
      for (const { file, columns } of guide) {
        terminal.out(`${file}\n`)
        for (const { name, required, allowed } of columns)
          terminal.out(`  ${`${name}${required ? '*' : ''}`.padEnd(24)} ${allowed}\n`)
      }
    return EXIT.done
  },
}
