import { joinPieces } from '../say.ts'
import { plainSpaces } from '../wrap.ts'
import type { Letter, PickStrip } from './letter.ts'

/** What still reads well in a chat window on a phone. */
export const CHAT_MOST = 900

/** Of a long line that does not fit: the fact that is missing and how to find it out, and the last: what else it takes. */
const SHORT_MOST = 2

const sentence = (text: string): string => (/[.!?:]$/.test(text) ? text : `${text}.`)

/** The pick with as many of its reasons. */
const pickLine = ({ what, word, reason }: PickStrip, reasons: number): string =>
  [`${what}: ${word}.`, ...reason.slice(0, reasons)].join(' ')

/**
 * The same answer for a chat: greeting, answer, pick with verdict and price, then as many of the further lines as
 * fit, whole lines only, and how to answer. Plain text without marks or links.
 */
export function chatOf(letter: Letter): string {
  const { pick, price, lead } = letter
  const head = [letter.greeting, ...letter.opening, [lead.answer, ...lead.more].join(' ')]
  const tail = [letter.reply.text, letter.sign.join('\n')]
  const games = (letter.games?.rows ?? []).map((r) => [`${r.title}: ${joinPieces(r.says)}`])
  const open = (letter.board?.items ?? [])
    .filter((i) => i.verdict === "can't tell")
    .map((i) =>
      [
        i.says,
        [...i.says.slice(0, SHORT_MOST), ...i.says.slice(SHORT_MOST).slice(-1)],
        i.says.slice(0, SHORT_MOST),
      ].map((says) => `${i.what}: ${i.word}. ${says.map(sentence).join(' ')}`),
    )
  // Where nothing is recommended, what is missing is the answer.
  const further =
    letter.inShort !== undefined ? [] : pick === undefined ? [...open, ...games] : [...games, ...open]
  const whole = (lines: readonly string[]) => lines.map((line) => [line])
  const extra = [
    ...whole(letter.inShort ?? []),
    ...whole(price?.notes.slice(0, 1) ?? []),
    ...further,
    ...whole(letter.closing),
  ]
  // The price must not stand there without what it counts.
  const exchange = price?.exchange === undefined || letter.inShort !== undefined ? [] : [price.exchange]
  const size = (lines: readonly string[]) => lines.join('\n\n').length
  if (pick !== undefined) {
    const lines = pick.reason.map((_, i) => pickLine(pick, i + 1))
    // A reason more is not worth the interval of the first game.
    const kept = [...exchange, ...(price?.notes.slice(0, 1) ?? []), ...(games[0] ?? []), ...tail]
    head.push(lines.findLast((l) => size([...head, l, ...kept]) <= CHAT_MOST) ?? pickLine(pick, 0))
  }
  head.push(...exchange)
  const body: string[] = []
  for (const forms of extra) {
    const line = forms.find((l) => size([...head, ...body, l, ...tail]) <= CHAT_MOST)
    if (line !== undefined) body.push(line)
  }
  return plainSpaces([...head, ...body, ...tail].join('\n\n'))
}
