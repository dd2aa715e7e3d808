import type { AnswerInputs } from '../core/answer.ts'
import { partInMindOf } from '../core/asked/inMind.ts'
import { rankInputOf } from '../core/computeAnswer.ts'
import type { Minor } from '../core/money.ts'
import type { Part, PartKind } from '../core/part.ts'
import { asItem } from '../core/ranking/buyBelow.ts'
import { type WhyNot, whyNot } from '../core/ranking/whyNot.ts'
import type { Findable, ShelfItem } from '../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { type FindableLine, listFindable } from '../store/findable.ts'
import type { Store } from '../store/open.ts'
import { listParts } from '../store/parts.ts'
import { beingFitted, inputsFor } from './answerQuestion.ts'

/** Which part is asked about: an item of the shelf, one that could be bought, or one that was typed. */
export type WhyNotAsk =
  | { readonly itemId: string }
  | { readonly findableId: string }
  | { readonly kind: PartKind; readonly words: string; readonly priceMinor?: Minor | undefined }

export type WhyNotView = {
  readonly inputs: AnswerInputs
  readonly findable: readonly FindableLine[]
  /** Absent where nothing was asked. */
  readonly told?: WhyNot | undefined
  /** Of a part that could be bought: counted at the high end of what it was seen for. */
  readonly seen?: Findable | undefined
}

/** What is judged: the part, as an item, and its price where there is one. */
type Asked = {
  readonly part: Part
  readonly item: ShelfItem
  readonly priceMinor?: Minor
  readonly seen?: Findable
}

/** No key of the shop has a space in it. */
const TYPED_ID = '~typed part'

/**
 * Where a part stands for a question as things are now, or what keeps it out. Keeps nothing. Without an ask it gives what
 * could be asked about. While the gain model is being fitted it waits so long and then is `busy`. `at` is now.
 */
export async function viewWhyNot(
  store: Store,
  questionId: string,
  ask: WhyNotAsk | undefined,
  at: string,
  waitMs?: number,
): Promise<Result<WhyNotView>> {
  const findable = await listFindable(store.db)
  const known = await listParts(store.db)
  const typed = ask !== undefined && 'words' in ask ? partInMindOf(ask, known).part : undefined
  const also = [...findable.map(({ part }) => part), ...(typed === undefined ? [] : [typed])]
  const loaded = await inputsFor(store, questionId, at, waitMs, also)
  if (!loaded.ok) return loaded
  const { inputs, fitting } = loaded.value
  if (fitting !== undefined) return failed(beingFitted(fitting))
  if (ask === undefined) return ok({ inputs, findable })
  const asked = askedOf(ask, inputs, findable, typed)
  if ('next' in asked) return failed(asked)
  const { part, item, priceMinor, seen } = asked
  return ok({ inputs, findable, seen, told: whyNot(rankInputOf(inputs), part, item, priceMinor) })
}

function askedOf(
  ask: WhyNotAsk,
  { shelf, parts }: AnswerInputs,
  findable: readonly FindableLine[],
  typed: Part | undefined,
): Asked | Problem {
  if ('itemId' in ask) {
    const item = shelf.find(({ id }) => id === ask.itemId)
    const part = parts.find(({ id }) => id === item?.partId)
    if (item === undefined || part === undefined) {
      const next = 'There is no such item on the shelf. Choose one from the list.'
      return { code: 'not found', field: 'part', got: ask.itemId, next }
    }
    return { part, item, priceMinor: item.priceMinor }
  }
  if ('findableId' in ask) {
    const line = findable.find(({ findable: { id } }) => id === ask.findableId)
    if (line === undefined) {
      const next = 'There is no such part on the list of what could be bought. Choose one from the list.'
      return { code: 'not found', field: 'part', got: ask.findableId, next }
    }
    const { highMinor } = line.findable
    return {
      part: line.part,
      item: asItem(line.findable, highMinor),
      priceMinor: highMinor,
      seen: line.findable,
    }
  }
  const part = typed as Part
  const { priceMinor } = ask
  return {
    part,
    item: {
      ...{ id: TYPED_ID, partId: part.id, condition: 'used', quantity: 1, at: '' },
      priceMinor: priceMinor ?? 0,
    },
    ...(priceMinor !== undefined && { priceMinor }),
  }
}
