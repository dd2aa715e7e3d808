import jsqr from 'jsqr'
import { extractText, getDocumentProxy } from 'unpdf'
import { beforeAll, describe, expect, test } from 'vitest'
import { measuredModel } from '../../src/core/gain/measured.ts'
import { limitsSheetOf } from '../../src/core/sheet/limitsSheet.ts'
import { caseLabelPdf, caseLabelSvg, LABEL_SIZES, type LabelSize } from '../../src/paper/caseLabel.ts'
import { limitsSheetPdf } from '../../src/paper/limitsSheetPdf.ts'
import { qrModules, qrPath, qrSide } from '../../src/paper/qr.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { type SheetSaid, saySheet } from '../../src/words/limitsSheet.ts'
import { machine, NOW, parts, runs, settings, shop, titles } from '../web/cannedShop.ts'

const LINK = 'https://ask.example/l/7K2M9XW4TQ3P5R8V'
const SCALE = 4
/** Its types say that it is an ES module; what Node loads is the function itself. */
const jsQR = jsqr as unknown as typeof jsqr.default

/** What a phone would read: jsQR on the pixels of the path's unit squares. */
function readPath(path: string, side: number): string | undefined {
  const width = side * SCALE
  const pixels = new Uint8ClampedArray(width * width * 4).fill(255)
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g))
    for (let j = 0; j < SCALE; j++)
      for (let i = 0; i < SCALE; i++)
        pixels.fill(
          0,
          4 * ((Number(y) * SCALE + j) * width + Number(x) * SCALE + i),
          4 * ((Number(y) * SCALE + j) * width + Number(x) * SCALE + i) + 3,
        )
  return jsQR(pixels, width, width)?.data
}

test('the code, read by another library, is the link', () => {
  const modules = qrModules(LINK)
  expect(readPath(qrPath(modules), qrSide(modules))).toBe(LINK)
})

describe('case labels', () => {
  const label = {
    tag: 'M-0042',
    link: LINK,
    shop: 'Fenn & Sons <bench>',
    says: 'What this machine has and can take',
  }

  test.each(Object.keys(LABEL_SIZES) as LabelSize[])('%s: size in mm, code, and names as text', (size) => {
    const svg = caseLabelSvg(label, size)
    const [width, height] = LABEL_SIZES[size]
    expect(svg).toContain(`width="${width}mm" height="${height}mm"`)
    const path = /d="([^"]+)"/.exec(svg)?.[1] ?? ''
    expect(readPath(path, qrSide(qrModules(LINK)))).toBe(LINK)
    expect(svg).toContain('>M-0042</text>')
    expect(svg).toContain('Fenn &amp; Sons &lt;bench&gt;')
  })

  test('the PDF is one page of the label’s size with its text', async () => {
    const pdf = await getDocumentProxy(await caseLabelPdf(label, '62x29', NOW))
    expect(pdf.numPages).toBe(1)
    const { width, height } = (await pdf.getPage(1)).getViewport({ scale: 1 })
    expect([width, height].map((points) => Math.round((points * 25.4) / 72))).toEqual([62, 29])
    const { text } = await extractText(pdf, { mergePages: true })
    expect(text).toContain('M-0042')
    expect(text).toContain('Fenn & Sons <bench>')
  })
})

type PdfPage = Awaited<ReturnType<Awaited<ReturnType<typeof getDocumentProxy>>['getPage']>>

/** The last line of each of a page's two columns, above its foot. */
async function endsOf(page: PdfPage): Promise<string[]> {
  const { width } = page.getViewport({ scale: 1 })
  const foot = 15 * (72 / 25.4)
  const lines = new Map<string, { isLeft: boolean; y: number; text: string }>()
  for (const item of (await page.getTextContent()).items) {
    if (!('str' in item) || item.str.trim() === '') continue
    const [x, y] = [item.transform[4] as number, item.transform[5] as number]
    const isLeft = x < width / 2
    const at = `${isLeft} ${Math.round(y)}`
    lines.set(at, { isLeft, y, text: (lines.get(at)?.text ?? '') + item.str })
  }
  return [true, false].flatMap((isLeft) => {
    const column = [...lines.values()].filter((line) => line.isLeft === isLeft && line.y > foot)
    return column.length === 0 ? [] : [column.reduce((a, b) => (b.y < a.y ? b : a)).text]
  })
}

