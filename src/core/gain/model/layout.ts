import { type Atom, type Entry, entriesOf, kindAtom } from './atoms.ts'
import type { Catalog } from './catalog.ts'
import type { Cell, Reading } from './cells.ts'
import type { Priors } from './priors.ts'
import { priorOf } from './terms.ts'

/** `smax`: the model of frame times. `sum`: both sides add up, for ratios of the 1 % low to the average. */
export type Form = 'smax' | 'sum'

/** Everything that stays as it is while a fit runs. Numbers of classes and shared figures index its arrays. */
export type Problem = {
  readonly form: Form
  readonly priors: Priors
  readonly shared: Shared
  readonly classes: Classes
  readonly blocks: readonly Block[]
}

export type Shared = {
  readonly keys: readonly string[]
  readonly mean: Float64Array
  /** Prior standard deviation; of parts with a nominal figure it is learned (`scale` 1: processors, 2: cards). */
  readonly sd: Float64Array
  readonly scale: Uint8Array
}

export type Classes = {
  readonly keys: readonly string[]
  readonly s0: Float64Array
  readonly nu0: Float64Array
  /** Interactions doubt themselves: one title may be far off without moving the others. */
  readonly robust: Uint8Array
}

/** One title: its atoms and its rows, flat. */
export type Block = {
  readonly key: string
  readonly atomKeys: readonly string[]
  /** Atoms of cards stand first, card by card: where each card's begin, and where the last one's end. */
  readonly heads: Int32Array
  readonly atomClass: Int32Array
  /** Shared figures in an atom's mean: entries `meanAt[i] .. meanAt[i + 1]`. */
  readonly meanAt: Int32Array
  readonly meanOf: Int32Array
  readonly meanBy: Float64Array
  readonly alpha: number
  readonly beta: number
  /** Atom of log p; -1 in the sum. */
  readonly sharpness: number
  readonly cells: readonly Cell[]
  /** Atoms in a row, rising: entries `rowAt[j] .. rowAt[j + 1]`. */
  readonly rowAt: Int32Array
  readonly rowAtom: Int32Array
  readonly rowA: Float64Array
  readonly rowB: Float64Array
  readonly y: Float64Array
  readonly repeats: Float64Array
  /** Variance that age adds. */
  readonly aged: Float64Array
  readonly capped: Uint8Array
  /** Log readings of each cell that has several. */
  readonly repeatLogs: readonly (readonly number[])[]
}

/** Which reading of a cell a fit is about; `undefined`: the cell is not in it. */
export type Reads = (cell: Cell) => Pick<Reading, 'y' | 'n' | 'capped' | 'logs'> | undefined

export function problemOf(
  cells: readonly Cell[],
  catalog: Catalog,
  priors: Priors,
  form: Form,
  reads: Reads,
  at: string,
  windowDays: number,
  entries: EntriesOf = (cell) => entriesOf(cell, catalog),
): Problem {
  const shared = numbering()
  const classes = numbering()
  const byBlock = new Map<string, Cell[]>()
  for (const cell of cells) {
    if (reads(cell) === undefined) continue
    const list = byBlock.get(cell.block)
    if (list) list.push(cell)
    else byBlock.set(cell.block, [cell])
  }
  const age = ageVariance(priors, at, windowDays)
  const blocks = [...byBlock].map(([key, own]) =>
    blockOf(key, own, catalog, form, reads, age, shared.number, classes.number, entries),
  )
  return {
    form,
    priors,
    shared: sharedOf(shared.keys, catalog, priors),
    classes: classesOf(classes.keys, priors),
    blocks,
  }
}

type Numbering = { readonly keys: string[]; readonly number: (key: string) => number }

function numbering(known: readonly string[] = []): Numbering {
  const keys = [...known]
  const of = new Map(keys.map((key, i) => [key, i]))
  const number = (key: string): number => {
    const seen = of.get(key)
    if (seen !== undefined) return seen
    of.set(key, keys.length)
    return keys.push(key) - 1
  }
  return { keys, number }
}

const DAY_MS = 86_400_000
const YEAR_DAYS = 365.25

/** A run that is older than the shop's window says less about today, the more so the older it is. */
export const ageVariance =
  (priors: Priors, at: string, windowDays: number) =>
  (when: string): number => {
    const years = ((Date.parse(at) - Date.parse(when)) / DAY_MS - windowDays) / YEAR_DAYS
    return years > 0 ? priors.ageSdPerRootYear ** 2 * years : 0
  }

type EntriesOf = (cell: Cell) => readonly Entry[]

/** Entries of cells, each worked out once: the three problems of a fit have them in common. */
export function entriesOnce(catalog: Catalog): EntriesOf {
  const known = new Map<Cell, readonly Entry[]>()
  return (cell) => {
    const before = known.get(cell)
    if (before) return before
    const fresh = entriesOf(cell, catalog)
    known.set(cell, fresh)
    return fresh
  }
}

