import type { Fitted, Setting } from '../run.ts'
import { type Catalog, cardName, processorName, titleOf } from './catalog.ts'
import type { Cell } from './cells.ts'
import { appetiteOf, linkTerms, memoryTerms, pictureTerms, pixelsOf, type Term } from './terms.ts'

/*
 * An atom is one coefficient of one title. Its mean is a sum of shared figures (`of`: none, one, or part and variant and
 * nominal slope), its spread that of its class. Shared figures and classes go by name here; numbers are given out in
 * layout.ts.
 */

export type Atom = {
  readonly key: string
  readonly cls: string
  readonly of: readonly (readonly [shared: string, by: number])[]
  /** A card's: atoms of one card meet in rows, those of two cards never do. */
  readonly group?: string | undefined
}

/** An atom in a row: what one of it adds to log A and to log B. */
export type Entry = { readonly atom: Atom; readonly a: number; readonly b: number }

/** The atom of a kind of coefficient. Made once: it stands in every row of a fit, and kinds are few. */
export function kindAtom(kind: string): Atom {
  const known = KINDS.get(kind)
  if (known !== undefined) return known
  const fresh: Atom = { key: kind, cls: kind, of: [[`mu ${kind}`, 1]] }
  KINDS.set(kind, fresh)
  return fresh
}
const KINDS = new Map<string, Atom>()

const ownAtom = (cls: string, name = ''): Atom => ({ key: `${cls} ${name}`, cls, of: [] })

/** The part itself, its variant against it, and what its nominal figure says. */
export function partAtom(cls: 'phi' | 'gam', id: string, name: string, { nominal }: Catalog): Atom {
  const side = cls === 'phi' ? 'a' : 'b'
  const figure = nominal.get(id)
  return {
    key: `${cls} ${name}`,
    cls,
    ...(cls === 'gam' && { group: id }),
    of: [
      [`${side} ${id}`, 1],
      ...(name === id ? [] : [[`${side}+ ${name}`, 1] as const]),
      ...(figure === undefined ? [] : [[`slope ${figure.source}`, -figure.log] as const]),
    ],
  }
}

export const processorAtom = (catalog: Catalog, fitted: Fitted): Atom =>
  partAtom('phi', fitted.processorId, processorName(catalog, fitted), catalog)

export const cardAtom = (catalog: Catalog, fitted: Fitted): Atom =>
  partAtom('gam', fitted.cardId, cardName(fitted), catalog)

export const cardRtAtom = (fitted: Fitted): Atom => ({
  key: `gamRt ${cardName(fitted)}`,
  cls: 'gamRt',
  group: fitted.cardId,
  of: [[`rho ${fitted.cardId}`, 1]],
})

export const deltaAtom = (picture: string): Atom => ownAtom('delta', picture)
/** Drift from the version `back` steps back to the one after it, of one side: a patch seldom moves both alike. */
export const driftAtom = (side: 'A' | 'B', back: number): Atom => ownAtom(`drift${side}`, String(back))

/** How much more than others a card loses by pixels. */
export const cardPixelsAtom = (cardId: string): Atom => ({
  key: `gamPixels ${cardId}`,
  cls: 'gamPixels',
  group: cardId,
  of: [[`pixels ${cardId}`, 1]],
})

/**
 * What cards of one memory size have in common in a title, at all pictures and at those that want as much: what it
 * wants is a rough figure, and of many titles nobody knows it.
 */
export function memorySizeAtoms(memoryGB: number | undefined, setting: Setting): Atom[] {
  if (memoryGB === undefined || memoryGB > PLENTY_GB) return []
  return [ownAtom('vram', `${memoryGB}`), ownAtom('vramAt', `${memoryGB} ${appetiteOf(setting)}`)]
}

/** Cards with more are short of memory in no title that comes to mind. */
export const PLENTY_GB = 12

const termEntry = ({ kind, side, by }: Term): Entry => ({
  atom: kindAtom(kind),
  a: side === 'a' ? by : 0,
  b: side === 'b' ? by : 0,
})

/** What a picture costs, as entries; made once a setting. */
function pictureEntries(setting: Setting): readonly Entry[] {
  const known = PICTURES.get(setting)
  if (known !== undefined) return known
  const fresh = pictureTerms(setting).map(termEntry)
  PICTURES.set(setting, fresh)
  return fresh
}
const PICTURES = new WeakMap<Setting, readonly Entry[]>()

/** What of a cell its entries hang on. */
export type Placed = Pick<
  Cell,
  'titleId' | 'settingId' | 'picture' | 'fitted' | 'versionsBack' | 'otherScene'
>

/** Everything a cell's frame time hangs on, but for the sharpness of the maximum. */
export function entriesOf(cell: Placed, catalog: Catalog): Entry[] {
  const { fitted } = cell
  const setting = catalog.settings.get(cell.settingId) as Setting
  const title = titleOf(catalog, cell.titleId)
  const card = catalog.parts.get(fitted.cardId)
  const onA = (atom: Atom): Entry => ({ atom, a: 1, b: 0 })
  const onB = (atom: Atom): Entry => ({ atom, a: 0, b: 1 })
  const { otherScene } = cell
  return [
    onA(kindAtom('alpha')),
    onB(kindAtom('beta')),
    onA(processorAtom(catalog, fitted)),
    onB(cardAtom(catalog, fitted)),
    ...(setting.rayTracing ? [onB(cardRtAtom(fitted))] : []),
    ...pictureEntries(setting),
    ...memoryTerms(fitted.memory, title).map(termEntry),
    ...linkTerms(fitted, card, title, setting).map(termEntry),
    onB(deltaAtom(cell.picture)),
    ...memorySizeAtoms(card?.memoryGB, setting).map(onB),
    { atom: cardPixelsAtom(fitted.cardId), a: 0, b: pixelsOf(setting) },
    ...Array.from({ length: cell.versionsBack }, (_, i) => [
      onA(driftAtom('A', i + 1)),
      onB(driftAtom('B', i + 1)),
    ]).flat(),
    ...(otherScene === '' ? [] : [onA(ownAtom('sceneA', otherScene)), onB(ownAtom('sceneB', otherScene))]),
  ]
}
