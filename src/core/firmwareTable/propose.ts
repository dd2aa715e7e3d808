import { type Build, buildOf } from '../build.ts'
import type { Limits } from '../limits/limit.ts'
import { limitsOf } from '../limits/resolve.ts'
import { filledFromName } from '../naming/fromName.ts'
import type { Board, MemoryKit, Part, PartKind, Processor } from '../part.ts'
import { type LimitRow, limitRows } from './limitRows.ts'
import { compareMemory, isNamedBy, type Module, modulesIn, tellsAllPlaces } from './memory.ts'
import type { FirmwareTable } from './table.ts'
import { areTwoModels, isAlike, isIn, isSameProcessor, nameOf, processorName, told } from './told.ts'

/** Kinds of part that a firmware table names; it does not know the card, the supply, the cooler or the case. */
export type ReadKind = 'board' | 'processor' | 'memory'

/** Figures of a part that a table tells. */
export type ReadFigures = Pick<Processor, 'cores'> &
  Pick<MemoryKit, 'memoryType' | 'form' | 'modules' | 'moduleGB' | 'ranks' | 'rateMts'>

/** A part as the table shows it. */
export type ReadPart = {
  /** Of a part the shop knows: that part's name. */
  readonly name: string
  /** That part, where exactly one of the shop's can be meant. */
  readonly knownId?: string | undefined
  /** What the table says of it, for a part that the shop does not know. */
  readonly figures: ReadFigures
  /** Of memory: its modules. */
  readonly modules: readonly Module[]
}

/**
 * How the table stands to what is written down: it agrees; nothing of the kind is written down (`new`); there is more
 * (`added`) or less (`gone`); something else is there (`differs`), which may be the same thing under another name.
 */
export type Standing = 'agrees' | 'new' | 'added' | 'gone' | 'differs'

export type PartRow = {
  /** Key of the row in a form, such as `board` or `memory.1`. */
  readonly id: string
  readonly kind: ReadKind
  readonly standing: Standing
  readonly written?: Part | undefined
  readonly read?: ReadPart | undefined
  /** Where it differs: nothing says that it is another thing, so it may be the same under another name. */
  readonly mayBeSame?: boolean | undefined
}

/** Something to know about the table as a whole. */
export type TableNote =
  | { readonly what: 'soldered'; readonly totalGB: number }
  | { readonly what: 'portable'; readonly housing: string }
  | { readonly what: 'texts missing'; readonly count: number }
  | { readonly what: 'memory not told' }
  /** Board and processor are both not what is written down. */
  | { readonly what: 'another machine' }

export type Proposal = {
  readonly parts: readonly PartRow[]
  readonly limits: readonly LimitRow[]
  readonly notes: readonly TableNote[]
}

/**
 * What a table proposes for a machine, row by row, against what is written down. Nothing is decided here: a person takes
 * each row or leaves it.
 *
 * @param build what is written down as fitted; an empty one for a table without a machine
 * @param limits the limits as believed today (see limits/resolve)
 * @param shopParts what the shop knows, to name parts by
 */
export const propose = (
  table: FirmwareTable,
  { build, limits }: { readonly build: Build; readonly limits: Limits },
  shopParts: readonly Part[],
): Proposal => {
  const single = [
    ...boardRow(table, build.board, shopParts),
    ...processorRow(table, build.processor, shopParts),
  ]
  const isAnother = single.length > 1 && single.every(({ standing }) => standing === 'differs')
  return {
    parts: [...single, ...memoryRows(table, build.memory, shopParts)],
    limits: limitRows(table, limits),
    notes: [...(isAnother ? [{ what: 'another machine' } as const] : []), ...notesOn(table)],
  }
}

/**
 * The same for a table that is held against nothing: its limits stand against what the published tables say of the parts
 * it names.
 */
