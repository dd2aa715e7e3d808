import { parseArgs } from 'node:util'
import { EXIT } from '../problem.ts'
import type { Settings } from '../settings.ts'
import { pathOf, type Store } from '../store/open.ts'
import type { BackupSettings } from '../uses/backups.ts'
import { backupCommand, restoreCommand } from './backupCommands.ts'

/** Settings of copies with what they are copies of; a database in memory has none. */
export function backupSettingsOf({ databaseUrl, backup }: Settings): BackupSettings {
  const path = pathOf(databaseUrl)
  return path === undefined || path === ':memory:' ? backup : { ...backup, databasePath: path }
}

const OWN = ['backup', 'restore', 'doctor'] as const
const TAKES = { backup: 'FOLDER', restore: 'FILE', doctor: 'nothing behind its name' } as const

/** Commands about the installation itself. Undefined: it is none of them, or asks for help. */
export async function operateCommand(
  args: readonly string[],
  settings: Settings,
  openStore: () => Promise<Store>,
): Promise<number | undefined> {
  const name = OWN.find((own) => own === args[0])
  if (name === undefined || args.includes('--help') || args.includes('-h')) return undefined
  let read: { values: { json?: boolean; look?: boolean }; positionals: string[] }
  try {
    read = parseArgs({
      args: args.slice(1),
      allowPositionals: true,
      options: { json: { type: 'boolean' }, look: { type: 'boolean' } },
    })
  } catch {
    return wrongUse(`${name} takes ${TAKES[name]}; options: --json${name === 'restore' ? ', --look' : ''}.`)
  }
  if (read.values.look !== undefined && name !== 'restore') return wrongUse(`${name} takes no option --look.`)
  const [operand, ...more] = read.positionals
  const asJson = read.values.json === true
  const path = backupSettingsOf(settings).databasePath
  if (name === 'doctor') {
    if (operand !== undefined) return wrongUse(`${name} takes ${TAKES[name]}.`)
    return (await import('./doctor.ts')).doctorCommand(settings, asJson)
  }
  if (operand === undefined || operand === '' || more.length > 0)
    return wrongUse(`${name} takes ${TAKES[name]}; got ${read.positionals.length || 'nothing'}.`)
  if (name === 'backup') return backupCommand(await openStore(), path, operand, asJson)
  return restoreCommand(path, operand, { look: read.values.look === true, asJson })
}

function wrongUse(why: string): number {
  process.stderr.write(`${why}\nstillfits --help shows every command.\n`)
  return EXIT.badInput
}
