import { access, constants, stat, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import type { Answer } from '../core/answer.ts'
import { renderAnswer } from '../mail/render.ts'
import { EXIT, failed, ok, type Result } from '../problem.ts'
import { answerQuestion } from '../uses/answerQuestion.ts'
import { addressesOf, messageEml, prepareMessage } from '../uses/writeMessage.ts'
import { chatTextOf, letterOf } from '../words/answer.ts'
import { WHY_EN } from '../words/en/why.ts'
import type { Command } from './command.ts'
import { printJson, report, sayingFit } from './command.ts'

export const answerCommand: Command = {
  name: 'answer',
  operands: 'QUESTION',
  says: 'Writes the answer to a question as text; with --out FILE.eml also as a mail that can be opened and sent.',
  options: ['pick', 'out'],
  count: [1, 1],
  run: async ([questionId = ''], flags, terminal) => {
    const store = await terminal.openStore()
    const at = terminal.now()
    const answered = await sayingFit(store, terminal, () => answerQuestion(store, questionId, at))
    if (!answered.ok) return report(answered.problems, flags, terminal)
    const { ranking } = answered.value
    const { customer } = answered.value.inputs
    const options = [...ranking.ranked, ...ranking.withoutNumber].map((o) => o.id)
    if (flags.pick !== undefined && !options.includes(flags.pick)) {
      const next = `is not an option of this question. Take one of: ${options.join(', ') || 'none fits'}.`
      return report(
        failed({ code: 'unknown name', field: '--pick', got: flags.pick, next }).problems,
        flags,
        terminal,
      )
    }
    const target = flags.out === undefined ? undefined : await mailFile(flags.out, answered.value)
    if (target?.ok === false) return report(target.problems, flags, terminal)
    const edits = flags.pick === undefined ? {} : { pickId: flags.pick }
    const mail = await renderAnswer(letterOf(answered.value, edits))
    if (target !== undefined) {
      const kept = await prepareMessage(store, questionId, flags.pick, at)
      const eml = kept.ok ? await messageEml(store, kept.value.messageId) : kept
      if (!eml.ok) return report(eml.problems, flags, terminal)
      await writeFile(target.value, eml.value.bytes)
    }
    // Beside the message, not in it: it is for who sends it.
    if (answered.value.inputs.gainFailed === true) terminal.err(`${WHY_EN.failed}\n`)
    if (flags.json)
      printJson(
        {
          subject: mail.subject,
          text: mail.text,
          html: mail.html,
          chat: chatTextOf(answered.value, edits),
          answer: answered.value,
        },
        terminal,
      )
    else
      terminal.out(
        customer?.email === undefined
          ? `${chatTextOf(answered.value, edits)}\n`
          : `Subject: ${mail.subject}\n\n${mail.text}`,
      )
    return EXIT.done
  },
}

/** The path, when the answer can be mailed and a file be written there; looked at before anything is saved. */
async function mailFile(path: string, answer: Answer): Promise<Result<string>> {
  const addresses = addressesOf(answer)
  if (!addresses.ok) return addresses
  const refuse = (next: string) => failed({ code: 'not allowed', field: '--out', got: path, next })
  const there = await stat(path).catch(() => undefined)
  if (there?.isDirectory()) return refuse('is a folder. Give the path of a file, such as answer.eml.')
  try {
    await access(there === undefined ? dirname(path) : path, constants.W_OK)
    return ok(path)
  } catch {
    return refuse('cannot be written. Give a path in a folder that is there and that you may write to.')
  }
}