export function proposeLoose(table: FirmwareTable, shopParts: readonly Part[]): Proposal {
  const nothing = buildOf([])
  const { parts, notes } = propose(table, { build: nothing, limits: limitsOf(nothing, []) }, shopParts)
  const named = parts.flatMap(({ id, kind, read }) => {
    if (read === undefined) return []
    return [shopParts.find((p) => p.id === read.knownId) ?? newPart(kind, id, read.name, read.figures)]
  })
  return { parts, notes, limits: limitRows(table, limitsOf(buildOf(named), [])) }
}

/** A part that the shop did not know: what the table tells of it, and what its name tells for sure. */
export const newPart = (kind: PartKind, id: string, name: string, figures: ReadFigures): Part =>
  // Figures are those of the kind they were read for, which the compiler does not follow.
  filledFromName({ kind, id, name: name.trim(), ...figures } as Part)

/** The one part that can be meant; several are none. */
const theOne = <P extends Part>(parts: readonly P[]): P | undefined =>
  parts.length === 1 ? parts[0] : undefined

function row(kind: ReadKind, agrees: boolean, written: Part | undefined, read: ReadPart): PartRow[] {
  const standing = agrees ? 'agrees' : written === undefined ? 'new' : 'differs'
  const mayBeSame = written !== undefined && !areTwo(kind, written, read)
  return [{ id: kind, kind, standing, written, read, ...(standing === 'differs' && { mayBeSame }) }]
}

/** Whether something that is sure tells them apart: the chipset in their names, the model, size and number of modules. */
function areTwo(kind: ReadKind, written: Part, read: ReadPart): boolean {
  const made = newPart(kind, 'read', read.name, read.figures)
  const figures: readonly [unknown, unknown][] =
    written.kind === 'board' && made.kind === 'board'
      ? [[written.chipset, made.chipset]]
      : written.kind === 'memory' && made.kind === 'memory'
        ? [
            [written.moduleGB, made.moduleGB],
            [written.modules, made.modules],
          ]
        : []
  const isOther = ([a, b]: readonly [unknown, unknown]) => a !== undefined && b !== undefined && a !== b
  return figures.some(isOther) || (written.kind === 'processor' && areTwoModels(written.name, read.name))
}

/** Two letters behind a dash that some makers add to the printed name. */
const EDITION = /-[A-Z]{2}$/

/** The board's product, else the system's: single boards are often sold under one name for both. */
function boardRow({ board, system }: FirmwareTable, written: Board | undefined, shopParts: readonly Part[]) {
  const product = told(board.product) ?? told(system.product)
  if (product === undefined) return []
  const maker = told(board.maker) ?? told(system.maker)
  const model = product.replace(EDITION, '')
  const known = theOne(shopParts.filter((p) => p.kind === 'board').filter((p) => isIn(model, p.name)))
  const name = known?.name ?? nameOf(maker, product)
  const agrees = written !== undefined && (isIn(model, written.name) || isAlike(written.name, name))
  return row('board', agrees, written, { name, knownId: known?.id, figures: {}, modules: [] })
}

function processorRow(table: FirmwareTable, written: Processor | undefined, shopParts: readonly Part[]) {
  const fitted = table.processors.find((p) => p.fitted && told(p.name) !== undefined)
  if (fitted?.name === undefined) return []
  const brand = processorName(fitted.name)
  if (brand === '') return []
  const ofKind = shopParts.filter((p) => p.kind === 'processor')
  const known = theOne(ofKind.filter((p) => isSameProcessor(p, brand)))
  const figures = fitted.cores === undefined ? {} : { cores: fitted.cores }
  const agrees = written !== undefined && isSameProcessor(written, brand)
  return row('processor', agrees, written, {
    ...{ name: known?.name ?? brand, knownId: known?.id, figures, modules: [] },
  })
}

