import { describe, expect, test } from 'vitest'
import { type Colour, DARK, darkRules, LIGHT } from '../../src/mail/draw/colours.ts'
import { MARKS } from '../../src/mail/draw/marks.ts'

/** Which colour of text stands on which ground in the mail; each pair is read by somebody. */
const TEXT_ON: readonly (readonly [text: Colour, ground: Colour])[] = [
  ['ink', 'paper'],
  ['soft', 'paper'],
  ['ink', 'card'],
  ['soft', 'card'],
  ['copper', 'card'],
  ['verdigris', 'card'],
  ['brass', 'card'],
  ['slate', 'card'],
  ['oxide', 'card'],
  ['ink', 'lead'],
  ['soft', 'lead'],
  ['verdigris', 'lead'],
  ['brass', 'lead'],
  ['slate', 'lead'],
  ['oxide', 'lead'],
  ['copper', 'paper'],
  ['onCopper', 'copper'],
]

/** Contrast ratio (L1 + 0.05) / (L2 + 0.05) of relative luminances: WCAG 2.2, "contrast ratio" and "relative luminance". */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [r = 0, g = 0, b2 = 0] = [1, 3, 5]
      .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
      .map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4))
    return 0.2126 * r + 0.7152 * g + 0.0722 * b2
  }
  const [high = 0, low = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x)
  return (high + 0.05) / (low + 0.05)
}

test('the formula: black on white is 21, #767676 on white 4.54, #777777 4.48 (WCAG examples, from memory)', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5)
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2)
})

// WCAG 2.2, 1.4.3 (AA): 4.5 : 1 for text; 1.4.11: 3 : 1 for marks that carry meaning.
describe.each([
  ['light', LIGHT],
  ['dark', DARK],
] as const)('%s', (_, colours) => {
  test.each(TEXT_ON)('%s on %s', (text, ground) => {
    expect(contrast(colours[text], colours[ground])).toBeGreaterThanOrEqual(4.5)
  })

  test.each([
    ['rule', 'card'],
    ['copper', 'card'],
    ['ink', 'card'],
  ] as const)('bars and lines: %s on %s', (mark, ground) => {
    expect(contrast(colours[mark], colours[ground])).toBeGreaterThanOrEqual(3)
  })
})

test('every verdict’s tone is among the pairs that are checked, on both grounds it stands on', () => {
  const pairs = new Set(TEXT_ON.map((p) => p.join(' ')))
  const missing = Object.values(MARKS).flatMap(({ tone }) =>
    (['card', 'lead'] as const).filter((ground) => !pairs.has(`${tone} ${ground}`)),
  )
  expect(missing).toEqual([])
})

test('every colour is repainted in the dark, as text, ground and border', () => {
  const rules = darkRules()
  for (const name of Object.keys(LIGHT) as Colour[])
    for (const use of ['t', 'g', 'b']) expect(rules).toContain(`.${use}-${name}`)
})
