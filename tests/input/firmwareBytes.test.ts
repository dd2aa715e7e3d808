import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FirmwareTable } from '../../src/core/firmwareTable/table.ts'
import { READING_BYTES, readFirmware, readHandedTable } from '../../src/input/firmwareBytes.ts'
import { arbitraryTable } from '../core/firmwareTable/arbitraryTable.ts'
import {
  dumpOf,
  entry32,
  entry64,
  joined,
  structuresFor,
  tableFor,
  windowsOf,
} from '../core/firmwareTable/buildTable.ts'
import { runs } from '../runs.ts'

const TABLE: FirmwareTable = {
  firmware: { version: '1.20', maker: 'Tarn Firmware' },
  system: { maker: undefined, product: undefined },
  board: { product: 'Ridge B360M', maker: 'Ironside', version: undefined },
  processors: [],
  arrays: [{ maxMiB: 65_536, places: 4 }],
  modules: [{ holds: 'module', sizeMiB: 8192, place: 'DIMM_A1' }],
  slots: [],
  missingTexts: 0,
}
const bare = tableFor(TABLE)
const windows = windowsOf(bare)

const read = (given: Uint8Array | string) => {
  const result = readFirmware(given, 'table')
  if (!result.ok) throw new Error(result.problems[0]?.next)
  return result.value
}
const refusal = (given: Uint8Array | string): string => {
  const result = readFirmware(given, 'table')
  if (result.ok) return 'read'
  expect(result.problems).toHaveLength(1)
  expect(result.problems[0]).toMatchObject({
    field: 'table',
    allowed: expect.stringContaining('firmware table'),
  })
  return result.problems[0]?.next ?? ''
}

const text = (bytes: Uint8Array) => Buffer.from(bytes)
const hex = (bytes: Uint8Array) => text(bytes).toString('hex')
const rows = (bytes: Uint8Array, row: (at: number, pairs: string[]) => string) =>
  Array.from({ length: Math.ceil(bytes.length / 16) }, (_, n) =>
    row(
      n * 16,
      [...bytes.subarray(n * 16, n * 16 + 16)].map((byte) => byte.toString(16).padStart(2, '0')),
    ),
  ).join('\n')
const letters = (pairs: string[]) =>
  pairs.map((pair) => String.fromCharCode(Number.parseInt(pair, 16)).replace(/[^ -~]/, '.')).join('')
const place = (at: number, digits: number) => at.toString(16).padStart(digits, '0')

describe('what a table may be saved as', () => {
  // DSP0134, 7.46: the end mark is for tables that end before their buffer does; Windows says the exact length.
  test('as Windows gives it, without an end mark', () => {
    const noMark = windowsOf(joined(structuresFor(TABLE).slice(0, -1)))
    expect(read(noMark).modules).toEqual(read(windows).modules)
    expect(refusal(noMark.subarray(8))).toMatch(/no end mark/)
  })

  test.each<[string, Uint8Array, string | undefined]>([
    ['bare, as Linux keeps it', bare, undefined],
    ['a dump behind a 64-bit entry point', dumpOf(bare), '3.2'],
    [
      'a dump behind a 32-bit entry point',
      dumpOf(bare, entry32(bare.length, structuresFor(TABLE).length)),
      '3.2',
    ],
    ['entry point and table put together', joined([entry64(bare.length, 0xe0000), bare]), '3.2'],
    [
      'the same with 32 bits',
      joined([entry32(bare.length, structuresFor(TABLE).length, 0xe0000), bare]),
      '3.2',
    ],
    ['as Windows gives it', windows, '3.2'],
  ])('%s', (_, bytes, version) => {
    const expected = { ...TABLE, version, firmware: { ...TABLE.firmware, date: undefined } }
    expect(read(bytes)).toEqual(expected)
    expect(read(text(bytes).toString('base64'))).toEqual(expected)
    expect(read(hex(bytes))).toEqual(expected)
  })

  test.each<[string, string]>([
    ['base64 in lines', text(windows).toString('base64').replace(/.{76}/g, '$&\r\n')],
    ['base64 without its end signs', text(windows).toString('base64').replace(/=+$/, '')],
    ['base64 for addresses (RFC 4648, 5)', text(windows).toString('base64url')],
    [
      'base64 between PEM lines',
      `-----BEGIN CERTIFICATE-----\n${text(windows).toString('base64')}\n-----END CERTIFICATE-----\n`,
    ],
    ['hex in capitals', hex(windows).toUpperCase()],
    ['hex with spaces', hex(windows).replace(/../g, '$& ')],
    ['hex as a list of numbers', hex(windows).replace(/../g, '0x$&, ')],
    ['hex with dashes', hex(windows).replace(/..(?=.)/g, '$&-')],
    [
      'a dump with places and letters',
      rows(
        windows,
        (at, p) =>
          `${place(at, 8)}: ${p
            .join(' ')
            .replace(/(..) (..)/g, '$1$2')
            .padEnd(39)}  ${letters(p)}`,
      ),
    ],
    [
      'a dump between bars, with the length behind',
      `${rows(windows, (at, p) => `${place(at, 8)}  ${p.join(' ').padEnd(48)} |${letters(p)}|`)}\n${place(windows.length, 8)}\n`,
    ],
    [
      'a dump with places only',
      `${rows(windows, (at, p) => `${place(at, 6)} ${p.join(' ')}`)}\n${place(windows.length, 6)}\n`,
    ],
  ])('%s', (_, given) => expect(read(given).board.product).toBe('Ridge B360M'))

  test.each<[string, Uint8Array]>([
    ['UTF-8', new TextEncoder().encode(text(windows).toString('base64'))],
    [
      'UTF-16, as older PowerShell writes files',
      joined([
        Uint8Array.of(0xff, 0xfe),
        new Uint8Array(Buffer.from(text(windows).toString('base64'), 'utf16le')),
      ]),
    ],
  ])('a file with base64 text in %s', (_, file) => expect(read(file).board.product).toBe('Ridge B360M'))

  test('every table is the same in every form', () => {
    fc.assert(
      fc.property(arbitraryTable, (table) => {
        const bytes = windowsOf(tableFor(table))
        const expected = read(bytes)
        expect(read(text(bytes).toString('base64'))).toEqual(expected)
        expect(
          read(rows(bytes, (at, p) => `${place(at, 8)}: ${p.join(' ').padEnd(48)}  ${letters(p)}`)),
        ).toEqual(expected)
      }),
      { numRuns: runs(40) },
    )
  })
})

