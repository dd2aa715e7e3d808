import type { MemoryType } from '../part.ts'
import { blank, type Found, figuresIn, findAll, LEFT, pieceOf, RIGHT } from './text.ts'
import { onlyOne, type Piece, type Pieces } from './understood.ts'

type Kit = Found & { readonly modules: number; readonly moduleGB: number }

const DDR = `${LEFT}ddr[ -]?([345])(l?)${RIGHT}`
const SIZES_GB = new Set([1, 2, 4, 8, 12, 16, 24, 32, 48, 64])
const MOST_MODULES = 8
const COUNT_WORDS: Readonly<Record<string, number>> = { single: 1, one: 1, two: 2, three: 3, four: 4 }

function typeOf({ groups: [, digit, low] }: Found): MemoryType {
  if (digit === '3') return low ? 'DDR3L' : 'DDR3'
  return digit === '4' ? 'DDR4' : 'DDR5'
}

/** Memory types that a text names. */
export const memoryTypesIn = (text: string): Piece<MemoryType>[] =>
  findAll(text, DDR).map((found) => pieceOf(text, found, typeOf(found)))

const UNIT = `(?:gb?|gigs?|gigabytes?)`
const STICKS = `(?:sticks?|modules?|dimms?)`
const COUNT = `(\\d|${Object.keys(COUNT_WORDS).join('|')})`

/** Ways to write a kit. Groups: which one is the count, which the size of one. */
const WAYS: readonly { readonly pattern: string; readonly count: number; readonly size: number }[] = [
  { pattern: `(\\d{1,2}) *${UNIT} *x *(\\d)${RIGHT}`, count: 2, size: 1 },
  { pattern: `(single|one) +(\\d{1,2}) *${UNIT}${RIGHT}`, count: 1, size: 2 },
  { pattern: `${COUNT} +(\\d{1,2}) *${UNIT}[ -]*${STICKS}${RIGHT}`, count: 1, size: 2 },
  { pattern: `${COUNT} +${STICKS} +of +(\\d{1,2}) *${UNIT}${RIGHT}`, count: 1, size: 2 },
  {
    pattern: `(\\d{1,2}) *${UNIT},? +(single)(?! *-? *(?:rank|channel|side))(?: *${STICKS})?${RIGHT}`,
    count: 2,
    size: 1,
  },
]

/** `16 gigs, two sticks`: the size before the number of modules is that of all (common practice). */
const TOTAL = `${LEFT}(\\d{1,3}) *${UNIT}(?: +(?:total|kit|ram|memory|ddr[345]l?))*,? +\\(?${COUNT} +${STICKS}(?! *of)${RIGHT}`

/**
 * Kits as written: `2x8 GB`, `8 GB x 2`, `single 8 GB`, `2 sticks of 8 GB`, `16 GB, two sticks`. Without a unit the
 * count comes first (`2x8`), and `8x2` could be either, so it is none.
 */
function kitsIn(text: string): Kit[] {
  const times = findAll(text, `${LEFT}(\\d) *x *(\\d{1,2}) *(${UNIT})?${RIGHT}(?! *x|[.,]\\d)`).map(
    (found) => {
      const [, count, size, unit] = found.groups
      const isClear = unit !== undefined || Number(count) <= Number(size)
      return { ...found, modules: isClear ? Number(count) : Number.NaN, moduleGB: Number(size) }
    },
  )
  const others = WAYS.flatMap(({ pattern, count, size }) =>
    findAll(text, `${LEFT}${pattern}`).map((found) => ({
      ...found,
      modules: countOf(found.groups[count]),
      moduleGB: Number(found.groups[size]),
    })),
  )
  const kits = [...times, ...others]
  const totals = findAll(blank(text, kits), TOTAL).map((found) => {
    const modules = countOf(found.groups[2])
    return { ...found, modules, moduleGB: Number(found.groups[1]) / modules }
  })
  return [...kits, ...totals]
}

const countOf = (word = ''): number => COUNT_WORDS[word.toLowerCase()] ?? Number(word)

/** The one kit a text describes; a second kit, or a total that is not its own, leaves it open. */
function kitIn(text: string, kits: readonly Kit[]): Kit | undefined {
  const [kit, ...others] = kits
  if (kit === undefined || others.some((k) => k.modules !== kit.modules || k.moduleGB !== kit.moduleGB)) {
    return undefined
  }
  const { modules, moduleGB } = kit
  const isSane = modules >= 1 && modules <= MOST_MODULES && SIZES_GB.has(moduleGB)
  const totals = figuresIn(blank(text, kits), UNIT)
  const agrees = totals.every(
    ({ value, isClear }) => isClear && (value === modules * moduleGB || value === moduleGB),
  )
  return isSane && agrees ? kit : undefined
}

