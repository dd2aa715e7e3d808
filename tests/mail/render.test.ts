import { describe, expect, test } from 'vitest'
import { fetches } from '../../src/mail/frame.ts'
import { renderAnswer } from '../../src/mail/render.ts'
import type { Letter } from '../../src/words/answer/letter.ts'
import { letterOf } from '../../src/words/answer.ts'
import { TEXT_COLUMNS } from '../../src/words/wrap.ts'
import { answerOf, CARD, gain, KINDS, PARTS, RANKING, SHELF } from '../words/answers.ts'
import { proseOf } from '../words/prose.ts'

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#39': "'",
  nbsp: ' ',
}

/** What a reader sees of the HTML: no head, no comments, no hidden preheader. */
const seen = (html: string): string =>
  html
    .replace(/<head>[\s\S]*?<\/head>/, '')
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/<div style="display:none[\s\S]*?<\/div>/, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(amp|lt|gt|quot|#39|nbsp);/g, (_, name: string) => ENTITIES[name] ?? '')
    .replace(/[\s\u00a0]+/g, ' ')

/** Every number with its sign, money sign and unit: "$142", "+29%", "63 FPS", "267 mm". */
const figuresIn = (text: string): ReadonlySet<string> =>
  new Set(
    [
      ...text
        .replace(/[\s\u00a0]+/g, ' ')
        .matchAll(/[+\u2212]?\$?\d+(?:[.,]\d+)*(?:%| (?:FPS|mm|GB\/s|MT\/s|GB|W|Hz|minutes?|months)\b)?/g),
    ].map((m) => m[0]),
  )

const letters = Object.entries(KINDS).map(([name, answer]) => ({ name, letter: letterOf(answer) }))

/** The HTML's sentences that explain the drawing repeat the wanted rate and the display; legend and all. */
const drawingOf = (l: Letter): ReadonlySet<string> =>
  figuresIn([...(l.games?.drawn ?? []), l.games?.targetSays ?? '', l.games?.displaySays ?? ''].join(' '))

