import type { Letter } from '../words/answer/letter.ts'
import { barsOf } from './draw/bars.ts'
import { darkRules, LIGHT } from './draw/colours.ts'
import { block, escapeHtml, h1, h2, h3, layout, paragraph, small } from './draw/html.ts'
import { machineTag } from './draw/marks.ts'
import { itemsTable, orders, pickStrip, priceTable } from './draw/tables.ts'
import type { Slots } from './frame.ts'

/** What all mails have, whatever their frame. */
type InEvery = Pick<Letter, 'lang' | 'subject' | 'preheader' | 'shopName'> & {
  readonly tag?: string | undefined
  readonly reply: Pick<Letter['reply'], 'words' | 'href' | 'note'>
  readonly foot: Pick<Letter['foot'], 'why' | 'loads' | 'who'>
}

/** The slots that every frame has, filled; `fragments` are those of its own. */
export const slotsWith = (mail: InEvery, fragments: Slots['fragments']): Slots => ({
  values: {
    lang: mail.lang,
    title: mail.subject,
    preheader: mail.preheader,
    replyHref: mail.reply.href,
    replyWords: mail.reply.words,
  },
  fragments: {
    darkRules: darkRules(),
    darkRulesOg: darkRules('[data-ogsc] '),
    masthead: mastheadOf(mail.shopName, mail.tag),
    replyNote: small(mail.reply.note),
    foot: footOf(mail.foot),
    ...fragments,
  },
})

/** What each slot of `emails/answer.mjml` takes, from a letter. */
export const slotsOf = (letter: Letter): Slots =>
  slotsWith(letter, {
    question: `<p style="margin:0 0 10px">${escapeHtml(`${letter.greeting} ${letter.asked}`)}</p>${h1(letter.question)}`,
    lead: lead(letter),
    games: games(letter.games),
    price:
      letter.price === undefined
        ? ''
        : block(h2(letter.price.head) + priceTable(letter.price.rows) + notes(letter.price.notes)),
    roads: letter.roads === undefined ? '' : block(h2(letter.roads.head) + itemsTable(letter.roads.items)),
    board:
      letter.board === undefined
        ? ''
        : block(
            h2(letter.board.head) + itemsTable(letter.board.items) + letter.board.more.map(small).join(''),
          ),
    handsIn: handsIn(letter.handsIn),
    known: known(letter),
  })

/** Who writes, and the machine's tag; at the head of every mail. */
const mastheadOf = (shopName: string, tag?: string | undefined): string =>
  layout(
    `<tr><td class="t-ink" style="font-size:18px;line-height:26px;font-weight:700;color:${LIGHT.ink};word-break:break-word">${escapeHtml(shopName)}</td>${tag === undefined ? '' : `<td align="right" style="width:1px">${machineTag(tag)}</td>`}</tr>`,
    'width:100%',
  )

/** One paragraph of notes under a table. */
const notes = (sentences: readonly string[]): string => paragraph(sentences.join(' '), 'margin-top:8px')

function lead(l: Letter): string {
  const answer = `<p style="margin:0 0 6px;font-size:20px;line-height:28px;font-weight:700">${escapeHtml(l.lead.answer)}</p>`
  const more = l.lead.more.length > 0 ? paragraph(l.lead.more.join(' ')) : ''
  const strip =
    l.pick === undefined
      ? ''
      : pickStrip(l.pick) + (l.pick.useful.length > 0 ? small(l.pick.useful.join(' ')) : '')
  return l.opening.map((p) => paragraph(p)).join('') + answer + more + strip
}

function games(g: Letter['games']): string {
  if (g === undefined) return ''
  const intro = paragraph([...g.intro, ...g.drawn].join(' '), 'margin-bottom:0')
  const more = g.more.length > 0 ? `<p style="margin:14px 0 0">${escapeHtml(g.more.join(' '))}</p>` : ''
  return block(h2(g.head) + intro + barsOf(g) + more)
}

function handsIn(h: Letter['handsIn']): string {
  if (h === undefined) return ''
  return block(
    h2(h.head) +
      (h.lead.length > 0 ? paragraph(h.lead.join(' ')) : '') +
      h3(h.itemsHead) +
      orders(h.items) +
      paragraph(h.wayOut, 'margin-bottom:0'),
  )
}

function known(l: Letter): string {
  const grades = (l.known?.grades ?? [])
    .map((g) => `<p style="margin:0 0 10px"><b>${escapeHtml(g.word)}</b> ${escapeHtml(g.says)}</p>`)
    .join('')
  const more = (l.known?.more ?? []).length > 0 ? paragraph((l.known?.more ?? []).join(' ')) : ''
  const head = l.known === undefined ? '' : h2(l.known.head)
  const sign = `<p style="margin:14px 0 0">${l.sign.map(escapeHtml).join('<br />')}</p>`
  const next = h2(l.next.head) + paragraph(l.next.says)
  return block(head + grades + more) + next + l.closing.map((p) => paragraph(p)).join('') + sign
}

/** Why it came, that it loads nothing, and who we are; at the foot of every mail. */
export const footOf = ({ why, loads, who }: Pick<Letter['foot'], 'why' | 'loads' | 'who'>): string =>
  [why, loads, who.join(' ')].map((p) => `<p style="margin:0 0 8px">${escapeHtml(p)}</p>`).join('')
