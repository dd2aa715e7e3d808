import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { readGainLine } from '../input/gainAsks.ts'
import { EXIT, failed, type Problem, shortGot } from '../problem.ts'
import { openStore } from '../store/open.ts'
import { gainDesk } from '../uses/gain/answerGains.ts'
import { importShop } from '../uses/importShop.ts'
import { modelCardNow } from '../uses/measure/modelCard.ts'
import { type Command, exitOf, printJson, report, type Terminal } from './command.ts'
import { shopFilesIn } from './import.ts'

export const gainCommand: Command = {
  name: 'gain',
  operands: 'SHOPFOLDER [ASKS]',
  says: 'Answers what changes are worth, from the runs of a folder of tables: JSON lines in and out. Needs no database.',
  options: ['explain', 'card'],
  count: [1, 2],
  run: async ([folder = '', asks], flags, terminal) => {
    const text = flags.card ? '' : await asksIn(asks, terminal)
    if (text === undefined) {
      const next = 'cannot be read. Give the path of a file with one ask a line, or - for standard input.'
      return report(failed({ code: 'not found', field: 'ASKS', got: asks, next }).problems, flags, terminal)
    }
    const files = await shopFilesIn(folder)
    if (!files.ok) return report(files.problems, flags, terminal)
    // The folder is read as an import reads it, into a file that is gone afterwards.
    const place = await mkdtemp(join(tmpdir(), 'stillfits-gain-'))
    const store = await openStore(pathToFileURL(join(place, 'shop.db')).href)
    try {
      const imported = await importShop(store, files.value, terminal.now())
      if (!imported.ok) return report(imported.problems, flags, terminal)
      if (flags.card) {
        printJson(await modelCardNow(store, terminal.now()), terminal)
        return EXIT.done
      }
      const desk = await gainDesk(store, terminal.now())
      const problems: Problem[] = []
      for (const [i, line] of text.split('\n').entries()) {
        if (line.trim() === '') continue
        const ask = readGainLine(line)
        const answered = ask.ok ? await desk.answer(ask.value, flags.explain === true) : ask
        const named = ask.ok && ask.value.id !== undefined ? { id: ask.value.id } : {}
        const told = answered.ok ? answered.value : { problems: answered.problems.map(shortened) }
        if (!answered.ok) problems.push(...answered.problems)
        terminal.out(`${JSON.stringify({ line: i + 1, ...named, ...told })}\n`)
      }
      return exitOf(problems)
    } finally {
      await store.close()
      await rm(place, { recursive: true, force: true })
    }
  },
}

const shortened = (p: Problem): Problem => (p.got === undefined ? p : { ...p, got: shortGot(p.got) })

async function asksIn(path: string | undefined, terminal: Terminal): Promise<string | undefined> {
  if (path === undefined || path === '-') return terminal.readStdin()
  return readFile(path, 'utf8').catch(() => undefined)
}