describe('the limits sheet as PDF', () => {
  let said: SheetSaid
  beforeAll(() => {
    const sheet = limitsSheetOf({
      ...{ titles, settings, parts, policy: shop.policy, warranties: [] },
      machine: { ...machine, at: NOW },
      ownRuns: runs.filter((run) => run.machineTag === machine.tag),
      model: measuredModel(runs, shop.policy),
    })
    said = saySheet(sheet, { name: shop.name, contact: shop.email }, figuresFor(shop))
  })
  const about = { shop: shop.name, at: NOW, link: LINK }
  const plain = (text: string) => text.replaceAll(/\s+/g, '')
  const textOf = async (bytes: Uint8Array) => {
    const pdf = await getDocumentProxy(bytes)
    return { pages: pdf.numPages, text: plain((await extractText(pdf, { mergePages: true })).text) }
  }

  test('no heading stands alone at the end of a column', async () => {
    const heads = new Set(
      [
        ...[said.inside, said.measured, said.next, said.never, said.free, said.supply, said.warranties],
        ...[said.unknown, said.cautions, ...said.next.kinds, ...said.never.groups],
      ].map(({ head }) => plain(head)),
    )
    const row = said.inside.rows[0] ?? { label: 'Part', text: 'a part' }
    const ends: string[] = []
    // Some lines more each time, so that other blocks come to stand at the ends of the columns.
    for (let more = 0; more < 60; more += 4) {
      const rows = [...said.inside.rows, ...Array.from({ length: more }, () => row)]
      const pdf = await getDocumentProxy(
        await limitsSheetPdf({ ...said, inside: { ...said.inside, rows } }, about, 'letter'),
      )
      for (let page = 1; page <= pdf.numPages; page += 1)
        ends.push(...(await endsOf(await pdf.getPage(page))))
    }
    expect(ends.length).toBeGreaterThan(15)
    expect(ends.filter((text) => heads.has(plain(text)))).toEqual([])
  })

  test.each(['a4', 'letter'] as const)('%s: one page that holds every sentence as text', async (paper) => {
    const { pages, text } = await textOf(await limitsSheetPdf(said, about, paper))
    expect(pages).toBe(1)
    const sentences = [
      ...[said.title, said.tag, ...said.about, said.foot],
      ...said.inside.rows.flatMap(({ label, text: t }) => [label, t]),
      ...said.measured.rows.flatMap(({ game, average, low }) => [game, average, low]),
      ...said.next.kinds.flatMap(({ head, best, says }) => [head, ...best.map((b) => b.text), ...says]),
      ...said.never.groups.flatMap(({ head, rows, end }) => [head, ...rows, end]),
      ...said.free.rows.flatMap(({ label, text: t }) => [label, t]),
      ...said.supply.says,
      ...said.warranties.rows,
      ...said.unknown.rows.flatMap(({ label, text: t }) => [label, t]),
      ...said.cautions.rows,
    ]
    for (const sentence of sentences) expect(text).toContain(plain(sentence))
  })

  test('too much for a page goes on overleaf; nothing is cut off', async () => {
    const rows = Array.from({ length: 400 }, (_, i) => `Nothing wider than ${i} mm.`)
    const long: SheetSaid = { ...said, never: { ...said.never, groups: [{ head: 'x', rows, end: 'y' }] } }
    const { pages, text } = await textOf(await limitsSheetPdf(long, about, 'a4'))
    expect(pages).toBeGreaterThan(1)
    for (const row of rows) expect(text).toContain(plain(row))
  })

  test('the same sheet gives the same bytes', async () => {
    const [first, second] = await Promise.all([
      limitsSheetPdf(said, about, 'a4'),
      limitsSheetPdf(said, about, 'a4'),
    ])
    expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true)
  })

  test('names in other letters come out as they are', async () => {
    const named: SheetSaid = { ...said, foot: 'Zażółć Ελλάδα Привет' }
    expect((await textOf(await limitsSheetPdf(named, about, 'a4'))).text).toContain(plain(named.foot))
  })
})
