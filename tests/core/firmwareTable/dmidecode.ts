import { execFileSync } from 'node:child_process'
import { accessSync, constants, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect } from 'vitest'
import type { FirmwareTable } from '../../../src/core/firmwareTable/table.ts'

/** The general-purpose program `dmidecode` of Debian, where it is installed. Administrators' programs may not be on PATH. */
export const DMIDECODE = [...(process.env.PATH ?? '').split(':'), '/usr/sbin', '/sbin']
  .map((folder) => join(folder, 'dmidecode'))
  .find((file) => {
    try {
      accessSync(file, constants.X_OK)
      return true
    } catch {
      return false
    }
  })

/** What the program says of a dump file with these bytes. */
export function reportOf(dump: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), 'stillfits-table-'))
  try {
    writeFileSync(join(folder, 'dump.bin'), dump)
    return execFileSync(DMIDECODE ?? 'dmidecode', ['--from-dump', join(folder, 'dump.bin')], {
      encoding: 'utf8',
    })
  } finally {
    rmSync(folder, { recursive: true })
  }
}

type Block = { readonly type: number; readonly handle: string; readonly fields: ReadonlyMap<string, string> }

/** Its report as structures with their fields; lists below a field are left out. */
function blocksOf(report: string): Block[] {
  return report.split(/\n(?=Handle 0x)/).flatMap((block) => {
    const [, handle = '', type] = /^Handle (0x[0-9A-F]+), DMI type (\d+),/.exec(block) ?? []
    if (type === undefined) return []
    const fields = [...block.matchAll(/^\t([^\t:][^:\n]*):(?: (.*))?$/gm)].map(
      (m) => [m[1] ?? '', m[2] ?? ''] as const,
    )
    return [{ type: Number(type), handle, fields: new Map(fields) }]
  })
}

/** What the program prints where a text or code is not given. */
const NOT_TOLD = new Set(['', 'Not Specified', 'Unknown', 'Other', '<OUT OF SPEC>', '<BAD INDEX>', 'None'])
const told = (text: string | undefined): string | undefined => {
  const plain = (text ?? '').replace(/ +/g, ' ').trim()
  return NOT_TOLD.has(plain) ? undefined : plain
}
/** Our text likewise: what a board itself writes as "Unknown" cannot be told from the program's own word. */
const ours = (text: string | undefined) => told(text)

const UNITS: Readonly<Record<string, number>> = {
  bytes: 2 ** -20,
  kB: 2 ** -10,
  MB: 1,
  GB: 2 ** 10,
  TB: 2 ** 20,
}
const mib = (text: string | undefined): number | undefined => {
  const [, figure, unit = ''] = /^(\d+) (bytes|[kMGT]B)$/.exec(text ?? '') ?? []
  return figure === undefined ? undefined : Number(figure) * (UNITS[unit] ?? Number.NaN)
}
const count = (text: string | undefined): number | undefined =>
  Number(/^\d+/.exec(text ?? '')?.[0]) || undefined
const mts = (text: string | undefined): number | undefined =>
  / MT\/s$/.test(text ?? '') ? count(text) : undefined

const isoDay = (text: string | undefined) => text?.replace(/^(\d\d)\/(\d\d)\/(\d{4})$/, '$3-$1-$2')

/**
 * Holds what we read of a table against the program's report on it, field by field.
 * @returns how many fields were compared, so that a test can see that some were
 */
