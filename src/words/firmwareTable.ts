import type { ModuleSaid, TableChange } from '../core/firmwareTable/changes.ts'
import type { LimitRow, ReadKey, Remark } from '../core/firmwareTable/limitRows.ts'
import type { Module } from '../core/firmwareTable/memory.ts'
import type { PartRow, TableNote } from '../core/firmwareTable/propose.ts'
import { rateOf } from '../core/firmwareTable/rates.ts'
import type { FirmwareTable, TableModule, TableProcessor, TableSlot } from '../core/firmwareTable/table.ts'
import { told, toldMaker } from '../core/firmwareTable/told.ts'
import {
  FACT_WORDS,
  LIMIT_STANDING_WORDS,
  ORDINALS,
  READ_KIND_WORDS,
  READING,
  STANDING_WORDS,
  WRONG_OFTEN,
} from './en/firmwareTable.ts'
import type { Figures } from './figures.ts'
import { sayLimit } from './limits.ts'
import { type Forms, fill, formOf } from './say.ts'

const RULES = new Intl.PluralRules('en')

const counted = (forms: Forms, name: string, n: number): string =>
  fill(formOf(forms, n, RULES), { [name]: String(n) })

const list = (pieces: readonly (string | undefined)[]): string =>
  pieces.filter((piece) => piece !== undefined && piece !== '').join(', ')

const spaced = (pieces: readonly (string | undefined)[]): string =>
  pieces.filter((piece) => piece !== undefined && piece !== '').join(' ')

/** A row of a reading in words: what it is about, how it stands, and what is to be said beside it. */
export type RowSaid = {
  readonly label: string
  /** What the table shows; '' where it shows nothing. */
  readonly read: string
  readonly standing: string
  readonly lines: readonly string[]
}

export function sayPartRow({ kind, standing, written, read, mayBeSame }: PartRow, figures: Figures): RowSaid {
  const modules = read?.modules ?? []
  const isMemory = kind === 'memory' && read !== undefined
  const rated = read?.figures.rateMts
  return {
    label: READ_KIND_WORDS[kind],
    read: read?.name ?? '',
    standing: STANDING_WORDS[standing],
    lines: [
      ...(written === undefined ? [] : [fill(READING.written, { name: written.name })]),
      ...(mayBeSame === true ? [READING.sameUnderAnother] : []),
      ...modules.map((m) => sayModule(m, figures)),
      ...clocksIn(modules),
      ...(isMemory && standing !== 'agrees' && read.knownId === undefined
        ? [rated === undefined ? READING.runsUnknown : READING.labelMaySayMore]
        : []),
    ],
  }
}

const sayModule = (m: Module, figures: Figures): string =>
  list([
    fill(READING.modulesIn, {
      module: spaced([figures.named('moduleGB', m.moduleGB), m.type]),
      place: m.place ?? READING.somePlace,
    }),
    m.partNumber && fill(READING.partNumber, { partNumber: m.partNumber }),
    m.rated && fill(READING.rated, { ratedMts: figures.named('ratedMts', m.rated.mts) }),
    m.runs && fill(READING.runs, { runsMts: figures.named('runsMts', m.runs.mts) }),
  ])

const clocksIn = (modules: readonly Module[]): string[] => {
  const clocks = modules.flatMap((m) => [m.rated?.clockMhz, m.runs?.clockMhz])
  return [...new Set(clocks)].flatMap((clock) =>
    clock === undefined ? [] : [fill(READING.clockDoubled, { clockMhz: String(clock) })],
  )
}

export function sayLimitRow(row: LimitRow, figures: Figures): RowSaid {
  const { key, value, standing, today, remarks } = row
  const { label, value: believed, by } = sayLimit(key, today, figures)
  const isTold = standing === 'differs'
  return {
    label,
    read: figures.named(key, value),
    standing: LIMIT_STANDING_WORDS[standing],
    lines: [
      ...(isTold ? [fill(READING.believed, { value: believed, by })] : []),
      ...remarks.map((remark) => sayRemark(key, remark, figures)),
    ],
  }
}

function sayRemark(key: ReadKey, remark: Remark, figures: Figures): string {
  switch (remark.what) {
    case 'clock doubled':
      return fill(READING.clockDoubled, { clockMhz: String(remark.clockMhz) })
    case 'more places than channels drive':
      return fill(READING.morePlaces, { chipset: remark.chipset, most: String(remark.most) })
    case 'more is fitted':
      return fill(READING.moreFitted, { fittedGB: figures.named('fittedGB', remark.fittedGB) })
    case 'boards are wrong here':
      return WRONG_OFTEN[key] ?? READING.wrongHere
  }
}

export function sayTableNote(note: TableNote, figures: Figures): string {
  switch (note.what) {
    case 'soldered':
      return fill(READING.soldered, { totalGB: figures.named('totalGB', note.totalGB) })
    case 'portable':
      return fill(READING.portable, { housing: note.housing })
    case 'texts missing':
      return counted(READING.textsMissing, 'count', note.count)
    case 'memory not told':
      return READING.memoryNotTold
    case 'another machine':
      return READING.anotherMachine
  }
}

