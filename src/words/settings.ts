import type { Setting } from '../core/gain/run.ts'

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
