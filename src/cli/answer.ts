import { writeFile } from 'node:fs/promises'
import { emlOf } from '../mail/eml.ts'
import { renderAnswer } from '../mail/render.ts'
import { EXIT, failed } from '../problem.ts'
import { answerQuestion } from '../uses/answerQuestion.ts'
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
    const { inputs, ranking } = answered.value
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
    const to =
      inputs.customer?.email === undefined
        ? undefined
        : { name: inputs.customer.name, address: inputs.customer.email }
    if (flags.out !== undefined) {
      if (to === undefined) {
        const next = 'This customer has no e-mail address. Copy the short text instead (leave --out away).'
        return report(failed({ code: 'missing', field: 'e-mail', next }).problems, flags, terminal)
      }
      const from = { name: inputs.shop.name, address: inputs.shop.email }
      await writeFile(
        flags.out,
        await emlOf({ ...mail, from, to, date: at, messageId: `answer-${questionId}` }),
      )
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
        to === undefined
          ? `${chatTextOf(answered.value, edits)}\n`
          : `Subject: ${mail.subject}\n\n${mail.text}`,
      )
    return EXIT.done
  },
}
