import type { SheetSaid } from '../words/limitsSheet.ts'
import { plainSpaces } from '../words/wrap.ts'
import { type Doc, drawQr, FACES, MM, PAPERS, type Paper, pdfOf } from './document.ts'

/** Text sizes that are tried until all of it stands on one page, in points; below the last nobody reads it. */
const SIZES = [9.5, 9, 8.5, 8, 7.5, 7, 6.5] as const
const MARGIN = 12 * MM
const GAP = 7 * MM
const HEAD_HEIGHT = 30 * MM
const INK = '#20262b'
const SOFT = '#5a5f60'
const COPPER = '#9a4a24'
const LINE = '#d9cfbd'

type Block =
  | { readonly what: 'head'; readonly text: string }
  | {
      readonly what: 'text'
      readonly text: string
      readonly soft?: boolean
      readonly bold?: boolean
      /** It says what the next block is about, as a heading does. */
      readonly leads?: boolean
    }
  | { readonly what: 'point'; readonly text: string }
  | { readonly what: 'row'; readonly label: string; readonly text: string }
  | { readonly what: 'run'; readonly cells: readonly [string, string, string]; readonly soft?: boolean }
  | { readonly what: 'bar'; readonly load: number; readonly usable: number }

/**
 * The limits sheet as a PDF: one page where it goes in at a readable size, in two columns; else it goes on overleaf, so
 * that nothing is cut off. `link` is what the code in its corner leads to; without one there is none.
 */
export function limitsSheetPdf(
  said: SheetSaid,
  about: { readonly shop: string; readonly at: string; readonly link?: string | undefined },
  paper: Paper,
): Promise<Uint8Array<ArrayBuffer>> {
  const [width, height] = PAPERS[paper]
  const blocks = blocksOf(said)
  const columnWidth = (width - 2 * MARGIN - GAP) / 2
  return pdfOf(
    { title: `${said.title} ${said.tag}`, author: about.shop, at: about.at },
    [width, height],
    (doc) => {
      const top = MARGIN + HEAD_HEIGHT
      const bottom = height - MARGIN - 6 * MM
      const columns = [MARGIN, MARGIN + columnWidth + GAP].map((x) => ({
        x,
        width: columnWidth,
        top,
        bottom,
      }))
      const size =
        SIZES.find((s) => flow(doc, blocks, s, columns, { draws: false }) === 1) ??
        SIZES[SIZES.length - 1] ??
        7
      drawHead(doc, said, about.link, width)
      drawFoot(doc, said, width, height)
      flow(doc, blocks, size, columns, {
        draws: true,
        onPage: () => {
          doc.addPage()
          drawHead(doc, said, about.link, width)
          drawFoot(doc, said, width, height)
        },
      })
    },
  )
}

function drawHead(doc: Doc, said: SheetSaid, link: string | undefined, width: number): void {
  const side = link === undefined ? 0 : 24 * MM
  if (link !== undefined) drawQr(doc, link, width - MARGIN - side, MARGIN - 2 * MM, side)
  const room = width - 2 * MARGIN - side - (side === 0 ? 0 : GAP)
  doc.font(FACES.bold).fontSize(19).fillColor(INK)
  doc.text(said.title, MARGIN, MARGIN - 1 * MM, { width: room, lineBreak: false })
  const tagWidth = doc.fontSize(13).widthOfString(said.tag) + 6 * MM
  doc
    .roundedRect(MARGIN, MARGIN + 9 * MM, tagWidth, 7 * MM, 2)
    .lineWidth(1)
    .stroke(COPPER)
  doc.circle(MARGIN + 2.4 * MM, MARGIN + 12.5 * MM, 0.9 * MM).stroke(COPPER)
  doc.fillColor(INK).text(said.tag, MARGIN + 4.4 * MM, MARGIN + 10.4 * MM, { lineBreak: false })
  doc.font(FACES.text).fontSize(9).fillColor(SOFT)
  doc.text(tidy(said.about.join(' ')), MARGIN, MARGIN + 18.5 * MM, { width: room })
}

