import { buildOf, NO_CHANGE, partsOf } from '../build.ts'
import { judgeChange } from '../fit/judgeChange.ts'
import { powerLoad } from '../fit/power/load.ts'
import { judge } from '../fit/rule.ts'
import { situationOf } from '../fit/situation.ts'
import { endOf } from '../gain/endOf.ts'
import type { GainModel } from '../gain/gain.ts'
import type { Run, Setting, Title } from '../gain/run.ts'
import { runsAt, type Warranty } from '../job/warranty.ts'
import { fittedOf } from '../limits/asItRuns.ts'
import { LIMIT_CATALOGUE, LIMIT_KEYS } from '../limits/catalogue.ts'
import { asProven, seenMemoryOf } from '../limits/fromRuns.ts'
import type { Claim, LimitKey, Limits, Resolved } from '../limits/limit.ts'
import { limitsOf } from '../limits/resolve.ts'
import type { Machine } from '../machine.ts'
import type { Part } from '../part.ts'
import type { ShopPolicy } from '../shop.ts'
import { NEVER } from './bounds.ts'
import { freePlaces } from './free.ts'
import { nextOf } from './next.ts'
import type { Inside, LimitsSheet, Measured, SupplyLoad } from './sheet.ts'
import { SHEET_VERSION } from './sheet.ts'

export type SheetInputs = {
  /** With the claims that were stored, and the instant it is looked at under `at`. */
  readonly machine: Machine & { readonly at: string }
  readonly soldAt?: string | undefined
  readonly warranties: readonly Warranty[]
  /** The machine's own runs with these parts. */
  readonly ownRuns: readonly Run[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  /** Every part that the shop knows. */
  readonly parts: readonly Part[]
  readonly model: GainModel
  readonly policy: ShopPolicy
}

/** Writes the limits sheet. Pure: the same inputs give the same sheet. */
export function limitsSheetOf(inputs: SheetInputs): LimitsSheet {
  const { ownRuns, policy, model, parts } = inputs
  const machine = asProven(inputs.machine, ownRuns)
  const { tag, build, at = inputs.machine.at } = machine
  const limits = withoutNotes(limitsOf(build, machine.claims))
  const measured = measuredOf(inputs)
  const seenMemory = seenMemoryOf(ownRuns)
  return {
    format: 'stillfits limits sheet',
    version: SHEET_VERSION,
    ...{ tag, at, soldAt: inputs.soldAt, limits, measured },
    inside: insideOf(inputs),
    next: nextOf({
      ...{ machine, parts, model, seenMemory },
      wanted: measured.map(({ titleId, settingId }) => ({ titleId, settingId, weight: 1 })),
      judge: (m, change) => judgeChange(m, change, policy),
      today: fittedOf(build, limits, seenMemory),
    }),
    never: NEVER.filter(({ key }) => limits[key].known),
    free: freePlaces(build, limits),
    supply: supplyLoad(machine, limits, policy),
    warranties: inputs.warranties
      .filter((warranty) => runsAt(warranty, at))
      .flatMap(({ partId, givenBy, until, endsWith }) => {
        const part = partsOf(build).find(({ id }) => id === partId)
        return part === undefined ? [] : [{ partName: part.name, givenBy, until, endsWith }]
      }),
    unknown: LIMIT_KEYS.filter((key) => LIMIT_CATALOGUE[key].onlyIfStated !== true && !limits[key].known),
    cautions: ['backup', 'unplug', 'discharge', 'psu-closed', 'psu-cables', 'esd', 'defer'],
  }
}

function insideOf({ machine }: SheetInputs): Inside[] {
  const lines = new Map<string, Inside>()
  for (const { id, kind, name } of partsOf(machine.build)) {
    const count = (lines.get(id)?.count ?? 0) + 1
    lines.set(id, { kind, name, count })
  }
  return [...lines.values()]
}

/** What is fitted against the supply, judged as if the supply were the change: then nothing else is asked of it. */
function supplyLoad(machine: Machine, limits: Limits, policy: ShopPolicy): SupplyLoad {
  const { supply: _, ...without } = machine.build
  const before = { ...buildOf([]), ...without }
  const situation = situationOf({ before, after: machine.build, change: NO_CHANGE, policy, at: machine.at })
  const finding = judge(powerLoad, situation, limits)
  const { loadW, usableW, supply12VW, processorW, cardW, restW } = finding?.values ?? {}
  const figures = { loadW, usableW, rated12VW: supply12VW, processorW, cardW, restW }
  return finding !== undefined && finding.verdict !== "can't tell" && areNumbers(figures)
    ? { known: true, ...figures }
    : { known: false, finding }
}

const areNumbers = <K extends string>(values: Record<K, unknown>): values is Record<K, number> =>
  Object.values(values).every((value) => typeof value === 'number')

/** Titles by name, then settings by id; a title or setting that is not known any more is left out. */
function measuredOf({ machine, ownRuns, titles, settings }: SheetInputs): Measured[] {
  const cells = new Map<string, Run[]>()
  for (const run of ownRuns) {
    const cell = JSON.stringify([run.titleId, run.settingId])
    cells.set(cell, [...(cells.get(cell) ?? []), run])
  }
  return [...cells.values()]
    .flatMap((runs): Measured[] => {
      const sorted = [...runs].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.id < b.id ? -1 : 1))
      const [first] = sorted
      const title = titles.find(({ id }) => id === first?.titleId)
      const setting = settings.find(({ id }) => id === first?.settingId)
      if (title === undefined || setting === undefined) return []
      const { end, disagrees } = endOf(sorted, machine.tag)
      const { id: settingId, lowered: _, ...shown } = setting
      return [
        {
          ...{ titleId: title.id, titleName: title.name, settingId, setting: shown, disagrees },
          ...{ averageFps: end.averageFps, low1Fps: end.low1Fps, runs: runs.length, at: end.at },
        },
      ]
    })
    .sort((a, b) => (placeOf(a) < placeOf(b) ? -1 : 1))
}
const placeOf = ({ titleName, settingId }: Measured): string => JSON.stringify([titleName, settingId])

/** A sheet goes to whoever holds the machine; what the shop noted beside a limit stays with the shop. */
const withoutNotes = (limits: Limits): Limits => {
  const bare: Partial<Record<LimitKey, Resolved>> = {}
  for (const key of LIMIT_KEYS) {
    const limit: Resolved = limits[key]
    bare[key] = limit.known
      ? { ...limit, by: withoutNote(limit.by), conflicts: limit.conflicts.map(withoutNote) }
      : {
          ...limit,
          claims: limit.claims.map(withoutNote),
          ...(limit.atLeast && { atLeast: withoutNote(limit.atLeast) }),
        }
  }
  return bare as Limits
}

const withoutNote = ({ note: _, ...claim }: Claim): Claim => claim
