import type { AnswerInputs } from '../../src/core/answer.ts'
import { changesBetween } from '../../src/core/firmwareTable/changes.ts'
import { propose } from '../../src/core/firmwareTable/propose.ts'
import type { FirmwareTable, TableModule } from '../../src/core/firmwareTable/table.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import { failed, ok } from '../../src/problem.ts'
import { NO_OWNER_READING } from '../../src/uses/ownerReading.ts'
import { basisOf } from '../../src/uses/readTable.ts'
import type { ReadingUses } from '../../src/web/readingUses.ts'
import { tableFor } from '../core/firmwareTable/buildTable.ts'
import type { PageState } from './states.ts'

const stick = (place: string, runsMts: number): TableModule => ({
  ...{ place, bank: 'BANK 0', holds: 'module', sizeMiB: 8192, type: 'DDR4', shape: 'DIMM' },
  ...{ ratedMts: 3200, runsMts, maker: 'Slatework', partNumber: 'SW8-3200', ranks: 1 },
})

/** The table of the canned shop's machine: a second stick, the clock for the rate, and the usual wrong figures. */
export const cannedTable: FirmwareTable = {
  version: '3.2',
  firmware: { maker: 'Anvil Firmware', version: '4.60', date: '2021-03-04' },
  system: { maker: 'To Be Filled By O.E.M.', product: 'To Be Filled By O.E.M.' },
  board: { maker: 'Ironside', product: 'Anvil B450' },
  housing: 'Desktop',
  processors: [{ place: 'AM4', name: 'Teal 8 Eight-Core Processor', fitted: true, socket: 'AM4', cores: 8 }],
  arrays: [{ maxMiB: 256 * 1024, places: 4 }],
  modules: [stick('DIMM_A1', 1333), stick('DIMM_B1', 1333), { place: 'DIMM_A2', holds: 'nothing' }],
  slots: [
    { name: 'PCIEX16', type: 'PCI Express 2 x16', pcieGen: 2, lengthLanes: 16, lanes: 16, usage: 'in use' },
    { name: 'PCIEX1', type: 'PCI Express x1', lengthLanes: 1, lanes: 1, usage: 'available' },
  ],
  missingTexts: 1,
}

const earlierTable: FirmwareTable = {
  ...cannedTable,
  firmware: { ...cannedTable.firmware, version: '3.20' },
  modules: [stick('DIMM_A1', 1333), { place: 'DIMM_B1', bank: 'BANK 0', holds: 'nothing' }],
}

/** Readings of the canned machine: proposed by the real core, and nothing is kept. */
export function cannedReadingUses(
  { machine, parts }: AnswerInputs,
  calls: [name: string, ...given: unknown[]][],
): ReadingUses {
  const { tag, build, claims } = machine
  const notFound = (got: string) =>
    failed({ code: 'not found', field: 'machine', got, next: 'There is no machine with this tag.' })
  return {
    reading: async (asked, table) =>
      asked === tag
        ? ok({
            ...{ tag, basis: basisOf(machine), known: parts.filter((p) => p.kind === 'memory') },
            proposal: propose(table, { build, limits: limitsOf(build, claims) }, parts),
            earlier: { at: '2026-01-05T17:00:00.000Z', changes: changesBetween(earlierTable, table) },
          })
        : notFound(asked),
    acceptReading: async (asked, table, choices) => {
      calls.push(['acceptReading', asked, table, choices])
      return asked === tag
        ? ok({ tag, taken: choices.parts.size + choices.limits.size, newParts: 0 })
        : notFound(asked)
    },
    ownerReading: async (asked, id) =>
      asked === tag && id === '1'
        ? ok({ table: cannedTable, reading: { id, machineTag: tag, at: '2026-01-06T17:00:00.000Z' } })
        : failed(NO_OWNER_READING),
    putReadingAside: async (asked, id) => {
      calls.push(['putReadingAside', asked, id])
      return asked === tag && id === '1' ? ok({ tag }) : failed(NO_OWNER_READING)
    },
    lastRead: async (asked) =>
      asked === tag ? ok({ tag, at: '2026-01-05T17:00:00.000Z' }) : notFound(asked),
  }
}

export const TABLE_TEXT = Buffer.from(tableFor(cannedTable)).toString('base64')
const laptop = Buffer.from(
  tableFor({
    ...cannedTable,
    housing: 'Notebook',
    modules: cannedTable.modules.map((m) => ({ ...m, type: 'LPDDR4' })),
  }),
).toString('base64')

/** The form, refusals, proposals, a table without a machine. */
export const READING_STATES: readonly PageState[] = [
  { name: 'reading-form', path: '/machines/T-0007/reading' },
  { name: 'reading-kept', path: '/machines/T-0007/reading?kept=3' },
  { name: 'reading-unknown', path: '/machines/T-9/reading', status: 404 },
  { name: 'reading-wrong', path: '/machines/T-0007/reading', status: 400, form: { table: 'hello' } },
  { name: 'reading-nothing', path: '/machines/T-0007/reading', status: 422, form: { table: '' } },
  { name: 'reading-proposals', path: '/machines/T-0007/reading', form: { table: TABLE_TEXT } },
  { name: 'reading-from-owner', path: '/machines/T-0007/reading/1' },
  { name: 'reading-from-owner-gone', path: '/machines/T-0007/reading/2', status: 404 },
  { name: 'reading-laptop', path: '/machines/T-0007/reading', form: { table: laptop } },
  {
    name: 'reading-stale',
    path: '/machines/T-0007/reading/accept',
    status: 409,
    form: { table: JSON.stringify(cannedTable), 'does.processor': 'changed', 'name.processor': 'Teal 8' },
    uses: {
      acceptReading: async () =>
        failed({ code: 'conflict', field: 'basis', next: 'What is written was changed meanwhile.' }),
    },
  },
  {
    name: 'reading-lost',
    path: '/machines/T-0007/reading/accept',
    status: 400,
    form: { table: '{"serial":"1"}' },
  },
  { name: 'reading-loose-form', path: '/reading' },
  { name: 'reading-loose', path: '/reading', form: { table: TABLE_TEXT } },
  {
    name: 'machine-new-read',
    path: '/machines/new?part.board.0=Ironside+Anvil+B450&limit.firmware=4.60&source.firmware=read',
  },
]
