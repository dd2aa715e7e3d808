import type { Part } from '../../part.ts'
import { basesOf, isSingle } from '../../ranking/bases.ts'
import { complete } from '../../ranking/companions.ts'
import { deskOf, type RankInput } from '../../ranking/rank.ts'
import { fittingWork, type WorkPrice } from '../../shop.ts'
import { byText, cellKey } from '../cellOf.ts'
import { type Fitted, fittedKey, type Setting } from '../run.ts'
import type { PossibleRun } from './nextRuns.ts'

/** A machine that stands in the shop, or the test bench, as it is or with a part of the shelf in it. */
export type Hand = Pick<PossibleRun, 'machineTag' | 'fitted' | 'partIds' | 'minutes'>

/**
 * A machine at hand: as it is, and with each single part of the shelf that fits without another. Minutes are those of
 * the shop's work table; a work that is not in it counts as none.
 */
export function handsOf(input: RankInput): Hand[] {
  const { machine } = input
  const { offers, search, fittedToday, fittedAfter } = deskOf(input)
  const asIs: Hand[] =
    fittedToday === undefined
      ? []
      : [{ machineTag: machine.tag, fitted: fittedToday, partIds: [], minutes: 0 }]
  const singles = basesOf(offers, machine.build).filter(isSingle)
  const withPart = singles.flatMap((base): Hand[] => {
    const { fitting } = complete(base, search)
    const after = fitting && fittedAfter(fitting)
    if (fitting === undefined || after === undefined || fitting.companions.length > 0) return []
    const minutes = fitting.price.lines.reduce((sum, line) => sum + (line.minutes ?? 0), 0)
    return [
      { machineTag: machine.tag, fitted: after, partIds: base.offers.map(({ part }) => part.id), minutes },
    ]
  })
  return once([...asIs, ...withPart])
}

/** The test bench as it ran last, and with each card of the shelf: an open bench takes every card. */
export function handsOfBench(fitted: Fitted, shelf: readonly Part[], work: readonly WorkPrice[]): Hand[] {
  const minutes = work.find((w) => w.work === fittingWork('card'))?.minutes ?? 0
  const { cardLimitW: _, ...plain } = fitted
  const cards = shelf.flatMap((part): Hand[] =>
    part.kind !== 'card' || part.id === fitted.cardId
      ? []
      : [
          {
            fitted: {
              ...plain,
              cardId: part.id,
              link: {
                gen: Math.min(fitted.link.gen, part.pcieGen ?? fitted.link.gen),
                lanes: Math.min(fitted.link.lanes, part.pcieLanes ?? fitted.link.lanes),
              },
            },
            ...{ partIds: [part.id], minutes },
          },
        ],
  )
  return once([{ fitted, partIds: [], minutes: 0 }, ...cards])
}

/** The quickest way to each state of each machine. */
function once(hands: readonly Hand[]): Hand[] {
  const byState = new Map<string, Hand>()
  for (const hand of hands) {
    const key = fittedKey(hand.fitted)
    const known = byState.get(key)
    if (known === undefined || (hand.minutes ?? 0) < (known.minutes ?? 0)) byState.set(key, hand)
  }
  return [...byState.values()]
}

type TitleAndSetting = { readonly titleId: string; readonly settingId: string }

/**
 * Every hand in every title and setting that is asked for, and in the plain setting with the fewest pixels, where a
 * processor shows.
 */
export function possibleRuns(
  hands: readonly Hand[],
  asked: readonly TitleAndSetting[],
  settings: readonly Setting[],
): PossibleRun[] {
  const pixels = (s: Setting) => s.widthPx * s.heightPx
  const plain = settings.filter(
    (s) => !s.frameGeneration && !s.rayTracing && s.capFps === undefined && s.lowered === undefined,
  )
  const lowest = [...plain].sort((a, b) => pixels(a) - pixels(b) || byText(a.id, b.id))[0]
  const all = asked.flatMap(({ titleId, settingId }) =>
    [settingId, ...(lowest === undefined ? [] : [lowest.id])].map((id) => ({ titleId, settingId: id })),
  )
  const runs = hands.flatMap((hand) => all.map((what) => ({ ...what, ...hand })))
  const keyOf = (run: PossibleRun) =>
    JSON.stringify([run.machineTag ?? null, cellKey(run.fitted, run.titleId, run.settingId)])
  return [...new Map(runs.map((run) => [keyOf(run), run])).values()]
}
