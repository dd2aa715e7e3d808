import { fileURLToPath } from 'node:url'
import type { FirmwareTable, TableModule } from '../../../src/core/firmwareTable/table.ts'
import { tableFor, windowsOf } from './buildTable.ts'

/**
 * Tables of the demo shop's machine M-0207, as its owner's Windows would give them: on the day of sale, and a year later.
 * Everything in them is invented; what is wrong in them is what real boards get wrong.
 */
const stick = (place: string, bank: string): TableModule => ({
  ...{
    place,
    bank,
    holds: 'module',
    sizeMiB: 8192,
    type: 'DDR4',
    shape: 'DIMM',
    ratedMts: 2667,
    runsMts: 2667,
  },
  ...{ maker: 'Pannikin', partNumber: 'PP8-2666', ranks: 1 },
})
const empty = (place: string, bank: string): TableModule => ({
  place,
  bank,
  holds: 'nothing',
  maker: 'Unknown',
})

const AT_SALE: FirmwareTable = {
  version: '3.2',
  firmware: { maker: 'Dunnock', version: '1.20', date: '2021-03-16' },
  system: { maker: 'To Be Filled By O.E.M.', product: 'To Be Filled By O.E.M.' },
  board: { maker: 'Dunnock', product: 'Stile H410', version: 'x.x' },
  housing: 'Desktop',
  trustModule: '2.0',
  // The socket is "Other", as on most boards of this kind.
  processors: [
    {
      place: 'U3E1',
      maker: 'Kestrel',
      name: 'Kestrel(R) Juniper CPU @ 2.90GHz',
      fitted: true,
      cores: 6,
      threads: 12,
    },
  ],
  // Half of what the board takes, and twice the places it has.
  arrays: [{ maxMiB: 32 * 1024, places: 4 }],
  modules: [
    stick('ChannelA-DIMM0', 'BANK 0'),
    empty('ChannelA-DIMM1', 'BANK 1'),
    empty('ChannelB-DIMM0', 'BANK 2'),
    empty('ChannelB-DIMM1', 'BANK 3'),
  ],
  slots: [
    { name: 'PCIEX16', type: 'PCI Express', lanes: 16, usage: 'in use' },
    { name: 'PCIEX1', type: 'PCI Express', lanes: 1, usage: 'available' },
  ],
  missingTexts: 0,
}

/** The owner put in a second module and let the board update itself. */
const A_YEAR_LATER: FirmwareTable = {
  ...AT_SALE,
  firmware: { ...AT_SALE.firmware, version: '1.40', date: '2022-08-02' },
  modules: AT_SALE.modules.map((m) => (m.place === 'ChannelB-DIMM0' ? stick('ChannelB-DIMM0', 'BANK 2') : m)),
}

const inLines = (bytes: Uint8Array): string =>
  `${Buffer.from(bytes)
    .toString('base64')
    .replace(/.{100}(?=.)/g, '$&\n')}\n`

/** By the name of their file in fixtures/readings. */
export const DEMO_READINGS: Readonly<Record<string, string>> = {
  'M-0207-at-sale.txt': inLines(windowsOf(tableFor(AT_SALE))),
  'M-0207-a-year-later.txt': inLines(windowsOf(tableFor(A_YEAR_LATER))),
}

export const DEMO_READINGS_FOLDER = fileURLToPath(new URL('../../../fixtures/readings', import.meta.url))
