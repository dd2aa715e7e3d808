import type { Block, Notice } from '../../src/words/mails/notice.ts'
import { joinPieces } from '../../src/words/say.ts'

/** Sentences of ours in a block: no names, price lines or words of a person. */
function ofBlock(b: Block): readonly string[] {
  switch (b.is) {
    case 'says':
      return b.says
    case 'quote':
    case 'facts':
      return []
    case 'orders':
      return [...(b.lead ?? []), ...b.rows, b.end ?? '']
    case 'pick':
      return [...b.pick.reason, b.pick.grade?.says ?? '', ...b.pick.useful]
    case 'games':
      return [
        ...b.games.intro,
        ...b.games.rows.flatMap((r) => [joinPieces(r.says), ...r.notes]),
        ...b.games.more,
      ]
    case 'price':
      return b.notes
    case 'items':
      return [...b.items.flatMap((i) => i.says), ...b.more]
    case 'known':
      return [...b.grades.map((g) => `${g.word} ${g.says}`), ...b.more]
  }
}

/** Paragraphs that both parts of a mail show. */
export const shownProse = (n: Notice): readonly string[] =>
  [n.lead.answer, ...n.lead.more, ...n.blocks.flatMap(ofBlock), n.foot.why, ...n.foot.who].filter(
    (s) => s !== '',
  )

const drawnOf = (n: Notice): readonly string[] =>
  n.blocks.flatMap((b) => (b.is === 'games' ? b.games.drawn : []))

/** Those of the HTML alone: button, its note, what explains the drawing. */
export const htmlProse = (n: Notice): readonly string[] => [
  n.reply.words,
  n.reply.note,
  ...drawnOf(n),
  n.foot.loads,
  ...(n.foot.optOut === undefined ? [] : [n.foot.optOut.says, n.foot.optOut.words]),
]

/** Those of the text alone. */
export const textProse = (n: Notice): readonly string[] => [n.reply.text, n.foot.optOut?.text ?? '']

/** Headings in reading order. */
export const headsOf = (n: Notice): readonly string[] =>
  n.blocks.flatMap((b) =>
    b.is === 'pick'
      ? [b.pick.what]
      : b.is === 'games'
        ? [b.games.head]
        : b.head === undefined
          ? []
          : [b.head],
  )

/** Everything of ours that is read as sentences; addresses are no words. */
export const proseOfNotice = (n: Notice): readonly string[] =>
  [n.preheader, ...shownProse(n), ...htmlProse(n), ...textProse(n)]
    .flatMap((text) => text.replace(/https?:\S+/g, '').split('\n'))
    .filter((text) => text.trim() !== '')