/** Rates that memory is sold with, in MT/s: what a bare number must be to count as a rate. */
const SOLD_MTS = new Set([
  1066, 1333, 1600, 1866, 1867, 2133, 2400, 2666, 2667, 2800, 2933, 3000, 3200, 3333, 3400, 3466, 3600, 3733,
  3800, 3866, 4000, 4133, 4200, 4266, 4400, 4600, 4800, 5000, 5200, 5600, 6000, 6200, 6400, 6600, 6800, 7000,
  7200, 7600, 8000,
])

/**
 * Rates of a type in MT/s. Many people write MHz and mean MT/s; below `mhzLeast` it may as well be the clock, which is
 * half the rate (1600 MHz is the clock of DDR4-3200), so it is no figure. Bounds: lowest and highest kits sold of the
 * type (common practice, from memory).
 */
const RATES: Readonly<Record<MemoryType | 'any', { least: number; most: number; mhzLeast: number }>> = {
  DDR3: { least: 800, most: 3200, mhzLeast: 1333 },
  DDR3L: { least: 800, most: 3200, mhzLeast: 1333 },
  DDR4: { least: 1600, most: 5400, mhzLeast: 2133 },
  DDR5: { least: 3200, most: 10_000, mhzLeast: 4800 },
  any: { least: 2133, most: 10_000, mhzLeast: 2133 },
}

function rateIn(text: string, kits: readonly Kit[], type: MemoryType | undefined): Piece<number> | undefined {
  const types = findAll(text, DDR)
  const left = blank(text, [...kits, ...types])
  const bounds = RATES[type ?? 'any']
  const numbers = findAll(left, `${LEFT}(?<![.,])(\\d{3,5}) *(mt/?s?|mhz)?(?:${RIGHT}|(?=cl\\d))`).flatMap(
    (found) => {
      const [, digits, unit] = found.groups
      const mts = Number(digits)
      const isBehindType = types.some((t) => t.end <= found.at && /^[ -]*$/.test(left.slice(t.end, found.at)))
      if (unit === undefined && !isBehindType && !SOLD_MTS.has(mts)) return []
      const least = unit?.toLowerCase() === 'mhz' ? bounds.mhzLeast : bounds.least
      const isChoice =
        /\d *[-/] *$/.test(left.slice(0, found.at)) || /^ *[-/] *\d/.test(left.slice(found.end))
      return { found, mts, unit, isRate: mts >= least && mts <= bounds.most && !isChoice }
    },
  )
  const rates = numbers.filter((n) => n.isRate)
  const isClockOf = ({ mts, unit }: (typeof numbers)[number]) =>
    unit?.toLowerCase() === 'mhz' && rates.some((rate) => rate.mts === mts * 2)
  if (numbers.some((n) => !n.isRate && !isClockOf(n))) return undefined
  return onlyOne(rates.map(({ found, mts }) => pieceOf(text, found, mts)))
}

function formsIn(text: string): Piece<'DIMM' | 'SO-DIMM'>[] {
  const small = findAll(text, `${LEFT}so[ -]?dimms?${RIGHT}`)
  const plainOnes = findAll(blank(text, small), `${LEFT}u?-?dimms?${RIGHT}`)
  const registered = findAll(text, `${LEFT}(?:r|lr)-?dimms?${RIGHT}`)
  if (registered.length > 0) return []
  return [
    ...small.map((found) => pieceOf(text, found, 'SO-DIMM' as const)),
    ...plainOnes.map((found) => pieceOf(text, found, 'DIMM' as const)),
  ]
}

/**
 * What a kit's name says: type, form, modules, size of one and rate in MT/s. A total alone (`8 GB`) gives no figure,
 * because one module and two of half the size are different answers.
 */
export function readMemory(text: string): Pieces<'memory'> {
  const types = memoryTypesIn(text)
  const memoryType = onlyOne(types)
  const kits = kitsIn(text)
  const kit = kitIn(text, kits)
  const isOneType = types.length === 0 || memoryType !== undefined
  return {
    memoryType,
    form: onlyOne(formsIn(text)),
    modules: kit && pieceOf(text, kit, kit.modules),
    moduleGB: kit && pieceOf(text, kit, kit.moduleGB),
    rateMts: isOneType ? rateIn(text, kits, memoryType?.value) : undefined,
  }
}
