import type { ChipsetRow } from '../facts/chipsets/row.ts'
import { chipsetNamed } from '../facts/chipsets.ts'
import type { BoardForm, MemoryType } from '../part.ts'
import { boardFormsIn } from './forms.ts'
import { memoryTypesIn } from './memory.ts'
import { type Found, findAll, LEFT, pieceOf, RIGHT } from './text.ts'
import { onlyOne, type Piece, type Pieces } from './understood.ts'

type Mention = { readonly found: Found; readonly row: ChipsetRow | undefined; readonly form?: BoardForm }

/** Letter that board makers put behind the chipset for the size of the board (common practice). */
const FORM_OF_LETTER: Readonly<Record<string, BoardForm>> = { M: 'microATX', I: 'Mini-ITX' }

/** Looks like a chipset: `B450`, `Z390I`, `H-410M`, `990FX`. The oldest are numbers only, and need their socket's name. */
const LIKE_A_CHIPSET = `${LEFT}(?!x16)(?:([abhqxz])-?(\\d{2,3})([a-z]{0,3})|(9\\d0)(fxm?|xm?|m)?)${RIGHT}`

function mentionOf(found: Found, text: string): Mention | undefined {
  const [, letter, digits = '', tail = '', number, numberTail = ''] = found.groups
  const name = letter === undefined ? `${number}${numberTail}` : `${letter}${digits}${tail}`
  const known = chipsetNamed(name)
  if (number !== undefined && numberTail === '' && !/AM3|AMD/i.test(text)) return undefined
  if (known !== undefined) return { found, row: known }
  const form = FORM_OF_LETTER[name.slice(-1).toUpperCase()]
  const row = form === undefined ? undefined : chipsetNamed(name.slice(0, -1))
  return row === undefined || form === undefined ? { found, row: undefined } : { found, row, form }
}

/** The form in words beats the letter: some makers write `H110M-ITX`. Other words for small boards leave it open. */
function formOf(text: string, mention: Mention | undefined): Piece<BoardForm> | undefined {
  const spoken = boardFormsIn(text).map((found) => pieceOf(text, found, found.form))
  const other = findAll(
    text,
    `${LEFT}(?:mini|thin|nano|pico|stx|dtx|btx|(?:xl|ssi)[ -]?\\w*)(?! *-? *itx)${RIGHT}`,
  )
  if (other.length > 0) return undefined
  const form = onlyOne(spoken)
  if (mention?.form === undefined) return form
  if (spoken.length === 0) return pieceOf(text, mention.found, mention.form)
  return form?.value === mention.form || form?.value === 'Mini-ITX' ? form : undefined
}

/** Boards of one chipset with either memory are told apart by `D4` or `D5` behind the name (common practice). */
const SHORT_TYPE = `${LEFT}d([45])${RIGHT}`

const typesIn = (text: string): Piece<MemoryType>[] => [
  ...memoryTypesIn(text),
  ...findAll(text, SHORT_TYPE).map((found) =>
    pieceOf(text, found, found.groups[1] === '4' ? ('DDR4' as const) : ('DDR5' as const)),
  ),
]

/** Slots as counted for memory: one channel's, both, or two on each. */
const SLOTS = `(?<!(?:pcie|pci-e|gen|m\\.2|sata) *)${LEFT}(?<![.,])([124])[ -]*(?:x *)?(?:(?:dimm|memory|ram|ddr[345]l?)[ -]*)?slots?${RIGHT}`

/**
 * What the name of a board says: chipset, form, memory type and slots. A chipset that is not in facts/chipsets (H61,
 * X570S, B550A, H310C) is nothing, and so are two chipsets in one text. What contradicts the chipset is left out.
 */
export function readBoard(text: string): Pieces<'board'> {
  const mentions = findAll(text, LIKE_A_CHIPSET).flatMap((found) => mentionOf(found, text) ?? [])
  const [first] = mentions
  const row = first?.row
  const isOne = row !== undefined && mentions.every((mention) => mention.row === row)
  const named = isOne ? (mentions.find((mention) => mention.form !== undefined) ?? first) : undefined
  const memoryType = onlyOne(typesIn(text))
  const slots = onlyOne(findAll(text, SLOTS).map((found) => pieceOf(text, found, Number(found.groups[1]))))
  const hasType = row === undefined || memoryType === undefined || row.memoryTypes.includes(memoryType.value)
  const hasSlots = row === undefined || slots === undefined || slots.value <= row.dimmsPerChannel * 2
  return {
    chipset:
      named === undefined || row === undefined
        ? undefined
        : pieceOf(text, named.found, row.chipset, 'Intel and AMD chipset names'),
    form:
      mentions.length > 0 && named === undefined
        ? onlyOne(boardFormsIn(text).map((f) => pieceOf(text, f, f.form)))
        : formOf(text, named),
    memoryType: hasType ? memoryType : undefined,
    memorySlots: hasSlots ? slots : undefined,
  }
}
