import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  HOUSINGS,
  MODULE_SHAPES,
  MODULE_TYPES,
  SOCKETS,
  slotType,
} from '../../../src/core/firmwareTable/codes.ts'
import type { FirmwareTable } from '../../../src/core/firmwareTable/table.ts'
import { readFirmware } from '../../../src/input/firmwareBytes.ts'
import { runs } from '../../runs.ts'
import { arbitraryTable } from './arbitraryTable.ts'
import { dumpOf, entry32, entry64, structuresFor, tableFor } from './buildTable.ts'
import { compareWithReport, DMIDECODE, reportOf } from './dmidecode.ts'

/**
 * What we read against what the program `dmidecode` reads: an independent reader of DMTF DSP0134, packaged by Debian.
 * Public tables of real machines come from a folder that the environment names; they are not part of this project.
 */
const canRun = DMIDECODE !== undefined
if (!canRun && process.env.CI === 'true')
  throw new Error('dmidecode is needed here: apt-get install dmidecode')

const read = (bytes: Uint8Array) => {
  const table = readFirmware(bytes, 'file')
  if (!table.ok) throw new Error(table.problems[0]?.next)
  return table.value
}

describe.skipIf(!canRun)('tables that we build (skipped where dmidecode is not installed)', () => {
  test('every code has the name that the standard gives it', () => {
    const modules = [...Object.values(MODULE_TYPES), ...Object.values(MODULE_SHAPES)].map(
      (name, i, { length }) => ({
        holds: 'module' as const,
        sizeMiB: 1024 + i,
        ...(i < Object.keys(MODULE_TYPES).length ? { type: name } : { shape: name }),
        ranks: (i % 15) + 1,
        runsMts: length,
      }),
    )
    const slots = Array.from({ length: 256 }, (_, code) => slotType(code) ?? []).flat()
    const processors = Object.values(SOCKETS).map((socket) => ({ fitted: true, socket }))
    for (const housing of Object.values(HOUSINGS)) {
      const table: FirmwareTable = {
        ...{ firmware: { version: '1.0' }, system: {}, board: {}, arrays: [], missingTexts: 0 },
        ...{ housing, processors, modules, slots },
      }
      const dump = dumpOf(tableFor(table))
      compareWithReport(read(dump), reportOf(dump))
    }
  })

  test('behind a 64-bit entry point', () => {
    let fields = 0
    fc.assert(
      fc.property(arbitraryTable, (table) => {
        const bytes = tableFor(table)
        const dump = dumpOf(bytes, entry64(bytes.length))
        fields += compareWithReport(read(dump), reportOf(dump))
      }),
      { numRuns: runs(25) },
    )
    expect(fields).toBeGreaterThan(40 * 15)
  })

  test('behind a 32-bit entry point', () => {
    fc.assert(
      fc.property(arbitraryTable, (table) => {
        const structures = structuresFor(table)
        const bytes = tableFor(table)
        const dump = dumpOf(bytes, entry32(bytes.length, structures.length))
        compareWithReport(read(dump), reportOf(dump))
      }),
      { numRuns: runs(15) },
    )
  })
})

const FOLDER = process.env.STILLFITS_PUBLIC_TABLES
const files = FOLDER === undefined ? [] : readdirSync(FOLDER).filter((name) => name.endsWith('.bin'))

describe.skipIf(FOLDER === undefined)(
  'public tables (skipped: STILLFITS_PUBLIC_TABLES names no folder)',
  () => {
    const folder = FOLDER ?? ''
    test('there are some', () => expect(files.length).toBeGreaterThan(0))

    test.each(files)('%s', (name) => {
      const bytes = new Uint8Array(readFileSync(join(folder, name)))
      const table = read(bytes)
      const written = join(folder, name.replace(/\.(?:dump|rsmb)\.bin$/, '.dmidecode.txt'))
      let fields = 0
      if (existsSync(written)) fields += compareWithReport(table, readFileSync(written, 'utf8'))
      const isDump = bytes[0] === 0x5f
      if (canRun && isDump) fields += compareWithReport(table, reportOf(bytes))
      expect(fields, 'nothing to compare with').toBeGreaterThan(20)
    })
  },
)
