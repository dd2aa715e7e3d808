import type { Item, PickStrip, PriceRow } from '../../words/answer/letter.ts'
import { FIGURE_FONT, LIGHT } from './colours.ts'
import { escapeHtml, layout } from './html.ts'
import { gradePill, MARKS, mark } from './marks.ts'

const prose = (sentences: readonly string[]): string => escapeHtml(sentences.join(' '))

/** A verdict that names its work may be longer than a phone is wide. */
const isShort = (word: string): boolean => word.length <= 20

function itemRow(item: Omit<Item, 'what'> & { readonly what?: string }, last: boolean): string {
  const { tone } = MARKS[item.verdict]
  const edge = last ? '' : `border-bottom:1px solid ${LIGHT.line};`
  const about = item.what === undefined ? '' : ` <b>${escapeHtml(item.what)}</b>`
  const word = `${escapeHtml(item.word)}${item.what === undefined ? '' : ':'}`
  return (
    `<tr><td valign="top" width="30" class="b-line" style="width:30px;padding:12px 0;${edge}">${mark(item.verdict)}</td>` +
    `<td valign="top" class="b-line" style="padding:9px 0 12px;${edge}"><span class="t-${tone}" style="color:${LIGHT[tone]};font-weight:600${isShort(item.word) ? ';white-space:nowrap' : ''}">${word}</span>${about}<br />${prose(item.says)}</td></tr>`
  )
}

/** A list that leads with verdicts: mark, word, what it is about, one reason. */
export const itemsTable = (items: readonly Item[]): string =>
  layout(items.map((item, i) => itemRow(item, i === items.length - 1)).join(''), 'width:100%')

/** The recommended option on its copper-edged strip. */
export function pickStrip(pick: PickStrip): string {
  const grade =
    pick.grade === undefined
      ? ''
      : `<p style="margin:0 0 12px">${gradePill(pick.grade.grade, pick.grade.word)} ${escapeHtml(pick.grade.says)}</p>`
  const figures = pick.figures
    .map(
      (f) =>
        `<td valign="top" style="padding:0 6px 0 0"><span style="font-family:${FIGURE_FONT};font-size:20px;line-height:26px;font-weight:700">${escapeHtml(f.figure)}</span><br /><span class="t-soft" style="font-size:14px;line-height:19px;color:${LIGHT.soft}">${escapeHtml(f.what)}</span></td>`,
    )
    .join('')
  const inside =
    `<p style="margin:0 0 2px;font-size:18px;line-height:26px"><b>${escapeHtml(pick.what)}</b></p>` +
    layout(itemRow({ verdict: pick.verdict, word: pick.word, says: pick.reason }, true), 'width:100%') +
    grade +
    layout(`<tr>${figures}</tr>`, 'width:100%;table-layout:fixed')
  return layout(
    `<tr><td class="b-copper" style="border-left:5px solid ${LIGHT.copper};padding:12px 14px 14px">${inside}</td></tr>`,
    `width:100%;background:${LIGHT.lead};word-break:break-word;`,
    'g-lead',
  )
}

/** The price line by line; a real table with row headings, because that is how it is read out. */
export function priceTable(rows: readonly PriceRow[]): string {
  const body = rows.map((row) => {
    const cls = row.sum ? 'b-ink' : 'b-line'
    const strong = row.sum
      ? `border-top:2px solid ${LIGHT.ink};font-weight:700;`
      : `border-top:1px solid ${LIGHT.line};`
    const note =
      row.note === undefined
        ? ''
        : `<br /><span class="t-soft" style="font-size:14px;line-height:20px;font-weight:400;color:${LIGHT.soft}">${escapeHtml(row.note)}</span>`
    return (
      `<tr><th scope="row" align="left" valign="top" class="${cls}" style="padding:8px 10px 8px 0;text-align:left;font-weight:${row.sum ? 700 : 400};${strong}">${escapeHtml(row.what)}${note}</th>` +
      `<td align="right" valign="top" class="${cls}" style="padding:8px 0;text-align:right;white-space:nowrap;font-family:${FIGURE_FONT};${strong}">${escapeHtml(row.figure)}</td></tr>`
    )
  })
  return `<table cellpadding="0" cellspacing="0" border="0" style="width:100%;border-collapse:collapse">${body.join('')}</table>`
}

export const orders = (items: readonly string[]): string =>
  `<ul style="margin:0 0 10px;padding:0 0 0 20px">${items.map((i) => `<li style="margin:0 0 4px">${escapeHtml(i)}</li>`).join('')}</ul>`
