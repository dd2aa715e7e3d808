import type { Fitted } from '../../core/gain/run.ts'
import type { MatchCustomer } from '../../core/matching/ask.ts'
import type { Part } from '../../core/part.ts'
import { asItem } from '../../core/ranking/buyBelow.ts'
import type { ReachAsk, ReachInputs } from '../../core/reach/ask.ts'
import { withParts } from '../../core/reach/bounds.ts'
import type { Problem } from '../../problem.ts'
import { listFindable } from '../../store/findable.ts'
import type { Store } from '../../store/open.ts'
import { listParts } from '../../store/parts.ts'
import { listRuns } from '../../store/runs.ts'
import { listSettings, listTitles } from '../../store/titles.ts'
import { matchShop } from '../matching/matchInputs.ts'

/** What is asked of a look, with the parts that the shop has no record of: they stand in no table. */
export type Asked = { readonly ask: ReachAsk; readonly typed: readonly Part[] }

/** Names that the shop does not have, and two platforms of one name. */
export async function reachProblems(
  { db }: Store,
  { platforms, wanted }: ReachAsk,
  typed: readonly Part[] = [],
): Promise<Problem[]> {
  const parts = new Set([...(await listParts(db)), ...typed].map(({ id }) => id))
  const titles = new Set((await listTitles(db)).map(({ id }) => id))
  const settings = new Set((await listSettings(db)).map(({ id }) => id))
  const unknown = (field: string, got: string, what: string): Problem => ({
    ...{ code: 'unknown name', field, got },
    next: `The shop has no such ${what}. Describe it first, or look at its id.`,
  })
  return [
    ...platforms.flatMap(({ name, parts: chosen }, i) => [
      ...(platforms.findIndex((one) => one.name === name) === i
        ? []
        : [
            {
              code: 'duplicate',
              field: `platforms.${i}.name`,
              got: name,
              next: 'Give each its own name.',
            } as const,
          ]),
      ...chosen.flatMap(({ partId }, k) =>
        parts.has(partId) ? [] : [unknown(`platforms.${i}.parts.${k}.partId`, partId, 'part')],
      ),
    ]),
    ...wanted.flatMap(({ titleId, settingId }, i) => [
      ...(titles.has(titleId) ? [] : [unknown(`wanted.${i}.titleId`, titleId, 'title')]),
      ...(settings.has(settingId) ? [] : [unknown(`wanted.${i}.settingId`, settingId, 'setting')]),
    ]),
  ]
}

/**
 * All that a plan of platforms is worked out from, as things stand now: what could be put in is the shelf and what could be
 * bought, at the high end of what it was seen for. Waits for the gain model.
 */
export async function reachInputs(
  store: Store,
  ask: ReachAsk,
  at: string,
  typed: readonly Part[] = [],
): Promise<ReachInputs> {
  const { db } = store
  const all = new Map([...(await listParts(db)), ...typed].map((part) => [part.id, part]))
  const findable = await listFindable(db)
  const runs = await listRuns(db)
  const measured = ask.wanted.map(
    ({ titleId, settingId }): Fitted | undefined =>
      runs.findLast((run) => run.titleId === titleId && run.settingId === settingId)?.fitted,
  )
  const chosen = ask.platforms.flatMap(({ parts }) => parts.flatMap(({ partId }) => all.get(partId) ?? []))
  const ran = measured.flatMap((fitted) =>
    fitted === undefined ? [] : [all.get(fitted.processorId), all.get(fitted.cardId)],
  )
  const also: Part[] = [
    ...chosen,
    ...findable.map(({ part }) => part),
    ...ran.filter((part) => part !== undefined),
  ]
  const shop = await matchShop(store, [asking(ask)], at, unique(also))
  return {
    ...{ ask, measured, at },
    shop: {
      ...shop,
      ...(shop.gain && { gain: withParts(shop.gain, typed) }),
      parts: unique(shop.parts),
      shelf: [...shop.shelf, ...findable.map(({ findable: one }) => asItem(one, one.highMinor))],
    },
  }
}

const unique = (parts: readonly Part[]): Part[] => [...new Map(parts.map((part) => [part.id, part])).values()]

/** Nobody, who plays the titles of the plan: what the shop's model is cut out for. */
const asking = ({ wanted, display, targetFps }: ReachAsk): MatchCustomer => ({
  ...{ id: '', mayOffer: false, hasEmail: false },
  machines: [
    {
      machine: { tag: '', build: { memory: [], drives: [], fans: [] }, claims: [] },
      hasOwnRuns: false,
      question: {
        ...{ id: '', machineTag: '', words: '', askedAt: '', wishes: [], wanted, display, targetFps },
      },
    },
  ],
})
