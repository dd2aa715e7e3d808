import { GAIN_KINDS } from '../../core/ranking/shelf.ts'
import { type Impossible, impossibleOf, type Offering, unwiseOf } from '../../core/round/sense.ts'
import type { Findable } from '../../core/shop.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import { listFindable } from '../../store/findable.ts'
import { ownerIdOf } from '../../store/machines.ts'
import type { Db } from '../../store/open.ts'
import { listShelf, type ShelfLine } from '../../store/shelf.ts'
import { ROUNDS_EN } from '../../words/en/rounds.ts'
import { figuresFor } from '../../words/figures.ts'
import { fill, formOf } from '../../words/say.ts'
import { findTag } from '../findMachine.ts'
import { shopOrNeutral } from '../shop.ts'
import type { ItemRoundAsk } from './startRound.ts'

const w = ROUNDS_EN.ask
const PLURAL = new Intl.PluralRules('en')

/** What an ask is about: it stands on the shelf, or was seen somewhere. */
export type Looked = {
  readonly stands?: ShelfLine | undefined
  readonly seen?: Findable | undefined
  /** As they are kept. */
  readonly tags: string[]
}

/**
 * All that is wrong with an ask before anything is kept; once nothing is, what is unwise about it, unless that is known
 * already. Fields of its problems: those of the ask, and `sure`.
 */
export async function lookAt(tx: Db, ask: ItemRoundAsk): Promise<Result<Looked>> {
  const { tags, problems } = await tagsOf(tx, ask.tags)
  const stands = (await listShelf(tx)).find(({ item }) => item.id === ask.of)
  const seen = (await listFindable(tx)).find(({ findable }) => findable.id === ask.of)
  const part = stands?.part ?? seen?.part
  if (part === undefined)
    problems.push({ ...{ code: 'not found', field: 'of', got: ask.of }, next: w.noItem })
  else if (!GAIN_KINDS.has(part.kind))
    problems.push({ ...{ code: 'not allowed', field: 'of', got: ask.of }, next: w.noGain })
  if (stands !== undefined) problems.push(...shelfProblems(stands, ask))
  else if (seen !== undefined && ask.priceMinor === undefined)
    problems.push({ code: 'missing', field: 'price', next: w.needPrice })
  const offering = offeringOf(ask, stands, seen?.findable, tags.length)
  problems.push(...impossibleOf(offering).map(impossible))
  if (problems.length > 0) return failed(...problems)
  const unwise = ask.knows === true ? undefined : unwiseOf(offering)
  if (unwise === undefined) return ok({ stands, seen: seen?.findable, tags })
  const figures = figuresFor(await shopOrNeutral(tx))
  const price = figures.money(unwise.priceMinor, true)
  const next =
    unwise.why === 'sold at a loss'
      ? fill(w.loss, { price, cost: figures.money(unwise.costMinor, true) })
      : fill(w.mayLose, { price, seen: figures.money(unwise.seenHighMinor, true) })
  return failed({ code: 'not allowed', field: 'sure', next })
}

const offeringOf = (
  { pieces, priceMinor, costMinor, wantedYeses }: ItemRoundAsk,
  stands: ShelfLine | undefined,
  seen: Findable | undefined,
  named: number,
): Offering => ({
  ...{ pieces, named, costMinor, priceMinor: stands?.item.priceMinor ?? priceMinor ?? 0 },
  ...(stands === undefined &&
    seen !== undefined && { deal: { wantedYeses: wantedYeses ?? pieces, seenHighMinor: seen.highMinor } }),
})

/** There must be as many as are offered; what is said of a deal alone has no place with what stands there. */
function shelfProblems({ item }: ShelfLine, { pieces, priceMinor, wantedYeses }: ItemRoundAsk): Problem[] {
  const onlyDeals = (field: string, is: boolean): Problem[] =>
    is ? [{ code: 'not allowed', field, next: w.onlyDeals }] : []
  const free = item.quantity
  const next = free === 0 ? w.noneFree : fill(formOf(w.tooMany, free, PLURAL), { free: String(free) })
  return [
    ...(free < pieces ? [{ code: 'not allowed' as const, field: 'pieces', got: String(pieces), next }] : []),
    ...onlyDeals('price', priceMinor !== undefined),
    ...onlyDeals('wanted', wantedYeses !== undefined),
  ]
}

function impossible(one: Impossible): Problem {
  const wanted = String(one.wanted)
  const next =
    one.why === 'more yeses than pieces'
      ? fill(formOf(w.yesesOverPieces, one.pieces, PLURAL), { pieces: String(one.pieces) })
      : fill(formOf(w.yesesOverNamed, one.named, PLURAL), { named: String(one.named) })
  return { code: 'not allowed', field: 'wanted', got: wanted, next }
}

/** The machines that are named, each once; a machine of nobody cannot be offered anything. */
async function tagsOf(
  tx: Db,
  typed: readonly string[],
): Promise<{ readonly tags: string[]; readonly problems: Problem[] }> {
  const tags: string[] = []
  const problems: Problem[] = []
  for (const got of typed) {
    const tag = await findTag(tx, got)
    if (tag === undefined) problems.push({ ...{ code: 'not found', field: 'tags', got }, next: w.noTag })
    else if ((await ownerIdOf(tx, tag)) === undefined)
      problems.push({ ...{ code: 'not allowed', field: 'tags', got }, next: w.nobodys })
    else if (!tags.includes(tag)) tags.push(tag)
  }
  return { tags, problems }
}