function drawFoot(doc: Doc, said: SheetSaid, width: number, height: number): void {
  doc.font(FACES.text).fontSize(8).fillColor(SOFT)
  doc.text(tidy(said.foot), MARGIN, height - MARGIN - 3 * MM, { width: width - 2 * MARGIN, lineBreak: false })
}

type Column = { readonly x: number; readonly width: number; readonly top: number; readonly bottom: number }
type How = { readonly draws: boolean; readonly onPage?: () => void }

/** Sets the blocks into the columns and gives the number of pages. A heading never stands alone at a column's end. */
function flow(
  doc: Doc,
  blocks: readonly Block[],
  size: number,
  columns: readonly Column[],
  how: How,
): number {
  let pages = 1
  let at = 0
  let y = columns[0]?.top ?? 0
  const next = () => {
    at += 1
    if (at === columns.length) {
      at = 0
      pages += 1
      how.onPage?.()
    }
    y = columns[at]?.top ?? 0
  }
  blocks.forEach((block, i) => {
    const column = columns[at]
    if (column === undefined) return
    const own = heightOf(doc, block, size, column.width)
    const together = followersOf(blocks, i).reduce((sum, b) => sum + heightOf(doc, b, size, column.width), 0)
    if (y > column.top && y + own + together > column.bottom) next()
    const now = columns[at]
    if (now === undefined) return
    const isFirst = y === now.top
    if (how.draws) draw(doc, block, size, now, y - (isFirst ? leadOf(block, size) : 0))
    y += own - (isFirst ? leadOf(block, size) : 0)
  })
  return pages
}

const leads = (block: Block): boolean =>
  block.what === 'head' || (block.what === 'text' && block.leads === true)

/** What must stand in one column with a block: after headings, of whatever rank, the first that is none. */
function followersOf(blocks: readonly Block[], at: number): readonly Block[] {
  let end = at
  while (end < blocks.length - 1 && leads(blocks[end] as Block)) end += 1
  return blocks.slice(at + 1, end + 1)
}

/** Air above a heading, not wanted at the top of a column. */
const leadOf = ({ what }: Block, size: number): number => (what === 'head' ? 0.8 * size : 0)

const LABEL_SHARE = 0.4
const RUN_SHARES = [0.64, 0.18, 0.18] as const

function heightOf(doc: Doc, block: Block, size: number, width: number): number {
  const of = (text: string, room: number, face: string = FACES.text) =>
    doc.font(face).fontSize(size).heightOfString(text, { width: room })
  const gap = 0.28 * size
  switch (block.what) {
    case 'head':
      return (
        leadOf(block, size) +
        doc
          .font(FACES.bold)
          .fontSize(size * 1.12)
          .heightOfString(block.text, { width }) +
        gap
      )
    case 'text':
      return of(block.text, width, block.bold ? FACES.bold : FACES.text) + gap
    case 'point':
      return of(block.text, width - size) + gap
    case 'row':
      return (
        Math.max(of(block.label, width * LABEL_SHARE - 4), of(block.text, width * (1 - LABEL_SHARE))) + gap
      )
    case 'run':
      return Math.max(...block.cells.map((cell, i) => of(cell, width * (RUN_SHARES[i] ?? 0) - 2))) + gap
    case 'bar':
      return 1.6 * size + gap
  }
}

