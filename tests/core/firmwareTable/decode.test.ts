import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decodeTable } from '../../../src/core/firmwareTable/decode.ts'
import type { FirmwareTable } from '../../../src/core/firmwareTable/table.ts'
import { runs } from '../../runs.ts'
import { arbitraryTable } from './arbitraryTable.ts'
import { joined, SECRET_UUID, SECRETS, structure, structuresFor, tableFor } from './buildTable.ts'

const EMPTY: FirmwareTable = {
  ...{
    firmware: { version: '1.0' },
    system: {},
    board: {},
    processors: [],
    arrays: [],
    modules: [],
    slots: [],
  },
  missingTexts: 0,
}
const END = structure(127, 4, [])
const FIRMWARE = structure(0, 0x18, [[0x05, 1, '1.0']])

const tableOf = (...pieces: Uint8Array[]): FirmwareTable => {
  const decoded = decodeTable(joined([FIRMWARE, ...pieces, END]))
  if (!decoded.ok) throw new Error(decoded.fault.why)
  return decoded.table
}

test('what is written is read again, whatever it is', () => {
  fc.assert(
    fc.property(arbitraryTable, (table) => {
      const decoded = decodeTable(tableFor(table), { version: '3.2' })
      expect(decoded.ok && decoded.table).toEqual({ ...table })
    }),
    { numRuns: runs(200) },
  )
})

// 6.1.3: a field names a text by its number, so nothing keeps firmware from writing one text into two fields.
test.each([
  ['a module', 17, 0x28, 0x1a, 0x18],
  ['a module, its asset tag', 17, 0x28, 0x1a, 0x19],
  ['a board', 2, 0x0f, 0x06, 0x07],
  ['a processor', 4, 0x30, 0x10, 0x20],
] as const)(
  '%s: a serial number that is written into another field too is not kept',
  (_, type, length, shown, secret) => {
    const text = (is: string) =>
      JSON.stringify(
        decodeTable(
          joined([
            FIRMWARE,
            structure(type, length, [
              [shown, 1, is],
              [secret, 1, 'SN-4471'],
            ]),
            END,
          ]),
        ),
      )
    expect(text('SN-4471')).not.toContain('SN-4471')
    expect(text('GQ-16')).toContain('GQ-16')
  },
)

test('serial numbers, asset tags, the UUID and free texts are in nothing that was read', () => {
  fc.assert(
    fc.property(arbitraryTable, (table) => {
      const bytes = tableFor(table)
      const latin = Buffer.from(bytes).toString('latin1')
      for (const secret of SECRETS) expect(latin).toContain(secret === SECRETS[1] ? 'TAG' : secret)
      expect(latin).toContain(Buffer.from(SECRET_UUID).toString('latin1'))
      const read = JSON.stringify(decodeTable(bytes))
      for (const secret of SECRETS) expect(read).not.toContain(secret)
      expect(read).not.toMatch(/a0a1a2a3/i)
    }),
    { numRuns: runs(100) },
  )
})

// DSP0134, 7.18.4 (size), 7.18 (rates), 7.17 (maximum): the edges of each field.
describe('fields at their edges', () => {
  const module = (fields: Parameters<typeof structure>[2], length = 0x5c) =>
    tableOf(structure(17, length, fields)).modules[0]
  test.each([
    ['nothing fitted', 0, undefined, { holds: 'nothing' }],
    ['not told', 0xffff, undefined, { holds: 'not told' }],
    ['in MiB', 0x7ffe, undefined, { holds: 'module', sizeMiB: 32_766 }],
    ['in the long field', 0x7fff, 32_768, { holds: 'module', sizeMiB: 32_768 }],
    [
      'the long field without its reserved bit',
      0x7fff,
      0x80000000 + 65_536,
      { holds: 'module', sizeMiB: 65_536 },
    ],
    ['in KiB', 0x8000 | 512, undefined, { holds: 'module', sizeMiB: 0.5 }],
    ['a long field of nothing', 0x7fff, 0, { holds: 'not told' }],
  ])('size: %s', (_, short, long, read) => {
    expect(
      module([
        [0x0c, 2, short],
        [0x1c, 4, long],
      ]),
    ).toMatchObject(read)
  })

  test('a field is read only where the structure reaches it, whatever the version', () => {
    // SMBIOS 2.1: 0x15 bytes, no rate; 2.3: 0x1B bytes, no rate it runs at.
    expect(module([[0x0c, 2, 1024]], 0x15)).toEqual({ holds: 'module', sizeMiB: 1024 })
    expect(
      module(
        [
          [0x0c, 2, 1024],
          [0x15, 2, 800],
        ],
        0x1b,
      ),
    ).toMatchObject({ ratedMts: 800 })
    expect(module([[0x0c, 2, 0x7fff]], 0x1b)).toEqual({ holds: 'not told' })
  })

  test.each([
    ['KiB', 64 * 1024 * 1024, 0, 65_536],
    ['in the long field', 0x80000000, 2 * 1024 ** 4, 2 * 1024 ** 2],
    ['not told', 0, 0, undefined],
  ])('largest memory: %s', (_, short, long, maxMiB) => {
    const table = tableOf(
      structure(16, 0x17, [
        [0x05, 1, 3],
        [0x07, 4, short],
        [0x0f, 8, long],
      ]),
    )
    expect(table.arrays).toEqual([{ maxMiB }])
  })

  test('an old short array says the long field is meant and has none: not told', () => {
    expect(
      tableOf(
        structure(16, 0x0f, [
          [0x05, 1, 3],
          [0x07, 4, 0x80000000],
        ]),
      ).arrays,
    ).toEqual([{}])
  })

  // 7.1: two digits of a year are of the 1900s.
  test.each([
    ['12/03/2019', '2019-12-03'],
    ['02/30/99', '1999-02-30'],
    ['2019-12-03', '2019-12-03'],
    ['13/40/2019', '13/40/2019'],
  ])('date %s', (written, date) => {
    const decoded = decodeTable(
      joined([
        structure(0, 0x18, [
          [0x05, 1, 'a'],
          [0x08, 1, written],
        ]),
        END,
      ]),
    )
    expect(decoded.ok && decoded.table.firmware.date).toBe(date)
  })

  test('a PCI Express slot without a generation names none', () => {
    const slots = [0xa5, 0xaa, 0xb0, 0xb6, 0xb7, 0xbd, 0xc3, 0xc4, 0xb7, 0x01].map((code) =>
      structure(9, 0x0d, [[0x05, 1, code]]),
    )
    expect(
      tableOf(...slots).slots.map(({ type, pcieGen, lengthLanes }) => [type, pcieGen, lengthLanes]),
    ).toEqual([
      ['PCI Express', undefined, undefined],
      ['PCI Express x16', undefined, 16],
      ['PCI Express 2 x16', 2, 16],
      ['PCI Express 3 x16', 3, 16],
      [undefined, undefined, undefined],
      ['PCI Express 4 x16', 4, 16],
      ['PCI Express 5 x16', 5, 16],
      // 0xC4 names neither one generation nor a length.
      ['PCI Express 6+', undefined, undefined],
      [undefined, undefined, undefined],
      [undefined, undefined, undefined],
    ])
  })
})

