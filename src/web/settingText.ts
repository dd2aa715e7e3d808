import type { Setting, Title } from '../core/gain/run.ts'

/** A setting in one line: what changes the picture, and nothing that is off. */
export function settingText(setting: Setting): string {
  return [
    `${setting.widthPx}×${setting.heightPx}`,
    setting.preset,
    setting.rayTracing ? 'ray tracing' : undefined,
    setting.upscaler === undefined ? undefined : `upscaler ${setting.upscaler}`,
    setting.frameGeneration ? 'frame generation' : undefined,
    setting.capFps === undefined ? undefined : `capped at ${setting.capFps} FPS`,
    setting.lowered === undefined ? undefined : `lower ${setting.lowered.what}`,
  ]
    .filter((part) => part !== undefined)
    .join(', ')
}

/** The name under an id, or the id itself for one that nobody knows any more. */
export const titleName = (titles: readonly Title[], id: string): string =>
  titles.find((t) => t.id === id)?.name ?? id

export function settingName(settings: readonly Setting[], id: string): string {
  const setting = settings.find((s) => s.id === id)
  return setting === undefined ? id : settingText(setting)
}
