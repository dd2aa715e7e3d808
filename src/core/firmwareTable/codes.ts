/**
 * Codes of the SMBIOS structures we read, by the standard's own names. Source: DMTF DSP0134 (SMBIOS 3.7 and earlier);
 * the section stands at each table. A code that is not here is not told.
 */

type Codes = Readonly<Record<number, string>>

/** Socket of a processor: type 4, offset 0x19 (7.5.5); from 0x51 on the edition after 3.7. */
export const SOCKETS: Codes = {
  ...{ 10: '370-pin', 13: '423', 14: 'A (462)', 15: '478', 16: '754', 17: '940', 18: '939', 19: 'mPGA604' },
  ...{ 20: 'LGA771', 21: 'LGA775', 22: 'S1', 23: 'AM2', 24: 'F (1207)', 25: 'LGA1366', 26: 'G34', 27: 'AM3' },
  ...{ 28: 'C32', 29: 'LGA1156', 30: 'LGA1567', 31: 'PGA988A', 32: 'BGA1288', 33: 'rPGA988B', 34: 'BGA1023' },
  ...{
    35: 'BGA1224',
    36: 'BGA1155',
    37: 'LGA1356',
    38: 'LGA2011',
    39: 'FS1',
    40: 'FS2',
    41: 'FM1',
    42: 'FM2',
  },
  ...{ 43: 'LGA2011-3', 44: 'LGA1356-3', 45: 'LGA1150', 46: 'BGA1168', 47: 'BGA1234', 48: 'BGA1364' },
  ...{ 49: 'AM4', 50: 'LGA1151', 51: 'BGA1356', 52: 'BGA1440', 53: 'BGA1515', 54: 'LGA3647-1', 55: 'SP3' },
  ...{
    56: 'SP3r2',
    57: 'LGA2066',
    58: 'BGA1392',
    59: 'BGA1510',
    60: 'BGA1528',
    61: 'LGA4189',
    62: 'LGA1200',
  },
  ...{ 63: 'LGA4677', 64: 'LGA1700', 65: 'BGA1744', 66: 'BGA1781', 67: 'BGA1211', 68: 'BGA2422' },
  ...{ 69: 'LGA1211', 70: 'LGA2422', 71: 'LGA5773', 72: 'BGA5773', 73: 'AM5', 74: 'SP5', 75: 'SP6' },
  ...{ 76: 'BGA883', 77: 'BGA1190', 78: 'BGA4129', 79: 'LGA4710', 80: 'LGA7529', 81: 'BGA1964' },
  ...{ 82: 'BGA1792', 83: 'BGA2049', 84: 'BGA2551', 85: 'LGA1851', 86: 'BGA2114', 87: 'BGA2833' },
}

/** Type of a memory module: type 17, offset 0x12 (7.18.2). */
export const MODULE_TYPES: Codes = {
  ...{
    3: 'DRAM',
    4: 'EDRAM',
    5: 'VRAM',
    6: 'SRAM',
    7: 'RAM',
    8: 'ROM',
    9: 'Flash',
    10: 'EEPROM',
    11: 'FEPROM',
  },
  ...{ 12: 'EPROM', 13: 'CDRAM', 14: '3DRAM', 15: 'SDRAM', 16: 'SGRAM', 17: 'RDRAM', 18: 'DDR', 19: 'DDR2' },
  ...{ 20: 'DDR2 FB-DIMM', 24: 'DDR3', 25: 'FBD2', 26: 'DDR4', 27: 'LPDDR', 28: 'LPDDR2', 29: 'LPDDR3' },
  ...{ 30: 'LPDDR4', 31: 'Logical non-volatile device', 32: 'HBM', 33: 'HBM2', 34: 'DDR5', 35: 'LPDDR5' },
  ...{ 36: 'HBM3' },
}

/** Form of a memory module: type 17, offset 0x0E (7.18.1). */
export const MODULE_SHAPES: Codes = {
  ...{ 3: 'SIMM', 4: 'SIP', 5: 'Chip', 6: 'DIP', 7: 'ZIP', 8: 'Proprietary Card', 9: 'DIMM', 10: 'TSOP' },
  ...{ 11: 'Row Of Chips', 12: 'RIMM', 13: 'SODIMM', 14: 'SRIMM', 15: 'FB-DIMM', 16: 'Die' },
}

