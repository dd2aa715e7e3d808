import { writeFile } from 'node:fs/promises'
import { renderAnswer } from '../mail/render.ts'
import { EXIT, failed } from '../problem.ts'
import { answerQuestion } from '../uses/answerQuestion.ts'
import { messageEml, prepareMessage } from '../uses/writeMessage.ts'
import { chatTextOf, letterOf } from '../words/answer.ts'
import type { Command } from './command.ts'
import { printJson, report } from './command.ts'

export const answerCommand: Command = {
  name: 'answer',
  operands: 'QUESTION',
  says: 'Writes the answer to a question as text; with --out FILE.eml also as a mail that can be opened and sent.',
  count: [1, 1],
  run: async ([questionId = ''], flags, terminal) => {
    const store = await terminal.openStore()
    const at = terminal.now()
    const answered = await answerQuestion(store, questionId, at)
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
    const edits = flags.pick === undefined ? {} : { pickId: flags.pick }
    const mail = await renderAnswer(letterOf(answered.value, edits))
    if (flags.out !== undefined) {
      const kept = await prepareMessage(store, questionId, flags.pick, at)
      const eml = kept.ok ? await messageEml(store, kept.value.messageId) : kept
      if (!eml.ok) return report(eml.problems, flags, terminal)
      await writeFile(flags.out, eml.value.bytes)
    }
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
