import { parseArgs } from 'node:util'
import { EXIT } from '../problem.ts'
import { accountCommand } from './account.ts'
import { answerCommand } from './answer.ts'
import type { Command, Flags, Terminal } from './command.ts'
import { exportCommand } from './export.ts'
import { fitCommand } from './fit.ts'
import { framesCommand } from './frames.ts'
import { gainCommand } from './gain.ts'
import { importCommand } from './import.ts'
import { matchCommand } from './match.ts'
import { rankCommand } from './rank.ts'
import { reachCommand } from './reach.ts'
import { readCommand } from './read.ts'
import { tablesCommand } from './tables.ts'

/** Every command that ends by itself; `serve` and `demo` are main's, because they join the pages. */
export const COMMANDS: readonly Command[] = [
  importCommand,
  exportCommand,
  tablesCommand,
  readCommand,
  fitCommand,
  gainCommand,
  rankCommand,
  matchCommand,
  reachCommand,
  answerCommand,
  framesCommand,
  accountCommand,
]

const SERVERS: readonly Omit<Command, 'run' | 'options'>[] = [
  { name: 'serve', operands: '', says: 'Serves the pages of your own shop (npm start).', count: [0, 0] },
  {
    name: 'send',
    operands: '',
    says: 'Sends the approved mails that are due, and ends. The served shop does so by itself.',
    count: [0, 0],
  },
  {
    name: 'backup',
    operands: 'FOLDER',
    says: 'Copies the database to a new file in FOLDER while others use it, and looks through the copy.',
    count: [1, 1],
  },
  {
    name: 'restore',
    operands: 'FILE',
    says: 'Takes a backup in place of the database; with --look only says what is in it. No server may run.',
    count: [1, 1],
  },
  {
    name: 'doctor',
    operands: '',
    says: 'Checks this installation and says what to do.',
    count: [0, 0],
  },
  {
    name: 'demo',
    operands: '',
    says: 'Serves the invented demo shop from a temporary database (npm run demo).',
    count: [0, 0],
  },
]

export function helpText(): string {
  const rows = [...COMMANDS, ...SERVERS].map((c) => [`${c.name} ${c.operands}`, c.says] as const)
  return [
    'Usage: stillfits COMMAND [--json]',
    '',
    ...rows.map(([usage, says]) => `  ${usage.padEnd(18)}${says}`),
    '',
    '  --json            the result as JSON on standard output',
    '  --explain         fit: open each finding to its numbers, limits and sources; gain: why each number',
    '  --card            gain: instead of answers, what the model knows of the shop and how well',
    '  --pick OPTION     answer: recommend this option instead of the best',
    '  --out FILE.eml    answer: also write the mail as a file that a mail program opens',
    '  --why-not PART    rank, with a folder: where this part stands, or what keeps it out',
    '  --column N        frames: the column to read, by its number or name, instead of the guessed one',
    '  --as WHAT         frames: what stands in it, frame-time or time-stamp',
    '  --unit UNIT       frames: its unit, ms, s, us or ns',
    '  --unshown N=MARK  frames: rows with MARK in column N are frames that were never shown',
    '  --look            restore: only look through the file, change nothing',
    '  --help            this text',
    '',
    'Exit codes: 0 done; 1 a fault of ours; 2 wrong use or bad input; 3 not found;',
    "and from fit: 4 does not fit, 5 can't tell.",
    '',
    'Environment: STILLFITS_DATABASE, STILLFITS_HOST, STILLFITS_HOSTS, STILLFITS_OWNER_URL, STILLFITS_PORT,',
    'STILLFITS_PROXY, STILLFITS_BACKUP_FOLDER and others (see README.md).',
  ].join('\n')
}

/** Runs one command. Wrong use gives exit code 2 and says what is allowed; a fault is the caller's to report. */
export async function runCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  let parsed: { values: Partial<Flags> & { help?: boolean }; positionals: string[] }
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        out: { type: 'string' },
        pick: { type: 'string' },
        explain: { type: 'boolean' },
        card: { type: 'boolean' },
        column: { type: 'string' },
        as: { type: 'string' },
        unit: { type: 'string' },
        unshown: { type: 'string' },
        'why-not': { type: 'string' },
      },
    })
  } catch (error) {
    const why = error instanceof Error ? error.message.split('. ')[0] : 'wrong option'
    return wrongUse(`${why}.`, terminal)
  }
  const [name, ...operands] = parsed.positionals
  if (parsed.values.help || name === undefined) {
    terminal.out(`${helpText()}\n`)
    return name === undefined && !parsed.values.help ? EXIT.badInput : EXIT.done
  }
  const { help: _, ...given } = parsed.values
  const options = Object.keys(given)
  const command = COMMANDS.find((c) => c.name === name)
  const named = command ?? SERVERS.find((server) => server.name === name)
  if (named === undefined) {
    const names = [...COMMANDS, ...SERVERS].map((c) => c.name).join(', ')
    return wrongUse(`"${name}" is not a command. Use one of: ${names}.`, terminal)
  }
  const [min, max] = named.count
  if (operands.length < min || operands.length > max) {
    const takes = named.operands === '' ? 'nothing behind its name' : named.operands
    return wrongUse(`${name} takes ${takes}; got ${operands.length || 'nothing'}.`, terminal)
  }
  const own: readonly string[] = command === undefined ? [] : ['json', ...command.options]
  const foreign = options.find((option) => !own.includes(option))
  if (foreign !== undefined) return wrongUse(`${name} takes no option --${foreign}.`, terminal)
  // Taken by main before it comes here.
  if (command === undefined) return wrongUse(`${name} is started by itself.`, terminal)
  return command.run(operands, { json: false, ...given }, terminal)
}

function wrongUse(why: string, terminal: Terminal): number {
  terminal.err(`${why}\nstillfits --help shows every command.\n`)
  return EXIT.badInput
}