/** Slots that are not plain PCI Express: type 9, offset 0x05 (7.10.1). */
const OTHER_SLOTS: Codes = {
  ...{ 3: 'ISA', 4: 'MCA', 5: 'EISA', 6: 'PCI', 7: 'PC Card (PCMCIA)', 8: 'VLB', 9: 'Proprietary' },
  ...{ 10: 'Processor Card', 11: 'Proprietary Memory Card', 12: 'I/O Riser Card', 13: 'NuBus', 14: 'PCI-66' },
  ...{ 15: 'AGP', 16: 'AGP 2x', 17: 'AGP 4x', 18: 'PCI-X', 19: 'AGP 8x', 20: 'M.2 Socket 1-DP' },
  ...{ 21: 'M.2 Socket 1-SD', 22: 'M.2 Socket 2', 23: 'M.2 Socket 3', 24: 'MXM Type I', 25: 'MXM Type II' },
  ...{ 26: 'MXM Type III', 27: 'MXM Type III-HE', 28: 'MXM Type IV', 29: 'MXM 3.0 Type A' },
  ...{ 30: 'MXM 3.0 Type B', 31: 'PCI Express 2 SFF-8639 (U.2)', 32: 'PCI Express 3 SFF-8639 (U.2)' },
  ...{ 33: 'PCI Express Mini 52-pin with bottom-side keep-outs' },
  ...{ 34: 'PCI Express Mini 52-pin without bottom-side keep-outs', 35: 'PCI Express Mini 76-pin' },
  ...{ 36: 'PCI Express 4 SFF-8639 (U.2)', 37: 'PCI Express 5 SFF-8639 (U.2)' },
  ...{ 38: 'OCP NIC 3.0 Small Form Factor (SFF)', 39: 'OCP NIC 3.0 Large Form Factor (LFF)' },
  ...{ 40: 'OCP NIC Prior to 3.0', 160: 'PC-98/C20', 161: 'PC-98/C24', 162: 'PC-98/E' },
  ...{
    163: 'PC-98/Local Bus',
    164: 'PC-98/Card',
    196: 'PCI Express 6+',
    197: 'EDSFF E1',
    198: 'EDSFF E3',
  },
}

/**
 * Plain PCI Express slots (7.10.1): the codes of one generation follow each other, first without a length, then x1, x2,
 * x4, x8, x16. The first row is also what boards write that do not say the generation, so it names none.
 */
const PCIE_ROWS = [
  { from: 0xa5, gen: undefined },
  { from: 0xab, gen: 2 },
  { from: 0xb1, gen: 3 },
  { from: 0xb8, gen: 4 },
  { from: 0xbe, gen: 5 },
] as const
const PCIE_LENGTHS = [undefined, 1, 2, 4, 8, 16] as const

export type SlotType = {
  readonly type: string
  readonly pcieGen?: number | undefined
  /** Length of a PCI Express slot in lanes; how many are wired is another field. */
  readonly lengthLanes?: number | undefined
}

/** What a slot's code says; undefined for codes that name no type. */
export function slotType(code: number | undefined): SlotType | undefined {
  if (code === undefined) return undefined
  const other = OTHER_SLOTS[code]
  if (other !== undefined) return { type: other }
  const row = PCIE_ROWS.find(({ from }) => code >= from && code < from + PCIE_LENGTHS.length)
  if (row === undefined) return undefined
  const lengthLanes = PCIE_LENGTHS[code - row.from]
  const name = ['PCI Express', row.gen, lengthLanes === undefined ? undefined : `x${lengthLanes}`]
  return {
    type: name.filter((piece) => piece !== undefined).join(' '),
    ...(row.gen !== undefined && { pcieGen: row.gen }),
    ...(lengthLanes !== undefined && { lengthLanes }),
  }
}

/** Wired lanes of a slot: type 9, offset 0x06 (7.10.2). */
export const LANES: Readonly<Record<number, number>> = { 8: 1, 9: 2, 10: 4, 11: 8, 12: 12, 13: 16, 14: 32 }

/** Use of a slot: type 9, offset 0x07 (7.10.3). */
export const USAGES = { 3: 'available', 4: 'in use', 5: 'unavailable' } as const
export type Usage = (typeof USAGES)[keyof typeof USAGES]

/** Kind of housing: type 3, offset 0x05, bits 6:0 (7.4.1). */
export const HOUSINGS: Codes = {
  ...{ 3: 'Desktop', 4: 'Low Profile Desktop', 5: 'Pizza Box', 6: 'Mini Tower', 7: 'Tower', 8: 'Portable' },
  ...{ 9: 'Laptop', 10: 'Notebook', 11: 'Hand Held', 12: 'Docking Station', 13: 'All In One' },
  ...{ 14: 'Sub Notebook', 15: 'Space-saving', 16: 'Lunch Box', 17: 'Main Server Chassis' },
  ...{ 18: 'Expansion Chassis', 19: 'Sub Chassis', 20: 'Bus Expansion Chassis', 21: 'Peripheral Chassis' },
  ...{ 22: 'RAID Chassis', 23: 'Rack Mount Chassis', 24: 'Sealed-case PC', 25: 'Multi-system' },
  ...{ 26: 'CompactPCI', 27: 'AdvancedTCA', 28: 'Blade', 29: 'Blade Enclosing', 30: 'Tablet' },
  ...{ 31: 'Convertible', 32: 'Detachable', 33: 'IoT Gateway', 34: 'Embedded PC', 35: 'Mini PC' },
  ...{ 36: 'Stick PC' },
}
