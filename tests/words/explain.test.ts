import { describe, expect, test } from 'vitest'
import { buildOf, changedKinds } from '../../src/core/build.ts'
import type { Finding } from '../../src/core/fit/finding.ts'
import { judgeChange } from '../../src/core/fit/judgeChange.ts'
import { RULES } from '../../src/core/fit/rules.ts'
import type { Claim } from '../../src/core/limits/limit.ts'
import type { Part } from '../../src/core/part.ts'
import { EXPLAIN_WORDS, SOURCE_KIND_WORDS } from '../../src/words/en/explain.ts'
import { VALUE_WORDS } from '../../src/words/en/valueWords.ts'
import { explainedLines, explainFinding } from '../../src/words/explain.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { board, card, change, cooler, kit, policy, processor, supply, tower } from '../core/fit/bench.ts'
import { graphicsCases } from '../core/fit/casebook/graphics.ts'
import { memoryCases } from '../core/fit/casebook/memory.ts'
import { processorCases } from '../core/fit/casebook/processor.ts'
import { workAndOfficeCases } from '../core/fit/casebook/workAndOffice.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ')

function explained(
  rule: string,
  add: readonly Part[],
  claims: readonly Claim[] = [],
  fitted: readonly Part[] = [],
) {
  const build = buildOf([processor, board, kit, card, supply, tower, cooler, ...fitted])
  const asked = change(add)
  const { findings, limitsAfter } = judgeChange({ tag: 'M-0001', build, claims }, asked, policy)
  const finding = findings.find((f) => f.rule === rule)
  if (finding === undefined) throw new Error(`${rule} is silent`)
  return explainFinding(finding, { limits: limitsAfter, changed: changedKinds(asked, build) }, figures)
}
const newCard: Part = { ...card, id: 'CARD-NEW', name: 'New card', lengthMm: 310 }
const tape: Claim = {
  key: 'cardRoomMm',
  value: 320,
  source: 'measured',
  at: '2026-01-02T00:00:00Z',
  note: 'fans in',
}

describe('a finding that opens', () => {
  test('each value has a plain heading and its unit, in the order of the rule', () => {
    const { values } = explained('graphics.length', [newCard])
    expect(values.map(({ label, value }) => `${label}: ${plain(value)}`)).toEqual([
      'Length of the card: 310 mm',
      'Room in the case: 300 mm',
      'Room with the front fans moved: 300 mm',
      'Over by: 10 mm',
    ])
  })

  test('a share and what is taken off for each year are percentages', () => {
    const { values } = explained('power.load', [{ ...newCard, boardPowerW: undefined } as Part])
    const said = values.map(({ label, value }) => `${label}: ${value}`)
    expect(said).toContain('Share we count on while it is new: 80%')
    expect(said).toContain('Taken off for each year after that: 2%')
  })

  test('the rule is said in a sentence, with its thresholds and its document', () => {
    const { rule, says, isOnSheet, thresholds, source } = explained('graphics.thickness', [newCard])
    expect({ rule, says, isOnSheet }).toEqual({
      rule: 'graphics.thickness',
      says: 'The card may not cover more slots than the case has.',
      isOnSheet: true,
    })
    // ATX Specification 2.x: slots lie 0.8 inch apart, 20.32 mm.
    expect(thresholds).toEqual(['20.32 mm a slot (ATX Specification 2.x)'])
    expect(source).toEqual({
      kind: 'published standard',
      text: 'ATX Specification 2.x, expansion slot spacing',
    })
  })

  test('a limit says who, when and why, what another source says, and what would be counted on instead', () => {
    const typed: Claim = { key: 'cardRoomMm', value: 305, source: 'entered' }
    const [limit] = explained('graphics.length', [newCard], [typed, tape]).limits ?? []
    expect(limit).toMatchObject({
      key: 'cardRoomMm',
      label: 'Room for a card',
      isKnown: true,
      ofNewPart: false,
    })
    expect(plain(limit?.value)).toBe('320 mm')
    expect(plain(limit?.by)).toBe('measured Jan 2, 2026 (fans in)')
    expect(plain(limit?.conflict)).toBe(
      'Sources disagree: a measurement says 320 mm, the data sheet says 300 mm, a typed value says 305 mm. We count on 320 mm.',
    )
    // Belief without the tape: the data sheet comes before what was typed (limits/catalogue).
    expect(plain(limit?.instead)).toBe('If that is wrong: 300 mm, from its data sheet.')
  })

  test('a hint alone would not be counted on', () => {
    const read: Claim = { key: 'memorySlots', value: 2, source: 'read' }
    const [limit] = explained('memory.slots', [{ ...kit, id: 'MEM-NEW' }], [read]).limits ?? []
    expect(limit?.instead).toBe(
      "If that is wrong: not known; the machine's own table says 2, which is only a hint.",
    )
  })

  test('where nobody disagrees there is nothing to say instead', () => {
    const [limit] = explained('graphics.length', [newCard]).limits ?? []
    expect(limit?.conflict).toBeUndefined()
    expect(limit?.instead).toBeUndefined()
  })

  test('what is missing says how it is found out, once', () => {
    const bare = { ...tower, id: 'CASE-BARE', cardRoomMm: undefined }
    const { missing, limits } = explained('graphics.length', [newCard], [], [bare])
    expect(missing).toEqual([
      {
        limit: 'cardRoomMm',
        label: 'Room for a card',
        findOut:
          'Measure from the metal plate at the back of the slots to the first thing in the way, in mm.',
      },
    ])
    expect(limits?.[0]).toMatchObject({ value: 'not known', isKnown: false })
    expect(limits?.[0]?.findOut).toBeUndefined()
  })

  test('a figure of a part names the part', () => {
    const { missing } = explained('graphics.length', [{ ...newCard, lengthMm: undefined } as Part])
    expect(missing).toEqual([{ label: 'New card: its length' }])
  })

  test('a limit of a part that comes with the change is told from the machine’s own', () => {
    const newBoard: Part = { ...board, id: 'BRD-NEW', name: 'New board' }
    const { limits } = explained('memory.slots', [newBoard])
    expect(limits?.map(({ key, ofNewPart }) => [key, ofNewPart])).toEqual([['memorySlots', true]])
  })

  test('what nobody said and could change the answer stands apart', () => {
    const { limits, couldChange } = explained('swap.licence', [{ ...board, id: 'BRD-NEW' } as Part])
    expect(limits).toEqual([])
    expect(couldChange).toMatchObject([{ limit: 'systemLicence', label: 'Licence of the system' }])
    expect(couldChange[0]?.findOut).toContain('activation')
  })

  test('a finding of earlier rules still opens, as far as it goes', () => {
    const old = { rule: 'graphics.weight', verdict: 'fits', values: { cardKg: 2 }, missing: [], needs: [] }
    const source = { kind: 'standard', text: 'an old document' }
    const opened = explainFinding({ ...old, cautions: [], source } as unknown as Finding, undefined, figures)
    expect(opened).toEqual({
      ...{ rule: 'graphics.weight', says: 'a rule of an earlier edition', isOnSheet: false },
      ...{ values: [{ label: 'cardKg', value: '2' }], thresholds: [], missing: [], couldChange: [] },
      source: { kind: 'published standard', text: 'an old document' },
    })
    expect(explainedLines(opened)).toContain(`  ${EXPLAIN_WORDS.notKept}`)
  })
})