export function compareWithReport(table: FirmwareTable, report: string): number {
  let compared = 0
  const same = (what: string, our: unknown, their: unknown) => {
    expect(our, what).toEqual(their)
    compared++
  }
  const blocks = blocksOf(report)
  const of = (type: number) => blocks.filter((b) => b.type === type).map(({ fields }) => fields)
  const [firmware] = of(0)
  same('firmware maker', ours(table.firmware.maker), told(firmware?.get('Vendor')))
  same('firmware version', ours(table.firmware.version), told(firmware?.get('Version')))
  same('firmware date', ours(table.firmware.date), told(isoDay(firmware?.get('Release Date'))))
  const [system] = of(1)
  same('system maker', ours(table.system.maker), told(system?.get('Manufacturer')))
  same('system product', ours(table.system.product), told(system?.get('Product Name')))
  const board = of(2).find((b) => b.get('Type') === 'Motherboard') ?? of(2)[0]
  same('board maker', ours(table.board.maker), told(board?.get('Manufacturer')))
  same('board product', ours(table.board.product), told(board?.get('Product Name')))
  same('board version', ours(table.board.version), told(board?.get('Version')))
  same('housing', table.housing, told(of(3)[0]?.get('Type')))
  const trust = of(43)[0]?.get('Specification Version')
  same('trust module', table.trustModule, trust)

  const processors = of(4)
  same('processors', table.processors.length, processors.length)
  for (const [i, p] of table.processors.entries()) {
    const their = processors[i]
    same('processor place', ours(p.place), told(their?.get('Socket Designation')))
    same('processor name', ours(p.name), told(their?.get('Version')))
    same('processor maker', ours(p.maker), told(their?.get('Manufacturer')))
    same('processor fitted', p.fitted, /^Populated/.test(their?.get('Status') ?? ''))
    const socket = their?.get('Upgrade')
    // Older editions of the program do not know the newest sockets, and some names are no socket.
    if (socket?.includes('Socket') && !/^[ZL]IF/.test(socket) && !/OUT OF SPEC/.test(socket))
      same('socket', p.socket, socket.replace(/^Socket | Socket$/, '').replace('A (Socket 462)', 'A (462)'))
    else if (socket === 'Other' || socket === 'Unknown') same('socket', p.socket, undefined)
    same('cores', p.cores, count(their?.get('Core Count')))
    same('threads', p.threads, count(their?.get('Thread Count')))
  }

  const notMemory = new Set(
    blocks
      .filter((b) => b.type === 16 && b.fields.get('Use') !== 'System Memory')
      .map(({ handle }) => handle),
  )
  const arrays = of(16).filter((b) => b.get('Use') === 'System Memory')
  same('arrays', table.arrays.length, arrays.length)
  for (const [i, array] of table.arrays.entries()) {
    const theirMax = arrays[i]?.get('Maximum Capacity')
    // The program prints two neighbouring units as one figure and drops what is below.
    const unitMiB = UNITS[theirMax?.split(' ')[1] ?? ''] ?? 0
    const below = (array.maxMiB ?? 0) - (mib(theirMax) ?? Number.NaN)
    same(`maximum ${array.maxMiB} ${theirMax}`, below >= 0 && (below < unitMiB || below === 0), true)
    same('places', array.places, count(arrays[i]?.get('Number Of Devices')))
  }
  const modules = of(17).filter((b) => !notMemory.has(b.get('Array Handle') ?? ''))
  same('modules', table.modules.length, modules.length)
  for (const [i, m] of table.modules.entries()) {
    const their = modules[i]
    const size = their?.get('Size')
    same(
      'holds',
      m.holds,
      size === 'No Module Installed' ? 'nothing' : size === 'Unknown' ? 'not told' : 'module',
    )
    same('size', m.sizeMiB, mib(size))
    same('place', ours(m.place), told(their?.get('Locator')))
    same('bank', ours(m.bank), told(their?.get('Bank Locator')))
    same('type', ours(m.type), told(their?.get('Type')?.replace('<OUT OF SPEC>', m.type ?? '')))
    same('shape', ours(m.shape), told(their?.get('Form Factor')))
    // Of a place where nothing is fitted the program prints no more than this.
    if (m.holds === 'nothing') continue
    same('rated', m.ratedMts, mts(their?.get('Speed')))
    same('runs', m.runsMts, mts(their?.get('Configured Memory Speed')))
    same('maker', ours(m.maker), told(their?.get('Manufacturer')))
    same('part number', ours(m.partNumber), told(their?.get('Part Number')))
    same('ranks', m.ranks, count(their?.get('Rank')))
  }
  const slots = of(9)
  same('slots', table.slots.length, slots.length)
  for (const [i, slot] of table.slots.entries()) {
    const their = slots[i]
    same('slot name', ours(slot.name), told(their?.get('Designation')))
    // Editions before 3.6 print the width in front of the type.
    const [, before, type] = /^(?:(x\d+|\d+-bit) )?(.*)$/.exec(their?.get('Type') ?? '') ?? []
    same('slot type', slot.type, told(type))
    const width = their?.get('Data Bus Width') ?? before ?? ''
    const lanes = /x(\d+)$/.exec(width)?.[1]
    same('lanes', slot.lanes, lanes === undefined ? undefined : Number(lanes))
    const usage = told(their?.get('Current Usage'))
    same('usage', slot.usage, usage?.toLowerCase())
  }
  return compared
}
