import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { basename } from 'node:path'
import { doubtsOf } from '../core/frames/doubts.ts'
import { readChoice } from '../input/frameLog/choice.ts'
import type { Choice } from '../input/frameLog/guess.ts'
import { type LogSource, openLog, studyLog } from '../input/frameLog/read.ts'
import { EXIT, failed } from '../problem.ts'
import { type Figures, figuresFor } from '../words/figures.ts'
import { sayChoice, sayDoubts, sayFigures, sayLength, sayRows, sayTooFew, sayWhy } from '../words/frameLog.ts'
import type { Command, Terminal } from './command.ts'
import { printJson, report } from './command.ts'

/** Logs below this are read before anybody looks up. */
const PROGRESS_FROM_BYTES = 20_000_000

export const framesCommand: Command = {
  name: 'frames',
  operands: 'FILE',
  says: 'Figures of a frame-time log (CSV, one frame a row). Needs no database.',
  options: ['column', 'as', 'unit', 'unshown'],
  count: [1, 1],
  run: async ([file = ''], flags, terminal) => {
    const size = await stat(file).then(
      (there) => (there.isFile() ? there.size : undefined),
      () => undefined,
    )
    if (size === undefined) {
      const next = 'cannot be read. Give the path of a frame-time log.'
      return report(failed({ code: 'not found', field: 'FILE', got: file, next }).problems, flags, terminal)
    }
    const source = { name: basename(file), size, bytes: () => createReadStream(file) }
    const opened = await openLog(source)
    if (!opened.ok) return report(opened.problems, flags, terminal)
    const { layout, guess } = opened.value
    const choice = readChoice(flags, guess.choice, layout)
    if (!choice.ok) return report(choice.problems, flags, terminal)
    const study = await studyLog(source, layout, choice.value, progressOf(source, terminal))
    if (!study.ok) return report(study.problems, flags, terminal)
    const { rows, figures: found } = study.value
    if (flags.json) {
      const { plot: _, ...figures } = found ?? {}
      printJson(
        {
          columns: layout.columns.map(({ name, isNumeric }, at) => ({
            column: at + 1,
            name,
            figures: isNumeric,
          })),
          read: fromOne(choice.value),
          guess: { ...fromOne(guess.choice), why: guess.why.kind },
          ...{ rows, figures, doubts: doubtsOf(study.value, choice.value) },
        },
        terminal,
      )
    } else {
      const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
      const isGuess = JSON.stringify(choice.value) === JSON.stringify(guess.choice)
      const lines = [
        `${sayChoice(choice.value, layout.columns)}.${isGuess ? ` ${sayWhy(guess.why, layout.columns)}` : ''}`,
        ...(found === undefined ? [] : ['', ...tableOf(found, figures), '', ...sayTooFew(found, figures)]),
        ...sayRows(rows, choice.value.as, figures),
        ...sayDoubts(study.value, choice.value, figures).map((doubt) => `Look: ${doubt}`),
      ]
      terminal.out(`${lines.join('\n')}\n`)
    }
    return found === undefined ? EXIT.badInput : EXIT.done
  },
}

function tableOf(found: Parameters<typeof sayFigures>[0], figures: Figures): string[] {
  const lines = sayFigures(found, figures)
  const name = Math.max(...lines.map((line) => line.name.length))
  const says = Math.max(...lines.map((line) => line.says.length))
  return [
    sayLength(found, figures),
    ...lines.map((line) => `  ${line.name.padEnd(name)}  ${line.says.padStart(says)}  ${line.means}`),
  ]
}

/** Columns counted from 1, as they are typed. */
const fromOne = ({ column, unshown, ...choice }: Choice) => ({
  ...{ column: column + 1, ...choice },
  ...(unshown !== undefined && { unshown: { ...unshown, column: unshown.column + 1 } }),
})

/** One line on standard error, written over itself; it is wiped at the end. */
function progressOf({ name, size }: LogSource, terminal: Terminal): (share: number) => void {
  if (size < PROGRESS_FROM_BYTES) return () => {}
  let told = -1
  return (share) => {
    const percent = Math.floor(share * 20) * 5
    if (percent === told) return
    told = percent
    const line = `Reading ${name}: ${percent} %`
    terminal.err(percent >= 100 ? `\r${' '.repeat(line.length)}\r` : `\r${line}`)
  }
}