describe.each(letters)('$name', ({ letter }) => {
  test('text and HTML carry the same figures, but for what explains the drawing', async () => {
    const { html, text } = await renderAnswer(letter)
    const [inHtml, inText] = [figuresIn(seen(html)), figuresIn(text)]
    expect(inText.size).toBeGreaterThan(5)
    expect([...inText].filter((f) => !inHtml.has(f))).toEqual([])
    expect([...inHtml].filter((f) => !inText.has(f) && !drawingOf(letter).has(f))).toEqual([])
  })

  test('every sentence of the letter is in both parts, but for what belongs to one of them', async () => {
    const { html, text } = await renderAnswer(letter)
    const { drawn = [] } = letter.games ?? {}
    const inHtmlOnly = new Set([...drawn, letter.foot.loads, letter.reply.note])
    const notInHtml = new Set([letter.reply.text, letter.preheader])
    const [html1, text1] = [seen(html), text.replace(/\s+/g, ' ')]
    const said = proseOf(letter).map((s) => ({ s, plain: s.replaceAll('\u00a0', ' ') }))
    const inHtml = (plain: string) => html1.replaceAll(' ', '').includes(plain.replaceAll(' ', ''))
    expect(said.filter(({ s, plain }) => !notInHtml.has(s) && !inHtml(plain))).toEqual([])
    expect(
      said.filter(({ s, plain }) => !inHtmlOnly.has(s) && s !== letter.preheader && !text1.includes(plain)),
    ).toEqual([])
  })

  test('text and HTML have the same sentences in the same order', async () => {
    const { html, text } = await renderAnswer(letter)
    const said = [
      letter.lead.answer,
      letter.games?.head,
      letter.price?.head,
      letter.roads?.head,
      letter.board?.head,
      letter.handsIn?.head,
      letter.known?.head,
      letter.sign[1],
      letter.foot.why,
    ]
    const anchors = said.filter((s) => s !== undefined).map((s) => s.replaceAll('\u00a0', ' '))
    for (const part of [seen(html), text.replace(/\s+/g, ' ')]) {
      const places = anchors.map((s) => part.indexOf(s))
      expect(places).not.toContain(-1)
      expect(places).toEqual([...places].sort((a, b) => a - b))
    }
  })

  test('the HTML is whole, small and fetches nothing', async () => {
    const { html } = await renderAnswer(letter)
    expect(html).toMatch(/^\s*<!doctype html>/i)
    expect(html).toMatch(/<html lang="en/)
    expect(html).not.toMatch(/\{\{|\}\}|undefined|NaN|\[object/)
    expect(fetches(html)).toBeUndefined()
    // Mail programs cut a mail near 102 kB (common practice).
    expect(Buffer.byteLength(html)).toBeLessThan(100_000)
  })

  test('the text keeps to 72 columns and has no marks', async () => {
    const { text } = await renderAnswer(letter)
    expect(text.split('\n').filter((l) => [...l].length > TEXT_COLUMNS)).toEqual([])
    expect(text).not.toMatch(/[\u00a0\u25a0-\u25ff<>*]|undefined|NaN|\t/)
    expect(text.split('\n-- \n')).toHaveLength(2)
  })
})

test('verdicts are words beside their marks, and marks are hidden from screen readers', async () => {
  const { html } = await renderAnswer(letterOf(answerOf()))
  for (const word of ['fits, runs below its rating', 'fits after work', 'can’t tell', 'does not fit'])
    expect(seen(html)).toContain(word)
  expect(html.match(/aria-hidden="true"/g)?.length).toBeGreaterThan(8)
})

describe('the drawing', () => {
  const widthsOf = (html: string) =>
    [...html.matchAll(/<tr>((?:<td width="[\d.]+%" height="14".*?<\/td>)+)<\/tr>/g)].map((m) => m[1] ?? '')

  /** Widths in percent of the cells of each row, nested tables apart. */
  const rowsOf = (html: string): readonly number[][] => {
    const open: number[][] = []
    const done: number[][] = []
    for (const [tag, width] of html.matchAll(/<(?:tr\b[^>]*|\/tr|td width="([\d.]+)%"[^>]*)>/g)) {
      if (tag.startsWith('<tr')) open.push([])
      else if (tag === '</tr>') done.push(open.pop() ?? [])
      else open.at(-1)?.push(Number(width))
    }
    return done.filter((row) => row.length > 0)
  }

  test('cells of a row add up to its whole width, within rounding to a tenth', async () => {
    const { html } = await renderAnswer(letterOf(answerOf()))
    const rows = rowsOf(html)
    expect(rows.length).toBeGreaterThan(15)
    for (const row of rows) {
      const sum = row.reduce((a, b) => a + b, 0)
      expect(Math.abs(sum - 100), row.join(' ')).toBeLessThan(0.05 * row.length + 1e-9)
    }
  })

  test('a bar ends where its figure says: 42.3 of the 60 to the wanted line is 70.5 %', async () => {
    const { html } = await renderAnswer(letterOf(answerOf()))
    expect(rowsOf(html)).toContainEqual([70.5, 29.5])
  })

  test('a game far past the wanted rate does not stretch the scale', async () => {
    const far = [
      gain('harbor', 400, 900, { low: 880, high: 920 }),
      gain('winter', 42, 63, { low: 60, high: 66 }),
    ]
    const { html } = await renderAnswer(
      letterOf(answerOf({ ranking: { ...RANKING, ranked: [{ ...CARD, gains: far }] } })),
    )
    // Scale ends at two and a half times the wanted 60 FPS: the wanted line stands at 40 %, what goes on has an arrow.
    expect(widthsOf(html)[0]).toMatch(/^<td width="40%"/)
    expect(html).toContain('\u25b8')
  })

  test.each([
    ['display at the wanted rate', 60, 60],
    ['display below the wanted rate', 144, 60],
    ['a very quick display', 60, 360],
    ['no display', 60, undefined],
  ])('%s', async (_, targetFps, refreshHz) => {
    const letter = letterOf(answerOf({ question: { targetFps, display: { refreshHz } } }))
    const { html } = await renderAnswer(letter)
    expect(html).not.toMatch(/width="-|width="0%"|NaN/)
    expect(widthsOf(html).length).toBeGreaterThan(0)
  })
})

const HOSTILE = [
  '<script>alert(1)</script>',
  '{{title}} {{{lead}}}',
  `"><b onmouseover='x'>&amp;`,
  'x'.repeat(200),
  '**bold** [x](javascript:1)',
  '\u202eevil\u202c',
]

describe.each(HOSTILE)('hostile text everywhere: %s', (bad) => {
  const answer = answerOf({
    customer: { id: 'K', name: bad, email: 'a@example.org' },
    shop: { name: bad, address: bad, builder: bad },
    question: { words: bad },
    parts: PARTS.map((p) => ({ ...p, name: bad })),
    shelf: SHELF.map((s) => ({ ...s, note: bad })),
    titles: ['harbor', 'rally', 'winter'].map((id) => ({ id, name: bad })),
  })
  const letter = letterOf(answer, { opening: bad, closing: bad, subject: bad })

  test('is shown as typed and changes nothing of the frame', async () => {
    const { html, text } = await renderAnswer(letter)
    const clean = await renderAnswer(letterOf(answerOf(), { opening: 'x', closing: 'x' }))
    const tags = (h: string) => (h.match(/<(script|b|a|img|h1|h2|table)\b/g) ?? []).sort()
    expect(tags(html)).toEqual(tags(clean.html))
    expect(html).not.toMatch(/<script|href="javascript|<b onmouseover/)
    expect(html).not.toContain('\u202e')
    expect(fetches(html)).toBeUndefined()
    const shown = bad.replace(/[\u202a-\u202e]/g, '')
    expect(seen(html)).toContain(shown.length > 100 ? 'x'.repeat(200) : shown)
    expect(text.split('\n').filter((l) => [...l].length > TEXT_COLUMNS)).toEqual([])
  })
})

test('many games and many parts stay under 100 kB', async () => {
  const titles = Array.from({ length: 14 }, (_, i) => ({
    id: `t${i}`,
    name: `A rather long title of a game ${i}`,
  }))
  const gains = titles.map((t, i) =>
    gain(t.id, 40 + i, 60 + i, { low: 58 + i, high: 62 + i, slow: [30, 45] }),
  )
  const ruledOut = Array.from({ length: 40 }, (_, i) => ({
    ...(RANKING.ruledOut[0] ?? { lacking: [], findings: [], verdict: 'does not fit' as const }),
    partId: `C-${i}`,
    shelfItemId: `K-${i}`,
  }))
  const { html } = await renderAnswer(
    letterOf(answerOf({ titles, ranking: { ...RANKING, ranked: [{ ...CARD, gains }], ruledOut } })),
  )
  expect(Buffer.byteLength(html)).toBeLessThan(100_000)
})
