import type { BoardForm, SupplyForm } from '../part.ts'
import { blank, type Found, findAll, LEFT, RIGHT } from './text.ts'

/** Ways to write a board form, the longer ones first, because `ATX` is within most of them. */
const BOARD_WORDS: readonly (readonly [BoardForm, string])[] = [
  ['E-ATX', `e[ -]?atx|extended[ -]?atx`],
  ['microATX', `(?:micro|u|m)[ -]?atx`],
  ['Mini-ITX', `(?:mini|m)[ -]?itx|itx`],
  // `ATX 3.0` is a design guide of supplies, no form.
  ['ATX', `atx(?! *v?\\d\\.\\d)`],
]

const SUPPLY_WORDS: readonly (readonly [SupplyForm, string])[] = [
  ['SFX-L', `sfx[ -]?l`],
  ['SFX', `sfx`],
  ['TFX', `tfx`],
  ['Flex ATX', `flex[ -]?(?:atx)?`],
  ['ATX', `atx(?! *v?[1-3](?:\\.\\d+)?${RIGHT})`],
]

export type FoundForm<F> = Found & { readonly form: F }

function formsIn<F>(text: string, words: readonly (readonly [F, string])[]): FoundForm<F>[] {
  let left = text
  return words.flatMap(([form, pattern]) => {
    const all = findAll(left, `${LEFT}(?:${pattern})${RIGHT}`)
    left = blank(left, all)
    return all.map((found) => ({ ...found, form }))
  })
}

export const boardFormsIn = (text: string): FoundForm<BoardForm>[] => formsIn(text, BOARD_WORDS)
export const supplyFormsIn = (text: string): FoundForm<SupplyForm>[] => formsIn(text, SUPPLY_WORDS)