test('texts keep to what can be printed, and to a bounded length', () => {
  const table = tableOf(
    structure(2, 0x0f, [
      [0x04, 1, '\x1b[31m\u00e9 Wicket  B360 '],
      [0x05, 1, 'x'.repeat(5000)],
    ]),
  )
  expect(table.board.maker).toBe('.[31m.. Wicket B360')
  expect(table.board.product).toBe('x'.repeat(100))
})

test('a text that is not there is not told, and counted', () => {
  const odd = structure(2, 0x0f, [
    [0x04, 1, 'Maker'],
    [0x05, 1, 9],
    [0x06, 1, 200],
  ])
  expect(tableOf(odd)).toMatchObject({ board: { maker: 'Maker', product: undefined }, missingTexts: 2 })
})

test('memory that is not the system’s is left out', () => {
  const whole = decodeTable(tableFor({ ...EMPTY, modules: [{ holds: 'nothing' }] }))
  expect(whole.ok && whole.table.modules).toHaveLength(1)
})

describe('what is no table ends in one fault', () => {
  const whole = tableFor({ ...EMPTY, board: { product: 'Wicket' } })
  const why = (bytes: Uint8Array, count?: number) => {
    const decoded = decodeTable(bytes, { count })
    return decoded.ok ? 'read' : decoded.fault.why
  }
  test('every shorter piece of a table is refused', () => {
    for (let length = 0; length < whole.length - 2; length++)
      expect(why(whole.subarray(0, length)), `${length} bytes`).not.toBe('read')
  })
  test.each([
    ['nothing', new Uint8Array(), 'nothing'],
    ['a structure shorter than its header', Uint8Array.of(0, 3, 0, 0, 0, 0), 'short structure'],
    ['a length past the end', Uint8Array.of(17, 200, 0, 0, 0, 0), 'cut'],
    ['an end mark that runs past the end', joined([FIRMWARE, Uint8Array.of(127, 200, 0, 0, 0, 0)]), 'cut'],
    [
      'texts without an end',
      joined([structure(0, 0x18, []).subarray(0, 0x18), Uint8Array.of(65, 66, 0)]),
      'cut',
    ],
    ['no end mark', joined([FIRMWARE]), 'no end mark'],
    ['an end mark alone', END, 'says nothing'],
    ['only structures that nobody asks for', joined([structure(11, 5, []), END]), 'says nothing'],
    [
      'more modules than any PC has',
      joined([...Array.from({ length: 129 }, () => structure(17, 0x1b, [])), END]),
      'too many',
    ],
  ])('%s', (_, bytes, fault) => expect(why(bytes)).toBe(fault))

  test('a count that the entry point promises ends a table without an end mark', () => {
    expect(why(joined([FIRMWARE]), 1)).toBe('read')
    expect(why(joined([FIRMWARE]), 2)).toBe('no end mark')
  })

  test('any bytes give a table or one fault', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(typeof decodeTable(bytes).ok).toBe('boolean')
      }),
      { numRuns: runs(500) },
    )
  })
})

test('no bytes are changed by reading them', () => {
  const pieces = structuresFor(EMPTY)
  const bytes = joined(pieces)
  const before = bytes.slice()
  decodeTable(bytes)
  expect(bytes).toEqual(before)
})