const moduleWords = (
  { sizeGB, type, partNumber }: ModuleSaid,
  place: string | undefined,
  figures: Figures,
) => {
  const what =
    spaced([sizeGB === undefined ? undefined : figures.named('sizeGB', sizeGB), type, partNumber]) ||
    READING.module
  return place === undefined ? what : fill(READING.modulesIn, { module: what, place })
}

export function sayTableChange(change: TableChange, figures: Figures): string {
  switch (change.what) {
    case 'module added': {
      const module = moduleWords(change.module, change.place, figures)
      const ordinal = ORDINALS[change.count ?? 0]
      return ordinal === undefined
        ? fill(READING.added, { module })
        : fill(READING.addedAs, { ordinal, module })
    }
    case 'module gone': {
      const gone = fill(READING.gone, { module: moduleWords(change.module, change.place, figures) })
      return change.count === undefined ? gone : `${gone} ${counted(READING.left, 'count', change.count)}`
    }
    case 'module changed':
      return fill(READING.changed, {
        to: moduleWords(change.to, change.place, figures),
        from: moduleWords(change.from, undefined, figures),
      })
    case 'memory rate':
      return fill(READING.rate, {
        toMts: figures.named('toMts', change.toMts),
        fromMts: figures.named('fromMts', change.fromMts),
      })
    default:
      return fill(READING[change.what], { from: change.from, to: change.to })
  }
}

/** What a table says, as it says it: a heading and a line each. Fields that are not told are left out. */
export function sayTable(table: FirmwareTable, figures: Figures): { label: string; text: string }[] {
  const { board, system, firmware, processors, arrays, modules, slots } = table
  const maxMiB = arrays.reduce((sum, a) => sum + (a.maxMiB ?? 0), 0)
  const places = arrays.reduce((sum, a) => sum + (a.places ?? 0), 0)
  const rows: (readonly [string, string | undefined])[] = [
    [FACT_WORDS.version, table.version],
    [FACT_WORDS.system, spaced([system.maker, system.product])],
    [FACT_WORDS.board, spaced([board.maker, board.product, board.version])],
    [FACT_WORDS.firmware, list([spaced([firmware.maker, firmware.version]), firmware.date])],
    [FACT_WORDS.housing, table.housing],
    [FACT_WORDS.trustModule, table.trustModule],
    ...processors.map((p) => [FACT_WORDS.processor, sayProcessor(p)] as const),
    [FACT_WORDS.memoryMax, maxMiB === 0 ? undefined : figures.named('maxGB', maxMiB / 1024)],
    [FACT_WORDS.memoryPlaces, places === 0 ? undefined : String(places)],
    ...modules.map((m) => [FACT_WORDS.module, sayPlace(m, figures)] as const),
    ...slots.map((s) => [FACT_WORDS.slot, saySlot(s)] as const),
  ]
  return rows.flatMap(([label, text]) => (text === undefined || text === '' ? [] : [{ label, text }]))
}

const sayProcessor = ({ place, name, socket, cores, threads, fitted }: TableProcessor): string =>
  list([
    fitted ? name : FACT_WORDS.notFitted,
    socket === undefined ? place : fill(FACT_WORDS.socket, { socket }),
    cores === undefined ? undefined : counted(FACT_WORDS.cores, 'cores', cores),
    threads === undefined ? undefined : counted(FACT_WORDS.threads, 'threads', threads),
  ])

/** A rate as meant; where the table writes the clock, that figure too. */
function sayRate(
  written: number | undefined,
  type: string | undefined,
  figures: Figures,
): string | undefined {
  if (written === undefined) return undefined
  const read = rateOf(written, type)
  const asWritten = fill(READING.asWritten, { written: String(written) })
  if (read === undefined) return asWritten
  const said = figures.named('rateMts', read.mts)
  return read.clockMhz === undefined ? said : `${said} (${asWritten})`
}

function sayPlace(m: TableModule, figures: Figures): string {
  const where = spaced([m.bank, m.place]) || READING.somePlace
  if (m.holds === 'nothing') return `${where}: ${READING.emptyPlace}`
  const size = m.sizeMiB === undefined ? READING.untoldPlace : figures.named('sizeGB', m.sizeMiB / 1024)
  const [rate, runs] = [m.ratedMts, m.runsMts].map((mts) => sayRate(mts, m.type, figures))
  const what = list([
    spaced([size, m.type, m.shape]),
    rate && fill(READING.rated, { ratedMts: rate }),
    runs && fill(READING.runs, { runsMts: runs }),
    spaced([toldMaker(m.maker), told(m.partNumber)]),
    m.ranks === undefined ? undefined : counted(READING.ranks, 'ranks', m.ranks),
  ])
  return `${where}: ${what}`
}

const saySlot = ({ name, type, lanes, usage }: TableSlot): string => {
  const what = list([
    type,
    lanes === undefined ? undefined : counted(FACT_WORDS.lanes, 'lanes', lanes),
    usage === undefined ? undefined : FACT_WORDS.usage[usage],
  ])
  return [name, what].filter((piece) => piece !== undefined && piece !== '').join(': ')
}
