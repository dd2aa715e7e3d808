import { PLUGS, plugsIn } from './plugs.ts'
import { blank, figuresIn, findAll, LEFT, pieceOf, RIGHT, theFigure } from './text.ts'
import { onlyOne, type Piece, type Pieces } from './understood.ts'

const MEMORY_GB = new Set([1, 2, 3, 4, 5, 6, 8, 10, 11, 12, 16, 20, 24, 32, 48])

/** Generation, and lanes behind it. With `slot` behind, it is the machine's slot and not the card's link. */
const LINK = `${LEFT}(?:pci-?e(?:xpress)?[ -]*(?:gen[ -]*)?|gen(?:eration)?[ -]*)([1-5])(?:\\.0)?(?:[ ,-]*x *(16|8|4|1))?${RIGHT}(?!(?:\\.0)?(?:[ ,-]*x *\\d+)? *slot)`

/** Shortest and longest card of the trade in mm (common practice); other sides and fans are not its length. */
const LENGTH_MM = { least: 140, most: 400 }
const NOT_LENGTH = /^ *(?:fans?|thick|wide|width|high|height|tall|deep|radiator|slot)/i

function lengthIn(text: string): Piece<number> | undefined {
  const lengths = figuresIn(text, 'mm').filter(({ end }) => !NOT_LENGTH.test(text.slice(end)))
  const length = theFigure(lengths, LENGTH_MM.least, LENGTH_MM.most)
  return length && pieceOf(text, length, length.value)
}

/**
 * What the text about a card says in figures: memory, plugs, length, link. The model's own name and number are never
 * read: they are no naming rule that anybody published.
 */
export function readCard(text: string): Pieces<'card'> {
  const places = findAll(text, PLUGS)
  const left = blank(text, places)
  const memory = theFigure(figuresIn(left, 'gb?'), 1, 48)
  const links = findAll(left, LINK)
  const lanes = links.flatMap((found) =>
    found.groups[2] === undefined ? [] : [pieceOf(text, found, Number(found.groups[2]))],
  )
  return {
    memoryGB: memory && MEMORY_GB.has(memory.value) ? pieceOf(text, memory, memory.value) : undefined,
    plugs: plugsIn(text, places, 'card'),
    lengthMm: lengthIn(left),
    pcieGen: onlyOne(links.map((found) => pieceOf(text, found, Number(found.groups[1])))),
    pcieLanes: onlyOne(lanes),
  }
}
