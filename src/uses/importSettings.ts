import type { Setting } from '../core/gain/run.ts'
import type { ShopData } from '../input/shopFolder.ts'
import type { Problem } from '../problem.ts'

type SettingDraft = ShopData['settings'][number]['value']

/** A whole setting; columns that the file does not have leave what is stored. */
export function completeSetting(draft: SettingDraft, before: Setting | undefined): Setting {
  const { loweredFromId, loweredWhat, ...own } = draft
  const { lowered, ...stored } = before ?? {}
  const fromSettingId = 'loweredFromId' in draft ? loweredFromId : lowered?.fromSettingId
  const what = 'loweredWhat' in draft ? loweredWhat : lowered?.what
  return {
    ...{ rayTracing: false, frameGeneration: false, ...stored, ...own },
    // Half of it is a problem, which settingProblems names.
    ...(fromSettingId !== undefined && what !== undefined && { lowered: { fromSettingId, what } }),
  }
}

/** What is wrong with settings that are a step below another. */
export function settingProblems(
  rows: ShopData['settings'],
  settings: ReadonlyMap<string, Setting>,
): Problem[] {
  return rows.flatMap(({ line, value }): Problem[] => {
    const where = { file: 'settings.csv', line }
    const { loweredFromId: from, loweredWhat: what } = value
    if ((from === undefined) !== (what === undefined)) {
      const next =
        'Fill lowered_from and lowered_what both, or neither: what is lower, and than which setting.'
      return [
        { code: 'missing', field: from === undefined ? 'lowered_from' : 'lowered_what', ...where, next },
      ]
    }
    const setting = settings.get(value.id)
    return setting === undefined
      ? []
      : loweredProblems(setting, settings).map((p) => ({ ...p, field: 'lowered_from', ...where }))
  })
}

/**
 * A setting is lowered from another one, and from the same side of frame generation, because nothing is compared
 * across it. `settings` holds the setting itself too.
 */
export function loweredProblems(setting: Setting, settings: ReadonlyMap<string, Setting>): Problem[] {
  const from = setting.lowered && settings.get(setting.lowered.fromSettingId)
  if (from === undefined) return []
  const wrong = (next: string): Problem[] => [
    { code: 'not allowed', field: 'loweredFromId', got: from.id, next },
  ]
  const seen = new Set<string>()
  for (let at: Setting | undefined = from; at !== undefined && !seen.has(at.id); ) {
    if (at.id === setting.id) return wrong('A setting is not a step below itself. Name the setting above it.')
    seen.add(at.id)
    at = at.lowered && settings.get(at.lowered.fromSettingId)
  }
  return from.frameGeneration === setting.frameGeneration
    ? []
    : wrong('Runs with and without frame generation are never compared. Name a setting like it in that.')
}
