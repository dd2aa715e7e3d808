import type { PartKind } from '../part.ts'
import type { Base } from '../ranking/bases.ts'
import { changeOf } from '../ranking/bases.ts'
import { complete, type Draft, isReplacingInDisguise } from '../ranking/companions.ts'
import { demandedKinds } from '../ranking/look.ts'
import type { Desk } from '../ranking/rank.ts'
import { unmetKinds } from '../ranking/ruledOut.ts'
import { rankOfVerdict } from '../verdict.ts'
import type { AskedChange } from './asked.ts'

type Way = { readonly base: Base; readonly draft: Draft | undefined; readonly isClear: boolean }

/**
 * Judges one change of several bases (a kit beside the others, or instead of them): the first that fits with companions
 * of the shelf, else the first that only waits for a fact, else the least bad alone.
 *
 * @param kind of the part asked for: the shelf is not asked for another of it
 */
export function changeAsked(bases: readonly Base[], desk: Desk, kind?: PartKind): AskedChange {
  const search = {
    ...desk.search,
    companions: desk.search.companions.filter(({ part }) => part.kind !== kind),
  }
  const ways: Way[] = bases.map((base) => {
    const { fitting, unclear } = complete(base, search)
    return { base, draft: fitting ?? unclear, isClear: fitting !== undefined }
  })
  const real = ways.filter(({ draft }) => draft === undefined || !isReplacingInDisguise(draft))
  const chosen =
    real.find(({ isClear }) => isClear) ??
    real.find(({ draft }) => draft !== undefined) ??
    real.toSorted((a, b) => badness(a, desk) - badness(b, desk))[0]
  if (chosen === undefined) throw new RangeError('nothing was asked for')
  const { base, draft } = chosen
  const judged = search.judge(changeOf(base, []))
  return {
    verdict: judged.verdict,
    findings: judged.findings,
    needs: demandedKinds(judged),
    lacking: unmetKinds(base, judged, search),
    ...(draft !== undefined && { option: desk.optionFor(draft) }),
  }
}

const badness = ({ base }: Way, { search }: Desk): number =>
  rankOfVerdict(search.judge(changeOf(base, [])).verdict)
