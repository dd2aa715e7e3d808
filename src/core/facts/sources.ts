import type { FactSource } from '../source.ts'

/**
 * The documents behind the tables, named once. "As reprinted" marks a vendor's figures that we read in somebody
 * else's copy of them: where a customer's decision hangs on one cell, the board maker's page decides. "Field" figures
 * are tallied over the desktop reports of the open dataset linuxhw/DMI (CC BY 4.0).
 */
const vendor = (text: string): FactSource => ({ kind: 'vendor', text })

export const SOURCES = {
  intelProcessors: vendor('Intel product pages (memory specifications)'),
  intelTurbo: vendor('Intel product pages and datasheets, maximum turbo power (PL2), as reprinted'),
  intelChipsets: vendor('Intel product pages (chipsets), as reprinted'),
  intel300: vendor('Intel product page of the chipset, as reprinted; largest memory: field reports'),
  intelRocketLake: vendor('Intel statement on 11th generation processors and 400-series chipsets'),
  intelHaswell: vendor('Intel notes on 8-series and 9-series chipsets, as reprinted'),
  intel200Ultra: vendor('Intel Core Ultra 200S datasheet, memory rates by slots, as reprinted'),
  boardManual100: vendor("board maker's manual of a 200-series board (both families of LGA1151)"),
  amdAm4: vendor('AMD AM4 chipset page'),
  amdAm5: vendor('AMD AM5 chipset table, as reprinted'),
  amdProcessors: vendor('AMD product pages (specifications)'),
  amdFourModules: vendor('AMD product pages of Ryzen 7000X3D and 9000 (rates by modules fitted)'),
  amdPhoenixBoard: vendor("board maker's page of an AM5 board (lanes by processor), as reprinted"),
  pcieBase: { kind: 'standard', text: 'PCI Express Base Specification, data rate and line coding' },
  pcieCem: { kind: 'standard', text: 'PCI Express Card Electromechanical Specification (CEM)' },
  atx3: { kind: 'standard', text: 'Intel 336521, ATX Version 3 power supply design guide' },
} as const satisfies Record<string, FactSource>