/** The block of one title. `undefined` numbers (a shared figure that the problem does not have) throw. */
export function blockOf(
  key: string,
  cells: readonly Cell[],
  catalog: Catalog,
  form: Form,
  reads: Reads,
  age: (when: string) => number,
  sharedNumber: (key: string) => number,
  classNumber: (key: string) => number,
  entries: EntriesOf = (cell) => entriesOf(cell, catalog),
): Block {
  const atoms: Atom[] = []
  const numbers = new Map<string, number>()
  const add = (atom: Atom): number => {
    const seen = numbers.get(atom.key)
    if (seen !== undefined) return seen
    numbers.set(atom.key, atoms.length)
    return atoms.push(atom) - 1
  }
  const rows = cells.map((cell) => entries(cell).filter(({ a, b }) => a !== 0 || b !== 0))
  const groups = new Map<string, Map<string, Atom>>()
  for (const row of rows)
    for (const { atom } of row) {
      if (atom.group === undefined) continue
      const group = groups.get(atom.group)
      if (group) group.set(atom.key, atom)
      else groups.set(atom.group, new Map([[atom.key, atom]]))
    }
  const heads = [0]
  for (const group of groups.values()) {
    for (const atom of group.values()) add(atom)
    heads.push(atoms.length)
  }
  const numbered = rows.map((row) => row.map((entry) => ({ entry, i: add(entry.atom) })))
  const sharpness = form === 'smax' ? add(kindAtom('logp')) : -1
  const flat = flatRows(numbered)
  const means = atoms.flatMap(({ of }) => of)
  const readings = cells.map((cell) => reads(cell))
  return {
    key,
    atomKeys: atoms.map((atom) => atom.key),
    heads: Int32Array.from(heads),
    atomClass: Int32Array.from(atoms, ({ cls }) => classNumber(cls)),
    meanAt: offsets(atoms.map(({ of }) => of.length)),
    meanOf: Int32Array.from(means, ([name]) => sharedNumber(name)),
    meanBy: Float64Array.from(means, ([, by]) => by),
    alpha: numbers.get('alpha') ?? -1,
    beta: numbers.get('beta') ?? -1,
    sharpness,
    cells,
    ...flat,
    y: Float64Array.from(readings, (r) => r?.y ?? Number.NaN),
    repeats: Float64Array.from(readings, (r) => r?.n ?? 1),
    aged: Float64Array.from(cells, ({ runs }) => age(runs.at(-1)?.at ?? '')),
    capped: Uint8Array.from(readings, (r) => (r?.capped ? 1 : 0)),
    repeatLogs: readings.flatMap((r) => (r !== undefined && !r.capped && r.logs.length > 1 ? [r.logs] : [])),
  }
}

/** Entries of all rows, one after another, each row's atoms rising. */
function flatRows(
  rows: readonly { readonly entry: Entry; readonly i: number }[][],
): Pick<Block, 'rowAt' | 'rowAtom' | 'rowA' | 'rowB'> {
  const rowAt = offsets(rows.map((row) => row.length))
  const count = rowAt[rows.length] as number
  const rowAtom = new Int32Array(count)
  const [rowA, rowB] = [new Float64Array(count), new Float64Array(count)]
  let at = 0
  for (const row of rows)
    for (const { entry, i } of row.sort((x, y) => x.i - y.i)) {
      rowAtom[at] = i
      rowA[at] = entry.a
      rowB[at++] = entry.b
    }
  return { rowAt, rowAtom, rowA, rowB }
}

function offsets(lengths: readonly number[]): Int32Array {
  const at = new Int32Array(lengths.length + 1)
  lengths.forEach((length, i) => {
    at[i + 1] = (at[i] as number) + length
  })
  return at
}

function sharedOf(keys: readonly string[], { nominal }: Catalog, priors: Priors): Shared {
  const { parts } = priors
  const rows = keys.map((key): { mean: number; sd: number; scale: number } => {
    const space = key.indexOf(' ')
    const [family, name] = [key.slice(0, space), key.slice(space + 1)]
    const own = (sd: number) => ({ mean: 0, sd, scale: 0 })
    switch (family) {
      case 'mu': {
        const { m, ms } = priorOf(name, priors)
        return { mean: m, sd: ms, scale: 0 }
      }
      case 'a':
        return nominal.has(name) ? { mean: 0, sd: parts.processorNominal.s0, scale: 1 } : own(parts.processor)
      case 'b':
        return nominal.has(name) ? { mean: 0, sd: parts.cardNominal.s0, scale: 2 } : own(parts.card)
      case 'a+':
        return own(parts.processorVariant)
      case 'b+':
        return own(parts.cardVariant)
      case 'rho':
        return own(parts.cardRt)
      case 'pixels':
        return own(parts.cardPixels)
      case 'slope':
        return { mean: parts.nominalSlope.m, sd: parts.nominalSlope.ms, scale: 0 }
      default:
        throw new RangeError(`no prior for ${key}`)
    }
  })
  return {
    keys,
    mean: Float64Array.from(rows, (r) => r.mean),
    sd: Float64Array.from(rows, (r) => r.sd),
    scale: Uint8Array.from(rows, (r) => r.scale),
  }
}

function classesOf(keys: readonly string[], priors: Priors): Classes {
  const spreads = keys.map((key) =>
    Object.hasOwn(priors.interactions, key) ? priors.interactions[key] : undefined,
  )
  const of = keys.map((key, i) => spreads[i] ?? priorOf(key, priors))
  return {
    keys,
    s0: Float64Array.from(of, (c) => c.s0),
    nu0: Float64Array.from(of, (c) => c.nu0),
    robust: Uint8Array.from(spreads, (s) => (s === undefined ? 0 : 1)),
  }
}
