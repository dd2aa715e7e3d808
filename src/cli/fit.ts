import { readFile } from 'node:fs/promises'
import { changedKinds, partsOf } from '../core/build.ts'
import type { Finding } from '../core/fit/finding.ts'
import { judgeChange } from '../core/fit/judgeChange.ts'
import { readFitInput } from '../input/fitInput.ts'
import { EXIT, failed } from '../problem.ts'
import { explainedLines, explainFinding } from '../words/explain.ts'
import { figuresFor } from '../words/figures.ts'
import { sayFinding } from '../words/findings.ts'
import { partWords } from '../words/options.ts'
import type { Command, Flags, Terminal } from './command.ts'
import { printJson, report } from './command.ts'

export const fitCommand: Command = {
  name: 'fit',
  operands: '[FILE]',
  says: 'Judges a change on a machine, both given as JSON (from FILE or standard input). Needs no database.',
  options: ['explain'],
  count: [0, 1],
  run: async ([file], flags, terminal) => {
    let text: string
    try {
      text = file === undefined || file === '-' ? await terminal.readStdin() : await readFile(file, 'utf8')
    } catch {
      return report(
        failed({
          code: 'not found',
          field: 'FILE',
          got: file,
          next: 'cannot be read. Give the path of a JSON file, or - for standard input.',
        }).problems,
        flags,
        terminal,
      )
    }
    const input = readFitInput(text)
    if (!input.ok) return report(input.problems, flags, terminal)
    const { change, policy } = input.value
    // Judged today: the age of a supply counts to now.
    const machine = { ...input.value.machine, at: new Date().toISOString() }
    const judged = judgeChange(machine, change, policy)
    if (judged.findings.length === 0) return nothingJudged(flags, terminal)
    const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy })
    const behind = { limits: judged.limitsAfter, changed: changedKinds(change, machine.build) }
    const parts = [...partsOf(machine.build), ...change.add]
    const explained = (finding: Finding) =>
      explainFinding(
        finding,
        behind,
        figures,
        parts.find(({ id }) => id === finding.partId),
      )
    if (flags.json) {
      const opened = flags.explain === true ? { explained: judged.findings.map(explained) } : {}
      printJson({ verdict: judged.verdict, findings: judged.findings, ...opened }, terminal)
    } else {
      const lookup = { partName: (id: string) => partWords(parts, id), minutes: () => undefined }
      terminal.out(`${judged.verdict}\n`)
      for (const finding of judged.findings) {
        const { owner, next, builder } = sayFinding(finding, figures, lookup)
        terminal.out(
          `\n${finding.rule}: ${finding.verdict}\n  ${[owner, next].filter(Boolean).join(' ')}\n  ${builder}\n`,
        )
        if (flags.explain === true) terminal.out(`${indented(explainedLines(explained(finding)))}\n`)
        else terminal.out(`  source: ${finding.source.kind}, ${finding.source.text}\n`)
      }
    }
    if (judged.verdict === 'does not fit') return EXIT.no
    return judged.verdict === "can't tell" ? EXIT.cannotTell : EXIT.done
  },
}

/** No rule looked, so nothing is known: that is not a "fits". */
function nothingJudged(flags: Flags, terminal: Terminal): number {
  if (flags.json) printJson({ verdict: "can't tell", judged: false, findings: [] }, terminal)
  else terminal.out(`can't tell\n\n${NOTHING_JUDGED}\n`)
  return EXIT.cannotTell
}

const NOTHING_JUDGED =
  'No rule looks at this change on this machine, so nothing is judged. Describe more of the machine, or look yourself.'

const indented = (lines: readonly string[]): string => lines.map((line) => `  ${line}`).join('\n')
