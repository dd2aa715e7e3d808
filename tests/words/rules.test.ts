import { describe, expect, test } from 'vitest'
import { RULES } from '../../src/core/fit/rules.ts'
import { ruleSheet } from '../../src/words/rules.ts'

const sheet = ruleSheet()
const of = (id: string) => {
  const row = sheet.find((r) => r.id === id)
  if (row === undefined) throw new Error(`no ${id}`)
  return row
}

describe('the sheet of rules', () => {
  test('has every rule once, in the order of the findings', () => {
    expect(sheet.map((row) => row.id)).toEqual(RULES.map((rule) => rule.id))
  })

  // ISO 24495-1 (plain language), as our own guide takes it: one sentence, none over 22 words.
  test.each(sheet.map((row) => [row.id, row] as const))('%s says one plain sentence', (_, { says }) => {
    expect(says).toMatch(/^[A-Z].*[^.]\.$/)
    expect(says).not.toMatch(/[.!?] [A-Z]/)
    expect(says.split(/\s+/).length).toBeLessThanOrEqual(22)
  })

  test('no two rules say the same', () => {
    expect(new Set(sheet.map((row) => row.says)).size).toBe(sheet.length)
  })

  test('names limits by their headings, and keeps what is needed apart from what helps', () => {
    expect(of('graphics.length')).toMatchObject({
      reads: ['Room for a card'],
      mayRead: ['Room for a card, fans out', 'Fan in front'],
    })
    expect(of('memory.rate')).toMatchObject({
      reads: ["Processor's memory rate", "Board's memory rate"],
      mayRead: ['Memory above the rated rate'],
    })
  })

  // ATX Specification: 0.8 inch a slot; ATX12V guide: 8 A a contact at 12 V; Intel 336521 Tables 5-5 and 5-6.
  test.each([
    ['graphics.thickness', '20.32 mm a slot', 'ATX Specification'],
    ['processor.plug', '192 W over a 4-pin plug, 384 W over an 8-pin plug', '8 A a contact'],
    ['power.plugs', '75 W over a 6-pin plug, 150 W over an 8-pin plug', 'Intel 336521'],
    ['memory.system', '4 GB', '2^32 bytes'],
  ])('%s: %s by %s', (id, figure, document) => {
    const [threshold] = of(id).thresholds
    expect(threshold).toContain(figure)
    expect(threshold).toContain(document)
  })

  test('every threshold has a figure, and every rule a document or the practice it rests on', () => {
    for (const { id, thresholds, source } of sheet) {
      for (const threshold of thresholds) expect(threshold, id).toMatch(/\d/)
      expect(source.text.length, id).toBeGreaterThan(10)
    }
  })
})
