import type { Problem } from '../problem.ts'
import type { MatchingsView } from '../uses/matching/matching.ts'
import { OFFERS_EN } from '../words/en/offers.ts'
import type { Figures } from '../words/figures.ts'
import { partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { Field, type Typed, textOf } from './form.tsx'

const W = OFFERS_EN.list

export type FormProps = { typed: Typed; problems: readonly Problem[] }
type Line = MatchingsView['choosable'][number]

export const piecesOf = (itemId: string): string => `pieces.${itemId}`
export const costOf = (itemId: string): string => `cost.${itemId}`

/** Names of parts on the shelf, for the labels of their fields. */
export const nameOf = ({ item, part }: Line): string => `${partWords([part], part.id)} (${item.id})`

/** Items that have fields at a time: a shelf has hundreds, and two fields each made a page of 190 kB. */
const ITEMS_SHOWN = 30
const FROM = 'from'
const FIND = 'find'

type Piece = {
  readonly lines: readonly Line[]
  /** Where it begins among those that are found, and how many these are. */
  readonly from: number
  readonly found: number
}

/** The items that have fields now: those with a problem wherever they stand, else the piece that was asked for. */
function pieceOf(all: readonly Line[], { typed, problems }: FormProps): Piece {
  const isWrong = ({ item }: Line) =>
    problems.some(({ field }) => field === piecesOf(item.id) || field === costOf(item.id))
  const wrong = all.filter(isWrong)
  const words = (textOf(typed, FIND) ?? '').toLocaleLowerCase('und').split(/\s+/).filter(Boolean)
  const found = all.filter((line) => {
    const text = nameOf(line).toLocaleLowerCase('und')
    return words.every((word) => text.includes(word))
  })
  const asked = Number(/^\d{1,6}$/.exec(textOf(typed, FROM) ?? '')?.[0] ?? 0)
  const from = Math.floor(Math.max(0, Math.min(asked, found.length - 1)) / ITEMS_SHOWN) * ITEMS_SHOWN
  const piece = found.slice(from, from + ITEMS_SHOWN)
  return { lines: [...wrong, ...piece.filter((line) => !isWrong(line))], from, found: found.length }
}

/** What the fields of an item say that nobody touched: every free piece, and no cost. */
export const firstPieces = ({ item }: Line): string => String(item.quantity)

/** What was typed of items that have no field now and is not what they begin with: it goes along unseen. */
const Kept = ({ lines, typed }: { lines: readonly Line[]; typed: Typed }) => (
  <>
    {lines.flatMap((line) => {
      const [pieces, cost] = [piecesOf(line.item.id), costOf(line.item.id)]
      const [n, paid] = [typed.get(pieces)?.[0], typed.get(cost)?.[0]]
      return [
        ...(n !== undefined && n.trim() !== firstPieces(line) ? [[pieces, n] as const] : []),
        ...(paid !== undefined && paid.trim() !== '' ? [[cost, paid] as const] : []),
      ].map(([name, value]) => <input type="hidden" name={name} value={value} />)
    })}
  </>
)

const Pieces = ({ line, figures, ...form }: { line: Line; figures: Figures } & FormProps) => {
  const { item } = line
  const stands = {
    ...{ condition: item.condition, price: figures.money(item.priceMinor) },
    n: figures.number(item.quantity),
  }
  return (
    <Field
      {...form}
      name={piecesOf(item.id)}
      label={nameOf(line)}
      hint={fill(W.stands, stands)}
      inputmode="numeric"
      narrow
    />
  )
}

/** Folded while nothing is typed into it: most ask for gain. */
const Costs = ({ lines, ...form }: { lines: readonly Line[] } & FormProps) => {
  const names = lines.map(({ item }) => costOf(item.id))
  const isOpen = names.some(
    (name) => (form.typed.get(name)?.[0] ?? '') !== '' || form.problems.some(({ field }) => field === name),
  )
  return (
    <details open={isOpen}>
      <summary>{W.costs}</summary>
      <p class="hint">{W.costHint}</p>
      <div class="pieces">
        {lines.map((line) => (
          <Field {...form} name={costOf(line.item.id)} label={nameOf(line)} inputmode="decimal" narrow />
        ))}
      </div>
    </details>
  )
}

/** The ways to the other items; each button takes along what is typed. */
const Ways = ({
  piece,
  all,
  figures,
  ...form
}: { piece: Piece; all: number; figures: Figures } & FormProps) => {
  const { from, found } = piece
  const { number } = figures
  const to = Math.min(from + ITEMS_SHOWN, found)
  const says = found === all ? W.pieces.of : W.pieces.found
  return (
    <>
      <input type="hidden" name={FOUND} value={textOf(form.typed, FIND) ?? ''} />
      <Field {...form} name={FIND} label={W.pieces.find} hint={W.pieces.findHint} narrow />
      <p class="line">
        <button class="button quiet" type="submit" name="show" value="0">
          {W.pieces.show}
        </button>
        {from > 0 && (
          <button class="button quiet" type="submit" name="show" value={Math.max(0, from - ITEMS_SHOWN)}>
            {W.pieces.before}
          </button>
        )}
        {to < found && (
          <button class="button quiet" type="submit" name="show" value={to}>
            {W.pieces.after}
          </button>
        )}
        <span class="soft" role="status">
          {found === 0
            ? W.pieces.none
            : fill(says, { from: number(from + 1), to: number(to), found: number(found), all: number(all) })}
        </span>
      </p>
    </>
  )
}

/** Which items are offered, and what they cost: some at a time, and nothing that was typed of the others is lost. */
export const ItemFields = ({
  all,
  figures,
  ...form
}: { all: readonly Line[]; figures: Figures } & FormProps) => {
  const piece = pieceOf(all, form)
  const shown = new Set(piece.lines)
  return (
    <>
      <Kept lines={all.filter((line) => !shown.has(line))} typed={form.typed} />
      <fieldset>
        <legend>{W.items}</legend>
        <p class="hint">{W.itemsHint}</p>
        {all.length > ITEMS_SHOWN && <Ways piece={piece} all={all.length} figures={figures} {...form} />}
        <div class="pieces">
          {piece.lines.map((line) => (
            <Pieces line={line} figures={figures} {...form} typed={withFirst(form.typed, line)} />
          ))}
        </div>
      </fieldset>
      <Costs lines={piece.lines} {...form} />
    </>
  )
}

/** An item's field that was never sent says what it begins with. */
const withFirst = (typed: Typed, line: Line): Typed =>
  typed.has(piecesOf(line.item.id)) ? typed : new Map([[piecesOf(line.item.id), [firstPieces(line)]]])

/** What was looked for when the page was made. */
const FOUND = 'found'
/** What Enter sends: whoever pressed it in the box for items meant to look for them. */
export const ENTER = 'enter'

/** The form as it shows other items; undefined: it was sent to be worked out. */
export function otherPiece(typed: Typed): Typed | undefined {
  const show = textOf(typed, 'show')
  if (show !== undefined) return new Map(typed).set(FROM, [show])
  const isSought = textOf(typed, 'do') === ENTER && textOf(typed, FIND) !== textOf(typed, FOUND)
  return isSought ? new Map(typed).set(FROM, ['0']) : undefined
}
