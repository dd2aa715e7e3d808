import { readFile } from 'node:fs/promises'
import { minorDigitsOf } from '../core/currency.ts'
import { matchShelf } from '../core/matching/match.ts'
import { GAIN_KINDS } from '../core/ranking/shelf.ts'
import { readMatchAsk } from '../input/matchAsk.ts'
import { EXIT, failed, ok, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { listShelf } from '../store/shelf.ts'
import { matchInputs } from '../uses/matching/matchInputs.ts'
import { chosenProblems } from '../uses/matching/matching.ts'
import { OFFERS_EN } from '../words/en/offers.ts'
import { fill } from '../words/say.ts'
import { type Command, printJson, report, sayingFit, type Terminal } from './command.ts'
import { withShopOf } from './shopOfFolder.ts'

/** Raised when a field changes its meaning or goes; fields may be added. */
export const MATCH_DOCUMENT = { format: 'stillfits match', version: 1 } as const

export const matchCommand: Command = {
  name: 'match',
  operands: 'SHOPFOLDER [ASK]',
  says: 'Shares the shelf out among past customers, as JSON. ASK is a JSON file, or - for standard input; without it every item once.',
  options: [],
  count: [1, 2],
  run: async ([folder = '', asked], flags, terminal) => {
    const at = terminal.now()
    const text = asked === undefined ? undefined : await textOf(asked, terminal)
    if (asked !== undefined && text === undefined) {
      const next = 'cannot be read. Give the path of a JSON file, or - for standard input.'
      return report(failed({ code: 'not found', field: 'ASK', got: asked, next }).problems, flags, terminal)
    }
    const given = text === undefined ? ok(undefined) : jsonOf(text)
    if (!given.ok) return report(given.problems, flags, terminal)
    const matched = await withShopOf(folder, at, async (store) => {
      const ask = readMatchAsk(given.value ?? (await everything(store)))
      if (!ask.ok) return ask
      const problems = chosenProblems(ask.value, await listShelf(store.db))
      if (problems.length > 0) return failed(...problems)
      const inputs = await sayingFit(store, terminal, () => matchInputs(store, ask.value, at))
      const { currency } = inputs.shop.policy
      const matching = matchShelf(inputs, saying(terminal))
      return ok({ ...MATCH_DOCUMENT, currency, minorDigits: minorDigitsOf(currency), ...matching })
    })
    if (!matched.ok) return report(matched.problems, flags, terminal)
    printJson(matched.value, terminal)
    return EXIT.done
  },
}

/** All that is free on the shelf and can make a game faster. */
async function everything({ db }: Store): Promise<unknown> {
  const lines = (await listShelf(db)).filter(
    ({ item, part }) => GAIN_KINDS.has(part.kind) && item.quantity > 0,
  )
  return { items: lines.map(({ item }) => ({ itemId: item.id, quantity: item.quantity })) }
}

const textOf = (path: string, terminal: Terminal): Promise<string | undefined> =>
  path === '-' ? terminal.readStdin() : readFile(path, 'utf8').catch(() => undefined)

function jsonOf(text: string): Result<unknown> {
  try {
    return ok(JSON.parse(text) as unknown)
  } catch {
    const next = 'It is no JSON. An ask looks like {"items": [{"itemId": "S-601", "quantity": 2}]}.'
    return failed({ code: 'unreadable', field: 'ASK', next })
  }
}

const EVERY_MS = 1000

/** How far it is, on standard error, at most once a second. */
function saying(terminal: Terminal): (done: number, of: number) => void {
  let saidMs = performance.now()
  return (done, of) => {
    if (performance.now() - saidMs < EVERY_MS) return
    saidMs = performance.now()
    terminal.err(`${fill(OFFERS_EN.progress, { done: String(done), of: String(of) })}\n`)
  }
}
