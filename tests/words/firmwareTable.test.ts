import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildOf } from '../../src/core/build.ts'
import type { TableChange } from '../../src/core/firmwareTable/changes.ts'
import { propose } from '../../src/core/firmwareTable/propose.ts'
import type { FirmwareTable } from '../../src/core/firmwareTable/table.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import { figuresFor } from '../../src/words/figures.ts'
import {
  sayLimitRow,
  sayPartRow,
  sayTable,
  sayTableChange,
  sayTableNote,
} from '../../src/words/firmwareTable.ts'
import { arbitraryTable } from '../core/firmwareTable/arbitraryTable.ts'
import { runs } from '../runs.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
const plain = (text: string) => text.replaceAll('\u00a0', ' ')
const module = { sizeGB: 8, type: 'DDR4', partNumber: 'TN8' }

describe('what changed, in a sentence', () => {
  test.each<[TableChange, string]>([
    [
      { what: 'module added', place: 'DIMM_B1', module, count: 2 },
      'A second module was added: 8 GB DDR4 TN8 in DIMM_B1.',
    ],
    // Two at once: neither is "the second".
    [{ what: 'module added', place: 'DIMM_B1', module }, 'A module was added: 8 GB DDR4 TN8 in DIMM_B1.'],
    [{ what: 'module gone', module: {}, count: 1 }, 'A module was taken out: a module. One is left.'],
    [
      { what: 'module changed', place: 'A1', from: module, to: { sizeGB: 16, type: 'DDR4' } },
      'Another module: 16 GB DDR4 in A1 instead of 8 GB DDR4 TN8.',
    ],
    [{ what: 'firmware', from: '1.10', to: '1.20' }, 'Firmware 1.20 instead of 1.10.'],
    [{ what: 'board', from: 'Ridge', to: 'Crest' }, 'Another board: Crest instead of Ridge.'],
    [
      { what: 'memory rate', fromMts: 2666, toMts: 2133 },
      'The memory runs at 2133 MT/s instead of 2666 MT/s.',
    ],
  ])('%o', (change, says) => expect(plain(sayTableChange(change, figures))).toBe(says))
})

const TABLE: FirmwareTable = {
  ...{ firmware: {}, system: {}, board: {}, processors: [], arrays: [], slots: [], missingTexts: 2 },
  modules: [{ place: 'A1', holds: 'module', sizeMiB: 8192, type: 'DDR4', ratedMts: 2667, runsMts: 1333 }],
}
const held = (table: FirmwareTable) => {
  const build = buildOf([])
  return propose(table, { build, limits: limitsOf(build, []) }, [])
}

test('a clock that was written for the rate is told, beside the rate', () => {
  const [memory] = held(TABLE).parts.map((row) => sayPartRow(row, figures).lines.map(plain))
  expect(memory).toEqual([
    '8 GB DDR4 in A1, rated 2666 MT/s, runs at 2666 MT/s',
    'The table writes 1333, which is the clock; the rate is twice that.',
    'The label may say a higher rate: old firmware tells the standard’s, not the profile’s.',
  ])
  const [fact] = sayTable(TABLE, figures)
  expect(plain(fact?.text ?? '')).toBe('A1: 8 GB DDR4, rated 2666 MT/s, runs at 2666 MT/s (written as 1333)')
})

test('fields without a text are counted in words', () => {
  const says = (missingTexts: number) =>
    held({ ...TABLE, missingTexts }).notes.map((note) => sayTableNote(note, figures))
  expect(says(1)).toEqual(['One field names a text that is not there. It counts as not told.'])
  expect(says(2)).toEqual(['2 fields name texts that are not there. They count as not told.'])
})

/** Firmware may write braces of its own; without them, any that are left in a sentence are a placeholder nobody filled. */
const withoutBraces = arbitraryTable.map(
  (table): FirmwareTable =>
    JSON.parse(JSON.stringify(table), (_, value) =>
      typeof value === 'string' ? value.replaceAll(/[{}]/g, '-') : value,
    ),
)

test('every table has words for all it says', () => {
  fc.assert(
    fc.property(withoutBraces, (table) => {
      const { parts, limits, notes } = held(table)
      const said = [
        ...parts.flatMap((row) => Object.values(sayPartRow(row, figures)).flat()),
        ...limits.flatMap((row) => Object.values(sayLimitRow(row, figures)).flat()),
        ...notes.map((note) => sayTableNote(note, figures)),
        ...sayTable(table, figures).flatMap(({ label, text }) => [label, text]),
      ]
      for (const text of said) expect(text).not.toMatch(/\{\w*\}|undefined|NaN|\[object/)
    }),
    { numRuns: runs(100) },
  )
})