/** Kits against modules. A kit without its modules beside modules without a kit is one thing under two names. */
function memoryRows(
  table: FirmwareTable,
  written: readonly MemoryKit[],
  shopParts: readonly Part[],
): PartRow[] {
  const modules = modulesIn(table).filter((m) => !m.soldered)
  if (table.modules.length === 0) return []
  const { matched, missing, further } = compareMemory(written, modules)
  const same = (group: readonly Module[]) =>
    matched.find(({ kit, modules: of }) => kit.modules === group.length && isOneModel(of, group))?.kit
  const readOf = (group: readonly Module[]) => readMemory(group, same(group), shopParts)
  const [onlyMissing, onlyFurther] = [theOne(missing), further.length === 1 ? further[0] : undefined]
  const rows: Omit<PartRow, 'id' | 'kind'>[] = matched.map(({ kit, modules: of }) => ({
    ...{ standing: 'agrees', written: kit, read: readMemory(of, kit, shopParts) },
  }))
  if (onlyMissing !== undefined && onlyFurther !== undefined)
    rows.push(...row('memory', false, onlyMissing, readOf(onlyFurther)))
  else {
    const standing = written.length === 0 ? 'new' : 'added'
    rows.push(...further.map((group) => ({ standing, read: readOf(group) }) as const))
    if (tellsAllPlaces(table))
      rows.push(...missing.map((kit) => ({ standing: 'gone', written: kit }) as const))
  }
  return rows.map((r, n) => ({ ...r, id: `memory.${n}`, kind: 'memory' }))
}

const isOneModel = (a: readonly Module[], b: readonly Module[]): boolean =>
  [...a, ...b].every((m) => m.partNumber === a[0]?.partNumber && m.moduleGB === a[0]?.moduleGB)

/**
 * Equal modules as a kit. `rateMts` is what the table calls the highest rate of the module: old firmware gives that of
 * the standard and not of the profile on the label, so a figure below what it runs at is left out.
 */
function readMemory(
  group: readonly Module[],
  same: MemoryKit | undefined,
  shopParts: readonly Part[],
): ReadPart {
  const [first] = group
  const { memoryType, form, moduleGB, ranks, maker, partNumber, rated, runs } = first ?? {}
  const modules = group.length
  const rateMts = rated !== undefined && rated.mts >= (runs?.mts ?? 0) ? rated.mts : undefined
  const named = shopParts.filter(
    (p) =>
      p.kind === 'memory' &&
      p.modules === modules &&
      p.moduleGB === moduleGB &&
      group.every((m) => isNamedBy(p, m)),
  )
  const known = same ?? theOne(named)
  const size = `${modules} x ${moduleGB} GB`
  const rate = [memoryType, rateMts].filter((piece) => piece !== undefined).join('-')
  const madeUp = [maker, partNumber, size, memoryType === undefined ? undefined : rate]
  const given = {
    memoryType,
    form,
    modules,
    moduleGB,
    ranks: ranks === 1 || ranks === 2 ? ranks : undefined,
    rateMts,
  }
  return {
    name: known?.name ?? madeUp.filter((piece) => piece !== undefined).join(' '),
    knownId: known?.id,
    figures: Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)),
    modules: group,
  }
}

/** Housings of machines that are carried: their parts are their maker's own more often than not. */
const PORTABLE = new Set([
  'Portable',
  'Laptop',
  'Notebook',
  'Sub Notebook',
  'Hand Held',
  'Tablet',
  'Convertible',
  'Detachable',
])

function notesOn(table: FirmwareTable): TableNote[] {
  const soldered = modulesIn(table).filter((m) => m.soldered)
  const totalGB = soldered.reduce((sum, m) => sum + m.moduleGB, 0)
  const { housing, missingTexts, modules } = table
  return [
    ...(soldered.length > 0 ? [{ what: 'soldered', totalGB } as const] : []),
    ...(housing !== undefined && PORTABLE.has(housing) ? [{ what: 'portable', housing } as const] : []),
    ...(modules.length > 0 && !tellsAllPlaces(table) ? [{ what: 'memory not told' } as const] : []),
    ...(missingTexts > 0 ? [{ what: 'texts missing', count: missingTexts } as const] : []),
  ]
}
