import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  CASE_PLACES,
  type FanPlace,
  M2_SOCKET_KEYS,
  type M2Socket,
  type RadiatorPlace,
} from '../../src/core/part.ts'
import type { Cell, Reading } from '../../src/input/cells.ts'
import {
  fanPlaces,
  fanPlacesText,
  m2Sockets,
  m2SocketsText,
  radiatorPlaces,
  radiatorPlacesText,
} from '../../src/input/places.ts'
import { Refusal } from '../../src/input/refusal.ts'
import { runs } from '../runs.ts'

const reading: Reading = { decimalMark: '.', currencyDigits: 2, timeZone: 'UTC' }
const read = <T>(cell: Cell<T>, text: string): T | Refusal => cell.read(text, reading)
const readAs = <T>(cell: Cell<T>, text: string): T => {
  const value = read(cell, text)
  if (value instanceof Refusal) throw new Error(`${text}: ${value.next}`)
  return value
}

describe('M.2 sockets', () => {
  test('a whole description, as a board manual has it', () => {
    const text =
      'M2_1: key M, 42/60/80 mm, PCIe 4 x4; M2_3: key M, 80/110 mm, PCIe 3 x2, SATA, turns off SATA5+SATA6, shares slot; WIFI: key E, 30 mm, PCIe 3 x1'
    expect(readAs(m2Sockets, text)).toEqual([
      { name: 'M2_1', key: 'M', lengthsMm: [42, 60, 80], pcieGen: 4, lanes: 4, sata: false },
      {
        ...{ name: 'M2_3', key: 'M', lengthsMm: [80, 110], pcieGen: 3, lanes: 2, sata: true },
        ...{ sataPortsOff: ['SATA5', 'SATA6'], sharesSlot: true },
      },
      { name: 'WIFI', key: 'E', lengthsMm: [30], pcieGen: 3, lanes: 1, sata: false },
    ])
    expect(m2SocketsText(readAs(m2Sockets, text))).toBe(text)
  })

  test('spaces, capitals and the order of words do not matter', () => {
    const value = readAs(m2Sockets, ' M2_1 :  sata , pcie 3.0 X4, 80 / 110 MM , Key m ; ')
    expect(m2SocketsText(value)).toBe('M2_1: key M, 80/110 mm, PCIe 3 x4, SATA')
  })
})

describe('places of a case', () => {
  test('rows of one place are alternatives', () => {
    const value = readAs(fanPlaces, 'Front 3x120 or 2 × 140 mm; rear: 1x120')
    expect(value).toEqual([
      { place: 'front', sizeMm: 120, count: 3 },
      { place: 'front', sizeMm: 140, count: 2 },
      { place: 'rear', sizeMm: 120, count: 1 },
    ])
    expect(fanPlacesText(value)).toBe('front 3x120 or 2x140; rear 1x120')
    const radiators = readAs(radiatorPlaces, 'top 240 mm or 280; rear 120')
    expect(radiatorPlacesText(radiators)).toBe('top 240, 280; rear 120')
  })
})

test.each([
  ['sockets', m2Sockets, m2SocketsText],
  ['fan places', fanPlaces, fanPlacesText],
  ['radiator places', radiatorPlaces, radiatorPlacesText],
] as const)('no %s at all is something else than not looked up', (_, cell, write) => {
  expect(readAs<readonly unknown[]>(cell as Cell<unknown[]>, 'None')).toEqual([])
  expect(write([])).toBe('none')
  expect(read(cell as Cell<unknown[]>, ' ; ')).toBeInstanceOf(Refusal)
})

const some = <T>(...values: T[]) => fc.constantFrom(...values)
const name = fc.stringMatching(/^[A-Z][A-Z0-9_]{0,8}$/)
const socket = fc
  .record({
    ...{ name, key: some(...M2_SOCKET_KEYS), sata: fc.boolean(), shares: fc.boolean() },
    lengthsMm: fc.subarray([30, 42, 60, 80, 110], { minLength: 1 }),
    link: fc.option(fc.record({ pcieGen: some(1, 2, 3, 4, 5), lanes: some(1, 2, 4) }), { nil: undefined }),
    off: fc.uniqueArray(name, { maxLength: 3 }),
  })
  .map(
    ({ link, off, shares, ...rest }): M2Socket => ({
      ...rest,
      ...link,
      ...(off.length > 0 && { sataPortsOff: off }),
      ...(shares && { sharesSlot: true }),
    }),
  )
const sockets = fc.uniqueArray(socket, { selector: (s) => s.name, maxLength: 5 })
/** Rows of one place beside each other, as the text writes them. */
const sorted = <P extends { readonly place: string }>(rows: readonly P[]): P[] =>
  CASE_PLACES.flatMap((place) => rows.filter((row) => row.place === place))
