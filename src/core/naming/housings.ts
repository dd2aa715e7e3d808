import type { BoardForm } from '../part.ts'
import { boardFormsIn, supplyFormsIn } from './forms.ts'
import { blank, figureIn, findAll, LEFT, pieceOf, RIGHT } from './text.ts'
import { onlyOne, type Piece, type Pieces } from './understood.ts'

/** Supplies of desktop machines in W (common practice). */
const RATED_W = { least: 100, most: 2500 }

/** What a supply's name says: rated power and form. Two figures in W (rating and 12 V rail) leave the rating open. */
export function readSupply(text: string): Pieces<'supply'> {
  return {
    form: onlyOne(supplyFormsIn(text).map((found) => pieceOf(text, found, found.form))),
    ratedW: figureIn(text, 'w|watts?', RATED_W.least, RATED_W.most)?.piece,
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
  const isAboutSupply = /supply|supplies|psu|sfx|tfx|flex/i.test(left)
  if (isAboutSupply && found.some(({ form }) => form === 'ATX')) return undefined
  const largest = BY_SIZE.find((form) => found.some((f) => f.form === form))
  const place = found.find(({ form }) => form === largest)
  return largest === undefined || place === undefined ? undefined : pieceOf(text, place, TAKES[largest])
}

const MAX = `(?: *(?:up +to|max(?:imum)?|:|=|of|is|-))* *`
const CARD = `(?:graphics +)?(?:card|gpu)s?`
const COOLER = `(?:cpu +|processor +)?coolers?`

/** `card room 330 mm`, `card up to 330 mm`, `330 mm card room`, `330 mm room for a card`. */
function roomIn(text: string, thing: string, least: number, most: number): Piece<number> | undefined {
  const figure = `(\\d{2,3})(?:\\.0)? *mm${RIGHT}`
  const places = [
    ...findAll(text, `${LEFT}${thing} +(?:room|clearance|space)${MAX}${figure}`),
    ...findAll(text, `${LEFT}${thing} +(?:up +to|max(?:imum)?) *${figure}`),
    ...findAll(
      text,
      `${LEFT}(?<!\\d *[-/x] *)${figure} +(?:of +)?${thing} +(?:room|clearance|space)${RIGHT}`,
    ),
    ...findAll(
      text,
      `${LEFT}(?<!\\d *[-/x] *)${figure} +(?:of +)?(?:room|space) +for +(?:a +|the +)?${thing}${RIGHT}`,
    ),
  ]
  const room = onlyOne(places.map((found) => pieceOf(text, found, Number(found.groups[1]))))
  return room && room.value >= least && room.value <= most ? room : undefined
}

/** What a case's name says: the boards it takes, and the room for card and cooler where it is called so. */
export function readCase(text: string): Pieces<'case'> {
  return {
    boardForms: boardFormsOf(text),
    cardRoomMm: roomIn(text, CARD, 100, 600),
    coolerRoomMm: roomIn(text, COOLER, 20, 250),
  }
}