function draw(doc: Doc, block: Block, size: number, { x, width }: Column, y: number): void {
  const set = (face: string, ink = INK, of = size) => doc.font(face).fontSize(of).fillColor(ink)
  switch (block.what) {
    case 'head': {
      const top = y + leadOf(block, size)
      doc
        .moveTo(x, top - 0.25 * size)
        .lineTo(x + width, top - 0.25 * size)
        .lineWidth(0.7)
        .stroke(LINE)
      set(FACES.bold, COPPER, size * 1.12).text(block.text, x, top, { width })
      return
    }
    case 'text':
      set(block.bold ? FACES.bold : FACES.text, block.soft ? SOFT : INK).text(block.text, x, y, { width })
      return
    case 'point':
      set(FACES.text).text('•', x, y, { lineBreak: false })
      doc.text(block.text, x + size, y, { width: width - size })
      return
    case 'row':
      set(FACES.text, SOFT).text(block.label, x, y, { width: width * LABEL_SHARE - 4 })
      set(FACES.text).text(block.text, x + width * LABEL_SHARE, y, { width: width * (1 - LABEL_SHARE) })
      return
    case 'run': {
      let left = x
      block.cells.forEach((cell, i) => {
        const room = width * (RUN_SHARES[i] ?? 0)
        set(FACES.text, block.soft ? SOFT : INK).text(cell, left, y, {
          width: room - 2,
          align: i === 0 ? 'left' : 'right',
        })
        left += room
      })
      return
    }
    case 'bar': {
      const tall = 1.2 * size
      doc
        .rect(x, y, width * block.usable, tall)
        .lineWidth(0.8)
        .stroke(INK)
      doc.rect(x, y, width * block.load, tall).fill(block.load > block.usable ? '#8a2e2a' : COPPER)
      return
    }
  }
}

const tidy = plainSpaces

function blocksOf(said: SheetSaid): Block[] {
  const head = (text: string): Block => ({ what: 'head', text: tidy(text) })
  const text = (t: string, soft = false): Block => ({ what: 'text', text: tidy(t), soft })
  const bold = (t: string): Block => ({ what: 'text', text: tidy(t), bold: true, leads: true })
  const point = (t: string): Block => ({ what: 'point', text: tidy(t) })
  const row = ({ label, text: t }: { label: string; text: string }): Block => ({
    what: 'row',
    label: tidy(label),
    text: tidy(t),
  })
  return [
    head(said.inside.head),
    ...said.inside.rows.map(row),
    head(said.measured.head),
    text(said.measured.says, true),
    ...(said.measured.rows.length === 0
      ? []
      : [{ what: 'run', cells: said.measured.columns, soft: true } satisfies Block]),
    ...said.measured.rows.flatMap(({ game, setting, average, low, note }): Block[] => [
      { what: 'run', cells: [tidy(`${game}, ${setting}`), tidy(average), tidy(low)] },
      ...(note === undefined ? [] : [text(note, true)]),
    ]),
    head(said.next.head),
    text(said.next.says, true),
    ...said.next.kinds.flatMap(({ head: kind, bounds, best, says }) => [
      bold(kind),
      ...(bounds.length === 0
        ? []
        : [text(bounds.map(({ label, value }) => `${label}: ${value}`).join(' · '), true)]),
      ...best.map(({ text: t }) => point(t)),
      ...says.map((t) => text(t)),
    ]),
    head(said.never.head),
    ...said.never.groups.flatMap(({ head: of, rows, end }) => [
      { what: 'text', text: tidy(of), soft: true, leads: true } satisfies Block,
      ...rows.map(point),
      text(end, true),
    ]),
    head(said.free.head),
    ...said.free.rows.map(row),
    head(said.supply.head),
    ...(said.supply.bar === undefined ? [] : [{ what: 'bar', ...said.supply.bar } satisfies Block]),
    ...said.supply.says.map((t) => text(t)),
    head(said.warranties.head),
    ...said.warranties.rows.map((t) => text(t)),
    ...(said.unknown.rows.length === 0
      ? []
      : [
          head(said.unknown.head),
          text(said.unknown.says, true),
          ...said.unknown.rows.map(({ label, text: t }) => point(`${label}: ${t}`)),
        ]),
    head(said.cautions.head),
    ...said.cautions.rows.map(point),
  ]
}