describe('what is no table ends in one message', () => {
  test.each<[string, Uint8Array | string, RegExp]>([
    ['nothing', '', /nothing in it/],
    ['only spaces', ' \n\t ', /nothing in it/],
    ['words', 'hello', /neither hex nor base64/],
    ['a sentence', 'Could you look at this, please?', /neither hex nor base64/],
    [
      'a report in words',
      '# dmidecode 3.6\nSMBIOS 3.2.0 present.\n\nHandle 0x0000, DMI type 0\n',
      /report in words/,
    ],
    ['half a byte', hex(windows).slice(1), /half a byte/],
    ['base64 that was cut', text(windows).toString('base64').slice(0, 401), /not whole/],
    [
      'a dump with lines left out',
      `00000000: 0000 0000 0000 0000\n00000010: 0000 0000 0000 0000\n*\n00000040: 0000`,
      /leaves repeated lines out/,
    ],
    ['64 MiB', new Uint8Array(64 * 1024 * 1024), /larger than any/],
    ['one byte over the limit', new Uint8Array(READING_BYTES + 1), /larger than any/],
    ['64 MiB of text', 'A'.repeat(64 * 1024 * 1024), /larger than any/],
    ['the entry point alone', entry64(bare.length), /only the header/],
    ['an entry point that was changed', dumpOf(bare, entry64(bare.length).with(7, 9)), /does not add up/],
    [
      'a table that is shorter than its 32-bit entry point says',
      dumpOf(bare.subarray(0, -9), entry32(bare.length, 99)),
      /promises \d+ bytes/,
    ],
    ['a table that is shorter than Windows says', windows.subarray(0, -1), /promises \d+ bytes/],
    ['Windows with a length of 4 GB', windows.with(7, 0xff), /promises \d+ bytes/],
    ['a bare table that was cut', bare.subarray(0, bare.length - 12), /breaks off|no end mark/],
    ['a picture', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0), /breaks off|damaged/],
    ['an archive', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 0, 0, 8, 0), /damaged|breaks off/],
  ])('%s', (_, given, says) => expect(refusal(given)).toMatch(says))

  test('a table behind Windows’ header, cut anywhere, is refused', () => {
    for (let length = 0; length < windows.length; length++)
      expect(refusal(windows.subarray(0, length))).not.toBe('read')
  })

  test('text that a careless pattern would hang on is answered', () => {
    // A hang fails by the runner's own limit; 4 MiB is what is let in.
    const most = READING_BYTES
    for (const hostile of [
      `a${' '.repeat(most - 2)}z`,
      `${'aa '.repeat(most / 3 - 2)}z`,
      '\n'.repeat(most),
      '0x'.repeat(most / 2),
      '='.repeat(most),
      `00000010: ${'aa '.repeat(1_300_000)}`,
    ]) {
      expect(refusal(hostile)).not.toBe('read')
    }
  })
})

describe('what a page hands on to itself', () => {
  test('is read again, and holds nothing else', () => {
    const handed = JSON.stringify(read(windows))
    expect(readHandedTable(handed, 'table')).toMatchObject({
      ok: true,
      value: { board: { product: 'Ridge B360M' } },
    })
  })
  test.each([
    ['nothing', undefined],
    ['no JSON', '{'],
    ['another field', JSON.stringify({ ...TABLE, serial: 'SN-1' })],
    [
      'a serial number of a module',
      JSON.stringify({ ...TABLE, modules: [{ holds: 'module', serial: 'SN-1' }] }),
    ],
    [
      'too many modules',
      JSON.stringify({ ...TABLE, modules: Array.from({ length: 129 }, () => ({ holds: 'nothing' })) }),
    ],
    ['a text that cannot be printed', JSON.stringify({ ...TABLE, firmware: { version: 'a\nb' } })],
    ['a size below zero', JSON.stringify({ ...TABLE, modules: [{ holds: 'module', sizeMiB: -1 }] })],
  ])('%s is refused', (_, text) => expect(readHandedTable(text, 'table').ok).toBe(false))

  test('every table that can be read can be handed on', () => {
    fc.assert(
      fc.property(arbitraryTable, (table) => {
        const first = read(windowsOf(tableFor(table)))
        const again = readHandedTable(JSON.stringify(first), 'table')
        expect(again.ok && again.value).toEqual(first)
      }),
      { numRuns: runs(60) },
    )
  })
})
