import { expect, test } from 'vitest'
import { changesBetween } from '../../../src/core/firmwareTable/changes.ts'
import type { FirmwareTable, TableModule } from '../../../src/core/firmwareTable/table.ts'

const stick = (more: Partial<TableModule> = {}): TableModule => ({
  ...{ place: 'DIMM 0', holds: 'module', sizeMiB: 8192, type: 'DDR4', runsMts: 2666, partNumber: 'TN8' },
  ...more,
})
const TABLE: FirmwareTable = {
  ...{ firmware: { version: '1.10' }, system: {}, board: { product: 'Ridge' }, arrays: [], slots: [] },
  processors: [{ name: 'AMD Ryzen 5 3600 6-Core Processor', fitted: true }],
  // Both places have one name; only the bank tells them apart.
  modules: [stick({ bank: 'CHANNEL A' }), { place: 'DIMM 0', bank: 'CHANNEL B', holds: 'nothing' }],
  missingTexts: 0,
}
const withModules = (...modules: TableModule[]): FirmwareTable => ({ ...TABLE, modules })
const [first] = TABLE.modules
const second = stick({ bank: 'CHANNEL B' })
const both = withModules(...(first ? [first] : []), second)

test('the same table twice is no change', () => expect(changesBetween(TABLE, TABLE)).toEqual([]))

test('a second module was added, and taken out again', () => {
  const module = { sizeGB: 8, type: 'DDR4', partNumber: 'TN8' }
  expect(changesBetween(TABLE, both)).toEqual([
    { what: 'module added', place: 'CHANNEL B DIMM 0', module, count: 2 },
  ])
  expect(changesBetween(both, TABLE)).toEqual([
    { what: 'module gone', place: 'CHANNEL B DIMM 0', module, count: 1 },
  ])
})

test('another module in the same place, by size or by part number', () => {
  const larger = withModules(stick({ bank: 'CHANNEL A', sizeMiB: 16_384 }))
  const other = withModules(stick({ bank: 'CHANNEL A', partNumber: 'TM9' }))
  expect(changesBetween(withModules(...TABLE.modules), larger).map(({ what }) => what)).toEqual([
    'module changed',
  ])
  expect(changesBetween(withModules(...TABLE.modules), other).map(({ what }) => what)).toEqual([
    'module changed',
  ])
})

test('what one of them does not tell is no change', () => {
  const untold = {
    ...TABLE,
    firmware: {},
    board: {},
    processors: [],
    modules: [stick({ bank: 'CHANNEL A', partNumber: 'Unknown', runsMts: undefined })],
  }
  expect(changesBetween(TABLE, untold)).toEqual([])
  expect(changesBetween(untold, TABLE)).toEqual([])
})

test('board, processor, firmware and rate', () => {
  const now: FirmwareTable = {
    ...TABLE,
    firmware: { version: '1.20' },
    board: { product: 'Crest' },
    processors: [{ name: 'AMD Ryzen 7 5800X3D 8-Core Processor', fitted: true }],
    modules: [stick({ bank: 'CHANNEL A', runsMts: 1600 })],
  }
  expect(changesBetween(TABLE, now)).toEqual([
    { what: 'board', from: 'Ridge', to: 'Crest' },
    { what: 'processor', from: 'AMD Ryzen 5 3600', to: 'AMD Ryzen 7 5800X3D' },
    { what: 'memory rate', fromMts: 2666, toMts: 1600 },
    { what: 'firmware', from: '1.10', to: '1.20' },
  ])
})

test('of several modules that came and went none is counted', () => {
  const moved = withModules({ place: 'DIMM 0', bank: 'CHANNEL A', holds: 'nothing' }, second)
  expect(changesBetween(TABLE, moved).map((change) => [change.what, 'count' in change])).toEqual([
    ['module gone', false],
    ['module added', false],
  ])
})
