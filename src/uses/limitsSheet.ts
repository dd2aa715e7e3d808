import type { Shop } from '../core/answer.ts'
import type { Build } from '../core/build.ts'
import { modelFor } from '../core/computeAnswer.ts'
import type { Run } from '../core/gain/run.ts'
import type { Limits } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import { limitsSheetOf } from '../core/sheet/limitsSheet.ts'
import type { LimitsSheet } from '../core/sheet/sheet.ts'
import { failed, ok, type Result } from '../problem.ts'
import { type HandedSheet, handedSheetsOf } from '../store/handedSheets.ts'
import { loadMachine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { listParts } from '../store/parts.ts'
import { runsOfMachine } from '../store/runs.ts'
import { listSettings, listTitles } from '../store/titles.ts'
import { warrantiesOf } from '../store/warranties.ts'
import { findTag } from './findMachine.ts'
import { keptFitOf } from './gain/keptFit.ts'
import { ownRuns } from './ownRuns.ts'
import { shopOrNeutral } from './shop.ts'

export type SheetView = {
  readonly sheet: LimitsSheet
  readonly shop: Shop
  /** What the sheet was computed from, for a drawing of its slots; a sheet that was kept has none. */
  readonly machine?: { readonly build: Build; readonly limits: Limits } | undefined
}

/**
 * The limits sheet of a machine as it stands at the instant `at`; computed anew, nothing is stored. Where the gain model is
 * not fitted within `waitMs` only what was measured counts; without it the sheet waits.
 */
export async function viewLimitsSheet(
  store: Store,
  typedTag: string,
  at: string,
  waitMs?: number,
): Promise<Result<SheetView>> {
  const { db } = store
  const tag = await findTag(db, typedTag)
  const loaded = tag === undefined ? undefined : await loadMachine(db, tag)
  if (loaded === undefined) {
    const next = 'There is no machine with this tag. Tags look like M-0042.'
    return failed({ code: 'not found', field: 'machine', got: typedTag, next })
  }
  const { machine } = loaded
  const shop = await shopOrNeutral(db)
  const runs = ownRuns(loaded, await runsOfMachine(db, machine.tag))
  const parts = await listParts(db)
  return ok({
    shop,
    machine: { build: machine.build, limits: limitsOf(machine.build, machine.claims) },
    sheet: limitsSheetOf({
      machine: { ...machine, at },
      soldAt: loaded.soldAt,
      warranties: await warrantiesOf(db, machine.tag),
      ownRuns: runs,
      titles: await listTitles(db),
      settings: await listSettings(db),
      parts,
      model: modelFor({
        gain: await gainOf(
          store,
          runs,
          parts.map(({ id }) => id),
          at,
          waitMs,
        ),
        runs,
        shop,
      }),
      policy: shop.policy,
    }),
  })
}

/** When sheets of a machine were handed out, the last one first. */
export async function viewHandedSheets(
  { db }: Store,
  typedTag: string,
): Promise<readonly Pick<HandedSheet, 'id' | 'at'>[]> {
  const tag = await findTag(db, typedTag)
  return tag === undefined ? [] : (await handedSheetsOf(db, tag)).map(({ id, at }) => ({ id, at }))
}

/** A sheet as it was handed out, with the message that went along. */
export type HandedView = SheetView & Pick<HandedSheet, 'subject' | 'message'>

export async function viewHandedSheet(
  { db }: Store,
  typedTag: string,
  id: string,
): Promise<Result<HandedView>> {
  const tag = await findTag(db, typedTag)
  const kept = tag === undefined ? undefined : (await handedSheetsOf(db, tag)).find((one) => one.id === id)
  if (kept === undefined) {
    const next = 'No such sheet was handed out. The page of the limits sheet lists those that were.'
    return failed({ code: 'not found', field: 'sheet', got: id, next })
  }
  const { sheet, subject, message } = kept
  return ok({ shop: await shopOrNeutral(db), sheet, subject, message })
}

/** The piece of the gain model for the titles that ran on the machine; absent where the fit fails: then only what was measured counts. */
async function gainOf(
  store: Store,
  runs: readonly Run[],
  partIds: readonly string[],
  at: string,
  waitMs: number | undefined,
) {
  if (runs.length === 0) return undefined
  const wanted = new Map(runs.map((r) => [JSON.stringify([r.titleId, r.settingId]), r]))
  const cells = [...wanted.values()].map(({ titleId, settingId }) => ({ titleId, settingId }))
  const fit = await keptFitOf(store).excerpt({ wanted: cells, partIds }, at, waitMs)
  return fit.state === 'told' ? fit.told : undefined
}
