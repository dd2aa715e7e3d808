import type { Terminal } from './cli/command.ts'
import { faultLines } from './fault.ts'
import { operateCommand } from './operate/commands.ts'
import { EXIT, sayProblem } from './problem.ts'
import { readSettings } from './settings.ts'
import { actingAs } from './store/changes.ts'
import { problemOf } from './store/errors.ts'
import type { Store } from './store/open.ts'
import { openStore } from './store/open.ts'
import { isLoopback } from './web/hosts.ts'

const DEMO_ELSEWHERE =
  'STILLFITS_HOST: The demo has no sign-in, so it is served to this computer alone. Set it to 127.0.0.1 for the demo.'

/** Runs the program with its arguments; gives the exit code. What a start does not need is not read. */
export async function main(args: readonly string[]): Promise<number> {
  const settings = readSettings(process.env)
  if (!settings.ok) {
    for (const problem of settings.problems) process.stderr.write(`${sayProblem(problem)}\n`)
    return EXIT.badInput
  }
  // A reader that has seen enough (`| head`) closes its end; that is no fault of anybody's.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(EXIT.done)
    throw error
  })
  let store: Store | undefined
  const terminal: Terminal = {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    readStdin,
    openStore: async () => {
      store ??= await openStore(settings.value.databaseUrl, settings.value.databaseToken)
      return store
    },
    now: () => new Date().toISOString(),
  }
  try {
    if (args[0] === 'serve' && args.length === 1)
      return await (await import('./serve.ts')).serveShop(settings.value, await terminal.openStore())
    if (args[0] === 'send' && args.length === 1)
      return await (await import('./sending.ts')).sendOnce(await terminal.openStore(), settings.value)
    const operated = await operateCommand(args, settings.value, terminal.openStore)
    if (operated !== undefined) return operated
    if (args[0] === 'demo' && args.length === 1) {
      if (isLoopback(settings.value.host)) return await (await import('./serve.ts')).serveDemo(settings.value)
      process.stderr.write(`${DEMO_ELSEWHERE}\n`)
      return EXIT.badInput
    }
    const { runCommand } = await import('./cli/commands.ts')
    return await actingAs('the terminal', () => runCommand(args, terminal))
  } catch (error) {
    const problem = problemOf(error)
    const text = problem === undefined ? 'Something broke on our side.' : sayProblem(problem)
    process.stderr.write(`${text}\n`)
    if (problem === undefined) process.stderr.write(`${faultLines(error)}\n`)
    const isOurs = problem === undefined || problem.code === 'internal' || problem.code === 'busy'
    return isOurs ? EXIT.fault : EXIT.badInput
  } finally {
    await store?.close()
  }
}

async function readStdin(mostBytes = Number.POSITIVE_INFINITY): Promise<string> {
  const chunks: Buffer[] = []
  let length = 0
  for await (const chunk of process.stdin) {
    length += chunks[chunks.push(Buffer.from(chunk)) - 1]?.length ?? 0
    if (length > mostBytes) break
  }
  return Buffer.concat(chunks).toString('utf8')
}
