import { createRequire } from 'node:module'
import PDFDocument from 'pdfkit'
import { QUIET_MODULES, qrModules, qrSide } from './qr.ts'

const resolve = createRequire(import.meta.url).resolve
const fontFile = (name: string): string => resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)

/** Faces in the file itself, so that every reader shows the same, Greek and Cyrillic names too. */
export const FACES = { text: 'text', bold: 'bold' } as const
const FILES = { text: fontFile('DejaVuSansCondensed'), bold: fontFile('DejaVuSansCondensed-Bold') }

export type Doc = PDFKit.PDFDocument

export const MM = 72 / 25.4

/** ISO 216 and ANSI/ASME Y14.1, in points. */
export const PAPERS = { a4: [210 * MM, 297 * MM], letter: [8.5 * 72, 11 * 72] } as const
export type Paper = keyof typeof PAPERS

/**
 * Draws a document and gives its bytes. The same drawing gives the same bytes: its only date is `at`.
 * @param size in points
 */
export async function pdfOf(
  about: { readonly title: string; readonly author: string; readonly at: string },
  size: readonly [number, number],
  draw: (doc: Doc) => void,
): Promise<Uint8Array<ArrayBuffer>> {
  const doc = new PDFDocument({
    size: [...size],
    margin: 0,
    autoFirstPage: false,
    lang: 'en',
    displayTitle: true,
    info: {
      Title: about.title,
      Author: about.author,
      CreationDate: new Date(about.at),
      ModDate: new Date(about.at),
    },
  })
  const chunks: Uint8Array[] = []
  const done = new Promise<Uint8Array<ArrayBuffer>>((resolved, failed) => {
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    doc.on('end', () => resolved(new Uint8Array(Buffer.concat(chunks))))
    doc.on('error', failed)
  })
  doc.registerFont(FACES.text, FILES.text)
  doc.registerFont(FACES.bold, FILES.bold)
  doc.addPage()
  draw(doc)
  doc.end()
  return done
}

/** A QR code with its quiet zone in a square of `side` points. */
export function drawQr(doc: Doc, text: string, x: number, y: number, side: number): void {
  const modules = qrModules(text)
  const step = side / qrSide(modules)
  modules.forEach((row, j) => {
    row.forEach((isDark, i) => {
      if (isDark) doc.rect(x + (i + QUIET_MODULES) * step, y + (j + QUIET_MODULES) * step, step, step)
    })
  })
  doc.fill('#000000')
}
