import type { Grade } from '../../core/gain/gain.ts'
import type { Verdict } from '../../core/verdict.ts'
import { type Colour, FIGURE_FONT, LIGHT } from './colours.ts'
import { escapeHtml, layout, NIL } from './html.ts'

/** Tone of each verdict and the letter that stands for its mark where round boxes are not drawn. */
export const MARKS: Readonly<Record<Verdict, { tone: Colour; letter: string }>> = {
  fits: { tone: 'verdigris', letter: '\u25c9' },
  'fits slower': { tone: 'verdigris', letter: '\u25d2' },
  'fits after work': { tone: 'brass', letter: '\u25ce' },
  "can't tell": { tone: 'slate', letter: '\u25cc' },
  'does not fit': { tone: 'oxide', letter: '\u25a3' },
}

const dot = (style: string, cls: string): string =>
  `<div class="${cls}" style="${style}font-size:1px;line-height:1px">&nbsp;</div>`

/** A peg and its hole: the silhouette carries the verdict, so it holds without colour. */
function peg(verdict: Verdict): string {
  const { tone } = MARKS[verdict]
  const hex = LIGHT[tone]
  const [ground, border] = [`g-${tone}`, `b-${tone}`]
  const filled = (width: number, height: number, radius: string) =>
    dot(
      `width:${width}px;height:${height}px;background:${hex};border-radius:${radius};margin:0 auto;`,
      ground,
    )
  const ring = (inside: string, style = '', valign = 'middle', padding = '') =>
    layout(
      `<tr><td align="center" valign="${valign}" style="${NIL}${padding}">${inside}</td></tr>`,
      `width:18px;height:18px;border:2px solid ${hex};border-radius:50%;${style}`,
      border,
    )
  switch (verdict) {
    case 'fits':
      return ring(filled(8, 8, '50%'))
    case 'fits slower':
      return ring(filled(10, 5, '0 0 5px 5px'), '', 'bottom', 'padding-bottom:2px;')
    case 'fits after work': {
      const cup = `width:14px;height:7px;border:2px solid ${hex};border-top:0;border-radius:0 0 9px 9px;`
      return layout(
        `<tr><td align="center" style="${NIL}padding-bottom:2px">${filled(6, 6, '50%')}</td></tr><tr><td style="${NIL}">${dot(cup, border)}</td></tr>`,
        'width:18px;height:18px',
      )
    }
    case "can't tell":
      return ring('&nbsp;', 'border-style:dashed;')
    case 'does not fit': {
      const hole = `width:4px;height:4px;border:2px solid ${hex};border-radius:50%;margin:0 auto;`
      return ring(dot(hole, border), 'border-radius:0;')
    }
  }
}

/** The mark beside a verdict word. Drawn, never an image; Word's mail engine knows no round boxes and gets a letter. */
export function mark(verdict: Verdict): string {
  const { tone, letter } = MARKS[verdict]
  return (
    `<!--[if mso]><span style="font-family:'Segoe UI Symbol';font-size:18px;color:${LIGHT[tone]}">${letter}</span><![endif]-->` +
    `<!--[if !mso]><!--><div aria-hidden="true">${peg(verdict)}</div><!--<![endif]-->`
  )
}

/** How we know: solid and bold when measured, dashed otherwise. The word says it too. */
export function gradePill(grade: Grade, word: string): string {
  const sure = grade === 'measured'
  return `<span class="t-ink b-ink" style="display:inline-block;border:1px ${sure ? 'solid' : 'dashed'} ${LIGHT.ink};border-radius:9px;padding:0 9px;font-size:14px;line-height:20px;color:${LIGHT.ink};${sure ? 'font-weight:600;' : ''}white-space:nowrap">${escapeHtml(word)}</span>`
}

/** A tag up to this long stays on one line; a longer one breaks rather than pushing the mail sideways. */
const TAG_LINE = 16

/** The machine's tag as it hangs on the case: punched card with a hole. */
export function machineTag(tag: string): string {
  const wrap = tag.length <= TAG_LINE ? 'white-space:nowrap' : 'width:140px;word-break:break-all'
  return layout(
    `<tr><td class="t-ink" style="padding:3px 6px 3px 10px;font-family:${FIGURE_FONT};font-size:16px;line-height:20px;color:${LIGHT.ink};${wrap}">${escapeHtml(tag)}</td>` +
      `<td valign="middle" style="padding:0 10px 0 2px">${dot(`width:7px;height:7px;border:2px solid ${LIGHT.ink};border-radius:50%;`, 'b-ink')}</td></tr>`,
    `border:2px solid ${LIGHT.ink};border-radius:4px 16px 16px 4px;background:${LIGHT.paper}`,
    'b-ink g-paper',
  )
}
