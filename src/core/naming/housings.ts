import type { BoardForm } from '../part.ts'
import { boardFormsIn, supplyFormsIn } from './forms.ts'
import { PLUGS, plugsIn } from './plugs.ts'
import { blank, type Found, figuresIn, findAll, LEFT, pieceOf, RIGHT, theFigure } from './text.ts'
import { onlyOne, type Piece, type Pieces } from './understood.ts'

/** Supplies of desktop machines in W (common practice). */
const RATED_W = { least: 100, most: 2500 }

/** A number that is the whole name of a supply is its rated power, within these bounds (common practice). */
const ALONE_W = { least: 200, most: 2000 }

/**
 * What a supply's name says: rated power, form and plugs for cards. Two figures in W (rating and 12 V rail) leave the
 * rating open.
 */
export function readSupply(text: string): Pieces<'supply'> {
  const alone = findAll(text, '^ *(\\d{3,4}) *$').filter(({ groups: [, digits] }) => {
    const watts = Number(digits)
    return watts >= ALONE_W.least && watts <= ALONE_W.most
  })
  const [bare] = alone
  const rated = theFigure(figuresIn(text, 'w|watts?'), RATED_W.least, RATED_W.most)
  return {
    form: onlyOne(supplyFormsIn(text).map((found) => pieceOf(text, found, found.form))),
    ratedW: bare ? pieceOf(text, bare, Number(bare.groups[1])) : rated && pieceOf(text, rated, rated.value),
    plugs: plugsIn(text, findAll(text, PLUGS), 'supply'),
  }
}

/** A case takes its own form and the smaller ones (common practice; hole containment, microATX 1.2, Figure 2). */
const TAKES: Readonly<Record<BoardForm, readonly BoardForm[]>> = {
  'E-ATX': ['E-ATX', 'ATX', 'microATX', 'Mini-ITX'],
  ATX: ['ATX', 'microATX', 'Mini-ITX'],
  microATX: ['microATX', 'Mini-ITX'],
  'Mini-ITX': ['Mini-ITX'],
}
const BY_SIZE = ['E-ATX', 'ATX', 'microATX', 'Mini-ITX'] as const satisfies readonly BoardForm[]

const A_SUPPLY = `${LEFT}(?:sfx[ -]?l|sfx|tfx|flex[ -]?atx|(?<!micro[ -]?|[mue][ -]?)atx) *-? *(?:power *)?(?:supply|supplies|psu)${RIGHT}`

/** `ATX` beside a word for supplies may be the supply's form, unless it stands right before that word. */
function boardFormsOf(text: string): Piece<readonly BoardForm[]> | undefined {
  const left = blank(text, findAll(text, A_SUPPLY))
  const found = boardFormsIn(left)
  const isAboutSupply = /supply|supplies|psu|sfx|tfx|flex/i.test(text)
  if (isAboutSupply && found.some(({ form }) => form === 'ATX')) return undefined
  const largest = BY_SIZE.find((form) => found.some((f) => f.form === form))
  const place = found.find(({ form }) => form === largest)
  return largest === undefined || place === undefined ? undefined : pieceOf(text, place, TAKES[largest])
}

const MAX = `(?: *(?:up +to|max(?:imum)?|:|=|of|is|-))* *`
const CARD = `(?:graphics +)?(?:card|gpu)s?`
const COOLER = `(?:cpu +|processor +)?coolers?`

/** Places such as `card room 330 mm`, `card up to 330 mm`, `330 mm card room`, `330 mm room for a card`. */
function roomsIn(text: string, thing: string): Found[] {
  const figure = `(\\d{2,3}) *mm${RIGHT}`
  const alone = `${LEFT}(?<!\\d *[-/x.] *)${figure}`
  return [
    ...findAll(text, `${LEFT}${thing} +(?:room|clearance|space)${MAX}${figure}`),
    ...findAll(text, `${LEFT}${thing} +(?:up +to|max(?:imum)?) *${figure}`),
    ...findAll(text, `${alone} +(?:of +)?${thing} +(?:room|clearance|space)${RIGHT}`),
    ...findAll(text, `${alone} +(?:of +)?(?:room|space) +for +(?:a +|the +)?${thing}${RIGHT}`),
  ]
}

function roomOf(
  text: string,
  rooms: readonly Found[],
  least: number,
  most: number,
): Piece<number> | undefined {
  const room = onlyOne(rooms.map((found) => pieceOf(text, found, Number(found.groups[1]))))
  return room && room.value >= least && room.value <= most ? room : undefined
}

/** Whether two readings want the same figure: `card room 330 mm cooler room`. */
const overlap = (a: Found, b: Found): boolean => a.at < b.end && b.at < a.end

/** What a case's name says: the boards it takes, and the room for card and cooler where it is called so. */
export function readCase(text: string): Pieces<'case'> {
  const boardForms = boardFormsOf(text)
  const [card, cooler] = [roomsIn(text, CARD), roomsIn(text, COOLER)]
  if (card.some((a) => cooler.some((b) => overlap(a, b)))) return { boardForms }
  return {
    boardForms,
    cardRoomMm: roomOf(text, card, 100, 600),
    coolerRoomMm: roomOf(text, cooler, 20, 250),
  }
}
