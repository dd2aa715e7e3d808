import { figuresIn, findAll, LEFT, pieceOf, RIGHT, theFigure } from './text.ts'
import { onlyOne, type Pieces } from './understood.ts'

/** Fan and radiator sizes in mm: such a figure is a cooler's height only where it says so (trade sizes, common practice). */
const FAN_MM = new Set([80, 92, 120, 140, 200, 240, 280, 360])
const HEIGHT_MM = { least: 20, most: 200 }
const SAYS_HEIGHT = /^ *(?:high|tall|height|in height)/i
const OTHER_SIDE = /^ *(?:fans?|radiator|aio|wide|deep|tube|hose)/i

/** What a cooler's name says: its height in mm. */
export function readCooler(text: string): Pieces<'cooler'> {
  const height = theFigure(figuresIn(text, 'mm'), HEIGHT_MM.least, HEIGHT_MM.most)
  if (height === undefined || OTHER_SIDE.test(text.slice(height.end))) return {}
  const isSaid =
    SAYS_HEIGHT.test(text.slice(height.end)) || /(?:height|high|tall):? *$/i.test(text.slice(0, height.at))
  const isLiquid = /radiator|aio|liquid|water/i.test(text)
  return isSaid || !(FAN_MM.has(height.value) || isLiquid)
    ? { heightMm: pieceOf(text, height, height.value) }
    : {}
}

const FORMS = [
  ['M.2', `${LEFT}m\\.?2(?![.\\d])${RIGHT}`],
  ['2.5-inch', `${LEFT}2[.,]5 *-? *(?:inch(?:es)?${RIGHT}|in${RIGHT}|"|''|″|”)`],
  ['3.5-inch', `${LEFT}3[.,]5 *-? *(?:inch(?:es)?${RIGHT}|in${RIGHT}|"|''|″|”)`],
] as const

const GB_PER_TB = 1000
const CAPACITY_GB = { least: 16, most: 60_000 }

/** What a drive's name says: form and capacity in decimal GB. `NVMe` and `SSD` name no form. */
export function readDrive(text: string): Pieces<'drive'> {
  const forms = FORMS.flatMap(([form, pattern]) =>
    findAll(text, pattern).map((found) => pieceOf(text, found, form)),
  )
  const inGB = theFigure(figuresIn(text, 'gb|g'), CAPACITY_GB.least, CAPACITY_GB.most)
  const inTB = theFigure(figuresIn(text, 'tb|t'), CAPACITY_GB.least / GB_PER_TB, CAPACITY_GB.most / GB_PER_TB)
  const capacities = [
    ...(inGB === undefined ? [] : [pieceOf(text, inGB, inGB.value)]),
    ...(inTB === undefined ? [] : [pieceOf(text, inTB, Math.round(inTB.value * GB_PER_TB))]),
  ]
  return { form: onlyOne(forms), capacityGB: onlyOne(capacities) }
}

const FANS_SOLD_MM = new Set([40, 60, 80, 92, 120, 140, 180, 200])

/** What a fan's name says: its size in mm. */
export function readFan(text: string): Pieces<'fan'> {
  const size = theFigure(figuresIn(text, 'mm'), 40, 200)
  return size && FANS_SOLD_MM.has(size.value) ? { sizeMm: pieceOf(text, size, size.value) } : {}
}
