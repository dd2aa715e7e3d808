import type { GameRow, Letter } from '../../words/answer/letter.ts'
import { type Colour, LIGHT } from './colours.ts'
import { escapeHtml, layout, NIL, piecesHtml } from './html.ts'

type Games = NonNullable<Letter['games']>

/** A stretch of the scale between two lines. All rows have the same ones, so the lines stand at one place. */
type Zone = { readonly from: number; readonly to: number; readonly line: string; readonly cls: string }
type Drawn = {
  readonly height: number
  readonly style?: string
  readonly cls?: string
  readonly body?: string
}

/** A label needs this share of the width to stand beside its line on a phone. */
const LABEL_SHARE = 0.33
/** A game far past what is wanted does not stretch the scale: its bar is cut with a gap, its bracket with an arrow. */
const SCALE_MOST = 2.5
const ROOM = 1.03
/** A bar's ground stops at a line, so that the line shows on it too. */
const CLEAR = 'background-clip:padding-box;'

const share = (x: number): number => Number((x * 100).toFixed(1))

/** End of the scale in FPS. */
function endOf(games: Games): number {
  const { targetFps, displayHz = 0 } = games
  const all = games.rows.flatMap((r) =>
    r.bar ? [r.bar.beforeFps, r.bar.afterFps ?? 0, r.bar.highFps ?? 0] : [],
  )
  const largest = Math.max(targetFps, displayHz, ...all) * ROOM
  return Math.min(largest, Math.max(targetFps * SCALE_MOST, displayHz * ROOM))
}

export function zonesOf(games: Games): readonly Zone[] {
  const { targetFps, displayHz } = games
  const lines = [
    { at: targetFps, line: `border-right:2px dotted ${LIGHT.ink};${CLEAR}`, cls: 'b-ink' },
    ...(displayHz === undefined || displayHz === targetFps
      ? []
      : [{ at: displayHz, line: `border-right:1px solid ${LIGHT.soft};${CLEAR}`, cls: 'b-soft' }]),
    { at: endOf(games), line: '', cls: '' },
  ].sort((a, b) => a.at - b.at)
  return lines
    .map(({ at, line, cls }, i) => ({ from: lines[i - 1]?.at ?? 0, to: at, line, cls }))
    .filter((z) => z.to > z.from)
}

export function barsOf(games: Games): string {
  const zones = zonesOf(games)
  const end = zones.at(-1)?.to ?? games.targetFps
  const cell = (zone: Zone, drawn: Drawn): string => {
    const cls = `${zone.cls} ${drawn.cls ?? ''}`.trim()
    return `<td width="${share((zone.to - zone.from) / end)}%" height="${drawn.height}"${cls === '' ? '' : ` class="${cls}"`} style="${NIL}${drawn.style ?? ''}${zone.line}">${drawn.body ?? '&nbsp;'}</td>`
  }
  const grid = (draw: (zone: Zone) => Drawn): string =>
    `<tr>${zones.map((z) => cell(z, draw(z))).join('')}</tr>`
  const gap = (height: number): string => grid(() => ({ height }))
  const bar = (height: number, fps: number, colour: Colour): string => {
    const style = `background:${LIGHT[colour]};`
    return grid((zone) => {
      if (fps <= zone.from) return { height }
      if (fps > end && zone.to === end) return { height, body: cutBar(height, style, `g-${colour}`) }
      if (fps >= zone.to) return { height, style, cls: `g-${colour}` }
      const part = (fps - zone.from) / (zone.to - zone.from)
      return { height, body: cells([piece(part, height, style, `g-${colour}`), piece(1 - part, height)]) }
    })
  }
  const row = (r: GameRow): string => {
    if (r.bar === undefined) return ''
    const { beforeFps, afterFps, lowFps, highFps } = r.bar
    const bracket =
      lowFps === undefined || highFps === undefined
        ? ''
        : gap(2) + grid((zone) => ({ height: 7, body: bracketPart(zone, end, lowFps, highFps) }))
    const after = afterFps === undefined ? '' : gap(2) + bar(14, afterFps, 'copper')
    return table(gap(4) + bar(8, beforeFps, 'rule') + after + bracket)
  }
  const drawn = games.rows.some((r) => r.bar !== undefined)
  return (drawn ? legend(games, zones, end, cell) : '') + games.rows.map((r) => game(r, row(r))).join('')
}

