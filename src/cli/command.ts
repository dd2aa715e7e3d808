import type { Problem } from '../problem.ts'
import { EXIT, sayProblem, shortGot } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { keptFitOf } from '../uses/gain/keptFit.ts'
import { WHY_EN } from '../words/en/why.ts'
import { fill } from '../words/say.ts'

/** What a command may touch. Handed in, so that tests run commands in process with their own streams and clock. */
export type Terminal = {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
  /** Standard input as text; reading stops soon after `mostBytes`. */
  readonly readStdin: (mostBytes?: number) => Promise<string>
  readonly openStore: () => Promise<Store>
  readonly now: () => string
}

export type Flags = {
  readonly json: boolean
  readonly out?: string | undefined
  readonly pick?: string | undefined
  readonly explain?: boolean | undefined
  readonly card?: boolean | undefined
  readonly column?: string | undefined
  readonly as?: string | undefined
  readonly unit?: string | undefined
  readonly unshown?: string | undefined
  readonly 'why-not'?: string | undefined
}

export type Command = {
  readonly name: string
  /** What stands behind the name, such as `FOLDER`. */
  readonly operands: string
  readonly says: string
  /** Its own options besides `--json`, which every command has. */
  readonly options: readonly (keyof Omit<Flags, 'json'>)[]
  /** Smallest and largest number of operands. */
  readonly count: readonly [min: number, max: number]
  readonly run: (operands: readonly string[], flags: Flags, terminal: Terminal) => Promise<number>
}

/** Prints problems, one a line (or as JSON), and gives the exit code that says what kind they are. */
export function report(problems: readonly Problem[], flags: Flags, terminal: Terminal): number {
  if (flags.json) {
    const short = problems.map((p) => (p.got === undefined ? p : { ...p, got: shortGot(p.got) }))
    printJson({ problems: short }, terminal)
  } else for (const problem of problems) terminal.err(`${sayProblem(problem)}\n`)
  return exitOf(problems)
}

/** The exit code that says what kind problems are; done where there is none. */
export function exitOf(problems: readonly Problem[]): number {
  if (problems.length === 0) return EXIT.done
  if (problems.some((p) => p.code === 'internal' || p.code === 'busy')) return EXIT.fault
  return problems.every((p) => p.code === 'not found') ? EXIT.notFound : EXIT.badInput
}

/** Prints a value as indented JSON with a line end. */
export const printJson = (value: unknown, terminal: Terminal): void =>
  terminal.out(`${JSON.stringify(value, null, 2)}\n`)

/** A command waits so long for the gain model by itself; then it says what it waits for. */
const PATIENCE_MS = 1000

/** Says on standard error what takes long, if it does; the result of the command stands alone on standard output. */
export async function sayingFit<T>(store: Store, terminal: Terminal, work: () => Promise<T>): Promise<T> {
  const say = () => {
    const fitting = keptFitOf(store).underWay()
    if (fitting === undefined) return
    const w = WHY_EN.waiting
    const usual =
      fitting.usualMs === undefined
        ? ''
        : fill(w.terminalUsual, { seconds: String(Math.max(1, Math.round(fitting.usualMs / 1000))) })
    terminal.err(`${fill(w.terminal, { runs: String(fitting.runs), usual })}\n`)
  }
  const patience = setTimeout(say, PATIENCE_MS)
  try {
    return await work()
  } finally {
    clearTimeout(patience)
  }
}
