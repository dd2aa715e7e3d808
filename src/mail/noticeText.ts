import type { Block, Notice } from '../words/mails/notice.ts'
import { bullet, heading, wrap } from '../words/wrap.ts'
import { gamesText, itemText, pickText, priceText } from './text.ts'

/**
 * The text part: the same words in the same order. Left out is only what explains the drawing, and that the mail loads
 * nothing. "-- " before the foot, so that replies drop it.
 */
export function noticeText(mail: Notice): string {
  const { lead, foot } = mail
  const sections = [
    wrap(mail.masthead),
    wrap(mail.greeting),
    ...mail.opening.map((text) => wrap(text)),
    [lead.answer, ...(lead.more.length === 0 ? [] : [lead.more.join(' ')])]
      .map((text) => wrap(text))
      .join('\n'),
    mail.reply.text
      .split('\n')
      .map((line) => wrap(line))
      .join('\n'),
    ...mail.blocks.flatMap(blockText),
    ...mail.closing.map((text) => wrap(text)),
    mail.sign.map((line) => wrap(line)).join('\n'),
  ]
  const end = [
    '-- ',
    ...(foot.optOut === undefined ? [] : [wrap(foot.optOut.text)]),
    wrap(foot.why),
    wrap(foot.who.join(' ')),
  ]
  return `${[...sections, end.join('\n')].join('\n\n')}\n`
}

const section = (head: string, lines: readonly string[]): string => [heading(head), ...lines].join('\n')

function blockText(b: Block): readonly string[] {
  switch (b.is) {
    case 'says': {
      const lines = b.says.map((text) => wrap(text))
      return b.head === undefined ? lines : [section(b.head, [lines.join('\n\n')])]
    }
    case 'quote':
      return [section(b.head, [wrap(b.words, '  ')])]
    case 'facts':
      return [
        section(
          b.head,
          b.rows.map(({ label, text }) => bullet(`${label}: ${text}`)),
        ),
      ]
    case 'orders':
      return [
        section(b.head, [
          ...(b.lead ?? []).map((text) => wrap(text)),
          ...b.rows.map(bullet),
          ...(b.end === undefined ? [] : [wrap(b.end)]),
        ]),
      ]
    case 'pick':
      return pickText(b.pick)
    case 'games':
      return gamesText(b.games)
    case 'price':
      return [
        section(b.head, b.rows.map(priceText)),
        ...(b.notes.length === 0 ? [] : [wrap(b.notes.join(' '))]),
      ]
    case 'items':
      return [section(b.head, b.items.map(itemText)), ...b.more.map((text) => wrap(text))]
    case 'known':
      return [section(b.head, [...b.grades.map((g) => bullet(`${g.word} ${g.says}`)), ...b.more.map(bullet)])]
  }
}
