import { versionsOf } from '../../core/gain/age.ts'
import { inOrder, type Setting, type Title, type TitleVersion } from '../../core/gain/run.ts'
import { failed, ok, type Problem, type Result } from '../../problem.ts'
import type { Store } from '../../store/open.ts'
import { listRuns } from '../../store/runs.ts'
import { listSettings, listTitles, listWanted, upsertSettings, upsertTitles } from '../../store/titles.ts'
import { loweredProblems } from '../importSettings.ts'
import { allOrNothing } from '../jobs/onJob.ts'
import { noSuchTitle } from './runViews.ts'

/** A short key made of words: `Peat & Copper` -> `peat-copper`; `title` where nothing of them is left. */
const keyFrom = (words: string, taken: ReadonlySet<string>, fallback: string): string => {
  const base =
    words
      .toLowerCase()
      .normalize('NFKD')
      .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
      .replaceAll(/^-+|-+$/g, '')
      .slice(0, 50) || fallback
  if (base !== 'new' && !taken.has(base)) return base
  for (let n = 2; ; n++) if (!taken.has(`${base}-${n}`)) return `${base}-${n}`
}

/** A title as typed: without an id it is a new one. */
export type TitleEdit = Omit<Title, 'id' | 'versions'> & {
  readonly id?: string | undefined
  /** A version that came out; runs of earlier ones are old from then on. */
  readonly newVersion?: TitleVersion | undefined
}

/** Adds a title or writes down what it wants, and a version that came out. Fields: `name`, `newVersion`. */
export const saveTitle = (store: Store, edit: TitleEdit): Promise<Result<{ readonly id: string }>> =>
  allOrNothing(store, async (tx) => {
    const titles = await listTitles(tx)
    const { id: given, newVersion, ...fields } = edit
    const before = titles.find(({ id }) => id === given)
    if (given !== undefined && before === undefined) return failed(noSuchTitle(given))
    const sameName = titles.find(
      ({ id, name }) => id !== given && name.trim().toLowerCase() === fields.name.trim().toLowerCase(),
    )
    if (sameName !== undefined) return failed(nameTaken(fields.name, sameName))
    const id = given ?? keyFrom(fields.name, new Set(titles.map((title) => title.id)), 'title')
    const known = versionsOf(
      before,
      (await listRuns(tx)).filter(({ titleId }) => titleId === id),
    )
    const twice = known.find(({ version }) => version === newVersion?.version)
    if (newVersion !== undefined && twice !== undefined && before?.versions?.includes(twice))
      return failed(versionTwice(newVersion))
    const versions =
      newVersion === undefined
        ? before?.versions
        : inOrder([...known.filter(({ version }) => version !== newVersion.version), newVersion])
    await upsertTitles(tx, [{ ...fields, id, versions }])
    return ok({ id })
  })

const nameTaken = (got: string, { id }: Title): Problem => ({
  ...{ code: 'duplicate', field: 'name', got },
  next: `A title has this name already (${id}). Choose another name, or open that one.`,
})
const versionTwice = ({ version }: TitleVersion): Problem => ({
  ...{ code: 'duplicate', field: 'newVersion', got: version },
  next: 'The title has this version already.',
})

/** A setting as typed: without an id it is a new one. */
export type SettingEdit = Omit<Setting, 'id'> & { readonly id?: string | undefined }

/**
 * Adds a setting, or corrects one that nothing hangs on: runs at it would otherwise claim what they did not run.
 * Fields: `setting`, `loweredFromId`.
 */
export const saveSetting = (store: Store, edit: SettingEdit): Promise<Result<{ readonly id: string }>> =>
  allOrNothing(store, async (tx) => {
    const settings = await listSettings(tx)
    const { id: given, ...fields } = edit
    if (given !== undefined && !settings.some(({ id }) => id === given)) return failed(noSuchSetting(given))
    if (given !== undefined) {
      const runs = (await listRuns(tx)).filter((run) => run.settingId === given).length
      const wanted = (await listWanted(tx)).filter((one) => one.settingId === given).length
      const below = settings.filter(({ lowered }) => lowered?.fromSettingId === given).length
      if (runs + wanted + below > 0) return failed(inUse(given))
    }
    const same = settings.find((other) => other.id !== given && isSame(other, fields))
    if (same !== undefined) return failed(settingTwice(same))
    const id = given ?? keyFrom(wordsOf(fields), new Set(settings.map((setting) => setting.id)), 'setting')
    const setting: Setting = { ...fields, id }
    const all = new Map([...settings, setting].map((one) => [one.id, one]))
    if (setting.lowered !== undefined && !all.has(setting.lowered.fromSettingId))
      return failed({ ...noSuchSetting(setting.lowered.fromSettingId), field: 'loweredFromId' })
    const problems = loweredProblems(setting, all)
    if (problems.length > 0) return failed(...problems)
    await upsertSettings(tx, [setting])
    return ok({ id })
  })

const wordsOf = ({ heightPx, preset, rayTracing, upscaler, frameGeneration, capFps, lowered }: SettingEdit) =>
  [
    heightPx,
    preset,
    rayTracing ? 'rt' : '',
    upscaler ?? '',
    frameGeneration ? 'fg' : '',
    capFps === undefined ? '' : `cap${capFps}`,
    lowered === undefined ? '' : `less ${lowered.what}`,
  ].join(' ')

const isSame = (a: Omit<Setting, 'id'>, b: Omit<Setting, 'id'>): boolean => {
  const of = (s: Omit<Setting, 'id'>) =>
    JSON.stringify([
      ...[s.widthPx, s.heightPx, s.preset.toLowerCase(), s.rayTracing, s.upscaler?.toLowerCase() ?? null],
      ...[s.frameGeneration, s.capFps ?? null, s.lowered?.fromSettingId ?? null],
      s.lowered?.what.toLowerCase() ?? null,
    ])
  return of(a) === of(b)
}

const noSuchSetting = (got: string): Problem => ({
  ...{ code: 'not found', field: 'setting', got },
  next: 'There is no such setting. The list of settings shows them all.',
})
const inUse = (got: string): Problem => ({
  ...{ code: 'conflict', field: 'setting', got },
  next: 'Runs, questions or other settings hang on this one, so it stays what it is. Add another setting.',
})
const settingTwice = ({ id }: Setting): Problem => ({
  ...{ code: 'duplicate', field: 'preset', got: id },
  next: 'This very setting is there already. Use that one.',
})
