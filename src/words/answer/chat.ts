import { joinPieces } from '../say.ts'
import { plainSpaces } from '../wrap.ts'
import type { Letter } from './letter.ts'

/** What still reads well in a chat window on a phone. */
export const CHAT_MOST = 900

const sentence = (text: string): string => (/[.!?:]$/.test(text) ? text : `${text}.`)

/**
 * The same answer for a chat: greeting, answer, pick with verdict and price, then as many of the further lines as
 * fit, whole lines only, and how to answer. Plain text without marks or links.
 */
export function chatOf(letter: Letter): string {
  const { pick, price, lead } = letter
  const head = [
    letter.greeting,
    ...letter.opening,
    [lead.answer, ...lead.more].join(' '),
    ...(pick === undefined ? [] : [`${pick.what}: ${pick.word}. ${pick.reason.join(' ')}`.trim()]),
  ]
  const tail = [letter.reply.text, letter.sign.join('\n')]
  const games = (letter.games?.rows ?? []).map((r) => `${r.title}: ${joinPieces(r.says)}`)
  const extra = [
    ...(price?.notes.slice(0, 1) ?? []),
    ...games,
    ...(letter.board?.items ?? [])
      .filter((i) => i.verdict === "can't tell")
      .map((i) => `${i.what}: ${i.word}. ${i.says.map(sentence).join(' ')}`),
    ...letter.closing,
  ]
  const size = (lines: readonly string[]) => lines.join('\n\n').length
  const body: string[] = []
  for (const line of extra) {
    if (size([...head, ...body, line, ...tail]) <= CHAT_MOST) body.push(line)
  }
  return plainSpaces([...head, ...body, ...tail].join('\n\n'))
}
