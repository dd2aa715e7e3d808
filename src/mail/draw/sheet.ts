import type { MeasuredSaid, SheetSaid } from '../../words/limitsSheet.ts'
import { FIGURE_FONT, LIGHT } from './colours.ts'
import { escapeHtml, layout, NIL, parted } from './html.ts'

const LINE = `border-top:1px solid ${LIGHT.line};`
const SOFT = `font-size:14px;line-height:20px;font-weight:400;color:${LIGHT.soft}`

/** MJML lets every word part, which narrow columns would use on short ones. */
const table = (rows: string): string =>
  `<table cellpadding="0" cellspacing="0" border="0" style="width:100%;border-collapse:collapse;word-break:normal">${rows}</table>`

/** What a thing is, and what it says; a real table, its first column the headings of its rows. */
export const factsTable = (rows: SheetSaid['inside']['rows']): string =>
  table(
    rows
      .map(
        ({ label, text }) =>
          `<tr><th scope="row" width="38%" align="left" valign="top" class="t-soft b-line" style="width:38%;padding:7px 10px 7px 0;text-align:left;${LINE}${SOFT}">${escapeHtml(parted(label))}</th><td valign="top" class="b-line" style="padding:7px 0;${LINE}">${escapeHtml(parted(text))}</td></tr>`,
      )
      .join(''),
  )

const FIGURE = `padding:7px 0 7px 10px;text-align:right;white-space:nowrap;font-family:${FIGURE_FONT};${LINE}`

/** Average and 1% low of each game as it ran. */
export function runsTable({ columns, rows }: SheetSaid['measured']): string {
  const head = columns.map(
    (name, i) =>
      `<th scope="col" align="${i === 0 ? 'left' : 'right'}" class="t-soft" style="padding:0 0 4px ${i === 0 ? 0 : 10}px;text-align:${i === 0 ? 'left' : 'right'};${SOFT}">${escapeHtml(name)}</th>`,
  )
  return table(`<tr>${head.join('')}</tr>${rows.map(runRow).join('')}`)
}

function runRow({ game, setting, average, low, note }: MeasuredSaid): string {
  const more = [setting, ...(note === undefined ? [] : [note])]
  const under = more
    .map((line) => `<br /><span class="t-soft" style="${SOFT}">${escapeHtml(parted(line))}</span>`)
    .join('')
  const figures = [average, low].map(
    (figure) => `<td align="right" valign="top" class="b-line" style="${FIGURE}">${escapeHtml(figure)}</td>`,
  )
  return `<tr><th scope="row" align="left" valign="top" class="b-line" style="padding:7px 0;text-align:left;font-weight:600;${LINE}">${escapeHtml(parted(game))}${under}</th>${figures.join('')}</tr>`
}

/** Load today inside what the shop counts on; the sentence under it says the same. */
export function supplyBar({ load, usable }: NonNullable<SheetSaid['supply']['bar']>): string {
  const isOver = load > usable
  const share = (part: number): string => `${Number((part * 100).toFixed(1))}%`
  const piece = (part: number, colour: 'copper' | 'oxide' | 'line'): string =>
    part <= 0
      ? ''
      : `<td width="${share(part)}" height="16" class="g-${colour}" style="${NIL}background:${LIGHT[colour]}">&nbsp;</td>`
  const pieces = isOver
    ? piece(usable, 'copper') + piece(load - usable, 'oxide')
    : piece(load, 'copper') + piece(usable - load, 'line')
  const bar = layout(
    `<tr>${pieces}</tr>`,
    'width:100%;table-layout:fixed;print-color-adjust:exact;-webkit-print-color-adjust:exact;',
  )
  return `<div aria-hidden="true" style="margin:6px 0 10px">${bar}</div>`
}

/** A soft line above what it is about. */
export const aside = (text: string): string =>
  `<p class="t-soft" style="margin:0 0 6px;font-size:14px;line-height:21px;color:${LIGHT.soft}">${escapeHtml(text)}</p>`
