import { readFile } from 'node:fs/promises'
import { minorDigitsOf } from '../core/currency.ts'
import { planReach } from '../core/reach/reach.ts'
import { readReachAsk } from '../input/reachAsk.ts'
import { EXIT, failed, ok } from '../problem.ts'
import { reachInputs, reachProblems } from '../uses/reach/reachInputs.ts'
import { type Command, printJson, report, sayingFit } from './command.ts'
import { withShopOf } from './shopOfFolder.ts'

/** Raised when a field changes its meaning or goes; fields may be added. */
export const REACH_DOCUMENT = { format: 'stillfits reach', version: 1 } as const

export const reachCommand: Command = {
  name: 'reach',
  operands: 'SHOPFOLDER ASK',
  says: 'How far platforms go: best frame rate against further spend, now and later, and what ends each road. JSON in (a file, or - for standard input) and out.',
  options: [],
  count: [2, 2],
  run: async ([folder = '', asked = ''], flags, terminal) => {
    const at = terminal.now()
    const text =
      asked === '-' ? await terminal.readStdin() : await readFile(asked, 'utf8').catch(() => undefined)
    const ask = readReachAsk(text)
    if (!ask.ok) return report(ask.problems, flags, terminal)
    const planned = await withShopOf(folder, at, async (store) => {
      const problems = await reachProblems(store, ask.value)
      if (problems.length > 0) return failed(...problems)
      const inputs = await sayingFit(store, terminal, () => reachInputs(store, ask.value, at))
      const { currency } = inputs.shop.policy
      const { version, ...reach } = planReach(inputs, (done, of) =>
        terminal.err(`${done} of ${of} platforms planned.\n`),
      )
      const document = { ...REACH_DOCUMENT, currency, minorDigits: minorDigitsOf(currency) }
      return ok({ ...document, reachVersion: version, ...reach })
    })
    if (!planned.ok) return report(planned.problems, flags, terminal)
    printJson(planned.value, terminal)
    return EXIT.done
  },
}