describe('over the whole case book', () => {
  const book = [...processorCases, ...memoryCases, ...graphicsCases, ...workAndOfficeCases]
  const opened = book.flatMap((c) => {
    const build = buildOf(c.machine.parts)
    const machine = { tag: 'M-0001', build, claims: c.machine.claims, at: '2026-11-25T12:00:00.000Z' }
    const { findings, limitsAfter } = judgeChange(machine, c.change, policy)
    const behind = { limits: limitsAfter, changed: changedKinds(c.change, build) }
    return findings.map((finding) => ({ finding, as: explainFinding(finding, behind, figures) }))
  })

  test('every value has a heading, and no heading is the name from the code', () => {
    expect(opened.length).toBeGreaterThan(1000)
    for (const { finding, as } of opened) {
      expect(as.values.length, finding.rule).toBe(Object.keys(finding.values).length)
      for (const { label, value } of as.values) {
        expect(label, finding.rule).toMatch(/^[A-Z]/)
        expect(label in VALUE_WORDS, label).toBe(false)
        expect(value, `${finding.rule} ${label}`).not.toMatch(/undefined|NaN|\[object|^$/)
      }
    }
  })

  test('within one rule no two values have the same heading', () => {
    for (const { finding, as } of opened) {
      const labels = as.values.map(({ label }) => label)
      expect(new Set(labels).size, `${finding.rule}: ${labels}`).toBe(labels.length)
    }
  })

  test('every limit that a rule needs is opened, and what is missing stands among the missing', () => {
    for (const { finding, as } of opened) {
      const rule = RULES.find(({ id }) => id === finding.rule)
      const shown = as.limits?.map(({ key }) => key) ?? []
      expect(
        rule?.reads.filter((key) => !shown.includes(key as never)),
        finding.rule,
      ).toEqual([])
      expect(as.missing.length).toBe(finding.missing.length)
      expect(Object.values(SOURCE_KIND_WORDS)).toContain(as.source.kind)
    }
  })

  test('the lines for a terminal leave nothing out', () => {
    for (const { as } of opened.slice(0, 300)) {
      const text = explainedLines(as).join('\n')
      for (const { label, value } of as.values) expect(text).toContain(`${label}: ${value}`)
      for (const { label, by } of as.limits ?? []) {
        expect(text).toContain(label)
        expect(text).toContain(by)
      }
      expect(text).toContain(as.source.text)
    }
  })
})