const row = { place: some(...CASE_PLACES), sizeMm: fc.integer({ min: 40, max: 600 }) }
const selector = ({ place, sizeMm }: RadiatorPlace) => `${place} ${sizeMm}`
const fans = fc
  .uniqueArray(fc.record({ ...row, count: fc.integer({ min: 1, max: 12 }) }), { selector, maxLength: 8 })
  .map((rows): FanPlace[] => sorted(rows))
const radiators = fc
  .uniqueArray(fc.record(row), { selector, maxLength: 8 })
  .map((rows): RadiatorPlace[] => sorted(rows))

describe('law: text -> value -> text', () => {
  const holds = <T>(values: fc.Arbitrary<T[]>, cell: Cell<T[]>, write: (value: readonly T[]) => string) =>
    fc.assert(
      fc.property(values, (value) => {
        const text = write(value)
        expect(readAs(cell, text)).toEqual(value)
        expect(write(readAs(cell, text))).toBe(text)
      }),
      { numRuns: runs(200) },
    )
  test('M.2 sockets', () => holds(sockets, m2Sockets, m2SocketsText))
  test('fan places', () => holds(fans, fanPlaces, fanPlacesText))
  test('radiator places', () => holds(radiators, radiatorPlaces, radiatorPlacesText))
})

// PCI-SIG M.2 Specification: keys, lengths of 30 to 110 mm, four lanes at most. PCI Express: generations 1 to 5.
const ODD = {
  sockets: [
    'M2_1',
    'M2_1:',
    ': key M, 80 mm',
    'M2_1: key M',
    'M2_1: 80 mm',
    'M2_1: key Q, 80 mm',
    'M2_1: key MB, 80 mm',
    'M2_1: key M, 81 mm',
    'M2_1: key M, 800 mm',
    'M2_1: key M, 80',
    'M2_1: key M, 80 mm, PCIe 3',
    'M2_1: key M, 80 mm, PCIe 9 x4',
    'M2_1: key M, 80 mm, PCIe 3 x3',
    'M2_1: key M, 80 mm, PCIe 3 x16',
    'M2_1: key M, 80 mm, turns off',
    'M2_1: key M, 80 mm, turns off SATA5+',
    'M2_1: key M, 80 mm, NVMe',
    'M2_1: key M, 80 mm,',
    'M2_1: key M, key B, 80 mm',
    'M2_1: key M, 60 mm, 80 mm',
    'M2_1: key M, 80 mm; none',
  ],
  fans: [
    '3x120',
    'front',
    'front 120',
    'front 0x120',
    'front 3x20',
    'front 3x1200',
    'door 1x120',
    'front 3x120 or',
    '-',
  ],
  radiators: ['240', 'front', 'front 24', 'front 2x120', 'front 240,', 'door 240', 'front 6000'],
}
describe('odd input gets one message that says what to write', () => {
  const refused = (cell: Cell<unknown>, text: string) => {
    const refusal = read(cell, text)
    expect(refusal, text).toBeInstanceOf(Refusal)
    if (!(refusal instanceof Refusal)) return
    expect(refusal.code).toBe('not allowed')
    expect(refusal.next).toMatch(/^"[^"]+" is not readable here\. Write .+ such as .+\.$/)
  }
  test.each(ODD.sockets)('sockets: %s', (text) => refused(m2Sockets, text))
  test.each(ODD.fans)('fans: %s', (text) => refused(fanPlaces, text))
  test.each(ODD.radiators)('radiators: %s', (text) => refused(radiatorPlaces, text))

  test('what stands twice is named', () => {
    const said = (cell: Cell<unknown>, text: string) => (read(cell, text) as Refusal).next
    expect(said(m2Sockets, 'M2_1: key M, 80 mm; M2_1: key B, 80 mm')).toBe(
      '"M2_1" stands here twice. Write each once.',
    )
    expect(said(fanPlaces, 'front 3x120; front 2x120')).toBe(
      '"front 120" stands here twice. Write each once.',
    )
    expect(said(radiatorPlaces, 'top 240, 240')).toBe('"top 240" stands here twice. Write each once.')
  })

  test('any text at all is a value or one message', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme' }),
        some<Cell<unknown>>(m2Sockets, fanPlaces, radiatorPlaces),
        (text, cell) => {
          const value = read(cell as Cell<unknown>, text)
          if (value instanceof Refusal) expect(value.next).toMatch(/\.$/)
          else expect(Array.isArray(value)).toBe(true)
        },
      ),
      { numRuns: runs(200) },
    )
  })
})
