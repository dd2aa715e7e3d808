import type { ReachInputs, Scenario } from './ask.ts'
import type { Curve } from './curve.ts'
import { type FirstUpgrade, planReach, type Reach } from './reach.ts'

/** A plan, and beside it when the first upgrade comes where prices fall alone and where titles grow heavier alone. */
export type Look = {
  readonly reach: Reach
  readonly apart: readonly {
    readonly scenario: Scenario
    /** In the order of the platforms; absent: none is needed through all its years. */
    readonly firstUpgrades: readonly { readonly upgrade?: FirstUpgrade | undefined }[]
  }[]
}

/** The look with every level of some platforms called a bound, however narrow: those with a processor or card nobody described. */
export function asBounds(look: Look, names: ReadonlySet<string>): Look {
  const bound = (curve: Curve): Curve => ({
    ...curve,
    points: curve.points.map((point) => ({ ...point, isBound: true })),
  })
  const platforms = look.reach.platforms.map((platform) => {
    if (!names.has(platform.name)) return platform
    const { now, nowOnThisBoard, later } = platform
    return {
      ...platform,
      ...{ now: bound(now), nowOnThisBoard: bound(nowOnThisBoard), later: bound(later) },
    }
  })
  return { ...look, reach: { ...look.reach, platforms } }
}

/** The scenario taken apart; nothing where it has one side only. */
export function scenariosApart(scenario: Scenario): readonly Scenario[] {
  const { pricesFallPct, heavierPct, years } = scenario
  if (years === 0 || pricesFallPct === 0 || heavierPct === 0) return []
  return [
    { ...scenario, heavierPct: 0 },
    { ...scenario, pricesFallPct: 0 },
  ]
}

/** The plan of the scenario and of its sides. Cost: that of `planReach` for each of up to three scenarios. */
export function planLook(
  inputs: ReachInputs,
  onProgress: (done: number, of: number) => void = () => {},
): Look {
  const apart = scenariosApart(inputs.ask.scenario)
  const each = inputs.ask.platforms.length
  const of = each * (1 + apart.length)
  const reach = planReach(inputs, (done) => onProgress(done, of))
  return {
    reach,
    apart: apart.map((scenario, i) => {
      const ask = { ...inputs.ask, scenario }
      const told = planReach({ ...inputs, ask }, (done) => onProgress(each * (i + 1) + done, of))
      return {
        scenario,
        firstUpgrades: told.platforms.map(({ firstUpgrade }) => ({
          ...(firstUpgrade && { upgrade: firstUpgrade }),
        })),
      }
    }),
  }
}
