import type { Block, Notice } from '../words/mails/notice.ts'
import { barsOf } from './draw/bars.ts'
import { LIGHT } from './draw/colours.ts'
import { block, escapeHtml, h1, h2, paragraph, small } from './draw/html.ts'
import { factsTable } from './draw/sheet.ts'
import { itemsTable, orders, pickStrip, priceTable } from './draw/tables.ts'
import type { Slots } from './frame.ts'
import { footOf, slotsWith } from './slots.ts'

/** What each slot of `emails/notice.mjml` takes. */
export const noticeSlots = (mail: Notice): Slots =>
  slotsWith(mail, {
    news:
      `<p style="margin:0 0 10px">${escapeHtml(mail.greeting)}</p>` +
      mail.opening.map((text) => paragraph(text)).join('') +
      h1(mail.lead.answer) +
      (mail.lead.more.length === 0 ? '' : paragraph(mail.lead.more.join(' '), 'margin-top:10px')),
    blocks: mail.blocks.map(blockOf).join(''),
    closing:
      mail.closing.map((text) => paragraph(text)).join('') +
      `<p style="margin:14px 0 0">${mail.sign.map(escapeHtml).join('<br />')}</p>`,
    foot: optOutOf(mail.foot.optOut) + footOf(mail.foot),
  })

const texts = (says: readonly string[]): string => says.map((text) => paragraph(text)).join('')

function blockOf(b: Block): string {
  switch (b.is) {
    case 'says':
      return block((b.head === undefined ? '' : h2(b.head)) + texts(b.says))
    case 'quote':
      return block(
        h2(b.head) +
          `<blockquote class="b-copper" style="margin:8px 0 0;padding:2px 0 2px 14px;border-left:5px solid ${LIGHT.copper};word-break:break-word">${escapeHtml(b.words)}</blockquote>`,
      )
    case 'facts':
      return block(h2(b.head) + factsTable(b.rows))
    case 'orders':
      return block(
        h2(b.head) + texts(b.lead ?? []) + orders(b.rows) + (b.end === undefined ? '' : paragraph(b.end)),
      )
    case 'pick':
      return block(pickStrip(b.pick) + (b.pick.useful.length > 0 ? small(b.pick.useful.join(' ')) : ''))
    case 'games':
      return block(
        h2(b.games.head) +
          paragraph([...b.games.intro, ...b.games.drawn].join(' '), 'margin-bottom:0') +
          barsOf(b.games) +
          (b.games.more.length === 0
            ? ''
            : `<p style="margin:14px 0 0">${escapeHtml(b.games.more.join(' '))}</p>`),
      )
    case 'price':
      return block(h2(b.head) + priceTable(b.rows) + paragraph(b.notes.join(' '), 'margin-top:8px'))
    case 'items':
      return block(h2(b.head) + itemsTable(b.items) + b.more.map(small).join(''))
    case 'known':
      return block(
        h2(b.head) +
          b.grades
            .map((g) => `<p style="margin:0 0 10px"><b>${escapeHtml(g.word)}</b> ${escapeHtml(g.says)}</p>`)
            .join('') +
          (b.more.length === 0 ? '' : paragraph(b.more.join(' '))),
      )
  }
}

/** In the size of the text above it: who wants no more of these finds it at once. */
const optOutOf = (optOut: Notice['foot']['optOut']): string =>
  optOut === undefined
    ? ''
    : `<p class="t-ink" style="margin:0 0 10px;font-size:16px;line-height:24px;color:${LIGHT.ink}">${escapeHtml(optOut.says)} <a class="t-copper" style="color:${LIGHT.copper}" href="${escapeHtml(optOut.href)}">${escapeHtml(optOut.words)}</a></p>`
