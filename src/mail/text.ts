import type { Item, Letter, PriceRow } from '../words/answer/letter.ts'
import { joinPieces } from '../words/say.ts'
import { bullet, heading, wrap } from '../words/wrap.ts'

const ended = (text: string): string => (/[.!?:]$/.test(text) ? text : `${text}.`)

export const itemText = (i: Item): string => bullet(`${i.word}: ${ended(i.what)} ${i.says.join(' ')}`)

export const priceText = (r: PriceRow): string =>
  bullet(`${r.what}: ${r.figure}${r.note === undefined ? '' : ` (${r.note})`}`)

/**
 * The text part: the same words from the same letter in the same order. Only what explains the drawing, and that the
 * mail loads nothing, is left out. "-- " before the foot, so that replies drop it.
 */
export function textOf(l: Letter): string {
  const sections = [
    wrap(l.masthead),
    wrap(`${l.greeting} ${l.asked}`),
    wrap(l.question, '  '),
    ...l.opening.map((p) => wrap(p)),
    wrap(l.lead.answer) + (l.lead.more.length > 0 ? `\n${wrap(l.lead.more.join(' '))}` : ''),
    ...pickText(l.pick),
    wrap(l.reply.text),
    ...gamesText(l.games),
    ...(l.price === undefined
      ? []
      : [section(l.price.head, l.price.rows.map(priceText)), wrap(l.price.notes.join(' '))]),
    ...(l.roads === undefined ? [] : [section(l.roads.head, l.roads.items.map(itemText))]),
    ...(l.board === undefined
      ? []
      : [section(l.board.head, l.board.items.map(itemText)), ...l.board.more.map((s) => wrap(s))]),
    ...handsInText(l.handsIn),
    ...(l.known === undefined
      ? []
      : [
          section(l.known.head, [
            ...l.known.grades.map((g) => bullet(`${g.word} ${g.says}`)),
            ...l.known.more.map(bullet),
          ]),
        ]),
    section(l.next.head, [wrap(l.next.says)]),
    ...l.closing.map((p) => wrap(p)),
    l.sign.map((s) => wrap(s)).join('\n'),
  ]
  const foot = ['-- ', wrap(l.foot.why), wrap(l.foot.who.join(' '))].join('\n')
  return `${[...sections, foot].join('\n\n')}\n`
}

const section = (head: string, lines: readonly string[]): string => [heading(head), ...lines].join('\n')

export function pickText(p: Letter['pick']): readonly string[] {
  if (p === undefined) return []
  const figures = p.figures.map((f) => `${f.figure} ${f.what}`).join(', ')
  return [
    [
      wrap(`${p.what}: ${figures}.`),
      bullet(`${p.word}: ${p.reason.join(' ')}`),
      ...(p.grade === undefined ? [] : [bullet(`${p.grade.word}: ${p.grade.says}`)]),
      ...(p.useful.length > 0 ? [wrap(p.useful.join(' '))] : []),
    ].join('\n'),
  ]
}

export function gamesText(g: Letter['games']): readonly string[] {
  if (g === undefined) return []
  const rows = g.rows.map((r) => bullet(`${r.title}: ${[joinPieces(r.says), ...r.notes].join(' ')}`))
  return [
    `${heading(g.head)}\n${wrap(g.intro.join(' '))}`,
    rows.join('\n'),
    ...(g.more.length > 0 ? [wrap(g.more.join(' '))] : []),
  ]
}

function handsInText(h: Letter['handsIn']): readonly string[] {
  if (h === undefined) return []
  const items = [wrap(`${h.itemsHead}:`), ...h.items.map(bullet)].join('\n')
  const head = heading(h.head)
  return [
    ...(h.lead.length > 0 ? [`${head}\n${wrap(h.lead.join(' '))}`, items] : [`${head}\n${items}`]),
    wrap(h.wayOut),
  ]
}
