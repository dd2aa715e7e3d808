import { drawQr, FACES, MM, pdfOf } from './document.ts'
import { qrModules, qrPath, qrSide } from './qr.ts'

/** Widths and heights of labels in mm, as rolls and sheets are cut (common practice). */
export const LABEL_SIZES = {
  '54x25': [54, 25],
  '62x29': [62, 29],
  '70x37': [70, 37],
  '89x36': [89, 36],
} as const
export type LabelSize = keyof typeof LABEL_SIZES

export type CaseLabelText = {
  readonly tag: string
  /** What the code leads to. */
  readonly link: string
  readonly shop: string
  /** What it is for, in a few words. */
  readonly says: string
}

/** Places in mm: the code fills the height at the left, the rest stands beside it. */
function placesOf(size: LabelSize) {
  const [width, height] = LABEL_SIZES[size]
  const edge = 1.5
  const side = height - 2 * edge
  const left = edge + side + 2
  return { width, height, edge, side, left, room: width - left - edge }
}

/** The label as an SVG with its size in mm. Text is real text; names are escaped. */
export function caseLabelSvg({ tag, link, shop, says }: CaseLabelText, size: LabelSize): string {
  const { width, height, edge, side, left, room } = placesOf(size)
  const modules = qrModules(link)
  const scale = side / qrSide(modules)
  const tagMm = Math.min(height / 4, room / (0.68 * Math.max(4, tag.length)))
  const smallMm = Math.min(2.6, room / (0.56 * Math.max(says.length / 2, shop.length, 12)))
  const font = 'font-family="DejaVu Sans Condensed, Arial Narrow, Arial, sans-serif"'
  const lines = halves(says)
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(`${tag}, ${shop}`)}">`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    `<path transform="translate(${edge} ${edge}) scale(${round(scale)})" d="${qrPath(modules)}" fill="#000000" shape-rendering="crispEdges"/>`,
    `<text x="${left}" y="${round(height * 0.36)}" ${font} font-weight="700" font-size="${round(tagMm)}">${escaped(tag)}</text>`,
    ...lines.map(
      (line, i) =>
        `<text x="${left}" y="${round(height * 0.36 + smallMm * (1.9 + 1.25 * i))}" ${font} font-size="${round(smallMm)}">${escaped(line)}</text>`,
    ),
    `<text x="${left}" y="${round(height - edge - 1)}" ${font} font-size="${round(smallMm)}">${escaped(shop)}</text>`,
    '</svg>',
  ].join('\n')
}

/** The label as a PDF page of its size. `at` is the date in the file, ISO 8601 UTC. */
export function caseLabelPdf(
  { tag, link, shop, says }: CaseLabelText,
  size: LabelSize,
  at: string,
): Promise<Uint8Array<ArrayBuffer>> {
  const { width, height, edge, side, left, room } = placesOf(size)
  return pdfOf({ title: tag, author: shop, at }, [width * MM, height * MM], (doc) => {
    drawQr(doc, link, edge * MM, edge * MM, side * MM)
    const fitted = (text: string, face: string, most: number) => {
      const atOne = doc.font(face).fontSize(100).widthOfString(text) / 100
      return Math.min(most, (room * MM) / Math.max(atOne, 0.001))
    }
    doc.fillColor('#000000')
    const tagSize = fitted(tag, FACES.bold, (height / 4) * MM)
    doc.font(FACES.bold).fontSize(tagSize)
    doc.text(tag, left * MM, edge * MM + 1, { lineBreak: false })
    const lines = halves(says)
    const small = Math.min(...[...lines, shop].map((line) => fitted(line, FACES.text, 2.6 * MM)))
    doc.font(FACES.text).fontSize(small)
    lines.forEach((line, i) => {
      doc.text(line, left * MM, edge * MM + tagSize * 1.35 + i * small * 1.25, { lineBreak: false })
    })
    doc.text(shop, left * MM, (height - edge) * MM - small * 1.25, { lineBreak: false })
  })
}

/** A line in two of about the same length. */
function halves(text: string): string[] {
  const words = text.split(' ')
  const cut = words.findIndex((_, i) => words.slice(0, i + 1).join(' ').length >= text.length / 2) + 1
  return [words.slice(0, cut).join(' '), words.slice(cut).join(' ')].filter((line) => line !== '')
}

const round = (n: number): number => Math.round(n * 1000) / 1000

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }
const escaped = (text: string): string => text.replace(/[&<>"]/g, (c) => ENTITIES[c] ?? c)