const table = (rows: string): string =>
  `<div aria-hidden="true">${layout(rows, 'width:100%;table-layout:fixed;print-color-adjust:exact;-webkit-print-color-adjust:exact;')}</div>`

const cells = (inside: readonly string[]): string =>
  layout(`<tr>${inside.join('')}</tr>`, 'width:100%;table-layout:fixed')

/** Padding or a border inside a percent cell would move its edge: only grounds and, for the bracket, ticks. */
const piece = (part: number, height: number, style = '', cls = ''): string =>
  `<td width="${share(part)}%" height="${height}"${cls === '' ? '' : ` class="${cls}"`} style="${NIL}${style}">&nbsp;</td>`

/** A bar that goes on past the end of the scale. */
const cutBar = (height: number, style: string, cls: string): string =>
  cells([piece(0.86, height, style, cls), piece(0.04, height), piece(0.1, height, style, cls)])

/** Of the last stretch of the scale; about 8 px on a phone. */
const ARROW_SHARE = 0.08
/** The bracket goes on past the end of the scale. */
const arrow = `<td width="${share(ARROW_SHARE)}%" height="5" align="left" class="t-ink" style="padding:0;font-size:10px;line-height:7px;color:${LIGHT.ink}">\u25b8</td>`

function bracketPart(zone: Zone, end: number, lowFps: number, highFps: number): string {
  const isCut = highFps > end && zone.to === end
  const low = Math.max(Math.min(lowFps, end), zone.from)
  const high = Math.min(highFps, zone.to)
  if (low >= high) return isCut ? cells([piece(1 - ARROW_SHARE, 5), arrow]) : '&nbsp;'
  const width = zone.to - zone.from
  const tick = [
    `border-bottom:2px solid ${LIGHT.ink};`,
    low === lowFps ? `border-left:2px solid ${LIGHT.ink};` : '',
    high === highFps ? `border-right:2px solid ${LIGHT.ink};` : '',
  ].join('')
  const part = (high - low) / width
  return cells([
    ...(low > zone.from ? [piece((low - zone.from) / width, 5)] : []),
    piece(isCut ? Math.max(0.02, part - ARROW_SHARE) : part, 5, tick, 'b-ink'),
    ...(isCut ? [arrow] : []),
    ...(high < zone.to ? [piece((zone.to - high) / width, 5)] : []),
  ])
}

/** Names the lines where there is room beside them; the sentence above the bars names them always. */
function legend(
  games: Games,
  zones: readonly Zone[],
  end: number,
  cell: (zone: Zone, drawn: Drawn) => string,
): string {
  const wide = (z: Zone) => (z.to - z.from) / end >= LABEL_SHARE
  const target = zones.find((z) => z.to === games.targetFps && wide(z))
  const display = zones.find((z) => z.from === games.displayHz && z !== target && wide(z))
  const label = (text: string, side: 'right' | 'left', colour: 'ink' | 'soft') =>
    `<div class="t-${colour}" style="font-size:14px;line-height:20px;white-space:nowrap;text-align:${side};padding-${side}:5px;color:${LIGHT[colour]}">${escapeHtml(text)}</div>`
  if (target === undefined && display === undefined) return ''
  const row = zones.map((z) =>
    cell(z, {
      height: 20,
      ...(z === target
        ? { body: label(games.targetSays, 'right', 'ink') }
        : z === display && games.displaySays !== undefined
          ? { body: label(games.displaySays, 'left', 'soft') }
          : {}),
    }),
  )
  return `<div aria-hidden="true" style="margin-top:10px">${layout(`<tr>${row.join('')}</tr>`, 'width:100%;table-layout:fixed')}</div>`
}

function game(r: GameRow, bar: string): string {
  const note =
    r.notes.length === 0
      ? ''
      : `<p class="t-soft" style="margin:3px 0 0;font-size:14px;line-height:20px;color:${LIGHT.soft}">${escapeHtml(r.notes.join(' '))}</p>`
  return `<div class="bars" style="margin:14px 0 0"><p style="margin:0;line-height:22px"><b>${escapeHtml(r.title)}</b><br />${piecesHtml(r.says)}</p>${bar}${note}</div>`
}
