import { describe, expect, test } from 'vitest'
import { runCommand } from '../../src/cli/commands.ts'

async function runFit(args: string[], stdin: object) {
  const said = { out: '', err: '' }
  const code = await runCommand(['fit', ...args], {
    out: (text) => {
      said.out += text
    },
    err: (text) => {
      said.err += text
    },
    readStdin: async () => JSON.stringify(stdin),
    openStore: () => Promise.reject(new Error('fit needs no database')),
    now: () => '2026-11-25T12:00:00.000Z',
  })
  return { code, out: said.out.replaceAll('\u00a0', ' '), err: said.err }
}

/** A card of 310 mm, a data sheet that says 320 mm and a tape that says 300 mm: the tape is believed. */
const LONG_CARD = {
  machine: {
    parts: [{ kind: 'case', id: 'c', name: 'a case', cardRoomMm: 320, cardSlots: 4 }],
    claims: [{ key: 'cardRoomMm', value: 300, source: 'measured', note: 'front fans in' }],
  },
  change: { add: [{ kind: 'card', id: 'k', name: 'a card', lengthMm: 310, thicknessMm: 40 }] },
}

describe('fit --explain', () => {
  test('opens each finding to its numbers, its limits and its document', async () => {
    const { code, out } = await runFit(['--explain'], LONG_CARD)
    expect(code).toBe(4)
    const length = out.split('graphics.length: ')[1]?.split('\n\n')[0] ?? ''
    for (const line of [
      '  Rule: The card may not be longer than the free length in the case. (graphics.length)',
      '    Length of the card: 310 mm',
      '    Over by: 10 mm',
      '    Room for a card: 300 mm, measured (front fans in)',
      '      If that is wrong: 320 mm, from its data sheet.',
      "  Stands on: card's data sheet against the free length in the case (common practice of the trade)",
    ])
      expect(length).toContain(line)
  })

  test('without it the lines are as short as before', async () => {
    const { out } = await runFit([], LONG_CARD)
    expect(out).not.toContain('What was compared')
    expect(out).toContain('  source: common practice, ')
  })

  test('with --json the same as data, one entry a finding', async () => {
    const { out } = await runFit(['--explain', '--json'], LONG_CARD)
    const { findings, explained } = JSON.parse(out)
    expect(explained.map((e: { rule: string }) => e.rule)).toEqual(
      findings.map((f: { rule: string }) => f.rule),
    )
    expect(JSON.parse((await runFit(['--json'], LONG_CARD)).out).explained).toBeUndefined()
  })
})
